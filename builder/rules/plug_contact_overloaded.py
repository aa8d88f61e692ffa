"""More is taken from a contact of the tow plug than the car's fuse for it usually carries.

What: with everything on, the current at a contact is above the usual fuse in the car. The manual's page for the
garage lists what each contact carries, and its usual fuse.

Why: the car's fuse opens on the road, and with it go lamps or charging; or the contact gets hot.

Limit: the usual fuse of each contact (common practice; for the two supply contacts of the 13-pin plug at most
20 A). Which fuse sits in a car, its own manual says.

Failing example::

    format: 1
    build: {name: Example, country: DE}
    battery: {chemistry: lithium, capacity: 60 Ah, to main fuse: 12 cm, to front box: 60 cm}
    front box: {fuse ways: 4}
    tow plug: {pattern: 13-pin, to front box: 2 m}
    parts: {heater: {kind: heater, draws: 21 A}}
    circuits:
      heater: {from: tow plug battery, size: 10 mm², path: [line fuse: 12 cm, heater: 1 m]}

Passing example::

    format: 1
    build: {name: Example, country: DE}
    battery: {chemistry: lithium, capacity: 60 Ah, to main fuse: 12 cm, to front box: 60 cm}
    front box: {fuse ways: 4}
    tow plug: {pattern: 13-pin, to front box: 2 m}
    parts: {heater: {kind: heater, draws: 16 A}}
    circuits:
      heater: {from: tow plug battery, size: 10 mm², path: [line fuse: 12 cm, heater: 1 m]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.wording import amps, amps_up, is_above, say
from builder.trailer.model import Trailer

CONTACT_SAYS = (
    "contact {contact} of the tow plug ({function}) gives {load}: the car's usual fuse is {most} at most"
)
CONTACT_HELP = "let what hangs on it take {most} at most, and look up the fuse in the car's own manual"
CONTACT_BASIS = "the usual fuse in the car, common practice"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every contact from which more is taken than its usual fuse in the car carries."""
    if trailer.tow_plug is None:
        return
    usual = {contact.pin: contact.car_fuse_a for contact in trailer.tow_plug.pattern.contacts}
    for contact in figures.plug:
        range_a = usual[contact.pin]
        if range_a is None or contact.circuit is None or not is_above(contact.current_a, range_a[1]):
            continue
        yield Remark(
            origin=trailer.circuit(contact.circuit).origin,
            message=say(
                CONTACT_SAYS,
                load=amps_up(contact.current_a),
                contact=trailer.tow_plug.said(contact.pin),
                function=contact.function,
                most=amps(range_a[1]),
            ),
            help=say(CONTACT_HELP, most=amps(range_a[1])),
            known="practice",
            basis=CONTACT_BASIS,
            circuit=contact.circuit,
        )
