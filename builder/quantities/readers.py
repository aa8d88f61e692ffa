"""One reader for each kind of value that the build file asks for.

Takes a text. Gives a number in the base unit named in each reader, or a :class:`Misread`.
Zero is refused unless a reader says otherwise, because a length or a rating of nothing is a slip; ``zero_ok``
lets it pass where nothing is a real answer.
"""

from dataclasses import dataclass, replace

from builder.quantities.grammar import Measured, measure
from builder.quantities.lexing import plain_line, tokens_of
from builder.quantities.misread import CannotReadError, Misread, echo, settle, swapped
from builder.quantities.numbers import number_of
from builder.quantities.units import Wanted

MOST_COUNTED = 1_000_000
_LENGTH = Wanted("a length", ("length",), ("ft", "m"), "14 ft 6 in or 4.4 m", "m")
_CURRENT = Wanted("a current", ("current",), ("A", "mA"), "3 A", "A")
_POWER = Wanted("a power", ("power",), ("W",), "3 W", "W")
_DRAW = Wanted(
    "a power or a current", ("power", "current"), ("W", "A"), "3 W or 0.25 A", "W or A", per_length=True
)
_VOLTAGE = Wanted("a voltage", ("voltage",), ("V",), "12.8 V", "V")
_CAPACITY = Wanted("a battery capacity", ("capacity",), ("Ah",), "35 Ah", "Ah")
_MASS = Wanted("a weight", ("mass",), ("lb", "kg"), "1400 lb or 640 kg", "kg")
_TEMPERATURE = Wanted(
    "a temperature", ("temperature",), ("°C", "°F"), "40 °C or 104 °F", "°C", signed=True, least="-273.15"
)
_PERCENT = Wanted("a percentage", ("share",), ("%",), "3 %", "%", least="0", most="100")
_ANGLE = Wanted("an angle", ("angle",), ("degrees",), "100°", "°")
_HOURS = Wanted("a time", ("time",), ("h", "min"), "1.5 h or 30 min", "h", least="0")
_COUNT = Wanted("a whole number", (), (), "8", "")


@dataclass(frozen=True, slots=True)
class Draw:
    """What a part draws: ``unit`` is ``W`` or ``A``; with ``per_m`` the value counts for each metre of it."""

    value: float
    unit: str
    per_m: bool


def _read(text: str, wanted: Wanted, zero_ok: bool = False) -> float | Misread:
    asked = replace(wanted, least="0") if zero_ok else wanted
    return settle(text, lambda each: float(measure(each, asked).value), wanted.general_help)


def read_length(text: str, *, zero_ok: bool = False) -> float | Misread:
    """Read a length in metres: ``14 ft 6 in``, ``14' 6"``, ``6 1/2 in``, ``3.2 m``, ``320 cm``.

    A capital M counts as metres.
    """
    return _read(text, _LENGTH, zero_ok)


def read_current(text: str, *, zero_ok: bool = False) -> float | Misread:
    """Read a current in amperes: ``3 A``, ``250 mA``."""
    return _read(text, _CURRENT, zero_ok)


def read_power(text: str, *, zero_ok: bool = False) -> float | Misread:
    """Read a power in watts: ``3 W``, ``1.2 kW``."""
    return _read(text, _POWER, zero_ok)


def read_power_or_current(text: str, *, zero_ok: bool = False) -> Draw | Misread:
    """Read what a part draws, in watts or amperes, of the whole part or of each metre.

    >>> read_power_or_current("5 W/m")
    Draw(value=5.0, unit='W', per_m=True)
    """
    asked = replace(_DRAW, least="0") if zero_ok else _DRAW
    return settle(text, lambda each: _draw(measure(each, asked)), _DRAW.general_help)


def _draw(measured: Measured) -> Draw:
    return Draw(float(measured.value), "W" if measured.unit.kind == "power" else "A", measured.per_length)


def read_voltage(text: str, *, zero_ok: bool = False) -> float | Misread:
    """Read a direct voltage in volts: ``12.8 V``, ``12 VDC``."""
    return _read(text, _VOLTAGE, zero_ok)


def read_capacity(text: str) -> float | Misread:
    """Read a battery's capacity in amp-hours: ``35 Ah``, ``3500 mAh``."""
    return _read(text, _CAPACITY)


def read_mass(text: str) -> float | Misread:
    """Read a weight in kilograms: ``1400 lb``, ``640 kg``."""
    return _read(text, _MASS)


def read_temperature(text: str) -> float | Misread:
    """Read a temperature in degrees Celsius, zero and below included: ``40 °C``, ``104 F``."""
    return _read(text, _TEMPERATURE)


def read_percent(text: str) -> float | Misread:
    """Read a percentage from 0 to 100, as that number: ``3 %`` is 3.0."""
    return _read(text, _PERCENT)


def read_angle(text: str) -> float | Misread:
    """Read an angle in degrees: ``100°``, ``100 degrees``."""
    return _read(text, _ANGLE)


def read_hours(text: str) -> float | Misread:
    """Read a time in hours, zero included: ``3 h``, ``30 min``, ``1 h 30 min``."""
    return _read(text, _HOURS)


def read_count(text: str, *, zero_ok: bool = False) -> int | Misread:
    """Read a whole number from 1 (with ``zero_ok`` from 0) to a million, without a unit.

    >>> read_count("8")
    8
    """
    return settle(text, lambda each: _count(each, zero_ok), _COUNT.general_help)


def _count(text: str, zero_ok: bool) -> int:
    line = plain_line(text, _COUNT.called)
    tokens = tokens_of(line)
    if tokens[0].text == "-":
        raise CannotReadError((tokens[0].start, tokens[-1].end), f"{echo(line)} is below zero")
    for token in tokens:
        if token.kind != "number" or token is not tokens[0]:
            span = (token.start, token.end)
            message = f"{echo(token.text)} is not part of {_COUNT.called}"
            raise CannotReadError(span, message, (swapped(line, span, ""),))
    span = (tokens[0].start, tokens[-1].end)
    number = number_of(tokens[0])
    if number.denominator != 1:
        raise CannotReadError(span, f"{echo(tokens[0].text)} is not a whole number")
    if number == 0 and not zero_ok:
        raise CannotReadError(span, "a whole number above zero is wanted", (), ", or leave the line out")
    if number > MOST_COUNTED:
        raise CannotReadError(span, f"{echo(tokens[0].text)} is above the most that is read, {MOST_COUNTED}")
    return int(number)


def read_yes_no(text: str) -> bool | Misread:
    """Read whether the answer is yes: the words yes, no, true and false, and no other.

    >>> read_yes_no("no")
    False
    """
    return settle(text, _yes_no, "write yes or no")


def _yes_no(text: str) -> bool:
    line = plain_line(text, "yes or no")
    word = line.strip()
    answers = {"yes": True, "true": True, "no": False, "false": False}
    if word.casefold() in answers:
        return answers[word.casefold()]
    start = line.index(word)
    meant = {"on": "yes", "y": "yes", "1": "yes", "off": "no", "n": "no", "0": "no"}.get(word.casefold())
    raise CannotReadError(
        (start, start + len(word)), f"{echo(word)} is not yes or no", (meant,) if meant else ()
    )
