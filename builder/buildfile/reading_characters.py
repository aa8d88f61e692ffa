"""From bytes to lines: encoding, line ends, and characters that nobody can see.

The cleaned lines have as many characters as the lines of the file, so that columns stay true.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.buildfile.problems import Problem, code_point, quote
from builder.trailer.origin import Origin

LARGEST_FILE_BYTES = 2_000_000

# Stands in the cleaned text for a refused character; no text may hold it, and YAML lets it pass.
FILLER = "\U0010ffff"

_LINE_END = re.compile(r"\r\n|\r|\n")
_OTHER_SPACE = re.compile("[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]")
_SEPARATOR = "\u2028\u2029"
_CONTROL = "\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ufdd0-\ufdef\ufffe\uffff" + "".join(
    f"{chr(plane + 0xFFFE)}{chr(plane + 0xFFFF)}" for plane in range(0x10000, 0x110000, 0x10000)
)
_HIDDEN = (
    "\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b-\u200f\u202a-\u202e\u2060-\u206f"
    "\u3164\ufe00-\ufe0f\ufeff\uffa0\ufff9-\ufffb\U0001d173-\U0001d17a\U000e0000-\U000e0fff"
)
_CONTROL_CHARACTER = re.compile(f"[{_CONTROL}]")
_REFUSED = re.compile(f"[{_CONTROL}{_HIDDEN}{_SEPARATOR}]")
_BYTE_ORDER_MARKS = (
    (b"\xff\xfe\x00\x00", "utf-32-le", "UTF-32"),
    (b"\x00\x00\xfe\xff", "utf-32-be", "UTF-32"),
    (b"\xff\xfe", "utf-16-le", "UTF-16"),
    (b"\xfe\xff", "utf-16-be", "UTF-16"),
    (b"\xef\xbb\xbf", "utf-8", "UTF-8"),
)


@dataclass(frozen=True, slots=True)
class Decoded:
    """The lines of a file, and the one problem that keeps it from being read."""

    lines: tuple[str, ...]
    problem: Problem | None = None


def decode(data: bytes) -> Decoded:
    """Read UTF-8, or UTF-16 and UTF-32 with a byte-order mark; split at CR, LF and CR LF."""
    if len(data) > LARGEST_FILE_BYTES:
        message = f"this file is larger than {LARGEST_FILE_BYTES // 1_000_000} MB"
        help_ = (
            "a build file holds text written by hand; name photos and other files in it, do not paste them"
        )
        return Decoded(("",), Problem(Origin(1, 1), "file too large", message, help_))
    mark, codec, spoken = encoding_of(data)
    try:
        return Decoded(split_lines(data[len(mark) :].decode(codec)))
    except UnicodeDecodeError as error:
        return _not_text(data, error, mark, (codec, spoken))


def split_lines(text: str) -> tuple[str, ...]:
    """Split at every kind of line end; at least one line, and none after the last line end."""
    lines = _LINE_END.split(text)
    if len(lines) > 1 and not lines[-1]:
        lines.pop()
    return tuple(lines)


def clean_line(line: str) -> str:
    """Return the line with spaces of every kind as plain spaces and each refused character as ``FILLER``."""
    if line.isascii() and line.isprintable():
        return line
    spaced = _OTHER_SPACE.sub(" ", line.replace("\t", " "))
    return _REFUSED.sub(lambda hit: _stand_in(spaced, hit.start()), spaced)


def without_refused(text: str) -> str:
    """Return the text without the characters that no value may hold."""
    if text.isascii() and text.isprintable():
        return text
    spaced = _OTHER_SPACE.sub(" ", text)
    halves = (char for index, char in enumerate(spaced) if not refused(spaced, index))
    return "".join(halves)


def refused(text: str, index: int) -> bool:
    """Whether the character at ``index`` may not stand in a build file."""
    char = text[index]
    if "\ud800" <= char <= "\udfff":
        return True
    return _REFUSED.match(char) is not None and not _joins_signs(text, index)


def named(word: str, longest: int = 40) -> str:
    """Return a word of the cleaned text for use in a sentence."""
    return quote(without_refused(word), longest)


def character_problems(lines: Sequence[str]) -> Iterator[Problem]:
    """Refused characters (one problem a line and character) and tabs (one problem a run of lines)."""
    tabbed: list[tuple[int, int]] = []
    for number, line in enumerate(lines, start=1):
        if line.isascii() and line.isprintable():
            continue
        yield from _refused_in(line, number)
        column = tab_column(line)
        if column:
            tabbed.append((number, column))
    yield from _tab_problems(tabbed)


def refused_character(char: str, origin: Origin, more: int = 0) -> Problem:
    """Return the problem of one refused character; ``more`` is how many of it follow on the line."""
    point = code_point(char)
    called = unicodedata.name(char, "").lower()
    again = f", and {more} more on this line" if more else ""
    if "\ud800" <= char <= "\udfff":
        message = f"this is half of a character ({point})"
        return Problem(origin, "half a character", message + again, "write the character itself")
    if char in _SEPARATOR:
        message = f"there is a {called} here ({point})"
        help_ = "delete it and press Enter where a new line is meant"
        return Problem(origin, "line separator", message + again, help_)
    if _CONTROL_CHARACTER.match(char):
        message = f"there is a control character here ({point})"
        return Problem(origin, "control character", message + again, "delete it, or write the line anew")
    named = f"{point}, {called}" if called else point
    message = f"there is an invisible character here ({named})"
    return Problem(origin, "invisible character", message + again, "delete it, or write the word anew")


def comment_start(line: str) -> int | None:
    """Return the index of the ``#`` that begins a comment, as far as one line can tell."""
    open_quote = ""
    last = ":"
    for index, char in enumerate(line):
        if open_quote:
            closed = char == open_quote and (char == "'" or line[index - 1] != "\\")
            open_quote = "" if closed else open_quote
        elif char == "#" and (index == 0 or line[index - 1].isspace()):
            return index
        elif char in "\"'" and last in ":,[{-?" and (index == 0 or line[index - 1] in " \t[{,"):
            open_quote = char
        if not char.isspace():
            last = char
    return None


