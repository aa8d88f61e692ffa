"""How wide a text will stand on the page, measured without a font."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

_WIDTHS = (
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
    333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
    556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
)  # fmt: skip
"""Widths of the signs from space to tilde in thousandths of the letter size; Arial-compatible, from memory."""

_OTHERS = {
    "−": 584,
    "·": 278,
    "\u00a0": 278,
    "…": 1000,
    "²": 333,
    "°": 400,
    "×": 584,
    "–": 556,
    "“": 333,
    "”": 333,
    "’": 222,
}
_BLANKS = re.compile(r"[^\S\u00a0]+")
"""Blanks where a line may break: not the one between a number and its unit."""
_SLACK, _BOLD = 1.06, 1.08
_PICTURES = 0x1F000
_KEPT = 16384
"""Answers kept: strips are filled many times with the same texts, in a few styles."""


@lru_cache(maxsize=_KEPT)
def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of a text in CSS pixels at a letter size in CSS pixels, with 6 % slack.

    Bold counts 8 % more. Signs outside the table count by their class: marks that sit on others nothing,
    wide scripts and pictures a whole size and more, letters as the widest usual one. Source: metrics of an
    Arial-compatible font, from memory; slack common practice.
    """
    units = sum(_sign(sign) for sign in text)
    return units * size / 1000 * _SLACK * (_BOLD if bold else 1)


@lru_cache(maxsize=4096)
def _sign(sign: str) -> int:
    code = ord(sign)
    if 32 <= code < 127:
        return _WIDTHS[code - 32]
    if sign in _OTHERS:
        return _OTHERS[sign]
    if unicodedata.category(sign) in ("Mn", "Me", "Cf"):
        return 0
    if code >= _PICTURES or unicodedata.east_asian_width(sign) in ("W", "F"):
        return 1400
    plain = unicodedata.normalize("NFD", sign)[0]
    return _WIDTHS[ord(plain) - 32] if 32 <= ord(plain) < 127 else 780


def visible(text: str) -> str:
    """Return a text on one line, without signs that draw nothing or turn the direction of what follows."""
    kept = "".join(
        s if unicodedata.category(s) not in ("Cc", "Cf", "Cs") or s == "\u200d" else " " for s in text
    )
    return " ".join(_BLANKS.split(kept)).strip()


def cut(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """Return a text no wider than ``width`` CSS pixels, its end replaced by … where it is too long."""
    if text_width(text, size, bold=bold) <= width:
        return text
    while text and text_width(text + "…", size, bold=bold) > width:
        text = text[:-1]
    return text.rstrip() + "…"


@lru_cache(maxsize=_KEPT)
def wrapped(text: str, width: float, size: float, *, bold: bool = False, most: int = 3) -> tuple[str, ...]:
    """Return the lines of a text no wider than ``width`` CSS pixels, ``most`` at most.

    Lines break at blanks, a word that is too long for a line inside itself; what does not fit the last line
    ends in ….
    """
    lines: list[str] = []
    rest = visible(text)
    while rest and len(lines) < most - 1:
        line = _first_line(rest, width, size, bold=bold)
        lines.append(line)
        rest = rest[len(line) :].strip()
    return (*lines, cut(rest, width, size, bold=bold)) if rest else tuple(lines)


def _first_line(text: str, width: float, size: float, *, bold: bool) -> str:
    """Take as many words as fit; of a lone word that is too long as many signs as fit, at least one."""
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if text_width(longer, size, bold=bold) > width:
            break
        line = longer
    if line:
        return line
    end = 1
    while text_width(text[: end + 1], size, bold=bold) <= width:
        end += 1
    return text[:end]
