"""How it was worked out: the drop at each load step by step, the textbook formula, the fuse, a day of camping."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from markupsafe import Markup

from builder.electrics.charging import battery_kind, limits
from builder.electrics.conductors import METRES_PER_1000_FT, ambient_factor, awg_row
from builder.electrics.figures import CircuitFigures, EnergyFigures, FuseFigures
from builder.electrics.groups import basis_of
from builder.pages.page_circuit import fuse_data, load_data, load_name, size_data
from builder.pages.page_fuses import wire_link
from builder.pages.rounding import significant
from builder.pages.view import View, joined, step
from builder.tables.conductors import AMPACITY_AMBIENT_C, ampacity_column, bundle_steps
from builder.trailer.assumed import assumption
from builder.trailer.size import Size, by_area

ENOUGH = 6
"""Significant figures of numbers put into a formula; results come from the printed numbers, so that retyping
a line gives its result to the last digit."""
SMALL, OF_SMALL = 0.001, 3
"""Below a thousandth three figures are enough: what follows of them changes no figure that is printed."""

BY_OTHERS = ("main", "twice")
"""Reasons of a main fuse: the fuses behind it decide."""

HOURS_A_MONTH = 365.25 / 12 * 24


GERMAN = ("DE", "AT", "CH")
"""Where a source is called German practice: elsewhere that says nothing to a reader."""


def worked_page(view: View) -> dict[str, Any]:
    """Return what the template of the page is filled with."""
    sources = dict.fromkeys(wire.resistance_source for wire in view.figures.wires.values())
    return {
        "copper": view.fig("assumptions/copper temperature/value"),
        "resistance_source": "; ".join(sources),
        "german": view.trailer.identity.country in GERMAN,
        "workshop": view.edition.reads(),
        "sizes": _sizes(view) if view.edition.reads() else [],
        "factors": _factors(view),
        "circuits": [_circuit(view, figures) for figures in view.figures.circuits.values()],
        "energy": _energy(view),
    }


def _sizes(view: View) -> list[dict[str, Any]]:
    """Return for each size in use what a length of it has in ohm, and how what it bears is worked out.

    Wires of one size that lie beside fewer or more others stand apart: these warm them.
    """
    metres, unit = (METRES_PER_1000_FT / 1000, "ft") if view.trailer.identity.units == "feet" else (1.0, "m")
    rows: dict[tuple[Size, int], dict[str, Any]] = {}
    for wire in view.trailer.wires:
        made = view.figures.wires.get(wire.number)
        if made is None or wire.length_m <= 0:
            continue
        key = made.size, made.bundle
        if key in rows:
            rows[key]["wires"].append(wire_link(wire.number))
            continue
        table, ambient, bundle = (
            _put(made.table_ampacity_a),
            _put(made.ambient_factor),
            _put(made.bundle_factor),
        )
        bears = _put(Decimal(table) * Decimal(ambient) * Decimal(bundle))
        rows[key] = {
            "size": str(made.size),
            "side_by_side": str(made.bundle),
            "bundle": view.fig(f"wires/{step(wire.number)}/bundle"),
            "beside": made.bundle > assumption(view.trailer, "wires side by side").value,
            "wires": [wire_link(wire.number)],
            "ohm": f"1 {unit}: {_put(made.resistance_ohm / wire.length_m * metres)} Ω",
            "bears": f"{table} A · {ambient} · {bundle} = {bears} A",
            "source": made.ampacity_source,
            "row": str(awg_row(made.size)) if made.size.kind == "mm2" else "",
        }
    order = sorted(rows, key=lambda key: (by_area(key[0]), key[1]))
    return [rows[key] | {"wires": joined(rows[key]["wires"])} for key in order]


def _factors(view: View) -> dict[str, Any]:
    """Return how the factors of the surroundings and of wires side by side come about."""
    basis = basis_of(view.trailer)
    around_c, table_c = basis.ambient_c, AMPACITY_AMBIENT_C
    column_c = ampacity_column(basis.insulation_c)
    line = f"√(({column_c} − {around_c:g}) / ({column_c} − {table_c:g})) = {_put(ambient_factor(column_c, around_c))}"
    return {
        "line": line,
        "bears": f"{basis.insulation_c:g}" if basis.insulation_c != column_c else "",
        "column": column_c,
        "steps": [(first, last, f"{factor:g}") for first, last, factor in bundle_steps()],
    }


def _circuit(view: View, figures: CircuitFigures) -> dict[str, Any]:
    fuse = fuse_data(view, figures.fuse)
    if fuse is not None and figures.fuse is not None:
        fuse |= _fuse_lines(view, figures.fuse)
    return {
        "number": figures.number,
        "id": f"worked-{figures.number}",
        "name": view.trailer.circuit(figures.number).name,
        "size": size_data(view, figures.number),
        "fuse": fuse,
        "loads": _loads(view, figures),
        "pencil": _pencil(view, figures),
    }


def _fuse_lines(view: View, fuse: FuseFigures) -> dict[str, Any]:
    """Return what a fuse must carry, as numbers to be checked: hours, the start, and the smallest that is chosen."""
    share = _put(assumption(view.trailer, "fuse loading").value / 100)
    load = _put(fuse.load_a)
    smallest = assumption(view.trailer, "smallest fuse").value
    return {
        "by_load": f"{load} A / {share} = {_put(Decimal(load) / Decimal(share))} A",
        "by_start": f"{_put(fuse.starting_a)} A" if fuse.starting_a > fuse.load_a * (1 + 1e-9) else "",
        "by_floor": "" if fuse.given or fuse.reason in BY_OTHERS else f"{_put(smallest)} A",
        "by_others": f"{_put(fuse.needed_a)} A" if fuse.reason in BY_OTHERS else "",
    }


def _loads(view: View, figures: CircuitFigures) -> list[dict[str, Any]]:
    rows = []
    for row in load_data(view, figures.number):
        load = figures.loads[row["place"]]
        terms = [(step.wire, _put(step.resistance_ohm), _put(step.current_a)) for step in load.steps]
        drops = [_put(Decimal(ohms) * Decimal(amperes)) for _, ohms, amperes in terms]
        lines = [f"{wire}: {r} Ω · {i} A = {u} V" for (wire, r, i), u in zip(terms, drops, strict=True)]
        rows.append(
            row
            | {
                "id": f"drop-{figures.number}-{row['place']}",
                "part": load_name(view, load.load),
                "lines": [*lines, f"{' + '.join(drops)} = {_put(sum(map(Decimal, drops)))} V"],
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
    k, aim = _put(pencil.constant), _put(figures.size.aim_v)
    current, length = _put(pencil.current_a), _put(pencil.length)
    if pencil.length_unit == "ft":
        area = _put(Decimal(k) * Decimal(current) * Decimal(length) / Decimal(aim))
        numbers = f"{k} · {current} A · {length} ft / {aim} V = {area} circular mils"
    else:
        area = _put(2 * Decimal(length) * Decimal(current) / (Decimal(k) * Decimal(aim)))
        numbers = f"2 · {length} m · {current} A / ({k} · {aim} V) = {area} mm²"
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
    return {
        "days": days,
        "night_lines": [
            _divided(energy.usable_ah, energy.day_ah[place]) for place in (2, 0) if energy.day_ah[place] > 0
        ],
        "nights": _range(view, "energy/nights") if energy.day_ah[0] > 0 else "",
        "weeks": _range(view, "energy/weeks_to_half"),
        "idle": view.fig("energy/idle_a", "A"),
        "week_lines": _week_lines(view, energy),
        "lead": battery_kind(view.trailer) == "lead",
        "charging": [_charging(view, energy, place) for place in range(len(energy.charging))],
    }


def _charging(view: View, energy: EnergyFigures, place: int) -> dict[str, Any]:
    """Return the lines behind the hours or days of one way to charge: the least, then the most."""
    one, path = energy.charging[place], f"energy/charging/{place}"
    rows = {row.id: limits(row) for row in view.figures.assumptions}
    extra = next(ends for id_, ends in rows.items() if id_.startswith("extra charge of"))
    factors = [_put(1 + end / 100) for end in extra]
    usable, amps = _put(energy.usable_ah), [_put(end) for end in one.current_a]
    told: dict[str, Any] = {"supply": one.supply, "sun_lines": [], "sun": "", "lines": []}
    if one.day_ah is None:
        told["lines"] = [
            _time(factor, usable, by, "A") for factor, by in zip(factors, reversed(amps), strict=True)
        ]
        return told | {"result": _range(view, f"{path}/hours_h"), "by_sun": False}
    sun, lost = rows["full sun in a day"], rows["solar losses"]
    left = [_put(1 - end / 100) for end in reversed(lost)]
    days = [
        _put(Decimal(_put(hours)) * Decimal(a) * Decimal(share))
        for hours, a, share in zip(sun, amps, left, strict=True)
    ]
    told["sun_lines"] = [
        f"{_put(hours)} h · {a} A · {share} = {day} Ah"
        for hours, a, share, day in zip(sun, amps, left, days, strict=True)
    ]
    told["lines"] = [
        _time(factor, usable, day, "Ah") for factor, day in zip(factors, reversed(days), strict=True)
    ]
    told |= {"sun": _range(view, f"{path}/sun_day_ah"), "by_sun": True}
    return told | {"result": _range(view, f"{path}/days") if one.days else ""}


def _time(factor: str, usable: str, by: str, unit: str) -> str:
    found = _put(Decimal(factor) * Decimal(usable) / Decimal(by))
    return f"{factor} · {usable} Ah / {by} {unit} = {found}"


def _week_lines(view: View, energy: EnergyFigures) -> list[str]:
    """Return the weeks with the most and the least of idle draw and self-discharge, one line where both agree."""
    lines = []
    for lost in (row for row in view.figures.assumptions if row.id.startswith("self-discharge of")):
        for idle_a, percent in zip(reversed(energy.idle_range_a), reversed(limits(lost)), strict=True):
            half, idle = _put(energy.capacity_ah / 2), _put(idle_a)
            away = _put(energy.capacity_ah * percent / 100 / HOURS_A_MONTH)
            weeks = _put(Decimal(half) / (Decimal(idle) + Decimal(away)) / 168)
            lines.append(f"{half} Ah / ({idle} A + {away} A) / 168 h = {weeks}")
    return list(dict.fromkeys(lines))


def _put(value: float | Decimal) -> str:
    """Return a number as it is put into a formula."""
    return significant(float(value), ENOUGH if abs(float(value)) >= SMALL else OF_SMALL)


def _divided(have_ah: float, use_ah: float) -> str:
    have, use = _put(have_ah), _put(use_ah)
    return f"{have} Ah / {use} Ah = {_put(Decimal(have) / Decimal(use))}"


def _three(view: View, path: str) -> Markup:
    return Markup(" · ").join(view.fig(f"{path}/{place}") for place in range(3))


def _range(view: View, path: str) -> Markup:
    return Markup(" – ").join(view.fig(f"{path}/{place}") for place in range(2))
