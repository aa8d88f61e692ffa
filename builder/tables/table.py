"""Reading of the data files: a head of comment lines, then rows of CSV."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Literal, cast, get_args

Known = Literal["read", "quoted", "memory", "practice"]
"""How a figure is known; only ``read`` and ``quoted`` ever decide that something must be mended."""


class NoRow(LookupError):  # noqa: N818 - it says what is missing, as KeyError does
    """A table has no row for what was asked; the message is a plain sentence."""


@dataclass(frozen=True, slots=True)
class Fact:
    """A figure from a table with its unit, its source in words and how it is known."""

    value: float
    unit: str
    source: str
    known: Known


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table: its cells as text by column, its source in words and how it is known."""

    cells: Mapping[str, str]
    source: str
    known: Known

    def number(self, column: str) -> float:
        """Return the number in a column, in the unit of the table's head."""
        return float(self.cells[column])

    def fact(self, column: str, unit: str) -> Fact:
        """Return the number in a column as a `Fact` in the unit given."""
        return Fact(self.number(column), unit, self.source, self.known)


@dataclass(frozen=True, slots=True)
class Table:
    """A whole data file: its head, its column names and its rows in the order of the file."""

    head: Mapping[str, str]
    columns: tuple[str, ...]
    rows: tuple[Row, ...]

    @property
    def title(self) -> str:
        """The title in the head."""
        return self.head["title"]

    def find(self, asked: str, **wanted: str) -> Row:
        """Return the one row whose cells hold what is wanted.

        ``asked`` is the thing in words, such as ``20 AWG``. Raises `NoRow` if no row has it.
        """
        for row in self.rows:
            if all(row.cells[column] == text for column, text in wanted.items()):
                return row
        raise NoRow(f"the table “{self.title}” ({self.source}) has no row for {asked}")

    @property
    def source(self) -> str:
        """The document, its edition and the table in it, in words."""
        return _source_in_words(self.head)


@cache
def load_table(name: str) -> Table:
    """Return the data file of this name, read once.

    Raises ValueError where the file itself is at fault: a head without one of its keys, a row with a
    missing or surplus cell, a word for how it is known that is none of the four.
    """
    text = (resources.files("builder.tables") / "data" / f"{name}.csv").read_text(encoding="utf-8")
    lines = text.splitlines()
    head = _head(name, [line for line in lines if line.startswith("#")])
    records = list(csv.reader(line for line in lines if not line.startswith("#")))
    columns = tuple(records[0])
    if any(len(record) != len(columns) for record in records):
        raise ValueError(f"{name}.csv: a row has more or fewer cells than there are columns")
    cells = [dict(zip(columns, record, strict=True)) for record in records[1:]]
    return Table(head, columns, tuple(_row(name, head, row) for row in cells))


def number_text(value: float) -> str:
    """Return a number as the tables write it in a key column: ``2.5``, ``1``, ``0.75``."""
    return f"{value:g}"


def _head(name: str, lines: list[str]) -> Mapping[str, str]:
    pairs = (line.removeprefix("#").split(":", 1) for line in lines)
    head = {key.strip(): value.strip() for key, value in pairs}
    missing = {"title", "source", "edition", "table", "unit", "known"} - head.keys()
    if missing:
        raise ValueError(f"{name}.csv: the head lacks {', '.join(sorted(missing))}")
    return MappingProxyType(head)


def _row(name: str, head: Mapping[str, str], cells: dict[str, str]) -> Row:
    known = cells.get("known") or head["known"]
    if known not in get_args(Known):
        raise ValueError(f"{name}.csv: “{known}” does not say how a row is known")
    source = cells.get("source") or _source_in_words(head)
    return Row(MappingProxyType(cells), source, cast("Known", known))


def _source_in_words(head: Mapping[str, str]) -> str:
    edition = head["edition"]
    document = head["source"] if edition == "-" else f"{head['source']} ({edition})"
    return document if head["table"] == "-" else f"{document}, {head['table']}"
