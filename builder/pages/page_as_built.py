"""As built: what was done otherwise than planned, with the plan beside it."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.electrics.figures import CircuitChange
from builder.pages.page_fuses import wire_link
from builder.pages.rounding import Reader, shown
from builder.pages.view import View
from builder.trailer.changes import Change
from builder.trailer.color import Color


def has_changes(view: View) -> bool:
    """Tell whether anything was done otherwise than planned."""
    return bool(view.trailer.changes)


def as_built_page(view: View) -> dict[str, Any]:
    """Return what the template of the page is filled with: each change, and what the circuits came to."""
    return {
        "changes": changes_of(view),
        "measured": measured_of(view),
        "circuits": [
            circuit_row(view, place)
            for place, one in enumerate(view.figures.circuit_changes)
            if _reads_otherwise(one)
        ],
    }


def changes_of(view: View, circuit: int | None = None) -> list[dict[str, Any]]:
    """Return the changes, or those that belong to one circuit, without wires of which a length alone was measured."""
    return [
        change_data(view, change)
        for change in view.trailer.changes
        if not _is_measure(change) and (circuit is None or circuit in change.circuits)
    ]


def measured_of(view: View, circuit: int | None = None) -> list[dict[str, Any]]:
    """Return the wires, or those of one circuit, of which a length alone was measured: planned and built."""
    places = {one.number: place for place, one in enumerate(view.figures.wire_changes)}
    return [
        {
            "wire": wire_link(change.about),
            "circuits": [_link(view, number) for number in change.circuits],
            "date": change.date,
            "planned": view.fig(f"wire_changes/{places[change.about]}/planned_length_m"),
            "built": view.fig(f"wire_changes/{places[change.about]}/length_m"),
        }
        for change in view.trailer.changes
        if _is_measure(change) and (circuit is None or circuit in change.circuits)
    ]


def _is_measure(change: Change) -> bool:
    """Tell whether nothing was done otherwise but that a wire has the length that it was cut to."""
    return change.kind == "wire" and change.words == ("length",) and not change.note


def change_data(view: View, change: Change) -> dict[str, Any]:
    """Return one change: what it is about, its date and note, and each word with the plan and what is built."""
    return {
        "about": change.about,
        "kind": change.kind,
        "circuits": [_link(view, number) for number in change.circuits],
        "date": change.date,
        "note": change.note,
        "leads": "through" in change.words,
        "rows": [*_of_wire(view, change), *_of_circuit(view, change), *_of_lamps(view, change)],
    }


def _link(view: View, number: int) -> Markup:
    circuit = view.trailer.circuit(number)
    return Markup('<a href="{}">{}</a>').format(view.circuit_link(circuit), circuit.name)


def _of_wire(view: View, change: Change) -> list[tuple[str, Any, Any]]:
    """Return the words of a changed wire, each with what was planned and what is built."""
    found = [n for n, one in enumerate(view.figures.wire_changes) if one.number == change.about]
    if change.kind != "wire" or not found:
        return []
    path, one = f"wire_changes/{found[0]}", view.figures.wire_changes[found[0]]
    rows: list[tuple[str, Any, Any]] = []
    if "through" in change.words and one.way != one.planned_way:
        rows.append(("way", ", ".join(one.planned_way) or "–", ", ".join(one.way) or "–"))
    if "length" in change.words or one.length_m != one.planned_length_m:
        rows.append(("length", view.fig(f"{path}/planned_length_m"), view.fig(f"{path}/length_m")))
    if "size" in change.words:
        rows.append(("size", one.planned_size, one.size))
    if "color" in change.words:
        rows.append(("color", _named(one.planned_color), _named(one.color)))
    return rows


def _named(color: Color) -> str:
    return str(color)


def _of_circuit(view: View, change: Change) -> list[tuple[str, Any, Any]]:
    """Return the words of a changed circuit or part, each with what was planned and what is built."""
    if change.kind in ("wire", "lamp") or view.trailer.plan is None:
        return []
    plan, rows = view.trailer.plan, []
    place = next(
        (n for n, one in enumerate(view.figures.circuit_changes) if one.number in change.circuits), None
    )
    path = f"circuit_changes/{place}"
    if "size" in change.words and change.circuits:
        rows.append(
            (
                "size",
                _size(plan.circuit(change.circuits[0]).size),
                _size(view.trailer.circuit(change.circuits[0]).size),
            )
        )
    if "fuse" in change.words and place is not None:
        one = view.figures.circuit_changes[place]
        rows.append(
            (
                "fuse",
                view.fig(f"{path}/planned_fuse_a", "A") if one.planned_fuse_a is not None else "–",
                view.fig(f"{path}/fuse_a", "A") if one.fuse_a is not None else "–",
            )
        )
    if "draws" in change.words and place is not None:
        rows.append(("draws", view.fig(f"{path}/planned_current_a", "A"), view.fig(f"{path}/current_a", "A")))
    return rows


def _of_lamps(view: View, change: Change) -> list[tuple[Any, Any, Any]]:
    """Return what changed road lamps take for each of what they show, as planned and as built."""
    return [
        (
            (one.lamp, one.shows),
            view.fig(f"lamp_changes/{place}/planned_current_a", "A"),
            view.fig(f"lamp_changes/{place}/current_a", "A"),
        )
        for place, one in enumerate(view.figures.lamp_changes)
        if one.lamp in change.lamps
    ]


def _size(size: object) -> str:
    return str(size) if size is not None else "–"


def _reads_otherwise(one: CircuitChange) -> bool:
    """Tell whether an owner sees another figure of a circuit than was planned: an inch more of a wire shows in none.

    The workshop's finer figures are told of the same circuits.
    """
    pairs = (one.planned_current_a, one.current_a), (one.planned_drop_v, one.drop_v)
    return any(shown(planned, Reader.OWNER) != shown(built, Reader.OWNER) for planned, built in pairs)


def circuit_row(view: View, place: int) -> dict[str, Any]:
    """Return what a circuit came to: what it takes and its worst drop, as planned and as built."""
    path = f"circuit_changes/{place}"
    return {
        "link": _link(view, view.figures.circuit_changes[place].number),
        "takes": (view.fig(f"{path}/planned_current_a", "A"), view.fig(f"{path}/current_a", "A")),
        "drop": (view.fig(f"{path}/planned_drop_v", "V"), view.fig(f"{path}/drop_v", "V")),
    }
