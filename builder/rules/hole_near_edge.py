"""A hole for wires is bored near an edge.

What: less wood than the rule asks for is left between a bored hole and the nearest edge of its frame or stud, and no
steel plate covers it.

Why: a screw or nail that fixes a skin or a panel goes through the edge of the frame, and meets the wires in the hole.

Limit: 1 1/4 in from the nearest edge, or a steel plate of 1/16 in over the hole (NEC 300.4(A), quoted). The rule is
for houses; frames of trailers are thin, so that the plate is the usual way.

Walls open: holes further in, or plates over them.

Walls closed: plates on the face of the skin.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {groove: {through: [front box, lamp], holes: 1/2 in, from the edge: 3/8 in}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {groove: {through: [front box, lamp], holes: 1/2 in, from the edge: 3/8 in, plate: 1/16 in}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.lists.plates import guards
from builder.rules.covering import measure, plate_written, small_down
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import is_above, say
from builder.tables.installation import least_edge_m
from builder.trailer.model import Trailer

EDGE_SAYS = "the holes of “{chase}” leave {left} of wood to the nearest edge, and {least} is asked for"
PLATED_SAYS = (
    "the holes of “{chase}” leave {left} of wood to the edge, and their plates are thinner than {plate}"
)
EDGE_HELP = "lay steel plates over the holes, and write plate: {plate}; or bore them {least} from every edge"
EDGE_CLOSED_HELP = "lay steel plates on the face of the skin over the holes, and write plate: {plate}"
EDGE_BASIS = "NEC 300.4(A)"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:  # noqa: ARG001 - every rule takes both
    """Yield a remark for each chase whose holes are near an edge without a plate over them."""
    for chase in trailer.geometry.chases.values():
        edge_m = chase.fittings.edge_m
        if edge_m is None or not is_above(least_edge_m(), edge_m):
            continue
        if guards(chase.plate_m):
            continue
        values = {
            "chase": chase.name,
            "left": small_down(edge_m, trailer),
            "least": measure(least_edge_m(), trailer),
            "plate": plate_written(trailer),
        }
        yield Remark(
            origin=chase.fittings.written["from the edge"],
            message=say(EDGE_SAYS if chase.plate_m is None else PLATED_SAYS, **values),
            help=WayOut(say(EDGE_HELP, **values), say(EDGE_CLOSED_HELP, **values)),
            known="quoted",
            basis=EDGE_BASIS,
        )
