"""The breakaway battery is missing, or too small to hold the brakes.

What: the file has electric brakes, and the battery that brakes when the trailer breaks away is not in it or holds less
than the magnets take.

Why: a trailer that comes loose is stopped by this battery alone; a fuse, a long wire or an old battery take their share
too.

Limit: 15 minutes at full current (49 CFR 393.43(d), which holds for commercial trailers, as a digest of state law has
it, quoted). Usual are 5 to 7 Ah (common practice). Local rules on brakes come first; setting and testing brakes is
the work of people trained for it.

Failing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 7-way blade, to front box: 7 ft}
    brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 1.5 Ah}
    parts: {left brake: {kind: brake magnet}, right brake: {kind: brake magnet}}
    circuits:
      brakes: {from: tow plug brake, size: 10 AWG, path: [left brake: 12 ft, right brake: 5 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 7-way blade, to front box: 7 ft}
    brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}
    parts: {left brake: {kind: brake magnet}, right brake: {kind: brake magnet}}
    circuits:
      brakes: {from: tow plug brake, size: 10 AWG, path: [left brake: 12 ft, right brake: 5 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.wording import is_above, say
from builder.trailer.model import Trailer

SMALL_SAYS = (
    "the breakaway battery holds {given} Ah; the brakes take {needed} Ah in the {minutes} minutes of a stop"
)
NONE_SAYS = (
    "the trailer has electric brakes, and the file names no battery that brakes it when it breaks away"
)
BATTERY_HELP = "write breakaway battery: {least} Ah or more under brakes; 5 to 7 Ah is usual"
BASIS = "15 minutes, 49 CFR 393.43(d) as a digest of state law has it; local rules on brakes come first"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark when the breakaway battery is not in the file or holds less than the brakes take."""
    brakes, found = trailer.brakes, figures.brakes
    if brakes is None or found is None:
        return
    if found.given_ah is not None and not is_above(found.needed_ah, found.given_ah):
        return
    least = max(5, ceil(found.needed_ah))
    yield Remark(
        origin=brakes.origin,
        message=say(NONE_SAYS)
        if found.given_ah is None
        else say(
            SMALL_SAYS,
            given=f"{found.given_ah:g}",
            needed=f"{ceil(found.needed_ah * 10) / 10:g}",
            minutes=f"{found.hold_min:g}",
        ),
        help=say(BATTERY_HELP, least=least),
        known="quoted",
        basis=BASIS,
    )
