"""A lamp strip is longer than its own copper bears.

What: a strip that is sold by length loses voltage along itself. At its far end less is left than it works from
when the battery is low, or more is lost, its wires included, than is advised for lamps.

Why: the far end is dim, or another colour, or goes dark in the cold. Thicker wire to the strip does not help: the
copper is in the strip.

Limit: current flows out of a strip all along it, so the far end loses half of what the whole current would lose
(arithmetic on the file). What the copper loses is assumed, 2 % of 12 V for 1 A along 1 m (common practice), since
sheets seldom tell it. Less at the far end than ``works from``, or than is usual, with the battery low is a *should
fix*; more than 10 % lost (ABYC E-11 11.14.2.6, quoted) is worth knowing.

Walls open: two strips, each with a wire of its own.

Walls closed: a shorter strip, or one that takes less.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {strip: {kind: lamp, draws: 3 W per ft, lit length: 18 ft}}
    circuits:
      strip: {path: [strip: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {strip: {kind: lamp, draws: 3 W per ft, lit length: 8 ft}}
    circuits:
      strip: {path: [strip: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator
from math import floor, sqrt

from builder.electrics.currents import NOMINAL_V
from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.strips import strip_loss_v
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.guarding import METRES_PER_INCH
from builder.rules.wording import is_above, length, percent_up, say, volts, volts_down
from builder.trailer.assumed import assumption
from builder.trailer.model import Trailer
from builder.trailer.parts import STRIP_LOSS, Part

DARK_SAYS = (
    "the far end of “{part}” gets {left} when its supply is low, and works from {limit}: {lost} of it is lost along "
    "the strip"
)
DIM_SAYS = "the far end of “{part}” loses {percent}, on its wires and along the strip: {advice} is advised"
SHORTER_HELP = "part it in two or more, each with a wire of its own, and with lit length: {most} at most"
SHORTER_CLOSED_HELP = "shorten it, lit length: {most} at most, or choose a strip that takes less"
OTHER_HELP = "choose a strip that takes less, or one for a higher voltage"
STRIP_BASIS = "{loss} of 12 V lost for 1 A along 1 m of a strip, assumed; {source}"
FILE_SOURCE_BASIS = "what the part works from"
ADVICE_SOURCE_BASIS = "ABYC E-11 11.14.2.6"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every strip whose far end gets too little, while its near end gets enough."""
    for circuit in figures.circuits.values():
        for load in circuit.loads:
            part = trailer.parts.get(load.load.part)
            if part is not None and part.lit_length_m is not None and not load.load.what:
                remark = _remark(trailer, load, part, part.lit_length_m)
                if remark is not None:
                    yield remark


def _remark(trailer: Trailer, load: LoadFigures, part: Part, lit_m: float) -> Remark | None:
    loss_percent = assumption(trailer, STRIP_LOSS).value
    lost_v = strip_loss_v(trailer, load.load, load.current_a)
    nominal_v = 100.0 * load.drop_v / load.drop_percent if load.drop_percent else NOMINAL_V
    # what may still be lost along the strip: down to what it works from, and up to the advice
    room_v = [
        load.left_v - load.works_from_v if load.works_from_v is not None else lost_v,
        ((load.advice_percent or 100.0) - load.drop_percent) / 100.0 * nominal_v,
    ]
    broken = next((place for place, room in enumerate(room_v) if room > 0 and is_above(lost_v, room)), None)
    if broken is None:
        return None  # or too little reaches the near end already: that is a rule of its own
    most_m = lit_m * sqrt(min(room for room in room_v if room > 0) / lost_v)
    values = {
        "part": part.name,
        "left": volts_down(load.left_v - lost_v),
        "limit": volts(load.works_from_v or 0.0),
        "lost": volts(lost_v),
        "percent": percent_up(load.drop_percent + 100.0 * lost_v / nominal_v),
        "advice": f"{load.advice_percent or 0.0:g} %",
        "most": _down(most_m, trailer),
        "loss": f"{loss_percent:g} %",
        "source": (FILE_SOURCE_BASIS, ADVICE_SOURCE_BASIS)[broken],
    }
    return Remark(
        origin=part.origin,
        message=say((DARK_SAYS, DIM_SAYS)[broken], **values),
        help=WayOut(say(SHORTER_HELP, **values), say(SHORTER_CLOSED_HELP, **values))
        if most_m > 12 * METRES_PER_INCH
        else OTHER_HELP,
        known="practice",
        basis=say(STRIP_BASIS, **values),
        level=(Level.SHOULD, Level.WORTH)[broken],
        circuit=load.load.circuit,
    )


def _down(metres: float, trailer: Trailer) -> str:
    """Return a length rounded down, to half a foot or a tenth of a metre: the loss is known no better."""
    step_m = 6 * METRES_PER_INCH if trailer.identity.units == "feet" else 0.1
    return length(floor(metres / step_m + 1e-6) * step_m, trailer)
