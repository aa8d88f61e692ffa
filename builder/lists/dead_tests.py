"""Tests without any supply: no voltage, no short between feed and return, the bond, and every wire end to end."""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.conductors import resistance_ohm_per_m, wire_resistance_ohm
from builder.electrics.figures import Figures
from builder.electrics.fusing import fuse_spots
from builder.lists.testing import LEADS_OHM, Group, Kind, Line
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import BATTERY, GROUND_BAR, SUPPLY_BAR, TOW_PLUG, Trailer
from builder.trailer.wires import Role

SUPPLIES = ("solar module", "shore converter")


def to_unplug(trailer: Trailer) -> tuple[str, ...]:
    """Return every supply that has to be parted from the trailer before a dead test."""
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
    """Yield what must not be joined, the box first, then behind each fuse, then at the plug; and the frame bond."""
    if _bars_landed(trailer):
        yield Line(Group.SHORTS, Kind.OPEN, None, SUPPLY_BAR, GROUND_BAR)
    yield from _behind_fuses(trailer, figures)
    yield from _at_the_plug(trailer, figures)
    for wire in trailer.wires:
        if wire.role is Role.BOND:
            most_ohm = figures.wires[wire.number].resistance_ohm + LEADS_OHM
            yield Line(
                Group.SHORTS, Kind.BOND, None, wire.start, wire.end, "ohm", most=most_ohm, wire=wire.number
            )


def _behind_fuses(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield for every fuse that its feed does not touch its return.

    A fuse or breaker behind a way of the front box is left out: the way's own test goes through it.
    """
    loads = [load for circuit in figures.circuits.values() for load in circuit.loads]
    sections = {section.name: section for section in trailer.sections}
    for spot in fuse_spots(trailer):
        if spot.circuit.kind is CircuitKind.BATTERY or (spot.way is None and spot.circuit.way is not None):
            continue
        behind = {wire.number for wire in trailer.wires if wire.start == spot.terminal}
        load = next((one for one in loads if behind.intersection(s.wire for s in one.steps)), None)
        if load is not None:
            black = GROUND_BAR if spot.way is not None else sections[load.load.section].minus
            yield Line(Group.SHORTS, Kind.OPEN, spot.circuit.number, spot.terminal, black, fuse=spot.name)


def _at_the_plug(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield for every contact of the plug that feeds lamps that it does not touch its ground contact."""
    sections = {section.name: section for section in trailer.sections}
    for circuit in trailer.circuits:
        loads = figures.circuits[circuit.number].loads
        if circuit.kind is CircuitKind.TOW and loads:
            black = sections[loads[0].load.section].minus
            yield Line(Group.SHORTS, Kind.OPEN, circuit.number, circuit.start, black)


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


def _spare_tests(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield one test a spare wire: behind the wall it is as hard to mend as any other."""
    warm_c = max((wire.temperature_c for wire in figures.wires.values()), default=None)
    for wire in trailer.spares:
        if warm_c is None or wire.size is None:
            continue
        ohm = wire_resistance_ohm(resistance_ohm_per_m(wire.size, warm_c).ohm_per_m, wire.length_m)
        most_ohm = ohm + LEADS_OHM
        yield Line(Group.WIRES, Kind.WIRE, None, wire.start, wire.end, "ohm", most=most_ohm, wire=wire.number)
