"""A battery that gives off gas has no way for it recorded.

What: the battery is a flooded one, and the file says nothing of its box.

Why: while it is charged it gives off hydrogen. In a closed trailer a spark at a switch lights it, and the battery
bursts and throws its acid about.

Limit: an unsealed battery stands in a box with vents to the outside, or in a well ventilated room (29 CFR
1926.441(a), read). Its box is shut to the inside and has openings of at least 1100 mm² (1.7 in²) to the outside at
its top and at its bottom (NEC 552.10(D), quoted: park trailers). What the file says of its box is taken as it is. A
sealed battery is not judged here; its own sheet says what it needs.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: flooded, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      light: {path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: flooded, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft, box: own box vented outside}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      light: {path: [lamp: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.trailer.model import Trailer

VENT_SAYS = "the battery is a flooded one, and the file does not say where its gas goes"
VENT_HELP = (
    "give it a box that is shut to the inside and open to the outside at its top and at its bottom, and write that "
    "down, box: own box vented outside"
)
VENT_BASIS = "29 CFR 1926.441(a); NEC 552.10(D)"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:  # noqa: ARG001 - every rule takes both
    """Yield a remark when a battery that is not sealed has no box on record."""
    battery = trailer.battery
    if battery is not None and battery.chemistry == "flooded" and not battery.box.strip():
        yield Remark(battery.origin, VENT_SAYS, VENT_HELP, "read", VENT_BASIS)
