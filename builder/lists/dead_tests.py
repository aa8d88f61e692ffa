"""Tests without any supply: no voltage, no short between feed and return, the bond, and every wire end to end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.electrics.braking import magnets_ohm
from builder.electrics.conductors import resistance_ohm_per_m, wire_resistance_ohm
from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.fusing import fuse_spots
from builder.lists.across import left_across
from builder.lists.testing import LEADS_OHM, Group, Kind, Line
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import BATTERY, BATTERY_MINUS, GROUND_BAR, SUPPLY_BAR, TOW_PLUG, Trailer
from builder.trailer.parts import BREAKAWAY_BATTERY, Terminal
from builder.trailer.wires import Role

SUPPLIES = ("solar module", "shore converter", BREAKAWAY_BATTERY)


def to_unplug(trailer: Trailer) -> tuple[str, ...]:
    """Return every supply that has to be parted from the trailer before a dead test; both plugs as one."""
    headings = {BATTERY: trailer.battery, TOW_PLUG: trailer.tow_plug}
    parts = [part.name for part in trailer.parts.values() if part.kind in SUPPLIES]
    return (*(name for name, there in headings.items() if there is not None), *parts)


def nothing_live(trailer: Trailer) -> Iterator[Line]:
    """Yield the test that comes first of all: no voltage between the bars of the front box."""
    if _bars_landed(trailer):
        yield Line(Group.DEAD, Kind.NO_VOLTAGE, None, SUPPLY_BAR, GROUND_BAR, "V", most=0.0)


def _bars_landed(trailer: Trailer) -> bool:
    landed = {terminal for wire in trailer.wires for terminal in (wire.start, wire.end)}
    return SUPPLY_BAR in landed and GROUND_BAR in landed


def short_tests(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield what must not be joined: the box, behind each fuse, at the plug, the solar cables; then the bond."""
    if _bars_landed(trailer):
        yield _open(trailer, figures, None, SUPPLY_BAR, GROUND_BAR)
    yield from _behind_fuses(trailer, figures)
    yield from _at_the_plug(trailer, figures)
    yield from _solar_cables(trailer, figures)
    for wire in trailer.wires:
        if wire.role is Role.BOND:
            most_ohm = figures.wires[wire.number].resistance_ohm + LEADS_OHM
            yield Line(
                Group.SHORTS, Kind.BOND, None, wire.start, wire.end, "ohm", most=most_ohm, wire=wire.number
            )


def _open(trailer: Trailer, figures: Figures, circuit: int | None, red: Terminal, black: Terminal) -> Line:
    """Return a test that two points are not joined, with what the meter reads besides the wires.

    What brake magnets read is known: whoever expects only that it is not near nothing takes them for a short.
    """
    parts, bulbs = left_across(trailer, figures, red)
    kind = Kind.NO_SHORT if parts else Kind.OPEN
    ohm = magnets_ohm(trailer, parts)
    unit = "" if ohm is None else "ohm"
    toggles = _toggles(trailer, figures, red)
    return Line(
        Group.SHORTS, kind, circuit, red, black, unit, about=ohm, parts=parts, bulbs=bulbs, toggles=toggles
    )


def _toggles(trailer: Trailer, figures: Figures, red: Terminal) -> tuple[str, ...]:
    """Return the two-way and four-way switches of what a feed serves: either position may be the one that is off."""
    starts = {wire.number: wire.start for wire in trailer.wires}
    found: dict[str, None] = {}
    for circuit in figures.circuits.values():
        for load in circuit.loads:
            passed = [starts[step.wire] for step in load.steps if step.wire in starts]
            if red in passed:
                behind = (start.part for start in passed[passed.index(red) :])
                found |= {name: None for name in behind if is_toggle(trailer, name)}
    return tuple(found)


def is_toggle(trailer: Trailer, name: str) -> bool:
    """Tell whether a part is a switch that has no position of its own for off."""
    part = trailer.parts.get(name)
    return part is not None and part.kind in ("two-way switch", "four-way switch")


def _behind_fuses(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield for every fuse that its feed does not touch its return.

    A breaker behind a way of the front box is left out: the way's own test goes through it. A fuse there is out.
    Each names the wire that leaves the fuse: its contact is meant, not the one towards the supply.
    """
    loads = [load for circuit in figures.circuits.values() for load in circuit.loads]
    for spot in fuse_spots(trailer):
        behind_way = spot.way is None and spot.circuit.way is not None
        if spot.circuit.kind is CircuitKind.BATTERY or (behind_way and spot.device == "breaker"):
            continue
        behind = {wire.number for wire in trailer.wires if wire.start == spot.terminal}
        load = next((one for one in loads if behind.intersection(s.wire for s in one.steps)), None)
        if load is not None:
            black = GROUND_BAR if spot.way is not None else _return_of(trailer, load)
            line = _open(trailer, figures, spot.circuit.number, spot.terminal, black)
            leaves = next(wire.number for wire in trailer.wires if wire.number in behind)
            yield replace(line, fuse=spot.name, wire=leaves)


def _return_of(trailer: Trailer, load: LoadFigures) -> Terminal:
    """Return where a load's return is reached with every supply off.

    Where it goes to the battery that is the ground bar if it passes there, else the clamp off the minus post.
    """
    minus = next(section.minus for section in trailer.sections if section.name == load.load.section)
    used = {step.wire for step in load.steps}
    returns = [wire for wire in trailer.wires if wire.number in used and wire.role is Role.RETURN]
    at_bar = any(GROUND_BAR in (wire.start, wire.end) for wire in returns)
    return GROUND_BAR if minus == BATTERY_MINUS and at_bar else minus


def _at_the_plug(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield for every contact of the plug that feeds something that it does not touch its ground contact."""
    for circuit in trailer.circuits:
        if circuit.start.part == TOW_PLUG:
            yield from _from_supply(trailer, figures, circuit)


def _solar_cables(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield for every solar module that the two wires of its cable do not touch, taken off it."""
    for circuit in trailer.circuits:
        part = trailer.parts.get(circuit.start.part)
        if part is not None and part.kind == SUPPLIES[0]:
            for line in _from_supply(trailer, figures, circuit):
                yield replace(line, part=part.name)


def _from_supply(trailer: Trailer, figures: Figures, circuit: Circuit) -> Iterator[Line]:
    """Yield the test of the wires that a circuit begins with, at the poles of its supply."""
    section = next((one for one in trailer.sections if one.plus == circuit.start), None)
    if section is not None and any(wire.start == circuit.start for wire in trailer.wires):
        yield _open(trailer, figures, circuit.number, section.plus, section.minus)


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
    yield from _spare_tests(trailer, figures)


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


def _spare_tests(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield one test a spare wire: behind the wall it is as hard to mend as any other."""
    warm_c = max((wire.temperature_c for wire in figures.wires.values()), default=None)
    for wire in trailer.spares:
        if warm_c is None or wire.size is None:
            continue
        ohm = wire_resistance_ohm(resistance_ohm_per_m(wire.size, warm_c).ohm_per_m, wire.length_m)
        most_ohm = ohm + LEADS_OHM
        yield Line(Group.WIRES, Kind.WIRE, None, wire.start, wire.end, "ohm", most=most_ohm, wire=wire.number)
