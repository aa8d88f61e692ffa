"""The closed list of units, and the kinds of quantity that the build file asks for.

Takes a word such as ``feet`` or ``mA``. Gives its :class:`Unit` with an exact factor to the base unit. Foot,
inch, pound and ounce are exact by international agreement (NIST SP 811, appendix B; from memory, and held
against pint's definitions in the tests).
"""

import difflib
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

FOOT = Fraction(3048, 10000)
POUND = Fraction(45359237, 100000000)
# With a capital M these would be a million times what any trailer has, so the writer is asked.
MILLI_OR_MEGA = frozenset({"ma", "mw", "mv", "mah"})


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: base value = (number - ``zero``) x ``factor``."""

    kind: str
    symbol: str
    factor: Fraction
    zero: int = 0


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a place in the build file asks for.

    ``called`` is its name with the article; ``kinds`` are the kinds of unit it takes; ``usual`` the units
    named when one is missing; ``least`` and ``most`` bound the value in the base unit, ``base`` is that unit.
    """

    called: str
    kinds: tuple[str, ...]
    usual: tuple[str, ...]
    example: str
    base: str
    per_length: bool = False
    signed: bool = False
    least: str = "0.000000001"
    most: str = "1000000000"

    @property
    def general_help(self) -> str:
        """The help where no better one is known."""
        return f"write {self.called}, such as {self.example}"


KIND_NAMES = {
    "length": "a length",
    "current": "a current",
    "power": "a power",
    "voltage": "a voltage",
    "alternating": "an alternating voltage",
    "capacity": "a battery capacity",
    "mass": "a weight",
    "temperature": "a temperature",
    "share": "a percentage",
    "angle": "an angle",
    "time": "a time",
    "energy": "an energy",
    "resistance": "a resistance",
    "area": "an area",
    "gauge": "a wire size",
}

# kind, symbol, factor to the base unit, other spellings (case, blanks, points and hyphens do not count)
_ROWS: tuple[tuple[str, str, Fraction, str], ...] = (
    ("length", "m", Fraction(1), "meter meters metre metres"),
    ("length", "cm", Fraction(1, 100), "centimeter centimeters centimetre centimetres"),
    ("length", "mm", Fraction(1, 1000), "millimeter millimeters millimetre millimetres"),
    ("length", "ft", FOOT, "foot feet '"),
    ("length", "in", FOOT / 12, "inch inches ins '' \""),
    ("length", "yd", FOOT * 3, "yard yards yds"),
    ("current", "A", Fraction(1), "amp amps ampere amperes"),
    ("current", "mA", Fraction(1, 1000), "milliamp milliamps milliampere milliamperes"),
    ("current", "µA", Fraction(1, 10**6), "ua microamp microamps microampere microamperes"),
    ("current", "kA", Fraction(1000), "kiloamp kiloamps"),
    ("power", "W", Fraction(1), "watt watts wp"),
    ("power", "mW", Fraction(1, 1000), "milliwatt milliwatts"),
    ("power", "kW", Fraction(1000), "kilowatt kilowatts"),
    ("voltage", "V", Fraction(1), "volt volts vdc voltdc voltsdc"),
    ("voltage", "mV", Fraction(1, 1000), "millivolt millivolts"),
    ("alternating", "V AC", Fraction(1), "vac voltac voltsac"),
    ("capacity", "Ah", Fraction(1), "amphour amphours amperehour amperehours amph amphr amphrs"),
    ("capacity", "mAh", Fraction(1, 1000), "milliamphour milliamphours"),
    ("energy", "Wh", Fraction(1), "watthour watthours"),
    ("energy", "kWh", Fraction(1000), "kilowatthour kilowatthours"),
    ("mass", "kg", Fraction(1), "kgs kilo kilos kilogram kilograms kilogramme kilogrammes"),
    ("mass", "g", Fraction(1, 1000), "gram grams gramme grammes"),
    ("mass", "lb", POUND, "lbs pound pounds"),
    ("mass", "oz", POUND / 16, "ounce ounces"),
    ("share", "%", Fraction(1), "percent pct"),
    ("angle", "°", Fraction(1), "deg degs degree degrees"),
    ("time", "h", Fraction(1), "hr hrs hour hours"),
    ("time", "min", Fraction(1, 60), "mins minute minutes"),
    ("resistance", "ohm", Fraction(1), "ohms ω"),
    ("area", "mm²", Fraction(1), "sqmm squaremm squaremillimeters squaremillimetres"),
    ("gauge", "AWG", Fraction(1), "ga gauge"),
)
_CELSIUS = "°C C degC degreeC degreesC celsius degreescelsius centigrade"
_FAHRENHEIT = "°F F degF degreeF degreesF fahrenheit degreesfahrenheit"

# (kind wanted, unit written): the unit that is often meant
_TAKEN_FOR = {
    ("length", "min"): "m",
    ("time", "m"): "min",
    ("length", "mm²"): "mm",
    ("area", "mm"): "mm²",
    ("current", "Ah"): "A",
    ("current", "mAh"): "mA",
    ("capacity", "A"): "Ah",
    ("capacity", "mA"): "mAh",
    ("power", "Wh"): "W",
}

# the larger unit takes the smaller one behind it, which stays below this many
PAIRS = {("ft", "in"): 12, ("m", "cm"): 100, ("h", "min"): 60, ("lb", "oz"): 16}


def key_of(word: str) -> str:
    """Give the spelling by which a unit is looked up.

    >>> key_of("Amp-Hours"), key_of("in."), key_of("mm²")
    ('amphours', 'in', 'mm2')
    """
    plain = unicodedata.normalize("NFKC", word).casefold()
    return "".join(letter for letter in plain if letter not in " .-^·")


def _table() -> dict[str, Unit]:
    rows = [(Unit(kind, symbol, factor), spellings) for kind, symbol, factor, spellings in _ROWS]
    rows.append((Unit("temperature", "°C", Fraction(1)), _CELSIUS))
    rows.append((Unit("temperature", "°F", Fraction(5, 9), zero=32), _FAHRENHEIT))
    return {key_of(word): unit for unit, words in rows for word in (unit.symbol, *words.split())}


UNITS = _table()


def find_unit(word: str) -> Unit | None:
    """Find the unit a word names, whatever its case; nothing for a word that is no unit."""
    return UNITS.get(key_of(word))


def milli_or_mega(word: str) -> bool:
    """Tell whether a capital M leaves open which of the two is meant: ``MA``, but not ``MM`` or ``M``."""
    return word.startswith("M") and key_of(word) in MILLI_OR_MEGA


def nearest_unit(word: str, kinds: tuple[str, ...]) -> str | None:
    """Find the symbol of the unit of these kinds whose spelling is nearest to a word that is no unit."""
    spellings = [spelling for spelling, unit in UNITS.items() if unit.kind in kinds]
    found = difflib.get_close_matches(key_of(word), spellings, n=1, cutoff=0.7)
    return UNITS[found[0]].symbol if found else None


def often_meant(kinds: tuple[str, ...], written: Unit) -> str | None:
    """Find the unit that is often meant where ``written`` is of the wrong kind: ``min`` for ``m``."""
    return next(
        (_TAKEN_FOR[kind, written.symbol] for kind in kinds if (kind, written.symbol) in _TAKEN_FOR), None
    )
