"""How well two colours stand apart."""

from __future__ import annotations

import re
from typing import Literal

Kind = Literal["text", "graphic"]

AA_THRESHOLDS: dict[Kind, float] = {"text": 4.5, "graphic": 3.0}
"""Least contrast at level AA: WCAG 2.2, 1.4.3 (text) and 1.4.11 (graphical object), read."""

_HEX = re.compile(r"#[0-9A-Fa-f]{6}")


def relative_luminance(colour: str) -> float:
    """Return the relative luminance of a colour ``#RRGGBB``, from 0 (black) to 1 (white).

    Raises ValueError where the text is no such colour. Source: WCAG 2.2, definition of relative
    luminance, read.
    """
    if not _HEX.fullmatch(colour):
        raise ValueError(f"“{colour}” is not a colour of the form #RRGGBB")
    red, green, blue = (_linear(int(colour[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast_ratio(a: str, b: str) -> float:
    """Return the contrast of two colours ``#RRGGBB``, from 1 to 21, whichever is lighter.

    Raises ValueError where one is no such colour. Source: WCAG 2.2, definition of contrast ratio, read.
    """
    darker, lighter = sorted((relative_luminance(a), relative_luminance(b)))
    return (lighter + 0.05) / (darker + 0.05)


def meets_threshold(ratio: float, threshold: float) -> bool:
    """Tell whether a contrast reaches a threshold, compared unrounded.

    Source: WCAG 2.2, understanding 1.4.3: 4.499 does not meet 4.5, read.
    """
    return ratio >= threshold


def passes_aa(a: str, b: str, kind: Kind) -> bool:
    """Tell whether two colours ``#RRGGBB`` stand apart well enough as text or as a graphic, at level AA.

    Raises ValueError where one is no such colour. Source: WCAG 2.2, 1.4.3 and 1.4.11, read.
    """
    return meets_threshold(contrast_ratio(a, b), AA_THRESHOLDS[kind])


def _linear(channel: float) -> float:
    """Undo the curve of sRGB for one channel from 0 to 1."""
    return float(channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4)
