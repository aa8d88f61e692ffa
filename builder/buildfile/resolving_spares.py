"""Spare wires, resolved: their two ends, their way, and a length where their way tells it."""

from __future__ import annotations

from collections.abc import Mapping

from builder.buildfile.declared import SpareWords
from builder.buildfile.laying_out import Layout, check_through
from builder.buildfile.problems import BLANK, Problem, add, instead
from builder.buildfile.suggesting import did_you_mean
from builder.buildfile.written import Key, Written, fold
from builder.routes.legs import leg_length_m
from builder.routes.ways import NoWay
from builder.trailer.model import FRONT_BOX, WireShelf
from builder.trailer.parts import Terminal
from builder.trailer.wires import Leg, Role, Wire


def check_spares(layout: Layout, declared: Mapping[Key, SpareWords]) -> list[Problem]:
    """Return what is wrong with spare wires: a name on their way that nothing has, or no length and no way."""
    problems: list[Problem] = []
    for key, words in declared.items():
        told = check_through(layout, words.through)
        problems += told
        if words.wire is None and not told and layout.sound and way_m(layout, words) is None:
            problems.append(_no_length(layout, key, words))
    return problems


def spare_wires(layout: Layout, declared: Mapping[Key, SpareWords], shelf: WireShelf) -> tuple[Wire, ...]:
    """Return the spare wires, numbered S1, S2 … as they are written; they have no problem."""
    wires = []
    for number, (key, words) in enumerate(declared.items(), start=1):
        start, end = ends_of(words)
        wires.append(
            Wire(
                number=f"S{number}",
                circuit=0,
                role=Role.SPARE,
                start=Terminal(start, str(key)),
                end=Terminal(end, str(key)),
                length_m=words.wire.value if words.wire else way_m(layout, words) or 0.0,
                length_source="written" if words.wire else "worked out",
                color=words.color.value if words.color else shelf.feed,
                origin=key.origin,
                size=words.size.value if words.size else shelf.sizes[0],
                through=tuple(name.text for name in words.through),
                legs=(Leg(start, end, layout.past(words.through)),),
                where=words.where.value if words.where else "",
            )
        )
    return tuple(wires)


def ends_of(words: SpareWords) -> tuple[str, str]:
    """Return the names of both ends of a spare wire; the front box by its own name, however it is spelled."""
    one, other = (FRONT_BOX if fold(end.value) == FRONT_BOX else end.value for end in (words.from_, words.to))
    return one, other


def way_m(layout: Layout, words: SpareWords) -> float | None:
    """Return the length of a spare wire by its way, in metres; None where nobody can tell."""
    names = ends_of(words)
    one, other = (layout.stand(name) for name in names)
    if one is None or other is None:
        return None
    way = layout.finder.way(one.place, other.place, layout.past(words.through))
    if isinstance(way, NoWay) or not way.steps:
        return None
    return leg_length_m(way, ((names[0], one), (names[1], other)), layout.loop_m)


def _no_length(layout: Layout, key: Key, words: SpareWords) -> Problem:
    ends = ends_of(words)
    unplaced = [f"“{name}”" for name in dict.fromkeys(ends) if layout.stand(name) is None]
    why = f", and no chase leads from “{ends[0]}” to “{ends[1]}”"
    if unplaced:
        have = "has" if len(unplaced) == 1 else "have"
        why = f", and {' and '.join(unplaced)} {have} no place" if layout.geometry else ""
    misspelt = _misspelt(layout, words)
    meant = "".join(f"{did_you_mean(near)} Else " for _, near in misspelt)
    return Problem(
        key.origin,
        "missing length",
        f"the spare wire “{key}” has no length{why}",
        f"{meant}write how long it is, as in wire: 14 ft, or let both its ends be places that chases join",
        mends=(
            *(mend for end, near in misspelt for mend in instead(*near, at=end.origin)),
            *add(f"wire: {BLANK}", at=key.origin),
        ),
    )


def _misspelt(layout: Layout, words: SpareWords) -> tuple[tuple[Written[str], tuple[str, ...]], ...]:
    """Return the ends of a spare wire that stand nowhere and are close to the name of a place, with these names."""
    lost = [end for end in (words.from_, words.to) if layout.stand(end.value) is None]
    near = [
        (end, tuple(one for one in layout.near(end.value) if one in layout.geometry.places)) for end in lost
    ]
    return tuple((end, names) for end, names in near if names)
