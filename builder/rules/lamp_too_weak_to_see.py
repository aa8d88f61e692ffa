"""A car may take a lamp of the trailer for a dead one, because it draws so little.

What: a turn or stop lamp draws less than what cars with a lamp check look for.

Why: the car then warns of a dead lamp, flashes twice as fast, or does not see the trailer at all.

Limit: 30 mA, the least that a standardised LED in place of a small bulb must draw to read as healthy (GRE-81-04,
quoted); some cars look for more (common practice). Load resistors cure it and grow hot enough to burn: they belong on
metal, never on wood, foam, plastic or cable.

Failing example::

    format: 1
    build: {name: Example, country: DE}
    tow plug: {pattern: 13-pin, to front box: 2 m}
    road lamps:
      lamps: led
      rear lamp: {shows: turn, side: left, draws: {turn: 25 mA}, wire: 5 m}

Passing example::

    format: 1
    build: {name: Example, country: DE}
    tow plug: {pattern: 13-pin, to front box: 2 m}
    road lamps:
      lamps: led
      rear lamp: {shows: turn, side: left, draws: {turn: 30 mA}, wire: 5 m}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.wording import is_above, say
from builder.tables.plug_limits import LED_SEEN_A
from builder.trailer.model import Trailer
from builder.trailer.plug_functions import functions_said

WEAK_SAYS = (
    "contact {contact} of the tow plug ({function}) draws {load}: a car that checks its lamps may call it dead, for it "
    "looks for {least}"
)
WEAK_HELP = "fit lamps that draw {least} or more in all, or ask the car's maker for a trailer module that needs no load"
BASIS = "GRE-81-04, for a LED in place of a 5 W bulb; a car may look for more"
SIGNALS = ("stop", "left turn", "right turn", "left stop", "right stop")


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every signal contact whose lamps draw less than a car's lamp check looks for."""
    plug = trailer.tow_plug
    if plug is None:
        return
    for state in figures.plug_states:
        contact = plug.pattern.contact(state.pin)
        load = state.amps["everything"]
        if not set(contact.functions).intersection(SIGNALS) or not is_above(LED_SEEN_A, load):
            continue
        yield Remark(
            origin=plug.origin,
            message=say(
                WEAK_SAYS,
                contact=contact.said,
                function=functions_said(trailer, contact),
                load=f"{load * 1000:.0f} mA",
                least=f"{LED_SEEN_A * 1000:.0f} mA",
            ),
            help=say(WEAK_HELP, least=f"{LED_SEEN_A * 1000:.0f} mA"),
            known="quoted",
            basis=BASIS,
        )
