"""What wires are screwed to and the holes that they leave the front box by, resolved; and what cannot be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.buildfile.declared_face import FrontBoxFaceWords
from builder.buildfile.declared_landings import EntryHoleWords, StudWords
from builder.buildfile.problems import BLANK, Problem, add, instead, leave_out
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.validating import Declared
from builder.buildfile.written import Key, Written, fold
from builder.trailer.landing_points import GROUND_SCREWS, SUPPLY_STUDS, BoxWall, EntryHole, Studs
from builder.trailer.model import BATTERY, FRAME, FRONT_BOX, SECOND_PLUG, TOW_PLUG

_OF_THE_BOX = (SUPPLY_STUDS, GROUND_SCREWS)
_MEASURED: Mapping[str, tuple[str, ...]] = {
    "left wall": ("from top",),
    "right wall": ("from top",),
    "upper wall": ("from left",),
    "lower wall": ("from left",),
    "back wall": ("from left", "from top"),
}
"""Which measures tell where a hole is in each wall of the box, looked at with the lid open."""


def stud_names(parts: Sequence[str]) -> dict[str, str]:
    """Return what may stand under ``terminal studs`` by its folded name; ``parts`` are the names of all parts."""
    return {fold(name): name for name in (*parts, *_OF_THE_BOX, BATTERY)}


def hole_names(declared: Declared, parts: Sequence[str]) -> dict[str, str]:
    """Return whose wires a hole may take by the folded name: circuits, parts, road lamps, chases, spare wires."""
    headings = (BATTERY, FRAME, TOW_PLUG, SECOND_PLUG)
    lamps = (
        *declared.road_lamps,
        *(f"{k} {side}" for k in declared.road_lamps for side in ("left", "right")),
    )
    written = (*declared.spares, *declared.chases, *declared.circuits)
    return {fold(name): str(name) for name in (*headings, *lamps, *parts, *written)}


def resolve_studs(words: Mapping[Key, StudWords], known: Mapping[str, str]) -> dict[str, Studs]:
    """Return what is known of studs by the name of what they belong to, as the model has it."""
    found = {}
    for key, one in words.items():
        name = known.get(fold(key))
        if name is not None:
            found[name] = Studs(
                name=name,
                origin=key.origin,
                size=one.size.value if one.size else None,
                count=one.count.value if one.count else None,
                most=one.most_on_each.value if one.most_on_each else None,
                size_origin=one.size.origin if one.size else None,
                most_origin=one.most_on_each.origin if one.most_on_each else None,
            )
    return found


def resolve_holes(words: Mapping[Key, EntryHoleWords], known: Mapping[str, str]) -> tuple[EntryHole, ...]:
    """Return the holes of the front box in the order of the file."""
    return tuple(
        EntryHole(
            name=str(key),
            bore_m=one.bore.value,
            origin=key.origin,
            bore_origin=one.bore.origin,
            wall=_wall(one),
            left_m=one.from_left.value if one.from_left else None,
            top_m=one.from_top.value if one.from_top else None,
            takes=tuple(
                dict.fromkeys(known[fold(n.value)] for n in one.takes or () if fold(n.value) in known)
            ),
        )
        for key, one in words.items()
    )


def _wall(words: EntryHoleWords) -> BoxWall | None:
    walls: tuple[BoxWall, ...] = ("left wall", "right wall", "upper wall", "lower wall", "back wall")
    return next((wall for wall in walls if words.in_ is not None and words.in_.value == wall), None)


def check_landings(
    declared: Declared, parts: Sequence[str], has_box: bool, unread: frozenset[str]
) -> list[Problem]:
    """Return what is wrong with studs and entry holes.

    ``parts`` are the names of all parts; ``has_box`` tells of the front box; ``unread`` are folded names that stand in
    the file without being read, of which nobody says that they are missing.
    """
    return [
        *_stud_problems(declared.terminal_studs, stud_names(parts), has_box, unread),
        *_hole_problems(declared, hole_names(declared, parts), has_box, unread),
    ]


def _no_box(key: Key, what: str) -> Problem:
    return Problem(
        key.origin,
        "no front box",
        f"“{key}” is {what} of a front box, and this build has none",
        f"add the heading {FRONT_BOX}, as in front box: {{fuse ways: 8}}, or take the entry out",
    )


def _stud_problems(
    words: Mapping[Key, StudWords], known: Mapping[str, str], has_box: bool, unread: frozenset[str]
) -> Iterator[Problem]:
    for key, one in words.items():
        folded = fold(key)
        if folded in _OF_THE_BOX and not has_box:
            yield _no_box(key, "a bar")
        elif folded not in known and folded not in unread:
            near = [known[name] for name in near_words(folded, known)]
            yield Problem(
                key.origin,
                "unknown part",
                f"“{key}” has terminal studs, and no part of this build has that name",
                did_you_mean(near)
                or "write supply bar, ground bar, battery, or a part's name as it stands under parts",
                mends=instead(*near),
            )
        elif folded == GROUND_SCREWS and one.count is not None:
            yield Problem(
                one.count.origin,
                "said twice",
                "the screws of the ground bar are counted under front box",
                f"write front box: {{ground bar: {one.count.value}}}, and take count out here",
                mends=leave_out(one.count.origin, "out"),
            )


def _hole_problems(
    declared: Declared, known: Mapping[str, str], has_box: bool, unread: frozenset[str]
) -> Iterator[Problem]:
    named: dict[str, Key] = {}
    rest: Key | None = None
    for key, one in declared.entry_holes.items():
        if not has_box:
            yield _no_box(key, "an entry hole")
            continue
        if one.takes is None:
            if rest is not None:
                yield _second_rest(key, rest)
            rest = rest or key
        for name in one.takes or ():
            problem = _taken(key, name, known, (named, unread))
            if problem is not None:
                yield problem
        yield from _place_problems(key, one, declared.front_box_face)


def _second_rest(key: Key, first: Key) -> Problem:
    return Problem(
        key.origin,
        "said twice",
        f"“{first}” and “{key}” would both take all wires that no other hole takes",
        "say whose wires go through one of them, as in takes: [tow plug, battery]",
        mends=add(f"takes: [{BLANK}]", at=key.origin),
    )


def _taken(
    key: Key, name: Written[str], known: Mapping[str, str], told: tuple[dict[str, Key], frozenset[str]]
) -> Problem | None:
    """Return the problem of a name that nothing has, or that another hole has already."""
    named, unread = told
    folded = fold(name.value)
    if folded in named:
        return Problem(
            name.origin,
            "said twice",
            f"the wires of “{name.value}” go through “{named[folded]}”"
            + (" already" if named[folded] is key else f", and through “{key}” as well"),
            "a wire goes through one hole: take the name out of one of them",
            mends=leave_out(name.origin, "out"),
        )
    named[folded] = key
    if folded in known or folded in unread:
        return None
    near = [known[one] for one in near_words(folded, known)]
    return Problem(
        name.origin,
        "unknown part",
        f"“{name.value}” goes through “{key}”, and nothing in this build has that name",
        did_you_mean(near)
        or "name a circuit, a part, a chase or a spare wire, or tow plug, battery or frame",
        mends=instead(*near),
    )


def _place_problems(key: Key, words: EntryHoleWords, face: FrontBoxFaceWords | None) -> Iterator[Problem]:
    written = {"from left": words.from_left, "from top": words.from_top}
    there = {name: measure for name, measure in written.items() if measure is not None}
    wall = _wall(words)
    if there and wall is None:
        yield Problem(
            next(iter(there.values())).origin,
            "missing word",
            f"“{key}” has a measure, and the file does not say which wall of the box it is in",
            "add it, as in in: left wall",
            mends=add(f"in: {BLANK}", at=key.origin),
        )
        return
    fitting = _MEASURED.get(wall or "", ())
    for name, measure in there.items():
        if name not in fitting:
            yield Problem(
                measure.origin,
                "word does not fit",
                f"“{key}” is in the {wall}, where “{name}” does not tell its place",
                f"write {' and '.join(fitting)} instead, or take it out",
                mends=leave_out(measure.origin, "out"),
            )
        elif face is not None:
            yield from _beyond(key, (name, measure), words.bore.value, face)
    if there and wall == "back wall" and len(there) == 1 and set(there) <= set(fitting):
        lacking = next(name for name in fitting if name not in there)
        yield Problem(
            next(iter(there.values())).origin,
            "missing word",
            f"“{key}” is in the back wall and has no “{lacking}”, so its place is only half known",
            f"add it, as in {lacking}: 1 in",
            mends=add(f"{lacking}: {BLANK}", at=key.origin),
        )


def _beyond(
    key: Key, written: tuple[str, Written[float]], bore_m: float, face: FrontBoxFaceWords
) -> Iterator[Problem]:
    """Tell of a hole that would not lie within its wall."""
    name, measure = written
    room, how = (face.inside.width, "wide") if name == "from left" else (face.inside.height, "high")
    if bore_m / 2 <= measure.value <= room.value - bore_m / 2:
        return
    yield Problem(
        measure.origin,
        "does not fit",
        f"“{key}” would reach beyond the wall of the front box: its middle is {measure.text} from the "
        f"{'left' if name == 'from left' else 'upper'} wall, and the box is {room.text} {how} inside",
        "measure to the middle of the hole again, and mend the measure that is wrong",
    )
