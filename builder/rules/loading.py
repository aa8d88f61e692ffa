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
    loads = [load for circuit in figures.circuits.values() for load in circuit.loads]
    volts = {section.name: section.volts for section in trailer.sections}

    def stated_a(load: LoadFigures, seen: tuple[str, ...] = ()) -> float:
        if load.load.draw is not None:
            return 0.0 if load.load.draw.assumption else load.current_a
        part = load.load.part
        if part in seen:
            return 0.0
        output_a = sum(stated_a(one, (*seen, part)) for one in loads if one.load.section == part)
        return output_a * volts[part] / volts[load.load.section]

    return sum(stated_a(load) for load in loads if behind.intersection(step.wire for step in load.steps))


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
