"""What is wrong with a build file, and how it is told: as text, in brief, as JSON.

One problem has one cause and one message. Nothing that is printed here can move a terminal's cursor or
turn the direction of writing: such characters are shown by their code point.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal

from builder.trailer.origin import Origin

SHOWN_AT_ONCE = 50
LINE_WIDTH = 100
BLANK = "___"
"""Stands in a build file for what only its maker knows; the reader names each one that is left."""


@dataclass(frozen=True, slots=True)
class Mend:
    """A way to mend a problem, as far as the one who tells of it knows: `builder.buildfile.mending` makes edits of it.

    Attributes:
        text: what to write.
        how: ``instead`` of what ``at`` marks; ``add`` it to the names of the group that ``at`` names or stands in,
            or ``beside`` the entry there;
            ``heading`` adds a line at the end of the file;
            ``comment`` makes comments of the whole entry at the place; ``out`` takes the entry there out;
            ``indent`` stands before the line in place of its blanks.
        at: the place, where it is not the one that the problem marks.
        sure: whether it is a matter of spelling alone, so that it may be written without asking.

    """

    text: str
    how: Literal["instead", "add", "beside", "heading", "indent", "comment", "out"] = "instead"
    at: Origin | None = None
    sure: bool = False


def instead(*texts: str, at: Origin | None = None, sure: bool = False) -> tuple[Mend, ...]:
    """Return the mends that write one of some texts in place of the marked words, or of what ``at`` marks."""
    return tuple(Mend(text, at=at, sure=sure) for text in texts)


def add(*texts: str, at: Origin | None = None) -> tuple[Mend, ...]:
    """Return the mends that add a name with its value to a group."""
    return tuple(Mend(text, "add", at) for text in texts)


def beside(text: str, at: Origin | None) -> tuple[Mend, ...]:
    """Return the mend that adds an entry to the group that the entry at a place stands in; none without a place."""
    return (Mend(text, "beside", at),) if at else ()


def leave_out(at: Origin, how: Literal["comment", "out"] = "comment") -> tuple[Mend, ...]:
    """Return the mend that leaves the entry at a place out: as a comment, or taken out where it is a word of a list."""
    return (Mend("", how, at),)


def heading(*lines: str) -> tuple[Mend, ...]:
    """Return the mend that adds lines to the end of the file."""
    return (Mend("\n".join(lines), "heading"),)


def in_quotes(text: str, quoted: bool = True) -> str:
    """Return a text in double quotes, or as it is."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"' if quoted else text


@dataclass(frozen=True, order=True, slots=True)
class Problem:
    """One problem of a build file.

    Attributes:
        origin: the very word that is marked.
        name: the problem in plain words, such as ``unknown word``.
        message: a plain sentence that says what is wrong, without the way out.
        help: what to do.
        also: a second place that belongs to it, such as the first of two equal names.
        mends: ways to mend it.

    """

    origin: Origin
    name: str
    message: str
    help: str
    also: Origin | None = field(default=None, compare=False)
    mends: tuple[Mend, ...] = field(default=(), compare=False)


