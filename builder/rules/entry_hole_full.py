"""A hole of the front box holds more wire than it should.

What: the wires that leave the front box through a hole take a larger share of it than the table for conduits allows
for as many, or they do not go through at all.

Why: wires that are forced through a hole tear their insulation at its edge, and there is no room for one more.

Limit: NEC Chapter 9 Table 1: 53 % of the area for one wire (read), 31 % for two (read), 40 % for three and more
(quoted), with the outside diameters that the file gives, else those of makers' data sheets (quoted). The table is for
conduits; to take it for a hole is common practice. Above 100 %, or where one wire is as thick as the hole, it is a
*must fix* (arithmetic on the file). The jacket of a cable is not counted.

Walls open: a wider hole, or a second one.

Walls closed: a second hole, for what can be drawn back into the box.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG]}
    entry holes: {left hole: {bore: 1/4 in, takes: lamp}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG]}
    entry holes: {left hole: {bore: 3/8 in, takes: lamp}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.entry_holes import HoleFill
from builder.electrics.figures import Figures
from builder.rules.covering import bore_up
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import is_above, percent_up, say
from builder.trailer.landing_points import EntryHole
from builder.trailer.model import Trailer

FULL_SAYS = "{count} wires take {share} of “{hole}”, and the table allows {limit}"
ONE_FULL_SAYS = "one wire takes {share} of “{hole}”, and the table allows {limit}"
OVER_SAYS = "the wires of “{hole}” do not go through it: they take {share} of its area"
FULL_HELP = (
    "bore it wider, for a grommet of {bore} inside at least, or make a second hole, and name what goes through that "
    "under takes; through this one go {wires}"
)
FULL_CLOSED_HELP = (
    "make a second hole in the box, draw back what can be drawn back of {wires}, put it through that one, and name it "
    "there under takes"
)
FULL_BASIS = "{source}, for conduits; outside diameters of the file, else from makers' data sheets"
ALL = 100.0


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each hole that is too full."""
    for hole, one in zip(trailer.holes, figures.entries.holes, strict=True):
        if one.fill_percent is not None and is_above(one.fill_percent, one.limit_percent):
            yield _remark(trailer, hole, one, one.fill_percent)


def _remark(trailer: Trailer, hole: EntryHole, one: HoleFill, share: float) -> Remark:
    beyond = share > ALL or one.thickest_mm >= one.bore_mm
    values = {
        "count": len(one.wires),
        "hole": hole.name,
        "share": percent_up(share),
        "limit": f"{one.limit_percent:g} %",
        "bore": bore_up(one.bore_mm * (share / one.limit_percent) ** 0.5, trailer),
        "wires": ", ".join(one.wires),
    }
    says = OVER_SAYS if beyond else FULL_SAYS if len(one.wires) > 1 else ONE_FULL_SAYS
    return Remark(
        origin=hole.bore_origin,
        message=say(says, **values),
        help=WayOut(say(FULL_HELP, **values), say(FULL_CLOSED_HELP, **values)),
        known="quoted",
        basis=say(FULL_BASIS, source=one.limit_source),
        level=Level.MUST if beyond else None,
    )
