"""Cutting a build file into documents and headings, by its lines alone."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.buildfile.problems import Problem
from builder.buildfile.reading_characters import comment_start
from builder.trailer.origin import Origin

_QUOTED_OR_COMMENT = re.compile(r""""(?:[^"\\]|\\.)*"|'[^']*'|(?:^|\s)#.*""")


@dataclass(frozen=True, slots=True)
class Heading:
    """The lines from one heading in column 1 to the next; ``first_line`` counts from 1."""

    first_line: int
    lines: tuple[str, ...]

    @property
    def name(self) -> str:
        """The name before the colon, as written; empty if there is none."""
        return self.lines[0].partition(":")[0].strip().strip("\"'") if ":" in self.lines[0] else ""


def is_blank(line: str) -> bool:
    """Whether a line holds nothing or a comment alone."""
    text = line.lstrip()
    return not text or text[0] == "#"


def first_document(lines: Sequence[str]) -> tuple[list[str], list[Problem]]:
    """Return the lines with what marks a document taken out, up to where a second document begins."""
    kept: list[str] = []
    problems: list[Problem] = []
    begun = False
    ended = 0
    for number, line in enumerate(lines, start=1):
        marker = line[:3] if line[:3] in ("---", "...") and not line[3:4].strip() else ""
        if marker and not begun and not ended:
            kept.append(line.replace(marker, "   ", 1))
            begun = not is_blank(kept[-1])
        elif ended or marker:
            # Blank lines and comments behind such a sign begin nothing.
            ended = number if marker else ended
            if not is_blank(line[len(marker) :]):
                problems.append(_second_document(ended, len(lines[ended - 1].rstrip())))
                break
        elif line.startswith("%"):
            kept.append("")
            problems += _directive(line, number, begun)
        else:
            kept.append(line)
            begun = begun or not is_blank(line)
    return kept, problems


def headings(lines: Sequence[str]) -> Iterator[Heading]:
    """Cut at each line that begins in column 1, unless it goes on with what is open above it."""
    start = 0
    depth = 0
    comma_above = False
    for index, line in enumerate(lines):
        change = _brackets(line)
        if line[:1] not in ("", " ", "#"):
            goes_on = index > 0 and _goes_on(line, depth, change, comma_above)
            comma_above = goes_on and _ends_in_comma(line)
            if not goes_on:
                yield from _heading(lines, start, index)
                start, depth = index, 0
        depth += change
    yield from _heading(lines, start, len(lines))


def _heading(lines: Sequence[str], start: int, stop: int) -> Iterator[Heading]:
    while start < stop and is_blank(lines[start]):
        start += 1
    while start < stop and not lines[stop - 1].strip():
        stop -= 1
    if start < stop:
        yield Heading(start + 1, tuple(lines[start:stop]))


def _goes_on(line: str, depth: int, change: int, comma_above: bool) -> bool:
    """Whether a line in column 1 belongs to the heading above, where ``depth`` brackets are open."""
    if line[0] in "]}," or line.startswith("- ") or line.rstrip() == "-":
        return True
    inside = change == 0 and (comma_above or _ends_in_comma(line))
    return depth > 0 and (":" not in line or change < 0 or inside)


def _ends_in_comma(line: str) -> bool:
    return line[: comment_start(line)].rstrip().endswith(",")


def _brackets(line: str) -> int:
    """Return opening less closing brackets, outside quotes and comments."""
    bare = _QUOTED_OR_COMMENT.sub(" ", line)
    return sum(map(bare.count, "[{")) - sum(map(bare.count, "]}"))


def _second_document(number: int, length: int) -> Problem:
    return Problem(
        Origin(number, 1, max(1, length)),
        "several documents",
        f"this file holds two documents; the second starts at line {number}",
        "keep one trailer in a file: take out the line of three signs (--- or ...), or move the rest",
    )


def _directive(line: str, number: int, begun: bool) -> list[Problem]:
    """Tell of a line that begins with ``%``; ``%YAML 1.2`` at the top does no harm."""
    if line.startswith(("%YAML ", "%TAG ")) and not begun:
        return []
    message = "a line may not start with %"
    help_ = "put the word in quotes, or write # for a comment"
    return [Problem(Origin(number, 1, 1), "sign at the start", message, help_)]
