"""A place where YAML gives up, with what is needed to find out why."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import yaml
from yaml.tokens import ScalarToken, Token

from builder.buildfile.reading_headings import is_blank
from builder.trailer.origin import Origin

Place = tuple[int, int]


# An escape such as "\\U99999999" names no character: the library lets Python's own error through.
NOT_YAML = (yaml.YAMLError, ValueError, OverflowError)


@dataclass(frozen=True, slots=True)
class Fault:
    """A syntax error in some cleaned lines; its lines and columns count from 0.

    Attributes:
        what: the words of the YAML library, which no user sees.
        during: what it was doing.
        place: where it stopped.
        start: where the thing began that it was reading.
        lines: the cleaned lines.
        first_line: the number of the first of them in the file, counted from 1.
        tokens: the tokens up to the error and a little beyond.

    """

    what: str
    during: str
    place: Place
    start: Place
    lines: Sequence[str]
    first_line: int
    tokens: tuple[Token, ...]

    @property
    def line(self) -> str:
        """Return the line on which YAML gave up."""
        return self.lines[self.place[0]]

    def origin(self, line: int, column: int, length: int = 1) -> Origin:
        """Return the place in the file."""
        return Origin(self.first_line + line, column + 1, max(1, length))

    def number(self, line: int) -> int:
        """Return the line's number in the file."""
        return self.first_line + line

    def word(self, place: Place) -> Origin:
        """Return the word that stands at a place."""
        rest = self.lines[place[0]][place[1] :]
        return self.origin(*place, len(rest.split(" ")[0]))

    def before(self) -> ScalarToken | None:
        """Return the last scalar that ends at or before the error, if nothing but its end stands between."""
        found = None
        for token in self.tokens:
            start, end = _start(token), (token.end_mark.line, token.end_mark.column)
            if start != end and end <= self.place:
                found = token
        return found if isinstance(found, ScalarToken) else None

    def plain_over_lines(self) -> ScalarToken | None:
        """Return the unquoted text before the error, if it began on an earlier line."""
        token = self.before()
        over = token is not None and token.plain and token.start_mark.line < self.place[0]
        return token if over else None


def fault_of(error: Exception, lines: Sequence[str], first_line: int) -> Fault:
    """Put together what is known about an error; lines must not be empty."""
    end = (len(lines) - 1, len(lines[-1].rstrip()))
    what, during = str(error), ""
    place = start = end
    if isinstance(error, yaml.MarkedYAMLError):
        what, during = error.problem or "", error.context or ""
        mark, context = error.problem_mark, error.context_mark
        place = min(end, (mark.line, mark.column)) if mark else end
        start = min(end, (context.line, context.column)) if context else place
    while place[0] > 0 and is_blank(lines[place[0]]):
        place = (place[0] - 1, len(lines[place[0] - 1].rstrip()))
    return Fault(what, during, place, start, lines, first_line, _tokens(lines))


def indent_of(line: str) -> int:
    """How many spaces a line is set in."""
    return len(line) - len(line.lstrip(" "))


def _start(token: Token) -> Place:
    return token.start_mark.line, token.start_mark.column


def _tokens(lines: Sequence[str]) -> tuple[Token, ...]:
    loader = yaml.SafeLoader("\n".join(lines) + "\n")
    taken: list[Token] = []
    try:
        while loader.check_token():
            taken.append(loader.get_token())  # type: ignore[no-untyped-call]
    except NOT_YAML:
        # The scanner still holds what it had read when it met the error.
        taken += loader.tokens
    return tuple(taken)
