"""How sentences of findings are filled: the one ``say``, and numbers and names as a sentence says them."""

from __future__ import annotations

from math import ceil, floor

from builder.quantities import show_length
from builder.trailer.model import Trailer
from builder.trailer.wires import Load

_NOISE = 1e-6


def say(sentence: str, **values: object) -> str:
    """Return a sentence with its named holes filled; braces inside a value stay as they are."""
    return sentence.format(**values)


def amps(value: float) -> str:
    """Return amperes as a rating is printed: ``7.5 A``, two figures after the point at most."""
    return f"{value:.2f}".rstrip("0").rstrip(".") + " A"


def amps_up(value: float) -> str:
    """Return amperes that are above a limit: rounded up, so that the limit itself is never printed for them."""
    return amps(ceil(value * 100 - _NOISE) / 100)


def amps_down(value: float) -> str:
    """Return amperes that something is above: rounded down, so that what is above is never printed for them."""
    return amps(floor(value * 100 + _NOISE) / 100)


def volts(value: float) -> str:
    """Return volts with two figures after the point."""
    return f"{value:.2f} V"


def volts_down(value: float) -> str:
    """Return volts that are below a limit: rounded down, so that the limit itself is never printed for them."""
    return volts(floor(value * 100 + _NOISE) / 100)


def percent_up(value: float) -> str:
    """Return per cents that are above a limit: rounded up to one figure after the point."""
    return f"{ceil(value * 10 - _NOISE) / 10:.1f} %"


def length(metres: float, trailer: Trailer) -> str:
    """Return a length in metres as the trailer's pages say it."""
    return show_length(metres, "feet" if trailer.identity.units == "feet" else "metric")


def length_up(metres: float, trailer: Trailer) -> str:
    """Return a length in metres rounded up to an inch or a centimetre, so that so much wire is enough."""
    step_m = 0.0254 if trailer.identity.units == "feet" else 0.01
    return length(ceil(metres / step_m - _NOISE) * step_m, trailer)


def name_of(load: Load) -> str:
    """Return a load in quotation marks: its part, and what of it is meant where a part has several loads."""
    return f"“{load.part}” ({load.what})" if load.what else f"“{load.part}”"


def is_above(value: float, limit: float) -> bool:
    """Tell whether a value is above its limit; a hair above is the noise of the arithmetic, not a finding."""
    return value > limit * (1 + 1e-9) + 1e-12
