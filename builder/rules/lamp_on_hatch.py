"""A road lamp sits on a hatch that swings up.

What: a lamp that must be seen from behind, or that lights the plate, moves with a hatch or door. With the hatch open
it points at the sky. The way out is another place: in the passing example the lamps sit on the body beside the hatch.

Why: on the roadside, or in camp at dusk with the kitchen open, nobody behind sees the lamps or the plate. And the wires
to it bend each time the hatch moves, until one breaks.

Limit: none; the file itself, and common practice. Lamps belong on a rigid part that is not made to be taken off (49
CFR 571.108, quoted); a hatch that is shut on the road is one. What national law says of lamps on moving parts, ask
there.

Walls open: a place on the body beside the hatch.

Walls closed: the same, with wire that stays in sight.

Failing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps:
      lamps: led
      rear lamp: {shows: [tail, stop, turn, marker], side: both, on the hatch: yes, wire: 17 ft}

Passing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps:
      lamps: led
      rear lamp: {shows: [tail, stop, turn, marker], side: both, on the hatch: no, wire: 17 ft}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import say
from builder.trailer.model import RoadLamp, Trailer
from builder.trailer.origin import Origin

LAMP_SAYS = "nobody behind sees {names} while the hatch is open"
PLATE_SAYS = "nobody behind sees the plate at {names} while the hatch is open"
HATCH_HELP = (
    "put it on the body beside the hatch, or never stand beside a road with the hatch open: the page about towing "
    "names all that it hides"
)
HATCH_CLOSED_HELP = (
    "put it on the body beside the hatch, with wire that stays in sight, or never stand beside a road with the hatch "
    "open: the page about towing names all that it hides"
)
FILE_BASIS = "the file itself, and common practice"
SEEN_FROM_BEHIND = ("tail", "stop", "turn", "fog", "clearance", "identification")


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:  # noqa: ARG001 - every rule takes both
    """Yield a remark for every lamp that must be seen from behind and swings up with a hatch, for a pair together."""
    entries: dict[Origin, list[RoadLamp]] = {}
    for lamp in trailer.road_lamps:
        if lamp.on_hatch:
            entries.setdefault(lamp.origin, []).append(lamp)
    for origin, lamps in entries.items():
        lamp = lamps[0]
        if set(lamp.shows).intersection(SEEN_FROM_BEHIND):
            sentence = LAMP_SAYS
        elif "plate" in lamp.shows:
            sentence = PLATE_SAYS
        else:
            continue
        yield Remark(
            origin=origin,
            message=say(sentence, names=" and ".join(f"“{one.name}”" for one in lamps)),
            help=WayOut(say(HATCH_HELP), say(HATCH_CLOSED_HELP)),
            known="practice",
            basis=FILE_BASIS,
        )
