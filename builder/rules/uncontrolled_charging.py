"""A battery is charged with nothing between that ends the charge.

What: a path runs from a solar module to the battery without a charge controller, or from the car to a lithium
battery without a DC charger or a limiter.

Why: nothing holds the voltage. A module boils a lead battery dry; a lithium battery takes all that the car's
alternator and the wire can give, and its own protection is the last thing that stops it.

Limit: common practice, and what makers of batteries write on their sheets.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts:
      module: {kind: solar module, gives: 50 W}
      roof box: {kind: switch}
    circuits:
      sun: {from: module, path: [roof box: 8 ft, battery fuse: 1 ft, battery: 6 in]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts:
      module: {kind: solar module, gives: 50 W}
      roof box: {kind: charge controller}
    circuits:
      sun: {from: module, path: [roof box: 8 ft, battery fuse: 1 ft, battery: 6 in]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.charging import held_in_check
from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.wording import say
from builder.trailer.model import TOW_PLUG, Trailer

MODULE_SAYS = "“{circuit}” charges the battery straight from “{supply}”: no charge controller ends the charge"
MODULE_HELP = (
    "put one on its path, as in path: [controller: 8 ft, …], with controller: {{kind: charge controller}}"
)
CAR_SAYS = (
    "“{circuit}” charges a lithium battery straight from the car: no DC charger or limiter holds it down"
)
CAR_HELP = (
    "put one on its path, as in path: [charger: 8 ft, …], with charger: {{kind: dc charger}}, or limiter: "
    "{{kind: charge limiter, rating: 10 A}}"
)
CHARGE_BASIS = "common practice; the battery's own sheet decides"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every circuit that charges the battery without a charger where one is needed."""
    for circuit in figures.circuits.values():
        for load in circuit.loads:
            supply = load.load.charged_from
            if supply and not held_in_check(trailer, load.load):
                on_the_car = supply.startswith(TOW_PLUG)
                sentences = (CAR_SAYS, CAR_HELP) if on_the_car else (MODULE_SAYS, MODULE_HELP)
                name = trailer.circuit(circuit.number).name
                yield Remark(
                    origin=load.load.origin,
                    message=say(sentences[0], circuit=name, supply=supply),
                    help=say(sentences[1]),
                    known="practice",
                    basis=CHARGE_BASIS,
                    circuit=circuit.number,
                )
