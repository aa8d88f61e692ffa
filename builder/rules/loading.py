"""Loads as rules look at them: what the file states of them, and the worst of each part."""

from __future__ import annotations

from collections.abc import Callable

from builder.electrics.figures import Figures, FuseFigures, LoadFigures
from builder.rules.mending import spot_of
from builder.trailer.model import Trailer
from builder.trailer.wires import Role


def stated_load_a(trailer: Trailer, figures: Figures, fuse: FuseFigures) -> float:
    """Return the current through a fuse of the loads whose draw the file states, everything on, in amperes.

    What a converter takes counts as what it must take at least: the stated power behind it, without loss.
    Source: Kirchhoff's law.
    """
    start = spot_of(trailer, fuse).terminal
    behind = {w.number for w in trailer.wires if w.start == start and w.role is not Role.RETURN}
    return sum(
        _stated_a(trailer, figures, load)
        for load in _loads(figures)
        if behind.intersection(step.wire for step in load.steps)
    )


def stated_on_wire_a(trailer: Trailer, figures: Figures, number: str) -> float:
    """Return the current through a wire of the loads whose draw the file states, everything on, in amperes."""
    return sum(
        _stated_a(trailer, figures, load)
        for load in _loads(figures)
        if any(step.wire == number for step in load.steps)
    )


def section_stated_a(trailer: Trailer, figures: Figures, section: str) -> float:
    """Return the current that loads whose draw the file states take from a section, everything on, in amperes."""
    return sum(_stated_a(trailer, figures, load) for load in _loads(figures) if load.load.section == section)


def _loads(figures: Figures) -> list[LoadFigures]:
    return [load for circuit in figures.circuits.values() for load in circuit.loads]


def _stated_a(trailer: Trailer, figures: Figures, load: LoadFigures, seen: tuple[str, ...] = ()) -> float:
    """Return what a load takes as far as the file states it; a converter's input follows from its output."""
    if load.load.draw is not None:
        return 0.0 if load.load.draw.assumption else load.current_a
    part = load.load.part
    if part in seen:
        return 0.0
    volts = {section.name: section.volts for section in trailer.sections}
    behind = [one for one in _loads(figures) if one.load.section == part]
    output_a = sum(_stated_a(trailer, figures, one, (*seen, part)) for one in behind)
    return output_a * volts[part] / volts[load.load.section]


def worst_loads(figures: Figures, least: Callable[[LoadFigures], float]) -> tuple[LoadFigures, ...]:
    """Return one load of each part on each circuit: the one for which ``least`` is the smallest.

    A receiver that draws something itself is two loads, and its reader needs one sentence.
    """
    found: dict[tuple[int, str], LoadFigures] = {}
    for circuit in figures.circuits.values():
        for load in circuit.loads:
            key = load.load.circuit, load.load.part
            if key not in found or least(load) < least(found[key]):
                found[key] = load
    return tuple(found.values())
