"""A build file on which changes are sketched: its lines, the extents of its entries, and the making of edits."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from builder.buildfile.edits import Edit
from builder.buildfile.extents import Entry, Extent, Place, entries_of, entry_at
from builder.buildfile.problems import BLANK, in_quotes, quote
from builder.buildfile.reading_characters import comment_start
from builder.trailer.origin import Origin

MOST_ENDS = 6


@dataclass(frozen=True)
class Leaf:
    """The bytes of a build file and its lines, as they are read; places count from 0."""

    data: bytes
    lines: tuple[str, ...]

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """Every entry that can be read."""
        return entries_of(self.lines)

    def entry(self, origin: Origin) -> Entry | None:
        """Return the innermost entry at a place of the reader."""
        return entry_at(self.entries, place_of(origin))

    def edit(self, extent: Extent, text: str, what: str = "", sure: bool = False) -> Edit:
        """Return the edit that writes a text in place of an extent."""
        (line, column), (end_line, end_column) = extent
        if text == BLANK:
            what = f"leave a blank ({BLANK}) to be filled in"
        what = what or (f"write {quote(text, 60)}" if text.strip() else "take it out")
        return Edit(line + 1, column + 1, end_line + 1, end_column + 1, text, what, sure)

    def insert(self, place: Place, text: str, what: str = "", sure: bool = False) -> Edit:
        """Return the edit that puts a text in at a place."""
        return self.edit((place, place), text, what, sure)

    def text(self, extent: Extent) -> str:
        """Return what stands in an extent."""
        (line, column), (end_line, end_column) = extent
        if line == end_line:
            return self.lines[line][column:end_column]
        rows = [
            self.lines[line][column:],
            *self.lines[line + 1 : end_line],
            self.lines[end_line][:end_column],
        ]
        return "\n".join(rows)

    def content_end(self, line: int) -> int:
        """Return the column behind the last sign of a line that belongs to no comment."""
        text = self.lines[line]
        return len(text[: comment_start(text)].rstrip())

    def ends(self, line: int, least: int) -> list[int]:
        """Return the columns from ``least`` on where a value of a line may end: the last first."""
        last = self.content_end(line)
        text = self.lines[line]
        found = [at for at in range(least, last) if text[at] in ",]}"]
        return [end for end in [last, *reversed(found)] if end >= least][:MOST_ENDS]

    def quoted(self, line: int, start: int, least: int, whole: bool = False) -> Iterable[Edit]:
        """Yield the edits that put a value of a line in quotes, from ``start`` to each place where it may end.

        With ``whole`` the value may go on to the end of the line, as no comment.
        """
        ends = self.ends(line, least)
        if whole:
            ends = [len(self.lines[line].rstrip()), *self._before_closers(line), *ends]
        for end in dict.fromkeys(ends):
            text = self.lines[line][start:end].rstrip()
            yield self.edit(((line, start), (line, start + len(text))), in_quotes(text), "put it in quotes")

    def commented(self, first: int, last: int) -> Edit:
        """Return the edit that turns lines into comments."""
        rows = [
            (len(text) - len(text.lstrip()), text) if text.strip() else (0, "")
            for text in self.lines[first : last + 1]
        ]
        text = "\n".join(f"{row[:indent]}# {row[indent:]}" if row else row for indent, row in rows)
        what = "turn the line into a comment" if first == last else "turn these lines into comments"
        return self.edit(((first, 0), (last, len(self.lines[last]))), text, what)

    def _before_closers(self, line: int) -> list[int]:
        text = self.lines[line].rstrip()
        kept = text.rstrip("]} ")
        return [at for at in range(len(text), len(kept) - 1, -1) if at < len(text)]


def place_of(origin: Origin) -> Place:
    """Return a place of the reader with line and column counted from 0."""
    return origin.line - 1, origin.column - 1


def extent_of(origin: Origin) -> Extent:
    """Return what a place of the reader marks."""
    line, column = place_of(origin)
    return (line, column), (line, column + origin.length)
