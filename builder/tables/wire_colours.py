"""Words for colours: their codes by IEC 60757, which may stand together, and their values on a screen."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from builder.tables.table import NoRow, Row, load_table

ColourUse = Literal["any", "protective_conductor"]
"""What a combination of colours marks: a protective conductor, or anything at all."""

BOTH = "green-and-yellow"


def colour_words() -> tuple[str, ...]:
    """Return every word for a colour that the tables know, other words for the same one included."""
    return tuple(row.cells["word"] for row in load_table("colours").rows)


def usual_word(word: str) -> str:
    """Return the usual word for a colour: ``violet`` for ``purple``, else the word itself.

    Raises `NoRow` for a word that is not in `colour_words`.
    """
    return _usual_row(word).cells["word"]


def colour_code(word: str) -> str:
    """Return the code of a colour, such as ``BU`` for ``blue``.

    Raises `NoRow` for an unknown word and for a shade that has no code: print its word instead. Source:
    IEC 60757:2021 Table 1, quoted.
    """
    return _coded_row(word).cells["code"]


def colour_of_code(code: str) -> str:
    """Return the colour word of a code of IEC 60757:2021 Table 1 (quoted).

    Raises `NoRow` for an unknown code.
    """
    return load_table("colours").find(f"the code {code}", code=code or "no code").cells["word"]


def combination_code(words: Iterable[str]) -> str:
    """Return the code of several colours together: each one's code, in the order of Table 1.

    The code does not tell the base from the tracer; print both words beside it. Green with yellow is
    ``GNYE``. Whether the standard lets the colours stand together is `combination_allowed`. Raises
    `NoRow` for a word without a code and where two words have the same one. Source: IEC 60757:2021 5.1
    and Table 1, quoted.
    """
    rows = sorted((_coded_row(word) for word in words), key=lambda row: row.number("place"))
    codes = [row.cells["code"] for row in rows]
    if set(codes) == {"GN", "YE"}:
        return colour_code(BOTH)
    if not codes or len(set(codes)) != len(codes):
        raise NoRow("a combination code needs colours that differ")
    return "".join(codes)


def combination_allowed(words: Iterable[str], use: ColourUse = "any") -> bool:
    """Tell whether IEC 60757 lets these colours stand together on one conductor.

    Green and yellow stand together for a protective conductor only, and neither with a third colour;
    shades count as the colour they are a shade of. A colour alone is no combination. Raises `NoRow` for
    an unknown word. Source: IEC 60757:2021 5.1, quoted.
    """
    families = {family for word in words for family in _families(word)}
    if not families & {"green", "yellow"} or len(families) == 1:
        return True
    return families == {"green", "yellow"} and use == "protective_conductor"


def screen_colour(word: str) -> str:
    """Return a value on a screen for drawing this colour, as ``#RRGGBB``.

    Green-and-yellow gives the green; draw a yellow tracer on it. Raises `NoRow` for an unknown word.
    Source: our own choice, near the insulation as sold.
    """
    return _usual_row(word).cells["screen"]


def _usual_row(word: str) -> Row:
    row = load_table("colours").find(f"the colour “{word}”", word=word)
    return _usual_row(row.cells["same_as"]) if row.cells["same_as"] else row


def _coded_row(word: str) -> Row:
    row = _usual_row(word)
    if not row.cells["code"]:
        raise NoRow(f"{word} has no code in IEC 60757; the word itself is printed")
    return row


def _families(word: str) -> tuple[str, ...]:
    row = _usual_row(word)
    if row.cells["word"] == BOTH:
        return ("green", "yellow")
    return (row.cells["shade_of"] or row.cells["word"],)
