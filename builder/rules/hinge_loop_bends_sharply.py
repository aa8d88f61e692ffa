"""A hinge loop bends sharply while its hinge is shut.

What: even laid as one round arc, the wire of a hinge loop bends more sharply between its two places than it should.

Why: a wire that is bent sharply, and bent again each time the hatch opens, breaks inside its insulation.

Limit: ten times the wire's outside diameter (US Army TM 1-1500-204-23-4, read), with diameters from makers' data sheets
(quoted). Wires of harnesses are bent to five times as well (common practice).

Walls open: more slack, left when the wires are drawn.

Walls closed: a longer piece between two connectors, or other fixing points.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places:
      front box: {back: 1 ft, up: 4 ft}
      frame: {back: 6 ft, up: 4 ft}
      lamp: {back: 6 ft 1 in, up: 4 ft}
    chases:
      groove: {through: [front box, frame]}
      loop: {kind: hinge loop, through: [frame, lamp], slack: 2 in, where: at the hatch}
    parts: {lamp: {kind: lamp, draws: 3 W}, hatch plug: {kind: connector, ways: 2, place: frame}}
    circuits:
      lamp: {path: [hatch plug: 7 ft, lamp: 20 in]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places:
      front box: {back: 1 ft, up: 4 ft}
      frame: {back: 6 ft, up: 4 ft}
      lamp: {back: 6 ft 1 in, up: 4 ft}
    chases:
      groove: {through: [front box, frame]}
      loop: {kind: hinge loop, through: [frame, lamp], slack: 8 in, where: at the hatch}
    parts: {lamp: {kind: lamp, draws: 3 W}, hatch plug: {kind: connector, ways: 2, place: frame}}
    circuits:
      lamp: {path: [hatch plug: 7 ft, lamp: 20 in]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.covering import measure
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import is_above, length_up, say
from builder.trailer.model import Trailer

BEND_SAYS = (
    "the wire of “{loop}” bends to {bend} at best while the hinge is shut, and {least} is the least for it"
)
BEND_HELP = "give the loop more slack, as in slack: {slack}, or fix it at places that are further apart along the hinge"
BEND_CLOSED_HELP = (
    "fix it at places that are further apart along the hinge, or put a longer piece between two connectors outside the "
    "walls, slack: {slack}"
)
BEND_BASIS = "{source}: 10 times the outside diameter"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each hinge loop that bends too sharply."""
    for loop in figures.hinges:
        if loop.bend_m is None or loop.allowed_m is None or not is_above(loop.allowed_m, loop.bend_m):
            continue
        values = {
            "loop": loop.chase.name,
            "bend": measure(loop.bend_m, trailer),
            "least": measure(loop.allowed_m, trailer),
            "slack": length_up(7.0 * loop.allowed_m, trailer),
            "source": loop.bend.source,
        }
        yield Remark(
            origin=loop.chase.origin,
            message=say(BEND_SAYS, **values),
            help=WayOut(say(BEND_HELP, **values), say(BEND_CLOSED_HELP, **values)),
            known=loop.bend.known,
            basis=say(BEND_BASIS, **values),
        )
