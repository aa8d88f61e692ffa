"""Where wires pass the body's skin or sheet metal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from builder.routes.network import Stretch
from builder.routes.runs import Runs
from builder.routes.vectors import Vector, along, from_outline, inside, to_edge
from builder.trailer.body import Body
from builder.trailer.model import FRAME, TOW_PLUG, Trailer
from builder.trailer.outline import Point, pieces_of, points_of, spans
from builder.trailer.places import Chase

SKIN_M = 0.01
"""What is no further from the body's outline stands on it: a tape's tolerance (common practice)."""
FINE = 1e-6
"""How finely the place of a hole between two places is looked for, as a share of the way between them."""


@dataclass(frozen=True, slots=True)
class Passing:
    """One hole that wires pass: at a place, or between the two ``places`` of a stretch.

    ``skin`` tells that it leads through the body's outline, ``sheet`` that the file has sheet metal there. ``chases``
    are those that meet there; ``plug`` tells that the tow plug's cable goes through it. ``twice`` are the wires that
    come back through it. ``point_m`` is where its middle is: back, right and up, on the outside of the skin;
    ``above_m`` is how far that is straight above its place, where wires come up to the skin from inside.
    """

    places: tuple[str, ...]
    chases: tuple[str, ...]
    wires: tuple[str, ...]
    skin: bool
    sheet: bool
    plug: bool
    twice: tuple[str, ...] = ()
    point_m: Vector | None = None
    above_m: float = 0.0


class _Lies(Enum):
    OUT = 1
    ON = 2
    IN = 3


def passings_of(trailer: Trailer, runs: Runs) -> tuple[Passing, ...]:
    """Return every hole through the body's outline that wires pass, then those in sheet metal that the file names.

    A hole in both stands once. What ends on the skin itself, such as a lamp there, is not known to pass it; but the
    trailer's frame is under the body and a solar module on it, so what comes to them from inside does. A part on the
    skin with wires on both sides of it, such as an isolating switch, is taken to be outside: of its wires those from
    inside pass, and the others do not (common practice).
    """
    geometry = trailer.geometry
    holes: dict[tuple[str, ...], tuple[dict[str, None], dict[str, None]]] = {}
    skin = set()
    if geometry.body is not None:
        for places, chases, wires in _through_skin(trailer, geometry.body, runs):
            skin.add(places)
            held = holes.setdefault(places, ({}, {}))
            held[0].update(dict.fromkeys(chases))
            held[1].update(dict.fromkeys(wires))
    sheet = set()
    for chase in geometry.chases.values():
        for place in chase.fittings.sheet_at:
            sheet.add((place,))
            held = holes.setdefault((place,), ({}, {}))
            held[0][chase.name] = None
            judged = _ending(runs, place) if (place,) in skin else ()
            held[1].update(dict.fromkeys(wire for wire in _beside(runs, chase, place) if wire not in judged))
    plug = {wire.number for wire in trailer.wires if TOW_PLUG in (wire.start.part, wire.end.part)}
    return tuple(
        Passing(
            places,
            tuple(chases),
            tuple(wires),
            places in skin,
            places in sheet,
            bool(plug & set(wires)),
            tuple(wire for wire in _twice(trailer, runs, places, tuple(chases)) if wire in wires),
            _middle(trailer, places, skin),
            _above_m(trailer, places, skin),
        )
        for places, (chases, wires) in holes.items()
        if wires
    )


def _twice(trailer: Trailer, runs: Runs, places: tuple[str, ...], chases: tuple[str, ...]) -> tuple[str, ...]:
    """Return the wires that pass a hole there and back: they lie twice on both sides of it."""
    through = [(name, trailer.geometry.chases[name].through) for name in chases]
    near = [
        Stretch(name, number)
        for name, named in through
        for number, ends in enumerate(pairwise(named))
        if set(places) == set(ends) or (len(places) == 1 and places[0] in ends)
    ]
    held = Counter(wire for stretch in near for wire in runs.twice(stretch))
    return tuple(wire for wire, count in held.items() if count > 1 or len(near) == 1)


def _above_m(trailer: Trailer, places: tuple[str, ...], skin: Collection[tuple[str, ...]]) -> float:
    """Return how far the outside of the roof is above the place of a hole through it; 0 of a hole at its place."""
    body = trailer.geometry.body
    if body is None or len(places) > 1 or places not in skin:
        return 0.0
    outline = points_of(pieces_of(body.profile))
    back, right, up = trailer.geometry.places[places[0]].point_m
    if _lies(outline, body.width_m / 2, (back, right, up)) is not _Lies.IN:
        return 0.0
    return spans(outline, back, 0)[-1][1] - up


def _middle(trailer: Trailer, places: tuple[str, ...], skin: Collection[tuple[str, ...]]) -> Vector:
    """Return where a hole is: at its place, or where the straight way between its two places meets the outline.

    Halved until a tape cannot tell the difference. To what is on the roof it leads straight up from a place inside.
    """
    geometry = trailer.geometry
    first, *rest = (geometry.places[name].point_m for name in places)
    if not rest or geometry.body is None:
        return first[0], first[1], first[2] + _above_m(trailer, places, skin)
    outline, half_m = points_of(pieces_of(geometry.body.profile)), geometry.body.width_m / 2
    low, high = 0.0, 1.0
    inside_first = _within(outline, half_m, first)
    while high - low > FINE:
        middle = (low + high) / 2
        if _within(outline, half_m, along(first, rest[0], middle)) is inside_first:
            low = middle
        else:
            high = middle
    return along(first, rest[0], (low + high) / 2)


def _within(outline: Sequence[Point], half_m: float, point: Vector) -> bool:
    back, right, up = point
    return inside((back, up), outline) and abs(right) <= half_m


def _ending(runs: Runs, place: str) -> dict[str, None]:
    """Return the wires with an end at a place."""
    return {
        number: None
        for number, run in runs.runs.items()
        if run.steps and place in (run.steps[0].start, run.steps[-1].end)
    }


def _beside(runs: Runs, chase: Chase, place: str) -> list[str]:
    at = chase.through.index(place)
    return [wire for number in (at - 1, at) for wire in runs.inside.get(Stretch(chase.name, number), ())]


def _through_skin(
    trailer: Trailer, body: Body, runs: Runs
) -> Iterator[tuple[tuple[str, ...], tuple[str, ...], Sequence[str]]]:
    """Yield the places of each hole through the outline, the chases there, and the wires: wire by wire, then chases."""
    geometry = trailer.geometry
    outline = points_of(pieces_of(body.profile))
    beyond = _beyond(trailer)
    lies: dict[str, _Lies] = {}

    def state(name: str) -> _Lies:
        if name not in lies:
            lies[name] = _lies(outline, body.width_m / 2, geometry.places[name].point_m)
        return lies[name]

    for number, run in runs.runs.items():
        names = [step.start for step in run.steps[:1]] + [step.end for step in run.steps]
        chases = [step.stretch.chase for step in run.steps]
        for first, last in _changes([state(name) for name in names]):
            yield _hole(names, first, last), tuple(dict.fromkeys(chases[first:last])), (number,)
        for place, way in ((names[0], chases[0]), (names[-1], chases[-1])) if chases else ():
            others = [name for name in names if name != place]
            if state(place) in beyond.get((number, place), ()) and any(
                state(one) is _Lies.IN for one in others
            ):
                yield (place,), (way,), (number,)
    for chase in geometry.chases.values():
        for first, last in _changes([state(name) for name in chase.through]):
            yield (
                _hole(chase.through, first, last),
                (chase.name,),
                _through_chase(chase, runs, first, last, state),
            )


def _through_chase(
    chase: Chase, runs: Runs, first: int, last: int, state: Callable[[str], _Lies]
) -> tuple[str, ...]:
    """Return the wires of a chase that pass the skin between two of its places.

    Those that lie on both sides of it, and of those that end on it at a part with wires on both sides the inner ones.
    """
    held = [runs.inside.get(Stretch(chase.name, number), ()) for number in range(first, last)]
    through = [wire for wire in held[0] if wire in held[-1]]
    ending = _ending(runs, chase.through[first + 1]) if last - first > 1 else {}
    outer, inner = (held[0], held[-1]) if state(chase.through[first]) is _Lies.OUT else (held[-1], held[0])
    if any(wire in ending for wire in outer if wire not in inner):
        through += [wire for wire in inner if wire in ending and wire not in outer]
    return tuple(through)


def _beyond(trailer: Trailer) -> dict[tuple[str, str], tuple[_Lies, ...]]:
    """Return by wire and place the ends that are beyond the skin by what is there, and where they may be drawn.

    The trailer's frame is under a body whose outline it stands on. A solar module is on the roof, though its place
    may be where its wires leave the chase below.
    """
    stands = trailer.geometry.stands
    found: dict[tuple[str, str], tuple[_Lies, ...]] = {}
    for wire in trailer.wires:
        for name in (wire.start.part, wire.end.part):
            part = trailer.parts.get(name)
            if name not in stands:
                continue
            if name == FRAME:
                found[wire.number, stands[name].place] = (_Lies.ON,)
            elif part is not None and part.kind == "solar module":
                found[wire.number, stands[name].place] = (_Lies.ON, _Lies.IN)
    return found


def _hole(names: Sequence[str], first: int, last: int) -> tuple[str, ...]:
    """Return the place of a hole between two places, or both where none on the skin lies between them."""
    return (names[first + 1],) if last - first > 1 else tuple(sorted((names[first], names[last])))


def _changes(states: Sequence[_Lies]) -> Iterator[tuple[int, int]]:
    """Yield between which of some places a way passes the skin: the last on one side and the first on the other."""
    before: int | None = None
    for place, state in enumerate(states):
        if state is _Lies.ON:
            continue
        if before is not None and states[before] is not state:
            yield before, place
        before = place


def _lies(outline: Sequence[Point], half_m: float, point: Vector) -> _Lies:
    back, right, up = point
    beyond = from_outline((back, up), outline)
    if beyond > SKIN_M or abs(right) - half_m > SKIN_M:
        return _Lies.OUT
    edge = min(to_edge((back, up), outline[i - 1], outline[i]) for i in range(len(outline)))
    deep = inside((back, up), outline) and edge > SKIN_M and half_m - abs(right) > SKIN_M
    return _Lies.IN if deep else _Lies.ON