def sort_and_merge(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Sort by place; problems with the same name that start at the same place become one."""
    kept: dict[tuple[int, int, str], Problem] = {}
    for problem in sorted(problems):
        kept.setdefault((problem.origin.line, problem.origin.column, problem.name), problem)
    return tuple(kept.values())


def render_text(
    problems: Sequence[Problem], file_name: str, lines: Sequence[str], limit: int | None = SHOWN_AT_ONCE
) -> str:
    """Every problem with its line, a mark under the very word, and what to do.

    Args:
        problems: in the order in which they are shown.
        file_name: as the user wrote it.
        lines: the lines of the file, without their ends.
        limit: how many are shown; None shows all.

    Returns:
        The text, ending in a line end; empty if there is no problem.

    """
    shown = problems if limit is None else problems[:limit]
    text = "\n".join(_block(problem, file_name, lines) for problem in shown)
    return text + _how_many_more(len(problems) - len(shown))


def render_brief(problems: Sequence[Problem], file_name: str, limit: int | None = None) -> str:
    """One line a problem: ``file:line:column: message``."""
    shown = problems if limit is None else problems[:limit]
    text = "".join(_head(problem, file_name) + "\n" for problem in shown)
    return text + _how_many_more(len(problems) - len(shown))


def to_json(problems: Sequence[Problem], file_name: str) -> list[dict[str, object]]:
    """Plain dictionaries for ``json.dumps``; lines and columns count from 1. ``page`` is what explains the name."""
    return [
        {
            "file": file_name,
            "line": problem.origin.line,
            "column": problem.origin.column,
            "length": problem.origin.length,
            "name": problem.name,
            "message": problem.message,
            "help": problem.help,
            "page": f"wiring-manual explain {problem.name}",
        }
        for problem in problems
    ]


def marked_line(lines: Sequence[str], origin: Origin) -> tuple[str, str, str]:
    """Return the line of a place as it is shown: what stands before the marked word, the word, what comes after.

    A long line is cut around the word. Hidden characters are shown by their code point.
    """
    line = lines[origin.line - 1] if 0 < origin.line <= len(lines) else ""
    first = min(origin.column - 1, len(line))
    start, end, left, right = _window(line, first)
    last = max(first, min(first + origin.length, end))
    return left + visible(line[start:first]), visible(line[first:last]), visible(line[last:end]) + right


def visible(text: str) -> str:
    """Return the text with tabs and line ends as one space and every hidden character as ``<U+202E>``."""
    return "".join(map(_shown, text))


def quote(word: str, longest: int = 40) -> str:
    """Return a word of the file for use in a sentence: in backquotes, nothing hidden, cut if long."""
    text = " ".join(word.split())
    return f"`{visible(text if len(text) <= longest else text[: longest - 1] + '…')}`"


def code_point(char: str) -> str:
    """``U+200B`` for the zero width space, and so on."""
    return f"U+{ord(char):04X}"


def _how_many_more(count: int) -> str:
    if count <= 0:
        return ""
    return f"… and {count} more problem{'s' if count > 1 else ''}.\n"


def _head(problem: Problem, file_name: str) -> str:
    place = f"{problem.origin.line}:{problem.origin.column}"
    return f"{visible(file_name)}:{place}: {visible(problem.message)}"


def _block(problem: Problem, file_name: str, lines: Sequence[str]) -> str:
    origin, also = problem.origin, problem.also
    gutter = max(4, len(str(max(origin.line, also.line if also else 0))))
    bar = " " * gutter + " | "
    rows = [_head(problem, file_name)]
    source, mark = _marked(lines, origin)
    before, after = _second_place(lines, origin, also, gutter)
    rows += [*before, f"{origin.line:>{gutter}} | {source}".rstrip(), bar + mark, *after]
    rows.append(" " * gutter + f" help: {visible(problem.help)}")
    return "\n".join(rows) + "\n"


def _second_place(
    lines: Sequence[str], origin: Origin, also: Origin | None, gutter: int
) -> tuple[list[str], list[str]]:
    """Return the line of the second place, to stand before or after the marked one."""
    if also is None or also.line == origin.line:
        return [], []
    row = f"{also.line:>{gutter}} | {_marked(lines, also)[0]}".rstrip()
    gap = [" " * gutter + " …"] if abs(also.line - origin.line) > 1 else []
    return ([row, *gap], []) if also.line < origin.line else ([], [*gap, row])


def _marked(lines: Sequence[str], origin: Origin) -> tuple[str, str]:
    """Return the line as it is shown, cut around the word if it is long, and the mark under the word."""
    before, word, after = marked_line(lines, origin)
    return before + word + after, " " * _width(before) + "^" * max(1, _width(word))


def _window(line: str, first: int) -> tuple[int, int, str, str]:
    """Where to cut a line so that what stands around index ``first`` is seen."""
    # Every character is at least shown as one cell or belongs to the one before it; only the
    # neighbourhood of the mark is measured, so that a line of a million characters costs nothing.
    start = first
    room = LINE_WIDTH // 3
    while start > 0 and first - start < LINE_WIDTH and (room := room - _cells(line[start - 1])) >= 0:
        start -= 1
    room = LINE_WIDTH - _width(line[start:first])
    end = first
    while end < len(line) and end - first < 2 * LINE_WIDTH and (room := room - _cells(line[end])) >= 0:
        end += 1
    if end == len(line):
        # A short line, or the end of a long one: use what room is left at the front.
        while start > 0 and end - start < 2 * LINE_WIDTH and (room := room - _cells(line[start - 1])) >= 0:
            start -= 1
    return start, end, "…" if start else "", "…" if end < len(line) else ""


def _width(text: str) -> int:
    return sum(map(_cells, text))


def _cells(char: str) -> int:
    """How many columns of a terminal the character takes as it is shown."""
    shown = _shown(char)
    if len(shown) > 1:
        return len(shown)
    if unicodedata.category(char) in {"Mn", "Me"}:
        return 0
    return 2 if unicodedata.east_asian_width(char) in {"W", "F"} else 1


def _shown(char: str) -> str:
    if char in "\t\n\r":
        return " "
    hidden = unicodedata.category(char) in {"Cc", "Cf", "Cs", "Cn", "Zl", "Zp"}
    return f"<{code_point(char)}>" if hidden else char
