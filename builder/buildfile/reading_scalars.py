"""One scalar: its text as written, its very word, and the traps that a single value can hold."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, cast

from yaml import events
from yaml.error import Mark

from builder.buildfile.nodes import Pair, Text
from builder.buildfile.problems import Problem
from builder.buildfile.reading_characters import named, refused, refused_character, without_refused
from builder.trailer.origin import Origin

LONGEST_NAME = 120
LONGEST_VALUE = 2_000

Role = Literal["name", "value", "item", "root"]

_NULL_WORDS = {"~", "null", "Null", "NULL"}
CURLY = "“”„‟‘’‚‛«»‹›"
_MISSING_SPACE = re.compile(r"""([^\s"'\[\]{}#&*!|>%@`,:-][^"'\[\]{}#,:]*):(?=[^\s:/\\])(.*)""")
_COMMENT_WORD = re.compile(r" (#\w\S*)")
_SURROGATES = re.compile("[\ud800-\udbff][\udc00-\udfff]")
_TAG = re.compile(r"![^\s,\[\]{}]*")
_ESCAPE = re.compile(
    r"\\(?:(?P<pair>u[dD][89abAB]..\\u[dD][c-fC-F]..)|x(?P<x>..)|u(?P<u>.{4})|U(?P<U>.{8})|(?P<letter>.))",
    re.DOTALL,
)


def span(event: events.Event) -> tuple[Mark, Mark]:
    """Give the two marks of an event; the pure-Python parser always sets them."""
    return cast("Mark", event.start_mark), cast("Mark", event.end_mark)


@dataclass(frozen=True, slots=True)
class Source:
    """Cleaned lines and the number of the first of them in the file."""

    lines: Sequence[str]
    first_line: int

    def origin(self, start: Mark, end: Mark) -> Origin:
        """From mark to mark, or to the end of the first line where it goes over several."""
        if start.line >= len(self.lines):
            return Origin(self.first_line + len(self.lines) - 1, len(self.lines[-1]) + 1)
        stop = end.column if end.line == start.line else len(self.lines[start.line].rstrip())
        return Origin(self.first_line + start.line, start.column + 1, max(1, stop - start.column))

    def grown(self, origin: Origin, end: Mark) -> Origin:
        """Return the origin up to ``end`` if that is on the same line."""
        if self.first_line + end.line != origin.line:
            return origin
        return Origin(origin.line, origin.column, max(1, end.column - origin.column + 1))

    def sign(self, start: Mark, word: str) -> Origin:
        """Return the place of ``word`` at or behind ``start`` on its line."""
        at = max(start.column, self.lines[start.line].find(word, start.column))
        return Origin(self.first_line + start.line, at + 1, len(word))

    def tag(self, start: Mark) -> tuple[Origin, str]:
        """Return the place and the word of the tag at or behind ``start``."""
        hit = _TAG.search(self.lines[start.line], start.column)
        word = hit.group() if hit else "!"
        return self.sign(start, word), word

    def line(self, number: int) -> str:
        """Return the cleaned line with the file's line number ``number``."""
        return self.lines[number - self.first_line]

    def behind(self, origin: Origin) -> str:
        """Return what stands on the line behind a word, without the blanks before it."""
        return self.line(origin.line)[origin.column - 1 + origin.length :].lstrip()

    def rest(self, mark: Mark) -> str:
        """Return what stands on the line from ``mark`` on."""
        return self.lines[mark.line][mark.column :] if mark.line < len(self.lines) else ""


@dataclass(frozen=True, slots=True)
class Scalar:
    """What was read: ``wanted`` is false if it must be left out, since its problem is told already.

    ``own_line`` is true where a pair could stand as well; ``end`` is its last line and column (from 0).
    """

    text: Text | None
    wanted: bool = True
    own_line: bool = False
    end: tuple[int, int] | None = None
    problems: tuple[Problem, ...] = ()


def read_scalar(event: events.ScalarEvent, source: Source, role: Role) -> Scalar:
    """Return the text of a scalar event and every problem that lies in it alone."""
    plain = event.style is None
    start, end = span(event)
    origin = source.origin(start, end)
    problems = [] if role == "name" or not plain else list(_comment_in_value(end, source))
    if plain and not event.value:
        return _nothing(origin, role, problems)
    problems += _escapes(event, source) if event.style == '"' else []
    value = unicodedata.normalize("NFC", without_refused(_whole_characters(event.value))).strip("\n")
    if role == "name":
        value = " ".join(value.split())
    if not value and (event.value or role == "name"):
        problems += [_missing_name(origin)] if role == "name" and not event.value.strip() else []
        return Scalar(None, wanted=False, problems=tuple(problems))
    if plain and role == "value" and value in _NULL_WORDS:
        return Scalar(None, problems=tuple(problems))
    curly = plain and _in_curly_quotes(value)
    if curly:
        problems += [curly_quotes(origin)] if role in ("name", "root") else []
        value = value.strip(CURLY).strip()
    too_long = _too_long(value, origin, role)
    return Scalar(
        Text(value, origin, not plain, curly),
        wanted=not too_long,
        own_line=plain and _could_be_pair(start, source, role),
        end=(end.line, end.column),
        problems=(*problems, *too_long),
    )


def missing_space_pairs(scalar: Scalar, source: Source) -> tuple[list[Pair], list[Problem]]:
    """Return the pairs in a text such as ``fuse:3 A``, each with its problem; else nothing.

    A pair whose value begins with a bracket is told of but not returned.
    """
    pairs: list[Pair] = []
    problems: list[Problem] = []
    for number, start, text in _pieces(scalar, source):
        hit = missing_space(text)
        if hit is None:
            break
        name, value = hit.group(1), hit.group(2)
        problems.append(missing_space_problem(hit, number, start + 1))
        if value[0] not in "[{":
            value_origin = Origin(number, start + 1 + hit.start(2), len(value))
            key_origin = Origin(number, start + 1, len(name))
            cleaned = unicodedata.normalize("NFC", without_refused(" ".join(name.split())))
            value = unicodedata.normalize("NFC", without_refused(value))
            pairs.append(Pair(Text(cleaned, key_origin), Text(value, value_origin)))
    return pairs, problems


def missing_space(text: str) -> re.Match[str] | None:
    """Whether a text begins as a name with a colon and no space: groups are name and value."""
    hit = _MISSING_SPACE.match(text)
    is_name = hit and len(hit.group(1)) > 1 and any(map(str.isalpha, hit.group(1)))
    return hit if is_name else None


def missing_space_problem(hit: re.Match[str], line: int, column: int) -> Problem:
    """Return the problem of a colon without its space; ``column`` is where the match began."""
    name, value = hit.group(1), hit.group(2)
    word = value.split()[0]
    better = f"{name}: {value}"
    return Problem(
        Origin(line, column, len(name) + 1 + len(word)),
        "missing space after colon",
        "there must be a space after the colon",
        f"write {named(better, 60)}; a text that holds a colon goes in quotes",
    )


def curly_quotes(origin: Origin) -> Problem:
    """Return the problem of typographic quotes in place of straight ones."""
    message = f"these are curly quotes (column {origin.column})"
    return Problem(origin, "curly quotes", message, 'use straight quotes (") or none')


def comment_problem(line: int, column: int, word: str) -> Problem:
    """Return the problem of a ``#4`` that was meant as part of a value."""
    help_ = f"if {named(word)} belongs to the value, put the value in quotes; if not, write a space after #"
    return Problem(
        Origin(line, column, len(word)), "comment in a value", "everything after # is a comment", help_
    )


def comment_word(text: str, start: int = 0) -> re.Match[str] | None:
    """Return a sign such as `` #4`` that begins a comment at ``start``; group 1 is the word."""
    return _COMMENT_WORD.match(text, start)


def starts_curly(value: str) -> bool:
    """Whether a value begins with a typographic quote."""
    return value.startswith(tuple(CURLY))


def name_too_long(origin: Origin, length: int) -> Problem:
    """Return the problem of a name over the limit."""
    message = f"this name has {length:,} characters; a name may have up to {LONGEST_NAME}"
    help_ = "write a short name, and the rest under `note:`"
    return Problem(Origin(origin.line, origin.column, length), "name too long", message, help_)


def _in_curly_quotes(value: str) -> bool:
    if not starts_curly(value):
        return False
    return len(value) > 1 and (value[-1] in CURLY or not set(value[1:]) & set(CURLY))


def _nothing(origin: Origin, role: Role, problems: list[Problem]) -> Scalar:
    before = Origin(origin.line, max(1, origin.column - 1))
    if role == "name":
        problems.append(_missing_name(before))
    elif role == "item" and not problems:
        message = "this item of the list is empty"
        problems.append(Problem(before, "empty item", message, "write the item, or take its sign out"))
    return Scalar(None, wanted=role in ("value", "root") and not problems, problems=tuple(problems))


def _missing_name(origin: Origin) -> Problem:
    message = "a name is missing before the colon"
    return Problem(origin, "missing name", message, "write the name, or take the line out")


def _whole_characters(value: str) -> str:
    r"""Join two escapes that together name one character (``"\ud83d\ude00"``)."""
    return _SURROGATES.sub(lambda hit: hit.group().encode("utf-16", "surrogatepass").decode("utf-16"), value)


def _comment_in_value(end: Mark, source: Source) -> Iterator[Problem]:
    hit = comment_word(source.rest(end))
    if hit:
        yield comment_problem(source.first_line + end.line, end.column + hit.start(1) + 1, hit.group(1))


def _could_be_pair(start: Mark, source: Source, role: Role) -> bool:
    before = source.lines[start.line][: start.column]
    return role == "item" or (role in ("value", "root") and not before.replace("-", " ").strip())


def _pieces(scalar: Scalar, source: Source) -> Iterator[tuple[int, int, str]]:
    """Line number, index and text of each line of a plain scalar."""
    if scalar.text is None:
        return
    origin = scalar.text.origin
    start = origin.column - 1
    yield origin.line, start, source.line(origin.line)[start : start + origin.length]
    last = source.first_line + scalar.end[0] if scalar.end else origin.line
    for number in range(origin.line + 1, last + 1):
        line = source.line(number)
        stop = scalar.end[1] if scalar.end and number == last else len(line)
        text = line[:stop].strip()
        if text:
            yield number, len(line) - len(line.lstrip()), text


def _too_long(value: str, origin: Origin, role: Role) -> list[Problem]:
    if role == "name" and len(value) > LONGEST_NAME:
        return [name_too_long(origin, origin.length)]
    if len(value) <= LONGEST_VALUE:
        return []
    message = f"this value has {len(value):,} characters; a value may have up to {LONGEST_VALUE:,}"
    return [Problem(origin, "value too long", message, "shorten it; a long text goes into a file of its own")]


def _escapes(event: events.ScalarEvent, source: Source) -> Iterator[Problem]:
    """Escapes that name a character which no value may hold, or one that was meant as a folder."""
    start, end = span(event)
    for line in range(start.line, min(end.line + 1, len(source.lines))):
        text = source.lines[line][: end.column if line == end.line else None]
        for hit in _ESCAPE.finditer(text, start.column if line == start.line else 0):
            origin = Origin(source.first_line + line, hit.start() + 1, hit.end() - hit.start())
            yield from _escape_problem(hit, origin)


def _escape_problem(hit: re.Match[str], origin: Origin) -> Iterator[Problem]:
    if hit["pair"]:
        return
    if hit["letter"]:
        if hit["letter"] not in '"\\/ _':
            yield backslash(origin, hit.group())
        return
    char = chr(int(hit["x"] or hit["u"] or hit["U"], 16))
    if refused(char, 0) or char in "\t\n\r":
        yield refused_character(char, origin)


def backslash(origin: Origin, written: str) -> Problem:
    """Return the problem of a backslash that YAML takes for the start of an escape."""
    message = f"a backslash starts an escape inside double quotes: {named(written)}"
    return Problem(origin, "backslash", message, "write / between folders, or leave the quotes off")
