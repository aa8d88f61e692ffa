"""A chase runs across an opening of the body.

What: the straight way of a chase goes into the rectangle of a door, hatch, window, fan or other opening at one side
and out of it at another.

Why: nothing is there that wires could lie in. Who builds by these places saws through the chase, or through its wires.

Limit: none of the way may lie over the opening, within 6 in (150 mm) of its wall. This is a contradiction in the
file. What ends in the opening, at a part that sits there, does not cross it, nor does what a hinge loop leads to: it
moves with the leaf.

Walls open: lead the chase round the opening.

Walls closed: saw nothing there before you know where its wires run.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    body: {width: 4 ft, profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]}
    openings: {window: {in: left wall, back: 3 ft, up: 1 ft 6 in, width: 2 ft, height: 1 ft}}
    places: {front box: {back: 1 ft, left: 23 in, up: 2 ft}, lamp: {back: 7 ft, left: 23 in, up: 2 ft}}
    chases: {groove: {through: [front box, lamp]}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    body: {width: 4 ft, profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]}
    openings: {window: {in: left wall, back: 3 ft, up: 2 ft 6 in, width: 2 ft, height: 1 ft}}
    places: {front box: {back: 1 ft, left: 23 in, up: 2 ft}, lamp: {back: 7 ft, left: 23 in, up: 2 ft}}
    chases: {groove: {through: [front box, lamp]}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""  # noqa: E501 - an example's line cannot be broken

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import say
from builder.trailer.model import Trailer

CROSSED_SAYS = "“{chase}” runs across “{opening}”: nothing can lie in the hole there"
MAINS_SAYS = "“{chase}”, which carries mains, runs across “{opening}”: nothing can lie in the hole there"
CROSSED_HELP = (
    "lead “{chase}” round the opening, past places beside its corners; or measure both again. What lies on a leaf "
    "hangs on a hinge loop"
)
CROSSED_CLOSED_HELP = (
    "saw nothing there before you know where the wires of “{chase}” run; measure both again, and write their way round "
    "the opening. What lies on a leaf hangs on a hinge loop"
)
MAINS_HELP = (
    "leave the mains cable to a licensed person, who leads it round the opening; or measure both again"
)
MAINS_CLOSED_HELP = (
    "saw nothing there: a licensed person can tell where the mains cable runs; measure both again"
)
CROSSED_BASIS = "the file itself"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each opening and each chase that leads across it."""
    for one in figures.laid.openings:
        chase = trailer.geometry.chases[one.chase]
        said, helped, closed = (
            (MAINS_SAYS, MAINS_HELP, MAINS_CLOSED_HELP)
            if chase.holds_mains
            else (CROSSED_SAYS, CROSSED_HELP, CROSSED_CLOSED_HELP)
        )
        values = {"chase": one.chase, "opening": one.opening.name}
        yield Remark(
            origin=chase.origin,
            message=say(said, **values),
            help=WayOut(say(helped, **values), say(closed, **values)),
            known="file",
            basis=CROSSED_BASIS,
            wires=one.wires,
        )
