"""The one way that numbers are printed, a precision a reader."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal
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


def rest(metres: float, units: str) -> str:
    """Return what is left of a length for any reader, never more than there is, by the build's units."""
    return quantities.show_rest(metres, "feet" if units == "feet" else "metric")


def mass(kilograms: float, units: str) -> str:
    """Return a weight for any reader: pounds or kilograms, by the build's units."""
    return quantities.show_mass(kilograms, "feet" if units == "feet" else "metric")


def price(amount: float) -> str:
    """Return a price with all its figures, two behind the point at least: wire by the foot costs parts of a cent.

    >>> price(0.35), price(0.0825), price(12)
    ('0.35', '0.0825', '12.00')
    """
    whole, _, part = f"{amount:.10f}".rstrip("0").partition(".")
    return f"{whole}.{part:0<2}"


def meter_volts(value: float) -> str:
    """Return a voltage as a cheap meter can tell it: to a tenth of a volt, whoever reads.

    >>> meter_volts(12.45), meter_volts(12.0)
    ('12.5', '12.0')
    """
    return f"{Decimal(f'{value:.4g}').quantize(Decimal('0.1'), ROUND_HALF_UP)}"


def sheet_volts(value: float) -> str:
    """Return a loss or a limit of the test sheet in volts: up to whole hundredths, the least that its range shows.

    A meter in its range of 20 V shows no less (common practice), so that what is finer would be no figure to read.
    From 10 V on it is rounded as all figures of the workshop are.

    >>> sheet_volts(0.000416), sheet_volts(0.3), sheet_volts(0.302), sheet_volts(14.4)
    ('0.01', '0.3', '0.31', '14.4')
    """
    return _up(value, "0.01")


def sheet_ohms(value: float) -> str:
    """Return the most that a wire may read on the test sheet, in ohms: up to whole tenths, the least that is shown.

    A meter in its range of 200 Ω shows no less (common practice). From 10 Ω on it is rounded as all figures are.

    >>> sheet_ohms(0.132), sheet_ohms(0.2), sheet_ohms(12.34)
    ('0.2', '0.2', '12.3')
    """
    return _up(value, "0.1")


def sheet_figure(key: str, value: float, reader: Reader) -> str:
    """Return a figure of the test sheet by its key in the record: a limit as a meter shows it, others as all figures.

    >>> [sheet_figure(key, 0.132, Reader.WORKSHOP) for key in ("most_ohm", "most_v", "least_v")]
    ['0.2', '0.14', '0.132']
    """
    if key in ("most_v", "about_v", "below_v"):
        return sheet_volts(value)
    return sheet_ohms(value) if key == "most_ohm" else shown(value, reader)


def _up(value: float, digit: str) -> str:
    if value >= 10.0:
        return shown(value, Reader.WORKSHOP)
    # six figures first: what is beyond them is the noise of the arithmetic
    return f"{Decimal(f'{value:.6g}').quantize(Decimal(digit), ROUND_CEILING).normalize():f}"


def temperature(celsius: float, units: str) -> str:
    r"""Return a temperature in whole degrees with its unit: °F where the build is in feet, else °C.

    >>> temperature(5, "feet"), temperature(-15.6, "metric")
    ('41\xa0°F', '−16\xa0°C')
    """
    feet = units == "feet"
    exact = Decimal(f"{celsius * 9 / 5 + 32 if feet else celsius:.4g}")
    degrees = exact.quantize(Decimal(1), ROUND_HALF_UP) + 0  # never a minus zero
    return f"{degrees}\u00a0°{'F' if feet else 'C'}".replace("-", "−")
