"""Nothing charges the battery.

What: there is a house battery, and no line brings it current: none from the tow plug, from a solar module or from
shore power.

Why: the battery then lasts from one charge at home to the next. A lead battery that stays half empty for weeks is
ruined; and whoever buys the trailer looks for the charger that is not there.

Limit: none; the file itself. How long a full battery lasts is arithmetic on the file and on the usual hours of use
(common practice). Nothing is wrong when the battery is taken out to be charged.

Walls open: a line that charges it, as is printed.

Walls closed: the same, with its wire where it stays in sight.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}, module: {kind: solar module}, controller: {kind: charge controller}}
    circuits:
      light: {path: [lamp: 6 ft]}
      sun: {from: module, path: [controller: 8 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}, module: {kind: solar module}, controller: {kind: charge controller}}
    circuits:
      light: {path: [lamp: 6 ft]}
      sun: {from: module, path: [controller: 8 ft, battery fuse: 1 ft, battery: 6 in]}
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor

from builder.electrics.figures import Figures
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import say
from builder.tables.tow_plugs import PlugPattern
from builder.trailer.model import Trailer

BARE_SAYS = "nothing charges the battery: no line from the tow plug, a solar module or shore power ends at it"
RANGE_SAYS = (
    "nothing charges the battery: no line from the tow plug, a solar module or shore power ends at it; "
    "a full one lasts {least} to {most} nights of usual use"
)
LONG_SAYS = (
    "nothing charges the battery: no line from the tow plug, a solar module or shore power ends at it; "
    "a full one lasts {least} nights of usual use, or more"
)
SHORT_SAYS = (
    "nothing charges the battery: no line from the tow plug, a solar module or shore power ends at it; "
    "a full one lasts less than {most} nights of usual use"
)
CAR_HELP = (
    "add a line under circuits that ends at the battery, as in charge line: {{from: tow plug battery, path: [car-side "
    "fuse: 5 in, charger: 7 ft, battery fuse: 2 ft, battery: 6 in]}}, with charger: {{kind: dc charger}} under parts; "
    "leave it when the battery is taken out to be charged"
)
SUN_HELP = (
    "add a line under circuits that ends at the battery, as in sun: {{from: module, path: [controller: 8 ft, battery "
    "fuse: 1 ft, battery: 6 in]}}, with module: {{kind: solar module}} and controller: {{kind: charge controller}} "
    "under parts; leave it when the battery is taken out to be charged"
)
CLOSED_HELP = "lay its wire where it stays in sight: {line}"
FILE_BASIS = "the paths in the file"
MANY = 60.0
"""Nights beyond which the number tells a reader nothing."""


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark when there is a battery and no path that ends at it, or at the front box, from a supply."""
    if trailer.battery is None or (figures.energy is not None and figures.energy.charging):
        return
    plug = trailer.tow_plug
    line = say(CAR_HELP if plug is not None and _charges(plug.pattern) else SUN_HELP)
    yield Remark(
        origin=trailer.battery.origin,
        message=_message(figures),
        help=WayOut(line, say(CLOSED_HELP, line=line)),
        known="file",
        basis=FILE_BASIS,
    )


def _charges(pattern: PlugPattern) -> bool:
    return any("battery" in contact.functions for contact in pattern.contacts)


def _message(figures: Figures) -> str:
    """Return what is said, with the nights on a full battery rounded outwards where there are some to tell of."""
    least, most = figures.energy.nights if figures.energy is not None else (0.0, 0.0)
    if not 0.0 < least <= MANY:
        return BARE_SAYS
    if least < 1:
        return say(SHORT_SAYS, most=max(2, ceil(most)))
    return say(LONG_SAYS if most > MANY else RANGE_SAYS, least=floor(least), most=ceil(most))
