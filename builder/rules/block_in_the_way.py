"""A backing block lies in the way of wires.

What: a chase with wires in it runs where a backing block is, and no steel plate lies over its wires.

Why: the block is there so that somebody drives screws into it. Years later nobody knows that wires pass it, and the
first long screw meets them.

Limit: the block's rectangle in its wall, wider by the tape's tolerance all round; what runs within 6 in (150 mm) of
that wall counts. Steel plates of 1/16 in over the wires (NEC 300.4(A), quoted) take a screw; with those noted,
nothing is told. Keeping wires out of blocks is common practice.

Walls open: move the block or the chase, or lay plates over the wires.

Walls closed: no screw into the block where the chase passes it, and plates on the face of the skin.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    body: {width: 4 ft, profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]}
    places: {front box: {back: 1 ft, left: 23 in, up: 2 ft}, lamp: {back: 7 ft, left: 23 in, up: 2 ft}}
    chases: {groove: {through: [front box, lamp]}}
    backing blocks: {shelf block: {in: left wall, back: 4 ft, up: 2 ft, width: 8 in, height: 3 in, holds: shelf}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    body: {width: 4 ft, profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]}
    places: {front box: {back: 1 ft, left: 23 in, up: 2 ft}, lamp: {back: 7 ft, left: 23 in, up: 2 ft}}
    chases: {groove: {through: [front box, lamp]}}
    backing blocks: {shelf block: {in: left wall, back: 4 ft, up: 3 ft, width: 8 in, height: 3 in, holds: shelf}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""  # noqa: E501 - an example's line cannot be broken

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.lists.plates import guards
from builder.rules.covering import plate_written, without_holes
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import say
from builder.trailer.model import Trailer

BLOCK_SAYS = "“{block}” lies in the way of “{chase}”: a screw into it may reach the wires there"
MAINS_SAYS = (
    "“{block}” lies in the way of “{chase}”, which carries mains: a screw into it may reach the mains cable"
)
BLOCK_HELP = (
    "measure the block's middle and the chase again; move one of them, or lay steel plates over the wires and write "
    "plate: {plate}{without}"
)
BLOCK_CLOSED_HELP = (
    "drive no screw into the block where the chase passes it; lay steel plates on the face of the skin there, and "
    "write plate: {plate}{without}"
)
MAINS_HELP = "leave the mains cable to a licensed person, and move the block: measure its middle again"
MAINS_CLOSED_HELP = (
    "drive no screw into the block; a licensed person can tell where the mains cable runs. If it runs beside the "
    "block, measure both again"
)
BLOCK_BASIS = "common practice"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each backing block and each chase with wires or mains in it that meets it without plates."""
    for one in figures.laid.blocks:
        chase = trailer.geometry.chases[one.chase]
        if not (one.wires or chase.holds_mains) or (guards(chase.plate_along_m) and not chase.holds_mains):
            continue
        values = {
            "block": one.block.name,
            "chase": one.chase,
            "plate": plate_written(trailer),
            "without": without_holes(trailer, one.chase),
        }
        said, helped, closed = (
            (MAINS_SAYS, MAINS_HELP, MAINS_CLOSED_HELP)
            if chase.holds_mains
            else (BLOCK_SAYS, BLOCK_HELP, BLOCK_CLOSED_HELP)
        )
        yield Remark(
            origin=one.block.origin,
            message=say(said, **values),
            help=WayOut(say(helped, **values), say(closed, **values)),
            known="practice",
            basis=BLOCK_BASIS,
        )
