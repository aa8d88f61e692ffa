"""Numbers as a maker writes them: ``2.5``, ``.5``, ``3/4``, ``6 1/2``, ``6-1/2``, ``6½``, ``1e3``.

Takes a number token. Gives its exact value as a fraction, or ends the reading at it.
"""

import re
import unicodedata
from fractions import Fraction

from builder.quantities.lexing import Token
from builder.quantities.misread import CannotReadError, echo

LARGEST_EXPONENT = 30


def number_of(token: Token) -> Fraction:
    """Give the exact value of a number token: ``2.5``, ``3/4``, ``6 1/2``, ``6½``, ``1e3``."""
    pieces = re.findall(r"[\d.]+e[+-]?\d+|[\d.]+|[^\d\s/-]", token.text.casefold())
    if "/" in token.text:
        return _fraction(token, [int(piece) for piece in pieces])
    _check_exponent(token, pieces[0])
    return sum((_plain_number(piece) for piece in pieces), Fraction(0))


def _plain_number(piece: str) -> Fraction:
    if len(piece) == 1 and not piece.isdecimal():
        return Fraction(unicodedata.numeric(piece)).limit_denominator(16)
    return Fraction(piece)


def _fraction(token: Token, pieces: list[int]) -> Fraction:
    upper, lower = pieces[-2:]
    if lower == 0:
        raise CannotReadError((token.start, token.end), f"{echo(token.text)} is a fraction over zero")
    if len(pieces) == 3 and upper >= lower:
        raise CannotReadError(
            (token.start, token.end), f"the fraction in {echo(token.text)} is not smaller than one"
        )
    return sum(pieces[:-2]) + Fraction(upper, lower)


def _check_exponent(token: Token, piece: str) -> None:
    _, _, exponent = piece.partition("e")
    if exponent and abs(int(exponent)) > LARGEST_EXPONENT:
        size = "small" if exponent.startswith("-") else "large"
        raise CannotReadError((token.start, token.end), f"{echo(token.text)} is too {size} a number")
