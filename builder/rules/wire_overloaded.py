"""A wire carries more than it bears without getting too hot.

What: with everything on, more current flows through a wire than its table allows for its size, insulation,
surroundings and the wires beside it.

Why: the insulation ages and melts, inside a wall that nobody can open. A fuse above that current does not help.

Limit: 33 CFR 183.425 Table 5 (read). It is a *must fix* when the loads that the file states are above the
table's own figure; it is a *should fix* when they are above it only with the factors for warm surroundings and
for wires side by side, or with loads that are assumed.

Walls open: thicker wire, in the size that is printed. A core of the plug's cable stays as it is: lamps that take
less, or their own draws in place of those that are assumed.

Walls closed: a part that takes less, or new wire that stays in sight.

Failing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 13-pin, to front box: 7 ft}
    road lamps:
      plate lamp: {shows: plate, draws: {plate: 10.5 A}, path: [plate lamp: {length: 2 ft, size: 1 mm²}]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 13-pin, to front box: 7 ft}
    road lamps:
      plate lamp: {shows: plate, draws: {plate: 10.5 A}, path: [plate lamp: {length: 2 ft, size: 2.5 mm²}]}
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.electrics.conductors import ampacity_a
from builder.electrics.figures import Figures, WireFigures
from builder.electrics.groups import basis_of
from builder.rules.closed_walls import either, new_wire, weaker_on_wires
from builder.rules.finding import Remark, WayOut
from builder.rules.loading import stated_on_wire_a
from builder.rules.mending import first_size, is_plug_cable, own_size
from builder.rules.wording import amps, amps_down, amps_up, is_above, say
from builder.tables.table import NoRow
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.parts import Law
from builder.trailer.size import Size
from builder.trailer.wires import Wire

OVER_SAYS = "wire {wire} of “{circuit}” ({size}) carries {load} with everything on, and bears {limit}"
CIRCUIT_HELP = "use thicker wire for “{circuit}”: size: {thicker}"
ITEMS_HELP = (
    "use thicker wire for “{circuit}”: size: {thicker}, there and at the items that give a size of their own"
)
LAMPS_HELP = "use thicker wire for the road lamps: size: {thicker} at each item of their paths"
LINE_HELP = "use thicker wire for the battery's own line: size: {thicker} under battery"
LESS_HELP = "let what hangs on it take less: no wire here bears it"
CORE_LEDS_HELP = (
    "it is a core of the plug's cable, which fixes its size, and {assumed} of this is assumed for filament lamps: "
    "where they are LEDs, write lamps: led under road lamps; else write what each takes, as in draws: {{{what}: 0.5 A}}"
)
CORE_DRAWS_HELP = (
    "it is a core of the plug's cable, which fixes its size, and {assumed} of this is assumed: write what each lamp "
    "takes, from its sheet, as in draws: {{{what}: 0.2 A}}"
)
CORE_HELP = (
    "it is a core of the plug's cable, which fixes its size: let what hangs on it take {less} less, or ask for a cable "
    "that is thicker there"
)
TABLE_BASIS = "{source}"
FACTORS_BASIS = "{source}, × {ambient} for the surroundings, × {bundle} for wires side by side"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each circuit, and one for all road lamps, with a wire above what it bears: the worst off."""
    kinds = {circuit.number: circuit.kind for circuit in trailer.circuits}
    worst: dict[int, Wire] = {}
    for wire in trailer.wires:
        made = figures.wires.get(wire.number)
        if made is not None and is_above(made.current_a, made.ampacity_a):
            group = 0 if kinds[wire.circuit] is CircuitKind.TOW else wire.circuit
            before = worst.get(group)
            if before is None or _share(made) > _share(figures.wires[before.number]):
                worst[group] = wire
    for wire in worst.values():
        yield _remark(trailer, figures, wire)


def _share(made: WireFigures) -> float:
    return made.current_a / made.ampacity_a if made.ampacity_a > 0 else math.inf


def _remark(trailer: Trailer, figures: Figures, wire: Wire) -> Remark:
    made = figures.wires[wire.number]
    circuit = trailer.circuit(wire.circuit)
    beyond = is_above(stated_on_wire_a(trailer, figures, wire.number), made.table_ampacity_a)
    basis = say(
        TABLE_BASIS if beyond else FACTORS_BASIS,
        source=made.ampacity_source,
        ambient=f"{made.ambient_factor:.2f}",
        bundle=f"{made.bundle_factor:.2f}",
    )
    return Remark(
        origin=wire.origin,
        message=say(
            OVER_SAYS,
            wire=wire.number,
            circuit=circuit.name,
            size=made.size,
            load=amps_up(made.current_a),
            limit=amps_down(made.table_ampacity_a if beyond else made.ampacity_a),
        ),
        help=_way_out(trailer, figures, wire),
        known="read" if beyond else "practice",
        basis=basis,
        circuit=circuit.number,
        wires=(wire.number,),
    )


def _way_out(trailer: Trailer, figures: Figures, wire: Wire) -> str | WayOut:
    if is_plug_cable(trailer, wire):
        return _core_way_out(trailer, figures, wire)
    circuit = trailer.circuit(wire.circuit)
    basis = basis_of(trailer)
    most: dict[int, float] = {}
    for made in _made(trailer, figures, wire.circuit):
        most[made.bundle] = max(most.get(made.bundle, 0.0), made.current_a)

    def bears(size: Size) -> bool:
        try:
            limits = {n: ampacity_a(size, basis.insulation_c, basis.ambient_c, n) for n in most}
        except NoRow:
            return False
        return not any(is_above(current_a, limits[n].amps) for n, current_a in most.items())

    thicker = first_size(trailer, [figures.wires[wire.number].size], bears)
    excess_a = max(made.current_a - made.ampacity_a for made in _made(trailer, figures, wire.circuit))
    weaker = weaker_on_wires(trailer, figures, {wire.number}, excess_a)
    if thicker is None or TOW_PLUG in (wire.start.part, wire.end.part):
        return WayOut(LESS_HELP, weaker)
    help_ = ITEMS_HELP if own_size(trailer, wire) else CIRCUIT_HELP
    special = {CircuitKind.TOW: LAMPS_HELP, CircuitKind.BATTERY: LINE_HELP}
    return WayOut(
        say(special.get(circuit.kind, help_), circuit=circuit.name, thicker=thicker),
        either(weaker, new_wire(trailer, thicker)),
    )


def _core_way_out(trailer: Trailer, figures: Figures, wire: Wire) -> str | WayOut:
    """Return the way out for a core of the plug's cable: lamps that are told of or take less, never another size."""
    made = figures.wires[wire.number]
    assumed = [
        (load.current_a, load.load.what, load.load.draw.law)
        for circuit in figures.circuits.values()
        for load in circuit.loads
        if load.load.draw is not None
        and load.load.draw.assumption
        and wire.number in {step.wire for step in load.steps}
    ]
    if assumed:
        help_ = CORE_LEDS_HELP if any(law is Law.RESISTANCE for _, _, law in assumed) else CORE_DRAWS_HELP
        total_a = sum(current_a for current_a, _, _ in assumed)
        return say(help_, assumed=amps(total_a), what=max(assumed)[1])
    excess_a = made.current_a - made.ampacity_a
    less = say(CORE_HELP, less=amps_up(excess_a))
    return WayOut(less, weaker_on_wires(trailer, figures, {wire.number}, excess_a))


def _made(trailer: Trailer, figures: Figures, circuit: int) -> list[WireFigures]:
    return [figures.wires[wire.number] for wire in trailer.wires if wire.circuit == circuit]
