"""Wires lie beside mains.

What: low-voltage wires lie in one chase with mains without a divider, or in a chase that comes nearer to the one of
mains than the rule allows.

Why: where the insulation of both wears through, mains gets into all wires of the trailer. It can kill whoever touches
a lamp.

Limit: 1/2 in (13 mm) between low-voltage and power wiring (NEC 552.10, quoted), or a divider. Measured is from the
middle of the mains chase, since the file does not say how thick its cable is. Where both share a chase and the file
does not speak of a divider, it is *worth knowing*.

Walls open: another way for the wires, or a divider.

Walls closed: new wire that stays in sight, or a divider where the two can be reached.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    mains: {what: inlet and one outlet, done by: licensed electrician}
    places:
      front box: {back: 1 ft, up: 2 ft}
      lamp: {back: 7 ft, up: 2 ft}
      inlet: {back: 1 ft, up: 2 ft 1/4 in}
      outlet: {back: 7 ft, up: 2 ft 1/4 in}
    chases:
      groove: {through: [front box, lamp]}
      mains groove: {through: [inlet, outlet], carries: mains}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    mains: {what: inlet and one outlet, done by: licensed electrician}
    places:
      front box: {back: 1 ft, up: 2 ft}
      lamp: {back: 7 ft, up: 2 ft}
      inlet: {back: 1 ft, up: 2 ft 1/4 in}
      outlet: {back: 7 ft, up: 2 ft 1/4 in}
    chases:
      groove: {through: [front box, lamp]}
      mains groove: {through: [inlet, outlet], carries: mains, divided: yes}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.routes.apart import BesideMains
from builder.rules.covering import measure, small_down
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import say
from builder.tables.installation import INCH_M
from builder.trailer.model import Trailer

NEAR_SAYS = "the wires in “{chase}” come within {gap} of “{mains}”, which carries mains"
SHARED_SAYS = "“{mains}” carries mains and other wires, and nothing lies between them"
UNSAID_SAYS = "“{mains}” carries mains and other wires, and the file does not say whether it is divided"
NEAR_HELP = (
    "keep them {limit} apart at the least, or put a divider between them and write divided: yes; mains itself is the "
    "work of a licensed person"
)
SHARED_HELP = (
    "lead the wires another way, or put a divider between them and write divided: yes; mains itself is the work of a "
    "licensed person"
)
CLOSED_HELP = (
    "lay new wire where it stays in sight, away from mains; or have a licensed person part the two where they can be "
    "reached, and write divided: yes"
)
MAINS_BASIS = "{source}"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each chase whose wires lie too near to mains, or in one chase with it, undivided."""
    for one in figures.laid.beside_mains:
        if one.divided is not True:
            yield _remark(trailer, one)


def _remark(trailer: Trailer, one: BesideMains) -> Remark:
    values = {
        "mains": one.mains.name,
        "chase": one.chase.name,
        "gap": small_down(one.gap_m or 0.0, trailer),
        "limit": measure(one.limit.value * INCH_M, trailer),
        "source": one.limit.source,
    }
    unsaid = one.shared and one.divided is None
    says = UNSAID_SAYS if unsaid else SHARED_SAYS if one.shared else NEAR_SAYS
    return Remark(
        origin=one.mains.fittings.written["carries"],
        message=say(says, **values),
        help=WayOut(say(SHARED_HELP if one.shared else NEAR_HELP, **values), say(CLOSED_HELP)),
        known=one.limit.known,
        basis=say(MAINS_BASIS, **values),
        level=Level.WORTH if unsaid else None,
    )
