"""Tests with a supply: the battery, each circuit and the road lamps."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from builder.electrics.conductors import voltage_drop_v
from builder.electrics.energy import HALF
from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.fusing import FuseSpot, fuse_spots
from builder.electrics.network import OUT
from builder.lists.states import Switching, givers, wire_currents_a
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
from builder.trailer.wires import BREAKAWAY, Role

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
    live = _Live(trailer, figures)
    circuits = [
        circuit
        for circuit in trailer.circuits
        if circuit.kind in (CircuitKind.HOUSE, CircuitKind.FROM) and not charges(figures, circuit)
    ]
    made = [test for circuit in circuits for test in live.circuit(circuit)]
    used = {test.supply for test in made}
    for section in trailer.sections:
        if section.name in used and not section.fed_by:
            yield Line(
                Group.CIRCUIT, Kind.SUPPLY, None, section.plus, section.minus, "V", supply=section.name
            )
    yield from made


class _Live:
    """The tests of circuits and contacts; what they ask of the trailer is looked up once."""

    def __init__(self, trailer: Trailer, figures: Figures) -> None:
        self.trailer = trailer
        self.waits = Waiting(trailer, figures)
        self.switching = Switching(trailer, figures, self.waits)
        self.there = {
            number: [load for load in circuit.loads if not self.waits(load)]
            for number, circuit in figures.circuits.items()
        }
        self.wires = {wire.number: wire for wire in trailer.wires}
        self.begin: dict[Terminal, list[str]] = {}
        line = trailer.battery_line
        self.of_line = {w.number for w in trailer.wires if line is not None and w.circuit == line.number}
        for wire in trailer.wires:
            self.begin.setdefault(wire.start, []).append(wire.number)
        self.fuses: dict[int, list[FuseSpot]] = {}
        for spot in fuse_spots(trailer):
            if spot.device == "fuse":
                self.fuses.setdefault(spot.circuit.number, []).append(spot)
        self.volts = {section.name: section.volts for section in trailer.sections}
        above = givers(trailer)
        self.fed: dict[str, list[tuple[int, str]]] = {}
        for place, load in enumerate(self.switching.loads):
            for giver in above.get(load.load.section, ()) if load.load.what in _MEASURED else ():
                self.fed.setdefault(giver, []).append((place, load.load.part))
        self.return_joints_v = assumption(trailer, "drop allowed in a return").value
        self.switch_joints_v = assumption(trailer, "drop allowed at a switch").value
        self.joints_v = assumption(trailer, "drop allowed in a feed").value

    def _feed_joints_v(self, load: LoadFigures) -> float:
        """Return what fuse, switch and joints of a load's feed may lose beyond its wires, as the guides allow it."""
        used = (self.wires[step.wire] for step in load.steps)
        passed = [wire.start for wire in used if wire.role in OUT]
        parts = (self.trailer.parts[at.part].form for at in passed if at.part in self.trailer.parts)
        contact = any(form in (Form.GATE, Form.TRAVELLER, Form.RELAY) for form in parts)
        in_box = any(at.pin.startswith("way ") and at.part == FRONT_BOX for at in passed)
        return self.switch_joints_v if contact or in_box else self.joints_v

    def circuit(self, circuit: Circuit) -> Iterator[Line]:
        """Yield the tests of one circuit: its switches, its voltages, what its wires lose, its fuses."""
        there = self.there[circuit.number]
        coils = [load for load in there if load.load.what == "coil"]
        measured = [load for load in there if load.load.what in _MEASURED] or coils
        if not measured:
            return
        for switch, works in self._switches(circuit, there):
            yield Line(Group.CIRCUIT, Kind.WORKS, circuit.number, part=switch, parts=works)
        fed: set[str] = set()
        for load in measured:
            yield from self._output(circuit.number, load, fed)
            yield self._voltage(circuit.number, load)
        for load in measured:
            if _kind(self.trailer, load.load.part) == "alarm":
                yield Line(Group.CIRCUIT, Kind.ALARM, circuit.number, part=load.load.part)
        yield from self.drops(Group.CIRCUIT, circuit.number, measured, there)
        yield from self._fuses_out(circuit, measured)

    def _output(self, circuit: int, load: LoadFigures, told: set[str]) -> Iterator[Line]:
        """Yield once what the converter gives that a load is fed by: the load's voltage is held against it."""
        name = load.load.section
        section = next(one for one in self.trailer.sections if one.name == name)
        if section.fed_by and name not in told:
            told.add(name)
            poles = (section.plus, section.minus)
            yield Line(Group.CIRCUIT, Kind.SUPPLY, circuit, *poles, "V", about=section.volts, supply=name)

    def _voltage(self, circuit: int, load: LoadFigures) -> Line:
        """Return the voltage at a load with nothing on that another switch keeps off."""
        on = self.switching.on_with(load)
        lost_v = sum(_own_drops_v(load, on.currents_a, ()).values())
        below_v = lost_v + self._feed_joints_v(load) + self.return_joints_v
        volts = self.volts[load.load.section]
        names = dict.fromkeys(one.load.part for one in on.loads if one.load.what not in _UNSEEN)
        return Line(
            Group.CIRCUIT,
            Kind.VOLTAGE,
            circuit,
            load.load.plus,
            load.load.minus,
            "V",
            least=max(0.0, volts - below_v),
            most=volts,
            below=below_v,
            current_a=load.current_a,
            part=load.load.part,
            supply=load.load.section,
            parts=tuple(name for name in names if name != load.load.part),
        )

    def _fuses_out(self, circuit: Circuit, loads: Sequence[LoadFigures]) -> Iterator[Line]:
        """Yield for every fuse of a circuit what must stop when it is taken out: all that is fed through it."""
        found: list[Line] = []
        through = _places([step.wire for step in load.steps] for load in loads)
        for spot in self.fuses.get(circuit.number, ()):
            behind = {place for wire in self.begin.get(spot.terminal, ()) for place in through.get(wire, ())}
            parts = self._with_fed(loads[place].load.part for place in sorted(behind))
            if parts:
                found.append(Line(Group.CIRCUIT, Kind.FUSE_OUT, circuit.number, fuse=spot.name, parts=parts))
        for line in found[:-1]:
            # with it out the next fuse would stop nothing
            yield replace(line, steps=(Step(Act.FUSES_IN, (line.fuse,)),))
        yield from found[-1:]

    def _with_fed(self, names: Iterable[str]) -> tuple[str, ...]:
        """Return some parts, what the converters among them feed, and what the converters among those feed in turn."""
        found = dict.fromkeys(names)
        fed = sorted({one for name in found for one in self.fed.get(name, ())})
        return tuple(found | dict.fromkeys(name for _, name in fed))

    def _switches(
        self, circuit: Circuit, loads: Sequence[LoadFigures]
    ) -> Iterator[tuple[str, tuple[str, ...]]]:
        """Yield each switch of a circuit with the parts whose current it passes; a part with its own switch is one."""
        seen = [load for load in loads if load.load.what not in _UNSEEN]
        behind = _places([self.wires[step.wire].start.part for step in load.steps] for load in seen)
        for name in dict.fromkeys(stop.part for stop in circuit.stops):
            part = self.trailer.parts.get(name)
            if part is None:
                continue
            if part.kind in HAND_WORKED:
                works = self._with_fed(seen[place].load.part for place in behind.get(name, ()))
                if works:
                    yield name, works
            elif part.own_switch and any(load.load.part == name for load in seen):
                yield name, (name,)

    def drops(
        self, group: Group, circuit: int, loads: Sequence[LoadFigures], on: Sequence[LoadFigures]
    ) -> Iterator[Line]:
        """Yield the drop along feed and return of the load that loses most, wires of the battery's own line left out.

        ``on`` is all that is on while it is measured: of the whole trailer this circuit, or this contact, alone.
        """
        currents_a = wire_currents_a(on)
        every_v = [_own_drops_v(load, currents_a, self.of_line) for load in loads]
        if not every_v:
            return
        own_v, worst = max(zip(every_v, loads, strict=True), key=lambda pair: sum(pair[0].values()))
        feeds = [number for number in own_v if self.wires[number].role is not Role.RETURN]
        returns = [number for number in own_v if self.wires[number].role is Role.RETURN]
        if feeds:
            start = self.wires[feeds[0]].start
            # a probe on the bar before the fuse takes in the fuse and its holder
            red = SUPPLY_BAR if start.part == FRONT_BOX and start.pin.startswith("way ") else start
            at_fuse = _kind(self.trailer, red.part) in ("fuse", "breaker")
            wire = feeds[0] if at_fuse else ""
            test = Line(group, Kind.FEED_DROP, circuit, red, worst.load.plus, wire=wire)
            yield _drop(test, worst, sum(own_v[number] for number in feeds), self._feed_joints_v(worst))
        if returns:
            test = Line(group, Kind.RETURN_DROP, circuit, worst.load.minus, self.wires[returns[-1]].end)
            yield _drop(test, worst, sum(own_v[number] for number in returns), self.return_joints_v)


def _places(rows: Iterable[Iterable[str]]) -> dict[str, list[int]]:
    """Return for each word the places of the rows that it stands in, in order."""
    found: dict[str, list[int]] = {}
    for place, row in enumerate(rows):
        for word in dict.fromkeys(row):
            found.setdefault(word, []).append(place)
    return found


def _own_drops_v(
    load: LoadFigures, currents_a: Mapping[str, float], left_out: Collection[str]
) -> dict[str, float]:
    """Return what each wire of a load's path loses in volts with these currents in the wires, in its order.

    Source: Ohm's law, as in `builder.electrics.drops`.
    """
    return {
        step.wire: voltage_drop_v(currents_a.get(step.wire, 0.0), step.resistance_ohm)
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
    live = _Live(trailer, figures)
    for circuit in trailer.circuits:
        if circuit.kind is not CircuitKind.TOW or circuit.contact is None:
            continue
        loads = live.there[circuit.number]
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
        yield from live.drops(Group.ROAD, circuit.number, loads, loads)
