"""What flows through each part that wires pass: all of its ways and screws together, and each connector's ways."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from builder.electrics.figures import CarriedFigures, WireFigures
from builder.trailer.model import Trailer
from builder.trailer.parts import Form, Terminal
from builder.trailer.wires import BREAKAWAY, Role, Wire

COIL = "coil"
_SIDES = (" in", " out")


def carried_figures(trailer: Trailer, wires: Mapping[str, WireFigures]) -> tuple[CarriedFigures, ...]:
    """Return the parts that pass current on, in the order of the file, with what they carry in amperes.

    A part carries the sum of what its feeds bring, or of its returns where that is more, as at a splice of returns.
    Of two travellers one carries at a time, and of two supplies of the brakes one feeds them. What a relay's coil
    takes goes through none of its contacts. Source: Kirchhoff's law of currents.
    """
    found = []
    again = {load.circuit for load in trailer.loads if load.what == BREAKAWAY}
    brought: dict[str, list[Wire]] = {}
    for wire in trailer.wires:
        brought.setdefault(wire.end.part, []).append(wire)
    for part in trailer.parts.values():
        if part.waiting or part.form in (Form.LOAD, Form.SUPPLY):
            continue
        sums = {Role.FEED: 0.0, Role.RETURN: 0.0}
        travellers: dict[int, float] = {}
        ending = brought.get(part.name, [])
        several = len({wire.circuit for wire in ending}) > 1
        for wire in ending:
            if wire.end.pin.startswith(COIL) or (wire.circuit in again and several):
                continue
            current_a = wires[wire.number].current_a
            if wire.role is Role.TRAVELLER:
                travellers[wire.circuit] = max(travellers.get(wire.circuit, 0.0), current_a)
            elif wire.role in sums:
                sums[wire.role] += current_a
        carried_a = max(sums[Role.FEED] + sum(travellers.values()), sums[Role.RETURN])
        if carried_a > 0:
            found.append(CarriedFigures(part.name, carried_a))
    return tuple(found)


def way_of(terminal: Terminal) -> str:
    """Return the way of a connector that a terminal is one side of.

    >>> way_of(Terminal("hatch plug", "way 3 out"))
    'way 3'
    """
    return terminal.pin.removesuffix(_SIDES[0]).removesuffix(_SIDES[1])


def way_flows(trailer: Trailer, current_of: Callable[[str], float]) -> dict[str, dict[str, float]]:
    """Return what flows through the ways of every connector in amperes, by its name and the way.

    ``current_of`` tells the current of a wire by its number. A way carries what its wires do on the side where they
    carry more, feeds and returns alike. Source: Kirchhoff's law of currents.
    """
    sides: dict[Terminal, float] = {}
    for wire in trailer.wires:
        for terminal in (wire.start, wire.end):
            part = trailer.parts.get(terminal.part)
            if part is not None and part.form is Form.THROUGH:
                sides[terminal] = sides.get(terminal, 0.0) + current_of(wire.number)
    found: dict[str, dict[str, float]] = {}
    for terminal, current_a in sides.items():
        ways, way = found.setdefault(terminal.part, {}), way_of(terminal)
        ways[way] = max(ways.get(way, 0.0), current_a)
    return found