def encoding_of(data: bytes) -> tuple[bytes, str, str]:
    """Return the byte-order mark of a file, its codec, and how the codec is spoken of."""
    for mark, codec, spoken in _BYTE_ORDER_MARKS:
        if data.startswith(mark):
            return mark, codec, spoken
    return b"", "utf-8", "UTF-8"


def bad_bytes(data: bytes) -> bytes | None:
    """Return the bytes of a file from the first to the last that are not UTF-8; None where all are, or none should be.

    A file with a byte-order mark of another encoding is left alone: nobody knows what it was meant to say.
    """
    mark, codec, _ = encoding_of(data)
    text = data[len(mark) :].decode("utf-8", "surrogateescape")
    bad = [at for at, char in enumerate(text) if "\udc80" <= char <= "\udcff"]
    if codec != "utf-8" or not bad:
        return None
    return text[bad[0] : bad[-1] + 1].encode("utf-8", "surrogateescape")


def _not_text(data: bytes, error: UnicodeDecodeError, mark: bytes, encoding: tuple[str, str]) -> Decoded:
    codec, spoken = encoding
    before = _LINE_END.split(data[len(mark) : len(mark) + error.start].decode(codec, errors="replace"))
    origin = Origin(len(before), len(before[-1]) + 1)
    at = len(mark) + error.start
    message = f"this file is not {spoken} (byte {at}, 0x{data[at]:02X})"
    lines = split_lines(data[len(mark) :].decode(codec, errors="replace"))
    return Decoded(lines, Problem(origin, "unreadable bytes", message, "save the file as UTF-8"))


def _stand_in(line: str, index: int) -> str:
    if not refused(line, index):
        return line[index]
    return " " if line[index] in _SEPARATOR else FILLER


def _joins_signs(text: str, index: int) -> bool:
    """Joiners inside emoji and scripts without capitals, and selectors behind a sign, are wanted."""
    char, before, after = text[index], text[index - 1 : index], text[index + 1 : index + 2]
    if not before:
        return False
    kind = unicodedata.category(before)
    if char in "\u200c\u200d":
        wanted = kind in {"So", "Sk", "Lo", "Mn", "Mc"} and before != "\u034f"
        return wanted and not after.isascii()
    if "\ufe00" <= char <= "\ufe0f":
        return after == "\u20e3" or (not before.isascii() and kind in {"So", "Sm", "Po"})
    return False


def _refused_in(line: str, number: int) -> Iterator[Problem]:
    found: dict[str, list[int]] = {}
    for hit in _REFUSED.finditer(line):
        if refused(line, hit.start()):
            found.setdefault(hit.group(), []).append(hit.start())
    for char, places in found.items():
        yield refused_character(char, Origin(number, places[0] + 1), len(places) - 1)


def tab_column(line: str) -> int:
    """Return the column of the first tab outside a comment, or 0; a tab at the end of a line does no harm."""
    line = line.rstrip()
    if "\t" not in line:
        return 0
    comment = comment_start(line)
    return line.find("\t", 0, comment) + 1


def _tab_problems(tabbed: Sequence[tuple[int, int]]) -> Iterator[Problem]:
    for first, last in _runs(tabbed):
        line, column = tabbed[first]
        count = last - first
        more = f", and in the {count} lines below it" if count > 1 else ", and in the line below it"
        yield Problem(
            Origin(line, column),
            "tab",
            f"there is a tab here{more if count else ''}",
            "use spaces; most editors can turn all tabs into spaces at once",
        )


def _runs(tabbed: Sequence[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """First and last index of each run of neighbouring lines."""
    first = 0
    for index in range(1, len(tabbed) + 1):
        if index == len(tabbed) or tabbed[index][0] != tabbed[index - 1][0] + 1:
            yield first, index - 1
            first = index
