"""Tests of what charges the battery: each source by itself, then its current and the voltage of the battery."""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.charging import limits
from builder.electrics.figures import Figures, LoadFigures
from builder.lists.testing import Group, Kind, Line
from builder.lists.waiting import Waiting
from builder.trailer.assumed import assumption
from builder.trailer.circuits import Circuit
from builder.trailer.model import BATTERY_MINUS, BATTERY_PLUS, Trailer
from builder.trailer.parts import Form, Terminal
from builder.trailer.wires import Section


def charging_tests(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield what each source gives that charges the battery, then of each circuit its current and the voltage.

    The sources come first, so that all fuses are in before anything charges: a battery that was charged can give off
    a gas that a spark sets off.
    """
    made = list(_charging(trailer, figures))
    yield from (line for line in made if line.kind is Kind.SOURCE)
    yield from (line for line in made if line.kind is not Kind.SOURCE)


def _charging(trailer: Trailer, figures: Figures) -> Iterator[Line]:
    """Yield circuit by circuit the source, the current and the voltage."""
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
