"""How it was worked out: the drop at each load step by step, the textbook formula, the fuse, a day of camping."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.electrics.figures import CircuitFigures
from builder.pages.page_circuit import fuse_data, load_data, load_name, size_data
from builder.pages.rounding import significant
from builder.pages.view import View
from builder.trailer.assumed import assumption

ENOUGH = 6
"""Significant figures of numbers put into a formula: retyping the line gives the printed result."""


def worked_page(view: View) -> dict[str, Any]:
    """Return what the template of the page is filled with."""
    copper = assumption(view.trailer, "copper temperature").value
    sources = dict.fromkeys(wire.resistance_source for wire in view.figures.wires.values())
    return {
        "copper": significant(copper, 3),
        "resistance_source": "; ".join(sources),
        "workshop": view.edition.reads(),
        "circuits": [_circuit(view, figures) for figures in view.figures.circuits.values()],
        "energy": _energy(view),
    }


def _circuit(view: View, figures: CircuitFigures) -> dict[str, Any]:
    fuse = fuse_data(view, figures.fuse)
    if fuse is not None and figures.fuse is not None:
        loading = assumption(view.trailer, "fuse loading").value
        fuse["numbers"] = f"{significant(figures.fuse.load_a, ENOUGH)} A / {significant(loading / 100, 3)}"
        fuse["inputs"] = []
    return {
        "number": figures.number,
        "id": f"worked-{figures.number}",
        "name": view.trailer.circuit(figures.number).name,
        "size": size_data(view, figures.number),
        "fuse": fuse,
        "loads": _loads(view, figures),
        "pencil": _pencil(view, figures),
    }


def _loads(view: View, figures: CircuitFigures) -> list[dict[str, Any]]:
    rows = []
    for row in load_data(view, figures.number):
        load = figures.loads[row["place"]]
        terms = [
            f"{step.wire}: {significant(step.resistance_ohm, ENOUGH)} Ω · {significant(step.current_a, ENOUGH)} A"
            f" = {significant(step.drop_v, ENOUGH)} V"
            for step in load.steps
        ]
        total = " + ".join(significant(step.drop_v, ENOUGH) for step in load.steps)
        rows.append(
            row
            | {
                "id": f"drop-{figures.number}-{row['place']}",
                "part": load_name(load.load.part, load.load.what),
                "lines": [*terms, f"{total} = {significant(load.drop_v, ENOUGH)} V"],
                "result": row["drop"],
            }
        )
    return rows


def _pencil(view: View, figures: CircuitFigures) -> dict[str, Any] | None:
    """Return the textbook formula with its numbers; None where it has nothing to say."""
    pencil = figures.size.pencil
    if pencil.current_a <= 0 or pencil.length <= 0:
        return None
    path = f"circuits/{figures.number}/size/hand_formula"
    aim = significant(figures.size.aim_v, ENOUGH)
    current, length = significant(pencil.current_a, ENOUGH), significant(pencil.length, ENOUGH)
    area = significant(pencil.area, ENOUGH)
    if pencil.length_unit == "ft":
        numbers = f"{pencil.constant:g} · {current} A · {length} ft / {aim} V = {area} circular mils"
    else:
        numbers = f"2 · {length} m · {current} A / ({pencil.constant:g} · {aim} V) = {area} mm²"
    return {
        "formula": pencil.formula,
        "numbers": numbers,
        "metric": pencil.length_unit == "m",
        "result": view.fig(f"{path}/size") if pencil.size else Markup("–"),
        "differs": figures.size.pencil_differs,
        "chosen": str(figures.size.chosen),
    }


def _energy(view: View) -> dict[str, Any] | None:
    energy = view.figures.energy
    if energy is None:
        return None
    days = [
        {
            "part": day.part,
            "current": view.fig(f"energy/day/{place}/current_a", "A"),
            "hours": _three(view, f"energy/day/{place}/hours"),
            "use": _three(view, f"energy/day/{place}/use_ah"),
        }
        for place, day in enumerate(energy.days)
    ]
    usable = significant(energy.usable_ah, ENOUGH)
    return {
        "days": days,
        "night_lines": [
            f"{usable} Ah / {significant(energy.day_ah[place], ENOUGH)} Ah = {significant(nights, ENOUGH)}"
            for place, nights in ((2, energy.nights[0]), (0, energy.nights[1]))
            if energy.day_ah[place] > 0
        ],
        "nights": _range(view, "energy/nights"),
        "weeks": _range(view, "energy/weeks_to_half"),
        "idle": view.fig("energy/idle_a", "A"),
        "week_lines": [
            f"{significant(energy.capacity_ah, ENOUGH)} Ah / 2 / ({significant(energy.idle_a, ENOUGH)} A + …) / 168 h"
        ],
    }


def _three(view: View, path: str) -> Markup:
    return Markup(" · ").join(view.fig(f"{path}/{place}") for place in range(3))


def _range(view: View, path: str) -> Markup:
    return Markup(" – ").join(view.fig(f"{path}/{place}") for place in range(2))
