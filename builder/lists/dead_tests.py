"""Tests without any supply: no voltage, every wire end to end, no short with all parts joined, and the bond."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.electrics.braking import magnets_ohm
from builder.electrics.conductors import resistance_ohm_per_m, wire_resistance_ohm
from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.fusing import fuse_spots
from builder.electrics.network import OUT
from builder.lists.across import Across
from builder.lists.testing import LEADS_OHM, Group, Kind, Line
from builder.trailer.assumed import assumption
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import BATTERY, BATTERY_MINUS, GROUND_BAR, SUPPLY_BAR, TOW_PLUG, Trailer
from builder.trailer.parts import BREAKAWAY_BATTERY, SHORE_CONVERTER, SOLAR_MODULE, Terminal
from builder.trailer.wires import Role

PARTING = ("fuse", "isolating switch")
"""Kinds of parts that part a feed before the tests without a supply."""
SUPPLIES = (SOLAR_MODULE, SHORE_CONVERTER, BREAKAWAY_BATTERY)


def to_unplug(trailer: Trailer) -> tuple[str, ...]:
    """Return every supply that has to be parted from the trailer before a dead test; both plugs as one.

    What is not there yet feeds nothing.
    """
    headings = {BATTERY: trailer.battery, TOW_PLUG: trailer.tow_plug}
    parts = [part.name for part in trailer.parts.values() if part.kind in SUPPLIES and not part.waiting]
    return (*(name for name, there in headings.items() if there is not None), *parts)


def nothing_live(trailer: Trailer) -> Iterator[Line]:
    """Yield the test that comes first of all: no voltage between the bars of the front box."""
    if _bars_landed(trailer):
        yield Line(Group.DEAD, Kind.NO_VOLTAGE, None, SUPPLY_BAR, GROUND_BAR, "V", most=0.0)


def _bars_landed(trailer: Trailer) -> bool:
    landed = {terminal for wire in trailer.wires for terminal in (wire.start, wire.end)}
    return SUPPLY_BAR in landed and GROUND_BAR in landed


def short_tests(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield what must not be joined once all parts are in; last the bond.

    The box comes first, then behind each fuse, at the plug and the solar cables, and what nothing before reached.
    """
    shorts = _Shorts(trailer, figures)
    if _bars_landed(trailer):
        yield shorts.open(None, SUPPLY_BAR, GROUND_BAR)
    yield from shorts.behind_fuses()
    yield from shorts.at_the_plug()
    yield from shorts.solar_cables()
    yield from shorts.by_themselves()
    for wire in trailer.wires:
        if wire.role is Role.BOND:
            most_ohm = figures.wires[wire.number].resistance_ohm + LEADS_OHM
            yield Line(
                Group.SHORTS, Kind.BOND, None, wire.start, wire.end, "ohm", most=most_ohm, wire=wire.number
            )


