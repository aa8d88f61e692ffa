"""A part loses more voltage on its wires than is advised.

What: the drop from the supply to a part and back, everything on, is above the share that is advised for its
kind.

Why: lamps are dim, pumps and chargers weak, and heat is made in the walls.

Limit: 3 % for pumps, chargers, fridges and other parts that matter, 10 % for lamps and fans (ABYC E-11
11.14.2.6, quoted): advice for boats, a sound habit for trailers.

Walls open: thicker wire, in the size that is printed.

Walls closed: a part that takes less, or new wire that stays in sight; what is in the wall stays.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG]}
    parts: {water pump: {kind: pump, draws: 3.5 A}}
    circuits:
      water pump: {path: [water pump: 14 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG]}
    parts: {water pump: {kind: pump, draws: 3.5 A}}
    circuits:
      water pump: {path: [water pump: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures, LoadFigures
from builder.rules.closed_walls import either, new_wire, weaker_for_drop
from builder.rules.finding import Remark, WayOut
from builder.rules.loading import worst_loads
from builder.rules.mending import way_to_less_drop
from builder.rules.wording import is_above, name_of, percent_up, say, volts
from builder.trailer.model import Trailer

DROP_SAYS = "{part} loses {lost} on its wires, {percent}: {advice} is advised"
CIRCUIT_HELP = "use thicker wire for “{circuit}”: size: {size}"
ITEMS_HELP = (
    "use thicker wire for “{circuit}”: size: {size}, there and at the items that give a size of their own"
)
LAMPS_HELP = "use thicker wire for the road lamps: size: {size} at each item of their paths"
LINE_HELP = "the battery's own line loses too much of it: size: {size} under battery"
OTHER_HELP = "no thicker wire mends it alone: choose a part that takes less, or a shorter way"
DROP_BASIS = "ABYC E-11 11.14.2.6"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every part whose drop is above the advice for its kind."""
    for load in worst_loads(figures, lambda load: -load.drop_percent):
        if load.advice_percent is not None and is_above(load.drop_percent, load.advice_percent):
            yield _remark(trailer, figures, load, load.advice_percent)


def _remark(trailer: Trailer, figures: Figures, load: LoadFigures, advice_percent: float) -> Remark:
    most_v = load.drop_v / load.drop_percent * advice_percent
    circuit = trailer.circuit(load.load.circuit)
    way, size = way_to_less_drop(trailer, figures, load, most_v)
    sentences = {
        "circuit": CIRCUIT_HELP,
        "items": ITEMS_HELP,
        "lamps": LAMPS_HELP,
        "line": LINE_HELP,
        "": OTHER_HELP,
    }
    closed = either(weaker_for_drop(trailer, load, most_v), new_wire(trailer, size) if size else "")
    return Remark(
        origin=load.load.origin,
        message=say(
            DROP_SAYS,
            part=name_of(load.load),
            lost=volts(load.drop_v),
            percent=percent_up(load.drop_percent),
            advice=f"{advice_percent:g} %",
        ),
        help=WayOut(say(sentences[way], circuit=circuit.name, size=size), closed),
        known="quoted",
        basis=DROP_BASIS,
        circuit=circuit.number,
    )
