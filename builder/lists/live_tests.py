"""Tests with a supply: the battery, each circuit, the road lamps, and what charges."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from builder.electrics.charging import limits
from builder.electrics.conductors import voltage_drop_v
from builder.electrics.energy import HALF
from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.fusing import fuse_spots
from builder.electrics.network import OUT, sections_up
from builder.lists.states import Switching
from builder.lists.testing import SAME_V, Act, Group, Kind, Line, Step
from builder.lists.waiting import Waiting
from builder.trailer.assumed import assumption
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import (
    BATTERY,
    BATTERY_MINUS,
    BATTERY_PLUS,
    FRONT_BOX,
    GROUND_BAR,
    SUPPLY_BAR,
    Trailer,
)
from builder.trailer.parts import HAND_WORKED, Form, Terminal
from builder.trailer.wires import BREAKAWAY, Role, Section

_MEASURED = ("", "input", BREAKAWAY)
"""Loads whose voltage is measured: the part itself by either supply, and the input of a converter, no idle draw.

A coil is measured where its circuit feeds nothing else: else the loads that it switches tell of it.
"""


_UNSEEN = ("idle", "own draw")
"""What a part takes for itself is no part that is on."""


def battery_tests(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield the tests once the battery is joined: its voltage, then the line to the box, then what flows at rest."""
    if trailer.battery is None or figures.energy is None:
        return
    half_v = dict(figures.energy.kind.rest).get(HALF)
    kind = Kind.BATTERY if half_v is None else Kind.RESTED
    # without a table for its kind: under this voltage it is empty, at rest as well as at work
    lowest_v = next(supply.lowest_v for supply in figures.supplies if supply.name == BATTERY)
    least_v = lowest_v if half_v is None else half_v
    poles = (BATTERY_PLUS, BATTERY_MINUS)
    yield Line(Group.BATTERY, kind, None, *poles, "V", least=least_v, part=BATTERY)
    line = trailer.battery_line
    stops = [stop.part for stop in line.stops] if line else []
    if FRONT_BOX not in stops or Waiting(trailer, figures).battery_line:
        return
    isolator = next((name for name in stops if _kind(trailer, name) == "isolating switch"), "")
    if isolator:
        yield Line(Group.BATTERY, Kind.ISOLATED, None, SUPPLY_BAR, GROUND_BAR, "V", most=0.0, part=isolator)
    yield Line(Group.BATTERY, Kind.SUPPLIED, None, SUPPLY_BAR, GROUND_BAR, "V", below=SAME_V, part=isolator)
    yield _idle(Kind.IDLE, figures.energy.idle_a, figures.energy.idle_parts)
    if isolator:
        yield _idle(Kind.IDLE_OFF, figures.energy.off_a, figures.energy.off_parts, isolator)


def _idle(kind: Kind, about_a: float, parts: tuple[str, ...], isolator: str = "") -> Line:
    return Line(Group.BATTERY, kind, unit="A", about=about_a, parts=parts, part=isolator)


def _kind(trailer: Trailer, name: str) -> str:
    part = trailer.parts.get(name)
    return part.kind if part else ""


def charges(figures: Figures, circuit: Circuit) -> bool:
    """Tell whether a circuit charges the battery."""
    return any(load.load.charged_from for load in figures.circuits[circuit.number].loads)


