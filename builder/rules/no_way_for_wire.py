"""No chase leads from the one end of a wire to the other.

What: both ends of a wire have a place, and the chases of the file do not join them. Wires enter and leave a chase at
its named places only. Or ``through`` names what a wire runs through, and a part at its end has no place.

Why: nobody knows then where the wire runs. No page can tell where not to drill, and its length cannot be checked. It
counts nowhere: not beside the wires that it warms, nor in the holes and bays that it goes through.

Limit: the places and chases of the file (the file itself).

Walls open: a chase between the two places, or the place of the part.

Walls closed: the way that it took, from photos; the wire is in the wall, and only the record can be mended.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places:
      front box: {back: 1 ft, up: 2 ft}
      corner: {back: 1 ft, left: 2 ft, up: 2 ft}
      lamp: {back: 7 ft, left: 2 ft, up: 2 ft}
      rear: {back: 9 ft, left: 2 ft, up: 2 ft}
    chases: {groove: {through: [front box, corner]}, wall: {through: [lamp, rear]}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places:
      front box: {back: 1 ft, up: 2 ft}
      corner: {back: 1 ft, left: 2 ft, up: 2 ft}
      lamp: {back: 7 ft, left: 2 ft, up: 2 ft}
      rear: {back: 9 ft, left: 2 ft, up: 2 ft}
    chases: {groove: {through: [front box, corner]}, wall: {through: [corner, lamp, rear]}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from builder.electrics.figures import Figures
from builder.routes.ways import NoWay
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import length, say
from builder.trailer.model import Trailer
from builder.trailer.origin import Origin
from builder.trailer.wires import Leg

NO_WAY_SAYS = "no chase leads from “{start}” to “{end}”, where wire {wire} runs"
NO_WAY_PAST_SAYS = "wire {wire} is to run past “{past}”, and no chase leads there from “{start}”"
NO_WAY_HELP = (
    "the nearest two places are “{near}” and “{far}”, {gap} apart: let a chase run through both, as in "
    "link: {{through: [{near}, {far}]}}"
)
NO_WAY_CLOSED_HELP = (
    "look at the photos from before the walls were closed, and write down the way that it took, as in link: {{through: "
    "[{near}, {far}]}} for the {gap} between these two; until then drive nothing into the wall there"
)
NO_PLACE_SAYS = (
    "the way of {wires} is not known, since {names} has no place: {past} under through counts nowhere"
)
NO_PLACES_SAYS = (
    "the way of {wires} is not known, since {names} have no place: {past} under through counts nowhere"
)
NO_PLACE_HELP = (
    "say under places where it is, as in {name}: {{back: 4 ft, left: 2 ft, up: 1 ft}}, and let a chase run through "
    "that place; where it stands at one of another name, write that under the part, as in place: {near}"
)
NO_PLACE_CLOSED_HELP = (
    "measure where it is, and say so under places, as in {name}: {{back: 4 ft, left: 2 ft, up: 1 ft}}, with a chase to "
    "that place as the photos show it, or write under the part the place where it stands, as in place: {near}; until "
    "then drive nothing into the walls along there"
)
NO_WAY_BASIS = "places and chases of the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each pair of places that no chase joins, at the first wire between, and for lost ways."""
    yield from _not_joined(trailer, figures)
    for lost in _lost_ways(trailer, figures):
        yield _without_place(trailer, lost)


def _not_joined(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    told: set[tuple[str, str]] = set()
    for wire in (*trailer.wires, *trailer.spares):
        missing = figures.runs.unknown.get(wire.number)
        way = missing.no_way if missing else None
        if way is None or (way.near_start, way.near_end) in told:
            continue
        told |= {(way.near_start, way.near_end), (way.near_end, way.near_start)}
        values = _values(trailer, way) | {"wire": wire.number}
        yield Remark(
            origin=wire.origin,
            message=say(NO_WAY_PAST_SAYS if way.past else NO_WAY_SAYS, **values),
            help=WayOut(say(NO_WAY_HELP, **values), say(NO_WAY_CLOSED_HELP, **values)),
            known="file",
            basis=NO_WAY_BASIS,
            circuit=wire.circuit or None,
        )


def _values(trailer: Trailer, way: NoWay) -> dict[str, object]:
    return {
        "start": way.start,
        "end": way.end,
        "past": way.past,
        "near": way.near_start,
        "far": way.near_end,
        "gap": length(way.gap_m, trailer),
    }


@dataclass(slots=True)
class _Lost:
    """Parts without a place, and the wires whose ``through`` says nothing for that, the first of which is marked."""

    origin: Origin
    circuit: int | None
    names: dict[str, None] = field(default_factory=dict)
    past: dict[str, None] = field(default_factory=dict)
    wires: dict[str, None] = field(default_factory=dict)


def _lost_ways(trailer: Trailer, figures: Figures) -> list[_Lost]:
    """Return what ``through`` names in vain, once for each place in the file and once for each set of parts."""
    by_leg: dict[tuple[int, Leg], _Lost] = {}
    by_origin: dict[Origin, _Lost] = {}
    for wire in (*trailer.wires, *trailer.spares):
        if not (wire.number in figures.runs.unknown and figures.runs.unknown[wire.number].unplaced):
            continue
        for leg in wire.legs:
            missing = [name for name in (leg.start, leg.end) if name not in trailer.geometry.stands]
            if leg.past and missing:
                here = by_origin.setdefault(wire.origin, _Lost(wire.origin, wire.circuit or None))
                lost = by_leg.setdefault((wire.circuit, leg), here)
                lost.names |= dict.fromkeys(missing)
                lost.past |= dict.fromkeys(leg.past)
                lost.wires[wire.number] = None
    by_names: dict[tuple[str, ...], _Lost] = {}
    for lost in by_origin.values():
        if lost.wires:
            one = by_names.setdefault(tuple(lost.names), lost)
            one.past |= lost.past
            one.wires |= lost.wires
    return list(by_names.values())


def _without_place(trailer: Trailer, lost: _Lost) -> Remark:
    last = next(reversed(lost.past))
    chase = trailer.geometry.chases.get(last)
    values = {
        "wires": ", ".join(lost.wires),
        "names": " and ".join(f"“{name}”" for name in lost.names),
        "past": ", ".join(f"“{name}”" for name in lost.past),
        "name": next(iter(lost.names)),
        "near": chase.through[-1] if chase else last,
    }
    return Remark(
        origin=lost.origin,
        message=say(NO_PLACE_SAYS if len(lost.names) == 1 else NO_PLACES_SAYS, **values),
        help=WayOut(say(NO_PLACE_HELP, **values), say(NO_PLACE_CLOSED_HELP, **values)),
        known="file",
        basis=NO_WAY_BASIS,
        circuit=lost.circuit,
    )
