"""The code on the lid label: words as a QR code, which a phone reads."""

from __future__ import annotations

import segno

LARGEST_VERSION = 10
"""A code of 57 squares a side: printed 30 mm wide, a square is half a millimetre (common practice)."""
QUIET = 4
"""Squares left free around the code (ISO/IEC 18004: four squares; from memory)."""


def fits_code(words: str) -> bool:
    """Tell whether words fit a code that is still read when it is printed small."""
    try:
        return int(_made(words).version) <= LARGEST_VERSION
    except segno.DataOverflowError:
        return False


def code_squares(words: str) -> tuple[tuple[bool, ...], ...]:
    """Return the rows of a code: True where a square is dark. Raises ValueError for words that do not fit.

    A quarter of the code may be spoilt before it cannot be read (level Q of ISO/IEC 18004; from memory).
    """
    return tuple(tuple(bool(square) for square in row) for row in _made(words).matrix)


def lid_code(words: str, title: str) -> str:
    """Draw words as a code, 30 mm wide, dark on white on any page; ``title`` is what a screen reader says."""
    rows = code_squares(words)
    side = len(rows) + 2 * QUIET
    dark = "".join(
        f"M{x + QUIET} {y + QUIET}h1v1h-1z" for y, row in enumerate(rows) for x, on in enumerate(row) if on
    )
    name = title.replace("&", "&amp;").replace("<", "&lt;")
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="lid-code" role="img" width="30mm" height="30mm"'
        f' viewBox="0 0 {side} {side}" shape-rendering="crispEdges"><title>{name}</title>'
        f'<path d="M0 0h{side}v{side}H0z" fill="#ffffff"/><path d="{dark}" fill="#000000"/></svg>\n'
    )


def _made(words: str) -> segno.QRCode:
    return segno.make_qr(words, error="q", boost_error=False)
