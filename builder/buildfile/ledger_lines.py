"""The lines of a ledger's file: cells parted by commas, each with its place."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from builder.trailer.origin import Origin

_NO_FORMULA = "'"
"""Stands before a text that a spreadsheet would run as a formula."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of a line: its text without quotes, and its place."""

    text: str
    origin: Origin


def cells_of(line: str, number: int) -> tuple[Cell, ...] | Origin:
    """Return the cells of a line, or the place of a quote that has no partner.

    A cell in double quotes may hold commas, and a quote in it is written twice (RFC 4180, from memory).
    Arguments: ``line`` without its end; ``number``, which line it is, from 1.
    """
    cells = []
    at = 0
    while True:
        if line[at : at + 1] == '"':
            end, text = _quoted(line, at)
            if end is None:
                return Origin(number, at + 1, max(1, len(line) - at))
        else:
            end = line.find(",", at)
            end = len(line) if end < 0 else end
            text = line[at:end].strip()
        text = text.removeprefix(_NO_FORMULA)
        cells.append(Cell(text, Origin(number, at + 1, max(1, end - at))))
        if end >= len(line):
            return tuple(cells)
        at = end + 1


def _quoted(line: str, at: int) -> tuple[int | None, str]:
    """Return where a quoted cell ends and what it holds; None where it does not end at a comma or the line's end."""
    text = ""
    here = at + 1
    while here < len(line):
        close = line.find('"', here)
        if close < 0:
            return None, ""
        text += line[here:close]
        if line[close + 1 : close + 2] != '"':
            return (close + 1, text) if line[close + 1 : close + 2] in ("", ",") else (None, "")
        text += '"'
        here = close + 2
    return None, ""


def line_of(cells: Iterable[object]) -> str:
    """Return a line of cells, without its end: in quotes what holds a comma, a quote or blanks at its ends."""
    return ",".join(_written(str(cell)) for cell in cells)


def _written(text: str) -> str:
    if text.startswith(_NO_FORMULA) or (len(text) > 1 and text[0] in "=+-@\t"):
        text = _NO_FORMULA + text
    plain = text == text.strip() and not any(sign in text for sign in ',"\r\n') and not text.startswith("#")
    return text if plain else '"' + text.replace('"', '""') + '"'


def shown_lines(lines: Sequence[str]) -> tuple[str, ...]:
    """Return lines as a message shows them: at least one."""
    return tuple(lines) or ("",)
