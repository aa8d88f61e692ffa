"""A chase bends its wires sharply.

What: the smallest radius at which a chase bends is smaller than its thickest wire should be bent.

Why: a wire that is pulled round a sharp bend is scraped and squeezed there, and may break inside its insulation.

Limit: ten times the wire's outside diameter (US Army TM 1-1500-204-23-4, read), with the diameters that the file
gives, else those of makers' data sheets (quoted). Wires of harnesses are bent to five times as well (common
practice).

Walls open: a wider bend, as the way out prints it.

Walls closed: nothing is pulled there; new wire stays in sight.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {groove: {through: [front box, lamp], bend radius: 1 in}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {groove: {through: [front box, lamp], bend radius: 2 in}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.routes.bends import Bends
from builder.rules.covering import bore_up, small_down
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import is_above, say
from builder.trailer.model import Trailer

SHARP_SAYS = "“{chase}” bends at a radius of {radius}, and {least} is the least for its thickest wire"
SHARP_HELP = "bend it at {least} or more, and write it as bend radius: {least}"
SHARP_CLOSED_HELP = (
    "leave it alone and pull at nothing there; where a wire of it fails, lay new wire where it stays in sight, and "
    "write its way under through"
)
SHARP_BASIS = "{source}: 10 times the outside diameter"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each chase whose own bends are too sharp for its thickest wire."""
    for bends in figures.laid.bends:
        radius_m = bends.chase.fittings.bend_radius_m
        if radius_m is not None and bends.least_m is not None and is_above(bends.least_m, radius_m):
            yield _remark(trailer, bends, (radius_m, bends.least_m))


def _remark(trailer: Trailer, bends: Bends, measures_m: tuple[float, float]) -> Remark:
    radius_m, least_m = measures_m
    values = {
        "chase": bends.chase.name,
        "radius": small_down(radius_m, trailer),
        "least": bore_up(least_m * 1000, trailer),
        "source": bends.limit.source,
    }
    return Remark(
        origin=bends.chase.fittings.written["bend radius"],
        message=say(SHARP_SAYS, **values),
        help=WayOut(say(SHARP_HELP, **values), say(SHARP_CLOSED_HELP, **values)),
        known=bends.limit.known,
        basis=say(SHARP_BASIS, **values),
    )
