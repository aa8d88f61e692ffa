"""Electric brakes: their current, and what a breakaway battery must hold."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from builder.electrics.currents import draw_current_a
from builder.tables.brakes import BREAKAWAY_HOLD, brake_magnet
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.parts import BRAKE_MAGNET, BREAKAWAY_SWITCH

NOMINAL_V = 12.0


@dataclass(frozen=True, slots=True)
class BrakeFigures:
    """The brakes of a trailer: amperes at full voltage and as a meter shows them, and the breakaway battery.

    ``needed_ah`` is what a breakaway takes, ``given_ah`` what the file gives (None where it gives none);
    ``contact`` is the plug's contact for brakes and ``circuit`` the one that starts there, None where there is none;
    ``breakaway`` is the circuit of the breakaway switch.
    """

    current_a: float
    typical_a: float
    hold_min: float
    needed_ah: float
    given_ah: float | None
    contact: int | None
    circuit: int | None
    breakaway: int | None = None


def brake_current_a(drum: str, magnets: int, volts: float = NOMINAL_V) -> float:
    """Return the current in amperes of brake magnets at full voltage: volts over their least resistance.

    Raises `NoRow` for an unknown drum. Source: Ohm's law on a parts seller's test table (quoted).
    """
    return magnets * volts / brake_magnet(drum).ohm_low


def breakaway_charge_ah(magnets: int, amps_each: float, minutes: float) -> float:
    """Return the charge in ampere-hours that holds so many brakes for so many minutes. Source: arithmetic."""
    return magnets * amps_each * minutes / 60.0


def brake_figures(trailer: Trailer) -> BrakeFigures | None:
    """Return the figures of the electric brakes that the file has; None where it has none."""
    brakes = trailer.brakes
    if brakes is None or brakes.kind != "electric":
        return None
    plug = trailer.tow_plug
    contact = plug.pattern.contact_for("brake") if plug else None
    amps = brake_current_a(brakes.drum, brakes.magnets)
    line, away = brake_line(trailer), breakaway_line(trailer)
    return BrakeFigures(
        amps,
        brakes.magnets * brake_magnet(brakes.drum).typical_a,
        BREAKAWAY_HOLD.value,
        breakaway_charge_ah(brakes.magnets, amps / brakes.magnets, BREAKAWAY_HOLD.value),
        brakes.breakaway_ah,
        contact.number if contact else None,
        line.number if line else None,
        away.number if away else None,
    )


def breakaway_line(trailer: Trailer) -> Circuit | None:
    """Return the circuit that the breakaway switch is on; None where there is none."""
    switches = {part.name for part in trailer.parts.values() if part.kind == BREAKAWAY_SWITCH}
    return next((one for one in trailer.circuits if any(stop.part in switches for stop in one.stops)), None)


def fed_by_breakaway(trailer: Trailer) -> tuple[str, ...]:
    """Return the parts that the breakaway's circuit feeds, whether or not the car feeds them too."""
    line = breakaway_line(trailer)
    return tuple(dict.fromkeys(load.part for load in trailer.loads if line and load.circuit == line.number))


def magnets_ohm(trailer: Trailer, names: Collection[str]) -> float | None:
    """Return the resistance in ohm of brake magnets that hang side by side on one feed; None where none is named.

    Each is what its current at its own voltage makes of it; wires and joints come on top. Source: Ohm's law.
    """
    currents_a = {
        load.part: draw_current_a(load.draw, NOMINAL_V)
        for load in trailer.loads
        if load.part in names and trailer.parts[load.part].kind == BRAKE_MAGNET and load.draw is not None
    }
    amps = sum(currents_a.values())
    return NOMINAL_V / amps if amps > 0 else None


def brake_line(trailer: Trailer) -> Circuit | None:
    """Return the circuit that starts at the plug's contact for brakes; None where none does."""
    plug = trailer.tow_plug
    contact = plug.pattern.contact_for("brake") if plug else None
    return next(
        (
            circuit
            for circuit in trailer.circuits
            if contact is not None
            and circuit.kind is CircuitKind.FROM
            and circuit.start.part == TOW_PLUG
            and circuit.start.pin == contact.pin
        ),
        None,
    )
