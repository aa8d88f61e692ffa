"""The one way that numbers are printed, a precision a reader."""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum

from builder import quantities


class Reader(StrEnum):
    """Who a page, a column or a figure is for."""

    OWNER = "owner"
    WORKSHOP = "workshop"


FIGURES = {Reader.OWNER: 2, Reader.WORKSHOP: 3}
"""Significant figures that each reader gets."""


def shown(value: float, reader: Reader) -> str:
    """Return a number for a reader: two significant figures for the owner, three for the workshop.

    No exponent, no trailing zeros after the point, and never a minus zero.

    >>> shown(0.2563, Reader.OWNER), shown(0.2563, Reader.WORKSHOP), shown(1234.0, Reader.OWNER)
    ('0.26', '0.256', '1200')
    """
    return significant(value, FIGURES[reader])


def significant(value: float, figures: int) -> str:
    """Return a number to so many significant figures, as plain digits."""
    if value == 0:
        return "0"
    return f"{Decimal(f'{value:.{figures}g}'):f}"


def rating(value: float) -> str:
    """Return a rating as it is printed on the part: ``7.5``, ``10``; never rounded."""
    return f"{value:g}"


def length(metres: float, units: str) -> str:
    """Return a length for any reader: feet and inches, or metres, by the build's units."""
    return quantities.show_length(metres, "feet" if units == "feet" else "metric")
