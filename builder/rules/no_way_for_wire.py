"""No chase leads from the one end of a wire to the other.

What: both ends of a wire have a place, and the chases of the file do not join them. Wires enter and leave a chase at
its named places only.

Why: nobody knows then where the wire runs. No page can tell where not to drill, and its length cannot be checked.

Limit: the places and chases of the file (the file itself).

Walls open: a chase between the two places.

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

from builder.electrics.figures import Figures
from builder.routes.ways import NoWay
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import length, say
from builder.trailer.model import Trailer

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
NO_WAY_BASIS = "places and chases of the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each pair of places that wires run between and no chase joins: at the first such wire."""
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
