"""A hinge loop does not reach while its hinge opens.

What: on the way from shut to open, the two places of a hinge loop get further apart than the wire between them is long.

Why: the hatch pulls at its wires each time it opens, until one breaks or comes out of its landing.

Limit: the distance of both places while one turns round the hinge by its angle (arithmetic on the file). A *must fix*
where the file gives the slack and the loop is too short whichever way the hinge opens.

Walls open: more slack, left when the wires are drawn.

Walls closed: a longer piece between two connectors; none is joined inside a wall.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places:
      front box: {back: 1 ft, up: 4 ft}
      frame: {back: 6 ft, up: 4 ft}
      lamp: {back: 6 ft 1 in, up: 4 ft}
      hinge left: {back: 6 ft 1/2 in, left: 2 ft, up: 4 ft 8 in}
      hinge right: {back: 6 ft 1/2 in, right: 2 ft, up: 4 ft 8 in}
    chases:
      groove: {through: [front box, frame]}
      loop: {kind: hinge loop, through: [frame, lamp], slack: 8 in, hinge: [hinge left, hinge right], opens: 100°}
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
      hinge left: {back: 6 ft 1/2 in, left: 2 ft, up: 4 ft 8 in}
      hinge right: {back: 6 ft 1/2 in, right: 2 ft, up: 4 ft 8 in}
    chases:
      groove: {through: [front box, frame]}
      loop: {kind: hinge loop, through: [frame, lamp], slack: 13 in, hinge: [hinge left, hinge right], opens: 100°}
    parts: {lamp: {kind: lamp, draws: 3 W}, hatch plug: {kind: connector, ways: 2, place: frame}}
    circuits:
      lamp: {path: [hatch plug: 7 ft, lamp: 20 in]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.routes.hinges import HingeLoop
from builder.routes.network import Stretch
from builder.rules.covering import measure
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import is_above, length_up, say
from builder.trailer.model import Trailer

SHORT_SAYS = (
    "“{loop}” is {long} of wire, and its two places get {apart} apart while the hinge opens by {opens}"
)
ONE_WAY_SAYS = (
    "“{loop}” is {long} of wire, and its two places get {apart} apart if its hinge opens by {opens} to the one side "
    "and not to the other"
)
SHORT_HELP = "give it more slack, as in slack: {slack}, and measure it with the hinge open"
SHORT_CLOSED_HELP = (
    "put a longer piece between two connectors outside the walls, slack: {slack}, and measure it with the "
    "hinge open"
)
SHORT_BASIS = "the places, the hinge and the slack of the file"
LOOSE_M = 0.0254
"""What is printed as slack lets the loop reach with an inch to spare (common practice)."""


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each hinge loop that does not reach."""
    for loop in figures.hinges:
        if loop.least_m is None or loop.most_m is None or not is_above(loop.most_m, loop.length_m):
            continue
        wires = figures.runs.inside.get(Stretch(loop.chase.name, 0), ())
        yield _remark(trailer, loop, (loop.least_m, loop.most_m), wires)


def _remark(
    trailer: Trailer, loop: HingeLoop, apart_m: tuple[float, float], wires: tuple[str, ...]
) -> Remark:
    surely = is_above(apart_m[0], loop.length_m)
    values = {
        "loop": loop.chase.name,
        "long": measure(loop.length_m, trailer),
        "apart": measure(apart_m[0] if surely else apart_m[1], trailer),
        "opens": f"{loop.chase.opens_deg:g}°",
        "slack": length_up(apart_m[1] - loop.shut_m + LOOSE_M, trailer),
    }
    return Remark(
        origin=loop.chase.origin,
        message=say(SHORT_SAYS if surely else ONE_WAY_SAYS, **values),
        help=WayOut(say(SHORT_HELP, **values), say(SHORT_CLOSED_HELP, **values)),
        known="file" if loop.chase.slack_given else "practice",
        basis=SHORT_BASIS,
        level=None if surely and loop.chase.slack_given else Level.SHOULD,
        wires=wires,
    )
