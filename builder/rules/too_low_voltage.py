"""A part gets less voltage than it works from.

What: with everything on, what is left of the supply at a part is below the voltage it works from.

Why: a lamp goes dim, a fridge or a heater switches itself off, a relay lets go; and it does so in the cold,
with the battery low.

Limit: the part's ``works from``, or what is usual for its kind at 12 V (common practice). It is a *must fix*
only when the file gives the limit and even a supply of 12.0 V falls short of it (arithmetic on the file); a
shortage when the battery is low is a *should fix*.

Walls open: thicker wire, or a part that works from less.

Walls closed: a part that takes less or works from less, or new wire that stays in sight.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG]}
    parts: {heater: {kind: heater, draws: 5 A, works from: 11.5 V}}
    circuits:
      heater: {path: [heater: 16 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG]}
    parts: {heater: {kind: heater, draws: 5 A, works from: 9.6 V}}
    circuits:
      heater: {path: [heater: 16 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.currents import NOMINAL_V
from builder.electrics.figures import Figures, LoadFigures
from builder.rules.closed_walls import either, new_wire, weaker_for_drop
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.loading import worst_loads
from builder.rules.mending import way_to_less_drop
from builder.rules.wording import is_above, name_of, say, volts, volts_down
from builder.trailer.model import Trailer

NOMINAL_SAYS = "{part} gets {left} of {supply} with everything on, and it works from {limit}"
LOW_SAYS = "{part} gets {left} when its supply is low, at {supply}, with everything on; it works from {limit}"
CIRCUIT_HELP = "use thicker wire for “{circuit}”: size: {size}; or choose a part that works from less"
ITEMS_HELP = (
    "use thicker wire for “{circuit}”: size: {size}, there and at the items that give a size of their own"
)
LAMPS_HELP = "use thicker wire for the road lamps: size: {size} at each item of their paths"
LINE_HELP = (
    "the battery's own line loses too much: size: {size} under battery; or choose a part that works from less"
)
SUPPLY_HELP = "its supply falls to {supply} by itself: choose a part that works from less"
OTHER_HELP = "no thicker wire mends it alone: choose a part that works from less, or a shorter way"
OTHER_CLOSED_HELP = "choose a part that works from less"
SHEET_HELP = "look at its sheet: when it works from less, write that down as works from: {less}; {otherwise}"
FILE_BASIS = "the part's own limit in the file"
USUAL_BASIS = "usual for its kind, common practice"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every part that gets too little when its supply is low, or even at 12.0 V."""
    nominal = {supply.name: supply.nominal_v for supply in figures.supplies}
    for load in worst_loads(figures, lambda load: load.left_v):
        limit_v, supply_v = load.works_from_v, nominal[load.load.section]
        if limit_v is None or (not load.works_from_given and supply_v < NOMINAL_V):
            continue  # what is usual for a kind is usual at 12 V: behind a converter only the sheet knows
        if load.works_from_given and is_above(limit_v, supply_v - load.drop_v):
            yield _remark(trailer, figures, load, (supply_v, limit_v), Level.MUST)
        elif is_above(limit_v, load.left_v):
            yield _remark(trailer, figures, load, (load.lowest_v, limit_v), Level.SHOULD)


def _remark(
    trailer: Trailer, figures: Figures, load: LoadFigures, supply_and_limit: tuple[float, float], level: Level
) -> Remark:
    supply_v, limit_v = supply_and_limit
    return Remark(
        origin=load.load.origin,
        message=say(
            NOMINAL_SAYS if level is Level.MUST else LOW_SAYS,
            part=name_of(load.load),
            left=volts_down(supply_v - load.drop_v),
            supply=volts(supply_v),
            limit=volts(limit_v),
        ),
        help=_way_out(trailer, figures, load, limit_v),
        known="file" if level is Level.MUST else "practice",
        basis=FILE_BASIS if load.works_from_given else USUAL_BASIS,
        level=level,
        circuit=load.load.circuit,
    )


def _way_out(trailer: Trailer, figures: Figures, load: LoadFigures, limit_v: float) -> str | WayOut:
    """Return what brings the voltage at the part above its limit even when the supply is low."""
    if not is_above(load.lowest_v, limit_v):
        return say(SUPPLY_HELP, supply=volts(load.lowest_v))
    way, size = way_to_less_drop(trailer, figures, load, load.lowest_v - limit_v)
    sentences = {
        "circuit": CIRCUIT_HELP,
        "items": ITEMS_HELP,
        "lamps": LAMPS_HELP,
        "line": LINE_HELP,
        "": OTHER_HELP,
    }
    circuit = trailer.circuit(load.load.circuit)
    wire = say(sentences[way], circuit=circuit.name, size=size)
    closed = either(
        weaker_for_drop(trailer, load, load.lowest_v - limit_v),
        new_wire(trailer, size) if size else OTHER_CLOSED_HELP,
    )
    if load.works_from_given:
        return WayOut(wire, closed)
    less = f"{int(load.left_v * 10) / 10:.1f} V"
    return WayOut(*(say(SHEET_HELP, less=less, otherwise=otherwise) for otherwise in (wire, closed)))