class _Shorts:
    """The tests of feed against return; what they ask of the trailer is looked up once."""

    def __init__(self, trailer: Trailer, figures: Figures) -> None:
        self.trailer = trailer
        self.across = Across(trailer, figures)
        self.wires = {wire.number: wire for wire in trailer.wires}
        self.begin: dict[Terminal, list[str]] = {}
        for wire in trailer.wires:
            self.begin.setdefault(wire.start, []).append(wire.number)
        self.loads = [load for circuit in figures.circuits.values() for load in circuit.loads]
        self.first: dict[str, int] = {}
        for place, load in enumerate(self.loads):
            for step in load.steps:
                self.first.setdefault(step.wire, place)
        self.toggles = self._toggles()
        self.met: set[Terminal] = set()
        """What the probe on the feed has reached in the tests so far."""

    def _toggles(self) -> dict[Terminal, dict[str, None]]:
        """Return by where a feed begins the two-way and four-way switches of what it serves.

        Either position may be the one that is off.
        """
        found: dict[Terminal, dict[str, None]] = {}
        for load in self.loads:
            passed = [self.wires[step.wire].start for step in load.steps if step.wire in self.wires]
            last = max((n for n, at in enumerate(passed) if self._turns(at.part)), default=-1)
            for place, start in enumerate(passed[: last + 1]):
                behind = (at.part for at in passed[place : last + 1])
                found.setdefault(start, {}).update((name, None) for name in behind if self._turns(name))
        return found

    def _turns(self, name: str) -> bool:
        return is_toggle(self.trailer, name) and not self.trailer.parts[name].waiting

    def open(self, circuit: int | None, red: Terminal, black: Terminal, wire: str = "") -> Line:
        """Return a test that two points are not joined, with what the meter reads besides the wires.

        It is read once more with the switches on, which then lead to what is behind them. What brake magnets read is
        known: whoever expects only that it is not near nothing takes them for a short.
        """
        reached = self.across.reached(red, wire)
        switches, behind, far = self.across.turned_on(reached, black)
        self.met.update(far)
        parts, bulbs = self.across.left(reached, black)
        ohm = magnets_ohm(self.trailer, parts)
        return Line(
            Group.SHORTS,
            Kind.NO_SHORT if parts else Kind.OPEN,
            circuit,
            red,
            black,
            "" if ohm is None else "ohm",
            about=ohm,
            wire=wire,
            parts=parts,
            bulbs=bulbs,
            toggles=tuple(self.toggles.get(red, ())),
            switches=switches if behind else (),
            behind=behind,
        )

    def behind_fuses(self) -> Iterator[Line]:
        """Yield for every fuse that its feed does not touch its return.

        A breaker behind a way of the front box is left out: the way's own test goes through it. A fuse there is out.
        Each names the wire that leaves the fuse: its contact is meant, not the one towards the supply.
        """
        for spot in fuse_spots(self.trailer):
            behind_way = spot.way is None and spot.circuit.way is not None
            if spot.circuit.kind is CircuitKind.BATTERY or (behind_way and spot.device == "breaker"):
                continue
            behind = self.begin.get(spot.terminal, [])
            place = min((self.first[number] for number in behind if number in self.first), default=None)
            if place is not None:
                black = GROUND_BAR if spot.way is not None else self._return_of(self.loads[place])
                line = self.open(spot.circuit.number, spot.terminal, black, behind[0])
                yield replace(line, fuse=spot.name)

    def _return_of(self, load: LoadFigures) -> Terminal:
        """Return where a load's return is reached with every supply off.

        Where it goes to the battery that is the ground bar if it passes there, else the clamp off the minus post.
        """
        minus = next(section.minus for section in self.trailer.sections if section.name == load.load.section)
        used = (self.wires[step.wire] for step in load.steps)
        at_bar = any(wire.role is Role.RETURN and GROUND_BAR in (wire.start, wire.end) for wire in used)
        return GROUND_BAR if minus == BATTERY_MINUS and at_bar else minus

    def at_the_plug(self) -> Iterator[Line]:
        """Yield for every contact of the plug that feeds something that it does not touch its ground contact."""
        for circuit in self.trailer.circuits:
            if circuit.start.part == TOW_PLUG:
                yield from self._from_supply(circuit)

    def solar_cables(self) -> Iterator[Line]:
        """Yield for every solar module that the two wires of its cable do not touch, taken off it."""
        for circuit in self.trailer.circuits:
            part = self.trailer.parts.get(circuit.start.part)
            if part is not None and part.kind == SOLAR_MODULE:
                for line in self._from_supply(circuit):
                    yield replace(line, part=part.name)

    def by_themselves(self) -> Iterator[Line]:
        """Yield for every feed that no test before reaches that it does not touch its return.

        With fuses out and every switch on, that is what leaves the main fuse, a charger or a converter, and what is
        behind a dimmer, a receiver or the contact of a relay: without a supply they let nothing through. What is
        there becomes live with the first supply (common practice).
        """
        for wire in self.trailer.wires:
            place = self.first.get(wire.number)
            if wire.role not in OUT or place is None:
                continue
            if self.met.isdisjoint((wire.start, wire.end)):
                line = self.open(wire.circuit, wire.start, self._return_of(self.loads[place]), wire.number)
                # an end at a fuse parts it from every switch, so that none of them is worked for it
                yield replace(line, toggles=()) if self._parts_feed(wire.end) else line

    def _parts_feed(self, at: Terminal) -> bool:
        part = self.trailer.parts.get(at.part)
        return part is not None and part.kind in PARTING

    def _from_supply(self, circuit: Circuit) -> Iterator[Line]:
        """Yield the test of the wires that a circuit begins with, at the poles of its supply."""
        section = next((one for one in self.trailer.sections if one.plus == circuit.start), None)
        if section is not None and circuit.start in self.begin:
            yield self.open(circuit.number, section.plus, section.minus)


def is_toggle(trailer: Trailer, name: str) -> bool:
    """Tell whether a part is a switch that has no position of its own for off."""
    part = trailer.parts.get(name)
    return part is not None and part.kind in ("two-way switch", "four-way switch")


def wire_tests(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield one test a wire: its two ends belong to one conductor, whose resistance is known from length and size.

    The table's copper is warm, so a cold wire reads less: the figure is a bound, not a target.
    """
    for wire in trailer.wires:
        yield Line(
            Group.WIRES,
            Kind.WIRE,
            circuit=wire.circuit,
            red=wire.start,
            black=wire.end,
            unit="ohm",
            most=figures.wires[wire.number].resistance_ohm + LEADS_OHM,
            wire=wire.number,
        )
    yield from _spare_tests(trailer)


def loose_ends(trailer: Trailer) -> Iterator[Line]:
    """Yield every end that lands on nothing: of wires to parts that wait, and both ends of each spare wire.

    The tests before need it bare. Once a fuse is in, the end of a feed is live (common practice: insulate it first).
    """
    waiting = {part.name for part in trailer.parts.values() if part.waiting}
    ends = [(wire, at.part) for wire in trailer.wires for at in (wire.start, wire.end) if at.part in waiting]
    ends += [(wire, at.part) for wire in trailer.spares for at in (wire.start, wire.end)]
    for wire, place in dict.fromkeys(ends):
        circuit = None if wire.role is Role.SPARE else wire.circuit
        yield Line(Group.ENDS, Kind.INSULATED, circuit, wire=wire.number, part=place)


def _spare_tests(trailer: Trailer) -> Iterator[Line]:
    """Yield one test a spare wire whose size is known: behind the wall it is as hard to mend as any other."""
    warm_c = assumption(trailer, "copper temperature").value
    for wire in trailer.spares:
        if wire.size is None:
            continue
        ohm = wire_resistance_ohm(resistance_ohm_per_m(wire.size, warm_c).ohm_per_m, wire.length_m)
        most_ohm = ohm + LEADS_OHM
        yield Line(Group.WIRES, Kind.WIRE, None, wire.start, wire.end, "ohm", most=most_ohm, wire=wire.number)
