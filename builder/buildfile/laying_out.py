"""What the geometry tells while paths are walked: where a part stands, and how long a wire to it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from builder.buildfile.declared_circuits import ItemWords
from builder.buildfile.problems import BLANK, Mend, Problem, add, instead
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.written import Written, fold
from builder.routes.legs import Finder, leg_length_m
from builder.routes.ways import NoWay
from builder.trailer.places import Geometry, Stand

WORKED_OUT = ""
"""The text of a length that nobody wrote: it comes from the way of the wire."""
MOST_GUESSES = 50
"""Unknown places that a near name is looked for."""


@dataclass(slots=True)
class Layout:
    """Places and chases while paths are walked; ``sound`` where nothing is wrong with them.

    ``named`` leads from the folded name of a place or chase to the name itself, ``stands`` from the folded name of a
    part to where it stands. ``loop_m`` is the loop at the front box in metres. ``broken`` holds the folded names of
    entries that have problems of their own.
    """

    geometry: Geometry = field(default_factory=Geometry)
    named: Mapping[str, str] = field(default_factory=dict)
    stands: dict[str, Stand] = field(default_factory=dict)
    broken: frozenset[str] = frozenset()
    sound: bool = True
    loop_m: float = 0.0
    guesses: int = MOST_GUESSES
    _finder: Finder | None = None

    @property
    def finder(self) -> Finder:
        """What finds the ways, made when the first is asked for."""
        if self._finder is None:
            self._finder = Finder(self.geometry)
        return self._finder

    def stand(self, part: str) -> Stand | None:
        """Return where a part stands: where the file says, else at the place of its own name; None where unknown."""
        folded = fold(part)
        place = self.named.get(folded)
        if folded in self.stands:
            return self.stands[folded]
        return Stand(place) if place is not None and place in self.geometry.places else None

    def past(self, through: Sequence[Written[str]]) -> tuple[str, ...]:
        """Return the names of the chases and places that a wire is to run through."""
        found = (self.named.get(fold(name.value)) for name in through)
        return tuple(name for name in found if name is not None)

    def near(self, name: str) -> tuple[str, ...]:
        """Return names of places and chases that an unknown one may stand for."""
        self.guesses -= 1
        return near_words(name, self.named.values()) if self.guesses >= 0 else ()


def laid_out(layout: Layout, start: str, item: ItemWords, name: str) -> tuple[ItemWords, Problem | None]:
    """Return an item with its length: as written, else by its way from ``start`` to ``name``.

    The problem is that of an item without a length whose way cannot be told; None where something is wrong with the
    geometry itself, since that is told already.
    """
    if item.length is not None:
        return item, None
    one, other = layout.stand(start), layout.stand(name)
    if not layout.sound:
        return item, None
    if one is None or other is None:
        return item, _missing(layout, item, [start] * (one is None) + [name] * (other is None))
    way = layout.finder.way(one.place, other.place, layout.past(item.through))
    if isinstance(way, NoWay):
        return item, _no_way(item, (start, name), way)
    length_m = leg_length_m(way, ((start, one), (name, other)), layout.loop_m)
    return item.model_copy(update={"length": Written(length_m, WORKED_OUT, item.name.origin)}), None


def is_worked_out(item: ItemWords) -> bool:
    """Tell whether the length of an item comes from its way, and was not written."""
    return item.length is not None and item.length.text == WORKED_OUT


def _missing(layout: Layout, item: ItemWords, unplaced: list[str]) -> Problem:
    name = item.name.value
    if not layout.geometry:
        return Problem(
            item.name.origin,
            "missing length",
            f"the wire to “{name}” has no length",
            f"write how long it is from the item before, as in {name}: 12 ft",
            mends=no_length(item),
        )
    who = " and ".join(f"“{one}”" for one in dict.fromkeys(unplaced))
    return Problem(
        item.name.origin,
        "missing length",
        f"the wire to “{name}” has no length, and {who} {'has' if len(set(unplaced)) == 1 else 'have'} no place",
        f"write how long it is, as in {name}: 12 ft, or say under places where each of its ends is",
        mends=no_length(item),
    )


def _no_way(item: ItemWords, ends: tuple[str, str], way: NoWay) -> Problem:
    return Problem(
        item.name.origin,
        "missing length",
        f"the wire to “{item.name.value}” has no length, and no chase leads from “{ends[0]}” to "
        + (f"“{way.past}”" if way.past else f"“{ends[1]}”"),
        f"let a chase run through {way.near_start} and {way.near_end}, the two nearest places, or write how long "
        f"the wire is, as in {item.name.value}: 12 ft",
        mends=no_length(item),
    )


def no_length(item: ItemWords) -> tuple[Mend, ...]:
    """Return the mends that leave a blank for the length of an item, written alone or with words of its own."""
    name = item.name.text
    return (*instead(f"{name}: {BLANK}"), *add(f"length: {BLANK}"))


def check_through(layout: Layout, through: Sequence[Written[str]]) -> list[Problem]:
    """Return the problem of each unknown name that a wire is to run through; none where no place is known."""
    if not layout.geometry or layout.broken & {"places", "chases"}:
        return []
    return [
        unknown_place(layout, name, "a place or a chase")
        for name in through
        if fold(name.value) not in layout.named and fold(name.value) not in layout.broken
    ]


def unknown_place(layout: Layout, name: Written[str], what: str, *, of_part: bool = False) -> Problem:
    """Return the problem of a name that no place has.

    ``what`` says what is wanted there; the place ``of_part`` may be meant as words for a reader.
    """
    near = layout.near(name.value)
    return Problem(
        name.origin,
        "unknown place",
        f"“{name.value}” is not {what} of this file",
        did_you_mean(near)
        or f"add it under places, as in {name.value}: {{back: 4 ft, left: 2 ft, up: 1 ft}}"
        + ("; words of your own go behind where" if of_part else ""),
        mends=instead(*near) if near else instead(BLANK),
    )