def circuit_tests(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield the tests of every circuit that feeds something, circuit by circuit; first what their supplies show."""
    circuits = [
        circuit
        for circuit in trailer.circuits
        if circuit.kind in (CircuitKind.HOUSE, CircuitKind.FROM) and not charges(figures, circuit)
    ]
    waits, switching = Waiting(trailer, figures), Switching(trailer, figures)
    made = [test for circuit in circuits for test in _circuit(trailer, figures, circuit, waits, switching)]
    used = {test.supply for test in made}
    for section in trailer.sections:
        if section.name in used and not section.fed_by:
            yield Line(
                Group.CIRCUIT, Kind.SUPPLY, None, section.plus, section.minus, "V", supply=section.name
            )
    yield from made


def _feed_joints_v(trailer: Trailer, load: LoadFigures) -> float:
    """Return what fuse, switch and joints of a load's feed may lose beyond its wires, as the guides allow it."""
    starts = {wire.number: wire.start for wire in trailer.wires if wire.role in OUT}
    passed = [starts[step.wire] for step in load.steps if step.wire in starts]
    parts = [trailer.parts[start.part].form for start in passed if start.part in trailer.parts]
    contact = any(form in (Form.GATE, Form.TRAVELLER, Form.RELAY) for form in parts)
    in_box = any(start.pin.startswith("way ") and start.part == FRONT_BOX for start in passed)
    return assumption(
        trailer, "drop allowed at a switch" if contact or in_box else "drop allowed in a feed"
    ).value


def _return_joints_v(trailer: Trailer) -> float:
    """Return what the joints of a return may lose beyond its wires, as the guides allow it."""
    return assumption(trailer, "drop allowed in a return").value


def _circuit(
    trailer: Trailer, figures: Figures, circuit: Circuit, waits: Waiting, switching: Switching
) -> Iterator[Line]:
    loads = figures.circuits[circuit.number].loads
    there = [load for load in loads if not waits(load)]
    coils = [load for load in there if load.load.what == "coil"]
    measured = [load for load in there if load.load.what in _MEASURED] or coils
    if not measured:
        return
    for switch, works in _switches(trailer, circuit, there):
        yield Line(Group.CIRCUIT, Kind.WORKS, circuit.number, part=switch, parts=works)
    volts = {section.name: section.volts for section in trailer.sections}
    for load in measured:
        on = switching.on_with(load)
        lost_v = sum(_own_drops_v(load, on, ()).values())
        below_v = lost_v + _feed_joints_v(trailer, load) + _return_joints_v(trailer)
        supply = load.load.section
        also = (
            one.load.part for one in on if one.load.what not in _UNSEEN and one.load.part != load.load.part
        )
        yield Line(
            Group.CIRCUIT,
            Kind.VOLTAGE,
            circuit.number,
            load.load.plus,
            load.load.minus,
            "V",
            least=max(0.0, volts[supply] - below_v),
            most=volts[supply],
            below=below_v,
            current_a=load.current_a,
            part=load.load.part,
            supply=supply,
            parts=tuple(dict.fromkeys(also)),
        )
    yield from _drops(trailer, Group.CIRCUIT, circuit.number, measured, there)
    yield from _fuses_out(trailer, circuit, measured)


def _fuses_out(trailer: Trailer, circuit: Circuit, loads: Sequence[LoadFigures]) -> Iterator[Line]:
    """Yield for every fuse of a circuit what must stop when it is taken out: all that is fed through it."""
    found: list[Line] = []
    for spot in fuse_spots(trailer):
        if spot.circuit.number != circuit.number or spot.device != "fuse":
            continue
        behind = {wire.number for wire in trailer.wires if wire.start == spot.terminal}
        stops = [one.load.part for one in loads if behind.intersection(s.wire for s in one.steps)]
        stops += _fed_by(trailer, stops)
        if stops:
            parts = tuple(dict.fromkeys(stops))
            found.append(Line(Group.CIRCUIT, Kind.FUSE_OUT, circuit.number, fuse=spot.name, parts=parts))
    for line in found[:-1]:
        # with it out the next fuse would stop nothing
        yield replace(line, steps=(Step(Act.FUSES_IN, (line.fuse,)),))
    yield from found[-1:]


def _fed_by(trailer: Trailer, parts: Sequence[str]) -> list[str]:
    """Return what the converters among some parts feed, and what the converters among those feed in turn."""
    return [
        load.part
        for load in trailer.loads
        if load.what in _MEASURED
        and not trailer.parts[load.part].waiting
        and any(one.fed_by in parts for one in sections_up(trailer, load.section) if one.fed_by)
    ]


def _switches(
    trailer: Trailer, circuit: Circuit, loads: Sequence[LoadFigures]
) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield each switch of a circuit with the parts whose current it passes; a part with its own switch is one."""
    starts = {wire.number: wire.start.part for wire in trailer.wires}
    for name in dict.fromkeys(stop.part for stop in circuit.stops):
        part = trailer.parts.get(name)
        if part is None:
            continue
        if part.kind in HAND_WORKED:
            works = [
                load.load.part
                for load in loads
                if load.load.what not in ("idle", "own draw") and name in {starts[s.wire] for s in load.steps}
            ]
            works += _fed_by(trailer, works)
            if works:
                yield name, tuple(dict.fromkeys(works))
        elif part.own_switch and not part.waiting:
            yield name, (name,)


def _drops(
    trailer: Trailer, group: Group, circuit: int, loads: Sequence[LoadFigures], on: Sequence[LoadFigures]
) -> Iterator[Line]:
    """Yield the drop along feed and return of the load that loses most, wires of the battery's own line left out.

    ``on`` is all that is on while it is measured: of the whole trailer this circuit, or this contact, alone.
    """
    wires = {wire.number: wire for wire in trailer.wires}
    line = trailer.battery_line
    left_out = {number for number, wire in wires.items() if line is not None and wire.circuit == line.number}
    worst = max(loads, key=lambda load: sum(_own_drops_v(load, on, left_out).values()), default=None)
    if worst is None:
        return
    own_v = _own_drops_v(worst, on, left_out)
    feeds = [number for number in own_v if wires[number].role is not Role.RETURN]
    returns = [number for number in own_v if wires[number].role is Role.RETURN]
    if feeds:
        start = wires[feeds[0]].start
        # a probe on the bar before the fuse takes in the fuse and its holder
        red = SUPPLY_BAR if start.part == FRONT_BOX and start.pin.startswith("way ") else start
        at_fuse = _kind(trailer, red.part) in ("fuse", "breaker")
        test = Line(group, Kind.FEED_DROP, circuit, red, worst.load.plus, wire=feeds[0] if at_fuse else "")
        yield _drop(test, worst, sum(own_v[number] for number in feeds), _feed_joints_v(trailer, worst))
    if returns:
        test = Line(group, Kind.RETURN_DROP, circuit, worst.load.minus, wires[returns[-1]].end)
        yield _drop(test, worst, sum(own_v[number] for number in returns), _return_joints_v(trailer))


def _own_drops_v(load: LoadFigures, on: Sequence[LoadFigures], left_out: Collection[str]) -> dict[str, float]:
    """Return what each wire of a load's path loses in volts with some loads on and all others off, in its order.

    Source: Ohm's and Kirchhoff's laws, as in `builder.electrics.drops`.
    """
    used = [(one.current_a, {step.wire for step in one.steps}) for one in on]
    return {
        step.wire: voltage_drop_v(sum(a for a, wires in used if step.wire in wires), step.resistance_ohm)
        for step in load.steps
        if step.wire not in left_out
    }


def _drop(test: Line, load: LoadFigures, wires_v: float, joints_v: float) -> Line:
    """Return a test with what its wires lose by the figures, and the most that wires and joints may lose."""
    return replace(
        test,
        unit="V",
        about=wires_v,
        most=wires_v + joints_v,
        current_a=load.current_a,
        part=load.load.part,
        supply=load.load.section,
    )


def road_tests(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield the tests of the road lamps by contact of the plug: which lamps shine, and the worst lamp's two drops.

    A contact takes what its lamps take that are there, in amperes: the sum of their currents (Kirchhoff).
    """
    if trailer.tow_plug is None:
        return
    waits = Waiting(trailer, figures)
    for circuit in trailer.circuits:
        if circuit.kind is not CircuitKind.TOW or circuit.contact is None:
            continue
        loads = [load for load in figures.circuits[circuit.number].loads if not waits(load)]
        if not loads:
            continue
        section = next(s for s in trailer.sections if s.name == loads[0].load.section)
        yield Line(
            Group.ROAD,
            Kind.LAMPS,
            circuit.number,
            circuit.start,
            section.minus,
            "A",
            about=sum(load.current_a for load in loads),
            parts=tuple(dict.fromkeys(load.load.part for load in loads)),
        )
        yield from _drops(trailer, Group.ROAD, circuit.number, loads, loads)


def charging_tests(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield the tests of every circuit that charges the battery: its source, its current, and the voltage."""
    waits = Waiting(trailer, figures)
    for circuit in trailer.circuits:
        for load in figures.circuits[circuit.number].loads:
            if not load.load.charged_from or waits.charge(load):
                continue
            section = next(s for s in trailer.sections if s.name == load.load.section)
            source = _source(trailer, circuit, section.fed_by)
            number = circuit.number
            yield Line(Group.CHARGING, Kind.SOURCE, number, *source, "V", part=source[0].part)
            most_a = _most_charge_a(figures, load)
            wire = load.steps[0].wire if load.steps else ""
            yield Line(
                Group.CHARGING, Kind.CHARGE, number, unit="A", most=most_a, part=section.name, wire=wire
            )
            poles = (BATTERY_PLUS, BATTERY_MINUS) if trailer.battery else (load.load.plus, load.load.minus)
            most_v = _most_charge_v(trailer, section)
            yield Line(Group.CHARGING, Kind.RISES, number, *poles, "V", most=most_v, part=section.name)


def _most_charge_a(figures: Figures, load: LoadFigures) -> float:
    """Return the most current in amperes of a way to charge: the high end of what the battery's page tells."""
    ways = figures.energy.charging if figures.energy else ()
    own = (way for way in ways if way.circuit == load.load.circuit)
    highs = [way.current_a[1] for way in own if (way.charger or way.supply) == load.load.charged_from]
    return max(highs, default=load.current_a)


def _most_charge_v(trailer: Trailer, section: Section) -> float | None:
    """Return the voltage that a charger does not pass: its own as stated, or the high end of what is assumed."""
    part = trailer.parts.get(section.name)
    if part is None or part.form not in (Form.SECTION, Form.SUPPLY) or part.kind == "solar module":
        return None
    if not part.gives_v_assumption:
        return section.volts
    return limits(assumption(trailer, part.gives_v_assumption))[1]


def _source(trailer: Trailer, circuit: Circuit, charger: str) -> tuple[Terminal, Terminal]:
    """Return the poles of the supply that a charging circuit starts at: before its charger where it has one."""
    before = next(
        (load.section for load in trailer.loads if load.part == charger and load.what == "input"), ""
    )
    section = next((s for s in trailer.sections if s.name == before), None)
    if section is None:
        section = next(s for s in trailer.sections if s.plus == circuit.start or s.name == circuit.start.part)
    return section.plus, section.minus
