"""More wires land on a stud than it takes.

What: the studs of a bar, of the battery or of a part have more ring terminals on them than one stud takes.

Why: a thick stack of rings works loose. What is loose gets hot.

Limit: ``most on each`` of the file (the file itself). Where it gives none, four wires on a stud (common practice; ABYC
E-11 says the same, from memory), which is a *should fix*. The battery's posts count as a stud each. The screws of a
ground bar take one wire each: see `too many wires`.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    terminal studs: {bar: {most on each: 2}}
    parts: {bar: {kind: bar}, lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 2 A}}
    circuits:
      rear: {path: [bar: 6 ft, lamp: 2 ft], branches: [{from: bar, path: [fan: 2 ft]}]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    terminal studs: {bar: {count: 2, most on each: 2}}
    parts: {bar: {kind: bar}, lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 2 A}}
    circuits:
      rear: {path: [bar: 6 ft, lamp: 2 ft], branches: [{from: bar, path: [fan: 2 ft]}]}
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from builder.electrics.figures import Figures
from builder.electrics.landings import StudLoad, stud_loads
from builder.rules.finding import Level, Remark
from builder.rules.wording import say
from builder.tables.studs import MOST_WIRES
from builder.trailer.landing_points import GROUND_SCREWS, Studs
from builder.trailer.model import BATTERY, Trailer
from builder.trailer.origin import NOWHERE, Origin

STUD_SAYS = "{count} wires land on one stud of “{name}” ({wires}), and it takes {most}"
STUDS_SAYS = "{count} wires land on the {studs} studs of “{name}”, and each takes {most}"
STUD_HELP = "choose one with more studs, or join a second stud to it by a link, and write count: {needed}"
BATTERY_HELP = (
    "join some of them on a bar beside the battery; where its post has a second stud, use that too, and write "
    "terminal studs: {{battery: {{count: {needed}}}}}"
)
GROUND_HELP = "choose a bar with more screws, and write ground bar: {needed} under front box"
FILE_BASIS = "most on each of the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each thing whose studs have too many wires on them, by its fuller side."""
    worst: dict[str, StudLoad] = {}
    for load in stud_loads(trailer, figures.landings):
        before = worst.get(load.name)
        if len(load.fullest) > load.most and (before is None or len(load.wires) > len(before.wires)):
            worst[load.name] = load
    for load in worst.values():
        yield _remark(trailer, load)


def _remark(trailer: Trailer, load: StudLoad) -> Remark:
    told = trailer.studs.get(load.name)
    values = {
        "count": len(load.wires),
        "studs": load.count,
        "name": load.name,
        "wires": ", ".join(load.fullest),
        "most": load.most,
        "needed": ceil(len(load.wires) / load.most),
    }
    helps = {BATTERY: BATTERY_HELP, GROUND_SCREWS: GROUND_HELP}
    return Remark(
        origin=_origin(trailer, told),
        message=say(STUD_SAYS if load.count == 1 else STUDS_SAYS, **values),
        help=say(helps.get(load.name, STUD_HELP), **values),
        known="file" if load.given else MOST_WIRES.known,
        basis=FILE_BASIS if load.given else MOST_WIRES.source,
        level=None if load.given else Level.SHOULD,
    )


def _origin(trailer: Trailer, told: Studs | None) -> Origin:
    """Return where the file tells of the studs, or the battery where it tells of none."""
    if told is not None:
        return told.most_origin or told.origin
    return trailer.battery.origin if trailer.battery is not None else NOWHERE
