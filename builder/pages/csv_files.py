"""Tables as CSV for a spreadsheet; no cell is run as a formula."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from builder.pages.escaping import spreadsheet_cell
from builder.pages.view import View
from builder.trailer.wires import Wire


def csv_text(rows: Iterable[Sequence[object]]) -> str:
    """Return rows as CSV with line feeds; texts that would start a formula get a quote before them."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerows([spreadsheet_cell(str(cell)) for cell in row] for row in rows)
    return out.getvalue()


def wires_csv(view: View) -> str:
    """Return the wire list."""
    head = (
        "wire",
        "circuit",
        "role",
        "from",
        "from terminal",
        "to",
        "to terminal",
        "color",
        "tracer",
        "size",
        "length_m",
        "number is",
    )
    rows = [
        (
            wire.number,
            view.trailer.circuit(wire.circuit).name,
            wire.role.value,
            wire.start.part,
            wire.start.pin,
            wire.end.part,
            wire.end.pin,
            wire.color.base,
            wire.color.tracer,
            view.figures.wires[wire.number].size,
            f"{wire.length_m:.3f}",
            number_state(wire.draft),
        )
        for wire in view.trailer.wires
    ]
    return csv_text([head, *rows, *(_spare(wire) for wire in view.trailer.spares)])


def _spare(wire: Wire) -> tuple[object, ...]:
    """Return the row of a spare wire, which belongs to no circuit."""
    ends = (wire.start.part, wire.start.pin, wire.end.part, wire.end.pin)
    looks = (wire.color.base, wire.color.tracer, wire.size or "")
    return (wire.number, "spare", "", *ends, *looks, f"{wire.length_m:.3f}", number_state(wire.draft))


def number_state(draft: bool) -> str:
    """Return what a table says of a wire's number: whether it can still change."""
    return "draft" if draft else "issued"
