"""The labels: one for each end of each wire, sorted by where they go, to be cut into strips."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from builder.electrics.figures import every_size
from builder.lists.ends import crimps
from builder.lists.labels import Label, text_m
from builder.pages.csv_files import csv_text, number_state
from builder.pages.lid_label import lid_label
from builder.pages.page_fuses import wire_link
from builder.pages.page_label_sheets import wrap_cells
from builder.pages.page_landings import has_landings
from builder.pages.terminals import end_data
from builder.pages.view import View
from builder.trailer.model import FRONT_BOX, TOW_PLUG
from builder.trailer.parts import RELAY, Terminal
from builder.trailer.size import Size
from builder.trailer.wires import Role

_SIDES = ("in", "out")
"""Where the current comes in and goes out of what lies in its way, and the two halves of a connector."""
PLACES = ("box", "plug", "parts", "spares")


def labels_page(view: View) -> dict[str, Any]:
    """Return what the template of the labels is filled with: a table for each place where they are handed out."""
    tables: dict[str, list[dict[str, Any]]] = {place: [] for place in PLACES}
    no_loop = frozenset(view.lists.cuts.no_loop)
    gets, sizes = _crimped(view), every_size(view.trailer, view.figures.wires)
    for label in view.lists.labels:
        tables[_place(label)].append(
            _row(view, label, sizes, gets.get((label.wire, label.here)), label.wire in no_loop)
        )
    return {
        "drafts": view.drafts(),
        "lid": lid_label(view),
        "label_length": view.fig("label_length_m") if view.trailer.shelf.label_m else "",
        "long": [
            _long(view, n, label) for n, label in enumerate(view.lists.labels) if _too_long(view, label)
        ],
        "without_loop": bool(no_loop),
        "landings": has_landings(view),
        "relay": any(part.kind == RELAY for part in view.trailer.parts.values()),
        "tables": [{"place": place, "rows": rows} for place, rows in tables.items() if rows],
    }


def _too_long(view: View, label: Label) -> bool:
    most_m = view.trailer.shelf.label_m
    return most_m is not None and text_m(label.texts[0]) > most_m


def _long(view: View, place: int, label: Label) -> dict[str, Any]:
    """Return a label that is longer than the tape, and what to write instead."""
    return {
        "number": wire_link(label.wire),
        "whole": label.texts[0],
        "takes": view.fig(f"labels/{place}/text_length_m"),
        "instead": label.text(view.trailer.shelf.label_m),
        "fits": text_m(label.wire) <= (view.trailer.shelf.label_m or 0.0),
    }


def _place(label: Label) -> str:
    if label.role is Role.SPARE:
        return "spares"
    return {FRONT_BOX: "box", TOW_PLUG: "plug"}.get(label.here.part, "parts")


def _crimped(view: View) -> Mapping[tuple[str, Terminal], Mapping[str, Any]]:
    """Return what is crimped on each end, by number and terminal, in the words of the landing sheet."""
    return {
        key: {"fit": {"kind": made.fit.value}, "stud": made.stud, "shared": made.shared}
        for key, made in crimps(view.trailer, view.figures).items()
    }


def _row(
    view: View,
    label: Label,
    sizes: Mapping[str, Size],
    crimped: Mapping[str, Any] | None,
    short: bool,
) -> dict[str, Any]:
    wire = view.wires.get(label.wire) or next(w for w in view.trailer.spares if w.number == label.wire)
    return {
        "here": _end(view, label, label.here),
        "far": _end(view, label, label.far),
        "number": wire_link(label.wire),
        "draft": view.is_draft(wire),
        "chip": view.wire_chip(wire.color, str(sizes[label.wire])),
        "crimp": crimped,
        "role": label.role.value,
        "no_loop": short and _has_the_loop(label),
        "name": label.circuit_name,
    }


def _has_the_loop(label: Label) -> bool:
    """Tell whether a wire's loop would be at this end: at the front box, where it has an end there."""
    return label.far.part != FRONT_BOX


def _end(view: View, label: Label, at: Terminal) -> Any:
    """Return an end for the template; the ends of a spare wire are free text."""
    if label.role is Role.SPARE:
        return at.part
    told = end_data(view.trailer, at)
    sided = at.pin in _SIDES or (told["kind"] == "connector" and at.pin.endswith(_SIDES))
    return {**told, "side": at.pin if sided else ""}


def labels_csv(view: View) -> str:
    """Return the labels in the order of the page."""
    head = (
        "wire", "end", "for", "role", "at", "terminal", "far end", "far terminal", "write", "number is", "size",
        "diameter mm", "printed mm", "tail mm",
    )  # fmt: skip
    wraps = wrap_cells(view)
    drafts = frozenset(view.trailer.draft_numbers)
    return csv_text(
        [
            head,
            *(
                (
                    label.wire,
                    label.side,
                    label.circuit_name,
                    label.role.value,
                    label.here.part,
                    label.here.pin,
                    label.far.part,
                    label.far.pin,
                    label.text(view.trailer.shelf.label_m),
                    number_state(label.wire in drafts),
                    *wraps[label.wire],
                )
                for label in view.lists.labels
            ),
        ]
    )
