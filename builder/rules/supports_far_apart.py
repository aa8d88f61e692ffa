"""The supports of wires are far apart.

What: clips or other supports of wires are further apart than a table of boat wiring allows.

Why: on the road a trailer shakes. A wire that hangs free between two clips saws at every edge it touches, and pulls
at its landings.

Limit: 450 mm (17 3/4 in) for wires, 300 mm (11 3/4 in) where a battery cable lies among them (ISO 10133:2012, 7.3 and
7.4, quoted), and a tape's error of 10 mm more. Above 610 mm (24 in) no rule of boats that was found allows it (46 CFR
183.340(b)(4), read), and it is a *should fix*.

Walls open: more supports, as near to each other as is printed.

Walls closed: more supports where it can be reached.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {groove: {through: [front box, lamp], supports every: 22 in}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {groove: {through: [front box, lamp], supports every: 16 in}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.routes.supports import Supports
from builder.rules.covering import measure
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import is_above, say
from builder.tables.installation import support_spacing
from builder.trailer.model import Trailer

APART_SAYS = "the supports of “{chase}” are {apart} apart, and {limit} is the most for its wires"
CABLE_SAYS = "the supports of “{chase}” are {apart} apart, and {limit} is the most for a battery cable"
APART_HELP = "add supports until they are no further apart than supports every: {limit}"
APART_CLOSED_HELP = (
    "add supports where it can be reached, until they are no further apart than supports every: {limit}; what lies "
    "behind a skin stays as it is"
)
APART_BASIS = "{source}"
TAPE_M = 0.01
"""What a tape measure may be off (common practice): a distance in whole inches is no finding for a hair."""


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each chase whose supports the file puts further apart than the table allows."""
    for one in figures.laid.supports:
        if one.given and is_above(one.spacing_m, one.limit_m + TAPE_M):
            yield _remark(trailer, one)


def _remark(trailer: Trailer, one: Supports) -> Remark:
    widest_m = support_spacing("passenger vessel", "wire").value / 1000
    for_wire = support_spacing("small craft dc", "wire")
    values = {
        "chase": one.chase.name,
        "apart": measure(one.spacing_m, trailer),
        "limit": measure(one.limit_m, trailer),
        "source": one.limit.source,
    }
    return Remark(
        origin=one.chase.fittings.written["supports every"],
        message=say(APART_SAYS if one.limit.value == for_wire.value else CABLE_SAYS, **values),
        help=WayOut(say(APART_HELP, **values), say(APART_CLOSED_HELP, **values)),
        known=one.limit.known,
        basis=say(APART_BASIS, **values),
        level=Level.SHOULD if is_above(one.spacing_m, widest_m + TAPE_M) else None,
    )
