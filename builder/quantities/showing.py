"""From a number in the base unit to the spelling that a reader expects.

Takes metres, kilograms or a size. Gives text in the units of the country. pint converts; it is imported at
the first conversion, so that reading a build file does not wait for it.
"""

import math
from collections.abc import Callable
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Literal

from builder.quantities.sizes import SizeText

if TYPE_CHECKING:
    import pint

System = Literal["feet", "metric"]
_DEFINITIONS = (
    "meter = [length] = m",
    "millimeter = 0.001 * meter = mm",
    "inch = 0.0254 * meter = in",
    "kilogram = [mass] = kg",
    "pound = 0.45359237 * kilogram = lb",
)


@cache
def _registry() -> "pint.UnitRegistry[float]":
    import pint  # noqa: PLC0415 - a quarter of a second that only printing needs

    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None)
    for definition in _DEFINITIONS:
        registry.define(definition)
    return registry


def _converted(value: float, unit: str, into: str) -> float:
    return float(_registry().Quantity(value, unit).to(into).magnitude)


def _whole(value: float) -> int:
    """Round to the nearest whole number, a half upwards."""
    return math.floor(value + 0.5)


def _floor(value: float) -> int:
    """Round down to a whole number; what is a hair below one is that one, with the noise of the arithmetic."""
    return math.floor(value + 1e-6)


def show_length(metres: float, units: System) -> str:
    """Print a length as a tape measure is read.

    ``metres`` is at or above zero; ``units`` is ``feet`` or ``metric``. In feet: to the nearest half inch,
    below one foot to the nearest eighth. In metres: to the nearest centimetre, below one metre in whole
    millimetres (common practice). Raises ValueError for a length that is negative or not finite.

    >>> show_length(4.4196, "feet"), show_length(4.4196, "metric"), show_length(0.127, "feet")
    ('14 ft 6 in', '4.42 m', '5 in')
    """
    _check(metres, "length")
    return _in_feet(metres, _whole) if units == "feet" else _in_metres(metres, _whole)


def show_rest(metres: float, units: System) -> str:
    """Print what is left of a length: like `show_length`, and rounded down, so that it never tells more than there is.

    >>> show_rest(0.26, "feet"), show_rest(4.43, "feet"), show_rest(4.4199, "metric")
    ('10 1/8 in', '14 ft 6 in', '4.41 m')
    """
    _check(metres, "length")
    return _in_feet(metres, _floor) if units == "feet" else _in_metres(metres, _floor)


def show_measure(metres: float, units: System) -> str:
    """Print a measure of a small thing: inches to the nearest eighth, or whole millimetres (common practice).

    ``metres`` is at or above zero. Raises ValueError for one that is negative or not finite.

    >>> show_measure(0.3429, "feet"), show_measure(0.3429, "metric")
    ('13 1/2 in', '343 mm')
    """
    _check(metres, "length")
    if units == "metric":
        return f"{_whole(_converted(metres, 'meter', 'millimeter'))} mm"
    return show_inches(_whole(_converted(metres, "meter", "inch") * 8), 8)


def show_inches(count: int, parts: int) -> str:
    """Print so many parts of an inch, as a tape has them.

    >>> show_inches(3, 16), show_inches(24, 16), show_inches(32, 16)
    ('3/16 in', '1 1/2 in', '2 in')
    """
    whole, part = divmod(Fraction(count, parts), 1)
    return f"{whole} {part} in" if whole and part else f"{part or whole} in"


def _in_feet(metres: float, whole_number: Callable[[float], int]) -> str:
    inches = _converted(metres, "meter", "inch")
    steps = 8 if inches < 12 else 2
    feet, rest = divmod(Fraction(whole_number(inches * steps), steps), 12)
    whole, part = divmod(rest, 1)
    words = [f"{feet} ft"] if feet else []
    if rest or not feet:
        words.append(f"{whole} {part} in" if whole and part else f"{part or whole} in")
    return " ".join(words)


def _in_metres(metres: float, whole_number: Callable[[float], int]) -> str:
    millimetres = whole_number(_converted(metres, "meter", "millimeter"))
    return f"{millimetres} mm" if millimetres < 1000 else f"{whole_number(metres * 100) / 100:.2f} m"


def show_mass(kilograms: float, units: System) -> str:
    """Print a weight in whole pounds or kilograms; raises ValueError when negative or not finite.

    >>> show_mass(635.03, "feet")
    '1400 lb'
    """
    _check(kilograms, "weight")
    if units == "feet":
        return f"{_whole(_converted(kilograms, 'kilogram', 'pound'))} lb"
    return f"{_whole(kilograms)} kg"


def show_size(size: SizeText) -> str:
    """Print a wire size with its unit.

    >>> show_size(SizeText("mm2", "2.5"))
    '2.5 mm²'
    """
    return f"{size.value} AWG" if size.kind == "AWG" else f"{size.value} mm²"


def _check(value: float, called: str) -> None:
    if not (math.isfinite(value) and value >= 0):
        raise ValueError(f"{value} is not a {called}")
