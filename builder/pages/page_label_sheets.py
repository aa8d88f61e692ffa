"""The labels as sheets: to print and wrap round the wires, and squares to write in with a pen."""

from __future__ import annotations

from typing import Any

from builder.drawings.label_sheets import Band, SheetWords, Wrapped, pen_sheets, wrap_sheets
from builder.drawings.text_width import visible
from builder.lists.labels import Label
from builder.lists.wrap_labels import Wrap, WrapGroup
from builder.pages.catalogue import catalogue
from builder.pages.view import View

WRAP = "pictures/wrap-labels-{}.svg"
PEN = "pictures/pen-labels-{}.svg"


def has_labels(view: View) -> bool:
    """Tell whether any wire has an end to label."""
    return bool(view.lists.labels)


def wrap_page(view: View) -> dict[str, Any]:
    """Return what the template of the labels to wrap is filled with."""
    return {
        "drafts": view.drafts(),
        "groups": [_group(view, n, group) for n, group in enumerate(view.lists.wraps)],
        "sheets": list(_wraps(view)),
        "given": view.fig("label_length_m") if view.trailer.shelf.label_m else "",
    }


def _group(view: View, number: int, group: WrapGroup) -> dict[str, Any]:
    at = f"wrap_labels/{number}"
    told = ("diameter", "printed", "tail", "whole")
    return {
        "size": str(group.size),
        "count": view.fig(f"{at}/count"),
        **{name: view.fig(f"{at}/{name}_mm", "mm") if group.wrap else "" for name in told},
    }


def pen_page(view: View) -> dict[str, Any]:
    """Return what the template of the labels for a pen is filled with."""
    return {"drafts": view.drafts(), "sheets": list(_pens(view)), "count": len(view.lists.labels)}


def label_sheet_files(view: View) -> dict[str, str]:
    """Return every sheet of labels by its path."""
    return _wraps(view) | _pens(view)


def _wraps(view: View) -> dict[str, str]:
    say = catalogue(view.language).gettext
    bands = [
        Band(
            say("%(size)s, %(mm)s mm thick") % {"size": group.size, "mm": f"{group.wrap.diameter_mm:g}"},
            group.wrap.printed_mm,
            group.wrap.tail_mm,
            group.wrap.lines,
            tuple(Wrapped(_texts(label)) for label in group.labels),
        )
        for group in view.lists.wraps
        if group.wrap is not None
    ]
    label_m = view.trailer.shelf.label_m
    words = SheetWords(say("Labels to wrap round wires, sheet %(n)s"), _mark(view))
    made = wrap_sheets(bands, view.trailer.identity.paper, label_m * 1000 if label_m else None, words)
    return {WRAP.format(n): svg for n, svg in enumerate(made, start=1)}


def _pens(view: View) -> dict[str, str]:
    say = catalogue(view.language).gettext
    texts = [label.texts[0] for label in view.lists.labels]
    words = SheetWords(say("Squares to label wires with a pen, sheet %(n)s"), _mark(view))
    made = pen_sheets(texts, view.trailer.identity.paper, words)
    return {PEN.format(n): svg for n, svg in enumerate(made, start=1)}


def _mark(view: View) -> str:
    return catalogue(view.language).gettext("This line is 50 mm (about 2 in) long.")


def _texts(label: Label) -> tuple[tuple[str, str], ...]:
    return tuple((label.wire, visible(text.removeprefix(label.wire))) for text in label.texts)


def wrap_cells(view: View) -> dict[str, tuple[object, ...]]:
    """Return what the table of labels says of each wire's label to wrap: size, diameter, printed zone, tail in mm."""
    return {
        label.wire: (group.size, *_millimetres(group.wrap))
        for group in view.lists.wraps
        for label in group.labels
    }


def _millimetres(wrap: Wrap | None) -> tuple[str, str, str]:
    if wrap is None:
        return ("", "", "")
    return (f"{wrap.diameter_mm:g}", f"{wrap.printed_mm:.1f}", f"{wrap.tail_mm:.1f}")
