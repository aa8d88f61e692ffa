"""Nothing charges the battery.

What: there is a house battery, and no line brings it current: none from the tow plug, from a solar module or from
shore power.

Why: the battery then lasts from one charge at home to the next. A lead battery that stays half empty for weeks is
ruined; and whoever buys the trailer looks for the charger that is not there.

Limit: none; the file itself. How long a full battery lasts is arithmetic on the file and on the usual hours of use
(common practice). Nothing is wrong when the battery is taken out to be charged.

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

from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.wording import say
from builder.tables.tow_plugs import PlugPattern
from builder.trailer.model import Trailer

BARE_SAYS = "nothing charges the battery: no line from the tow plug, a solar module or shore power ends at it"
NIGHTS_SAYS = (
    "nothing charges the battery: no line from the tow plug, a solar module or shore power ends at it, and a full "
    "battery lasts {nights} of usual use"
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
FILE_BASIS = "the paths in the file"
MANY = 60.0
"""Nights beyond which the number tells a reader nothing."""


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark when there is a battery and no path that ends at it, or at the front box, from a supply."""
    if trailer.battery is None or any(load.charged_from for load in trailer.loads):
        return
    nights = _nights(figures)
    sentence = NIGHTS_SAYS if nights else BARE_SAYS
    plug = trailer.tow_plug
    yield Remark(
        origin=trailer.battery.origin,
        message=say(sentence, nights=nights),
        help=say(CAR_HELP if plug is not None and _charges(plug.pattern) else SUN_HELP),
        known="file",
        basis=FILE_BASIS,
    )


def _charges(pattern: PlugPattern) -> bool:
    return any("battery" in contact.functions for contact in pattern.contacts)


def _nights(figures: Figures) -> str:
    """Return the nights on a full battery as words, two figures at most; empty where nothing is used."""
    energy = figures.energy
    if energy is None or not 0.0 < energy.nights[0] <= MANY:
        return ""
    least, most = (max(1, int(nights)) for nights in energy.nights)
    if least == most:
        return "1 night" if most == 1 else f"{most} nights"
    return f"{least} nights or more" if most > MANY else f"{least} to {most} nights"
