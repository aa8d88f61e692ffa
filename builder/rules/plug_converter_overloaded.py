"""A lamp circuit of the tow plug takes more than many cars can give to it.

What: this plug has stop and turn on one wire a side. Many cars have them on wires of their own, and a small box, the
converter, joins them for the plug. With everything on, a lamp contact here takes more than such a box gives. Fewer
lamps, or LED lamps, bring it down.

Why: such a car shuts the circuit off, or the converter fails, and with it all that hangs on this contact.

Limit: up to 4 A a circuit through the converter of a car with separate stop and turn lamps, by a maker of towing
equipment (quoted). A car that is wired for it gives more: up to 7.5 A a circuit. What the car at hand gives, its own
manual says.

Failing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps:
      lamps: filament
      rear lamp: {shows: [tail, stop, turn], side: both, draws: {tail: 2.1 A}, wire: 17 ft}

Passing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps:
      lamps: filament
      rear lamp: {shows: [tail, stop, turn], side: both, draws: {tail: 2.0 A}, wire: 17 ft}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Level, Remark
from builder.rules.wording import amps, amps_up, is_above, say
from builder.tables.plug_limits import plug_circuit_limit
from builder.trailer.model import Trailer
from builder.trailer.plug_functions import functions_said

CONVERTER_SAYS = (
    "contact {contact} of the tow plug ({function}) gives {load}: a car that feeds this plug through a converter gives "
    "{most} at most"
)
PLUG_SAYS = (
    "contact {contact} of the tow plug ({function}) gives {load}: a car wired for this plug gives {most} a circuit at "
    "most"
)
LED_HELP = "fit LED lamps, or fewer: {most} a contact at most"
BASIS = "{source}; what the car at hand gives, its own manual says"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every lamp contact beyond what a converter gives, or beyond what any car gives."""
    plug = trailer.tow_plug
    if plug is None or all("left stop" not in contact.functions for contact in plug.pattern.contacts):
        return
    converter = plug_circuit_limit("car with stop and turn apart")
    wired = plug_circuit_limit("car with stop and turn on one wire")
    for state in figures.plug_states:
        contact = plug.pattern.contact(state.pin)
        load = state.amps["everything"]
        if state.estimate_a is None or contact.is_ground or not is_above(load, converter.value):
            continue
        beyond = is_above(load, wired.value)
        limit = wired if beyond else converter
        yield Remark(
            origin=plug.origin,
            message=say(
                PLUG_SAYS if beyond else CONVERTER_SAYS,
                contact=contact.said,
                function=functions_said(trailer, contact),
                load=amps_up(load),
                most=amps(limit.value),
            ),
            help=say(LED_HELP, most=amps(limit.value)),
            known=limit.known,
            basis=say(BASIS, source=limit.source),
            level=Level.SHOULD if beyond else None,
        )
