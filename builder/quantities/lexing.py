"""From a text to tokens: numbers, words, marks.

Takes the text as written. Gives a line of the same length, so that every place in it is a place in the text,
with typographic signs turned into plain ones; then its tokens. What no quantity may hold (a comma inside a
number, a clock time, an invisible character) ends the reading here, each in its own sentence.
"""

import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass

from builder.quantities.misread import CannotReadError, echo, swapped

LONGEST_TEXT = 100
LONGEST_NUMBER = 20
_PLAIN = str.maketrans(
    {
        **dict.fromkeys("\t\r\n", " "),
        **dict.fromkeys("′’‘´ʹ", "'"),
        **dict.fromkeys("″”“„ʺ", '"'),
        **dict.fromkeys("−‐‑–—", "-"),
        **dict.fromkeys("⁄∕", "/"),
        "º": "°",
    }
)
_INVISIBLE = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
_QUOTES = ("'", '"')

_TOKEN = re.compile(
    r"""
    (?P<number>
        \d+ (?: \s+ | - ) \d+ \s? / \s? \d+ (?![.\d])       # 6 1/2, 6-1/2
      | \d+ \s? / \s? \d+ (?![.\d])                         # 3/4
      | (?: \d+ [\s-]? )? [¼-¾⅐-⅞]                          # 6½
      | (?: \d+ (?: \. \d+ )? | \. \d+ ) (?: e [+-]? \d+ )?   # 2.5, .5, 1e3
    )
  | (?P<word>
        mm \s? (?: ² | \^? 2 (?! [.\d] ) ) | sq (?: uare | \. )? \s mm
      | (?: milli )? amp (?: ere )? s? [\s-] h (?: (?: ou )? rs? )? (?! \w ) | m? a [\s·-] h (?! \w )
      | watt s? [\s-] hours? (?! \w ) | v (?: olts? )? \s [ad] c (?! \w )
      | (?: ° | deg (?: rees? )? \.? \s ) \s? [^\W\d_]+ | per \s cent (?! \w )
      | [^\W\d_]+ \.? | [%°℃℉]
    )
  | (?P<mark> '' | ' | " )
  | (?P<joint> [-,&] )
  | (?P<other> \S )
    """,
    re.VERBOSE | re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the line: its ``kind`` (number, word, mark, joint, other), words and place."""

    kind: str
    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class _Fault:
    pattern: re.Pattern[str]
    message: str
    fixes: Callable[[str, re.Match[str]], tuple[str, ...]]
    note: str = ""


def tokens_of(line: str) -> tuple[Token, ...]:
    """Cut a line from :func:`plain_line` into tokens, blanks left out."""
    return tuple(
        Token(found.lastgroup or "other", found.group(), found.start(), found.end())
        for found in _TOKEN.finditer(line)
    )


def plain_line(text: str, called: str) -> str:
    """Put the text into plain signs, character for character, and blank out quotes around it.

    ``called`` names what is wanted, for the messages. Ends the reading (CannotReadError) at what no quantity
    may hold.
    """
    _refuse_invisible(text)
    line = _plain(text)
    _refuse_long(line, called)
    line = _unquoted(line)
    if not line.strip():
        raise CannotReadError((0, len(text)), f"nothing is written here; {called} is wanted")
    for fault in _FAULTS:
        found = fault.pattern.search(line)
        if found:
            message = fault.message.format(it=echo(found.group()), called=called)
            raise CannotReadError(found.span(), message, fault.fixes(line, found), fault.note)
    return line


def _plain(text: str) -> str:
    folded = text.translate(_PLAIN)
    return "".join(" " if unicodedata.category(sign) == "Zs" else sign for sign in folded)


def _refuse_invisible(text: str) -> None:
    for place, sign in enumerate(text):
        if unicodedata.category(sign) in _INVISIBLE and sign not in "\t\r\n":
            raise CannotReadError(
                (place, place + 1),
                f"a character that cannot be seen stands here (U+{ord(sign):04X})",
                (swapped(text, (place, place + 1), ""),),
                "; delete that character",
            )


def _refuse_long(line: str, called: str) -> None:
    number = re.search(rf"[\d.,]{{{LONGEST_NUMBER + 1},}}", line)
    if number:
        raise CannotReadError(number.span(), f"too long a number: {len(number.group())} characters")
    if len(line) > LONGEST_TEXT:
        raise CannotReadError((0, len(line)), f"{len(line)} characters are too many for {called}")


def _unquoted(line: str) -> str:
    """Blank out quotes around the whole; a mark before any number can be nothing else."""
    inner = line.strip()
    start = line.index(inner)
    if not inner.startswith(_QUOTES):
        return line
    if len(inner) == 1 or inner[-1] != inner[0]:
        left = swapped(line, (start, start + 1), "")
        raise CannotReadError((start, start + 1), "a quote mark stands before the number", (left,))
    return line[:start] + " " + inner[1:-1] + " " + line[start + len(inner) :]


def _without(line: str, found: re.Match[str]) -> tuple[str, ...]:
    return (swapped(line, found.span(), ""),)


def _without_last(line: str, found: re.Match[str]) -> tuple[str, ...]:
    return (swapped(line, found.span(), found.group()[:-1]),)


def _closed_up(line: str, found: re.Match[str]) -> tuple[str, ...]:
    return (swapped(line, found.span(), re.sub(r"[\s_]", "", found.group())),)


def _ascii_digits(line: str, found: re.Match[str]) -> tuple[str, ...]:
    digits = "".join(str(unicodedata.decimal(digit)) for digit in found.group())
    return (swapped(line, found.span(), digits),)


def _real_digits(line: str, found: re.Match[str]) -> tuple[str, ...]:
    digits = found.group().translate(str.maketrans("OolI", "0011"))
    return (swapped(line, found.span(), digits),)


def _points_for_commas(line: str, found: re.Match[str]) -> tuple[str, ...]:
    """Name what a number with commas may mean: ``2,5`` one thing, ``1,000`` two."""
    number = found.group()
    grouped = re.fullmatch(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?", number)
    numbers = [number.replace(",", "")] if grouped else []
    if number.count(",") == 1:
        whole, _, rest = number.partition(",")
        decimal = whole.replace(".", "") + "." + rest
        numbers.append(decimal.rstrip("0").rstrip(".") if grouped else decimal)
    return tuple(swapped(line, found.span(), each) for each in numbers)


def _both_ends(line: str, found: re.Match[str]) -> tuple[str, ...]:
    return tuple(swapped(line, found.span(), found.group(end)) for end in ("lower", "upper"))


def _none(_line: str, _found: re.Match[str]) -> tuple[str, ...]:
    return ()


def _pattern(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


# In this order: an earlier sentence is the better one where two would do.
_FAULTS = (
    _Fault(
        _pattern(r"(?<!\d)[0-9]*(?![0-9])\d+"), "{it} is not written in plain digits (0 to 9)", _ascii_digits
    ),
    _Fault(
        _pattern(r"^\s*[-+]?\.?(?:inf(?:inity)?|nan)(?!\w)"),
        "{it} is not a number that can be measured",
        _none,
    ),
    _Fault(
        _pattern(r"\d{1,2}:\d{2}(?::\d{2})?(?!\d)"),
        "{it} looks like a clock time; {called} is wanted here",
        _none,
    ),
    _Fault(
        _pattern(r"\d[\d.]*(?:,\d+)+(?:\.\d+)?"),
        "the comma inside {it} can mean two things",
        _points_for_commas,
    ),
    _Fault(
        _pattern(r"(?<![\d./])\d{1,3}(?: \d{3})+(?![\d/])|\d+(?:_\d+)+"),
        "the number {it} is written in pieces",
        _closed_up,
    ),
    _Fault(_pattern(r"(?P<lower>\d+)\s*(?:\.{2,}|…)\s*(?P<upper>\d+)"), "{it} is a range", _both_ends),
    _Fault(_pattern(r"(?<![\d.])\d+\.(?![\d.])"), "{it} has no digit behind its point", _without_last),
    _Fault(_pattern(r"[\d.]*\.\d+\.[\d.]*"), "{it} has more than one point", _none),
    _Fault(
        re.compile(r"(?<![A-Za-z])(?=[OolI./]*\d)[\d./]*[OolI][\dOolI./]*(?![A-Za-z])"),
        "{it} has a letter where a digit is wanted",
        _real_digits,
    ),
    _Fault(
        _pattern(
            r"^\s*(?:[~≈<>≤≥±]+|\+/-|(?:about|approx(?:imately)?|ca|circa|around|roughly|max|up to)(?!\w)\.?)"
        ),
        "{it} leaves the number open",
        _without,
    ),
    _Fault(
        _pattern(r"[×*+](?<!^.)|(?<=[\d\s'\"])x(?=[\d\s])"),
        "{it} leaves something to work out",
        _none,
        "; work it out and write one number",
    ),
)
