"""A ledger as the text of its file: one line for each number that was ever issued.

Circuits and spare wires stand by number, wires in the order in which they were issued: a wire that came later lands
behind those that were there.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.buildfile.ledger_lines import line_of
from builder.trailer.ledger import IssuedCircuit, IssuedSpare, IssuedWire, Ledger, number_order

FORM = "2"
FORMS = ("1", FORM)
"""Forms that are read: the first kept no sizes, and did not know a wire that was left in a wall."""
HEAD = (
    "# The wire numbers of one trailer. Only the command wiring-manual number writes this file: change nothing in it.",
    "# A number stays with its wire for ever; that of a wire which was taken out is retired, and no other gets it.",
    "# Keep this file beside the build file, and keep a copy: without it nobody knows which number is on which wire.",
)
CIRCUITS = ("circuit", "state", "group", "fuse way", "name")
WIRES = ("wire", "state", "size", "use", "from", "terminal", "to", "terminal", "behind it")
WIRES_OF_FORM_1 = tuple(cell for cell in WIRES if cell != "size")
SPARES = ("spare wire", "state", "name")
TRAILER, FORM_WORD, END = "trailer", "form", "end"
ISSUED, RETIRED, LEFT = "issued", "retired", "left in the wall"


def ledger_text(ledger: Ledger) -> str:
    """Return the text of a ledger's file; the same ledger gives the same text."""
    circuits = sorted(ledger.circuits, key=lambda one: one.number)
    spares = sorted(ledger.spares, key=lambda one: number_order(one.number))
    rows: list[str] = [*HEAD, line_of((FORM_WORD, FORM)), line_of((TRAILER, ledger.name, ledger.number)), ""]
    rows += _table(CIRCUITS, map(_circuit, circuits))
    rows += _table(WIRES, map(_wire, ledger.wires))
    rows += _table(SPARES, map(_spare, spares))
    rows.append(line_of((END, *counts(ledger))))
    return "\n".join(rows) + "\n"


def counts(ledger: Ledger) -> tuple[str, str, str]:
    """Return how many circuits, wires and spare wires a ledger holds, in the words of its last line."""
    return (
        f"circuits {len(ledger.circuits)}",
        f"wires {len(ledger.wires)}",
        f"spare wires {len(ledger.spares)}",
    )


def _table(head: tuple[str, ...], rows: Iterator[tuple[object, ...]]) -> list[str]:
    lines = [line_of(row) for row in rows]
    return [line_of(head), *lines, ""] if lines else []


def _state(one: IssuedCircuit | IssuedWire | IssuedSpare) -> str:
    if isinstance(one, IssuedWire) and one.left:
        return LEFT
    return RETIRED if one.retired else ISSUED


def _circuit(one: IssuedCircuit) -> tuple[object, ...]:
    return (one.number, _state(one), one.group, "" if one.way is None else one.way, one.name)


def _wire(one: IssuedWire) -> tuple[object, ...]:
    ends = (one.start.part, one.start.pin, one.end.part, one.end.pin)
    size = "" if one.size is None else one.size
    return (one.number, _state(one), size, one.use, *ends, *(one.behind or ("",)))


def _spare(one: IssuedSpare) -> tuple[object, ...]:
    return (one.number, _state(one), one.name)
