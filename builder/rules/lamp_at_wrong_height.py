"""A road lamp or reflector is lower or higher than the lamp rule has it.

What: the height of its middle above the road, as the file gives it, is outside the range of the rule. Measure on level
ground, with the trailer as it stands when nothing is loaded.

Why: too low it is hidden by dirt, grass and the next car's bonnet; too high it is not where a driver looks.

Limit: for the US 49 CFR 571.108 Table I-b, as transcribed (quoted), at curb weight; elsewhere UN R48 and national
practice, partly from memory: then it is worth knowing only. In the US no lamp or reflector with a limit may sit below
15 in; the most is 72 in for tail and stop lamps, 83 in for turn lamps, 60 in for reflectors, and 60 in for rear side
markers of trailers 80 in wide or more. A height exactly at a limit is inside. State or national law on the road comes
first: ask there.

Walls open: another place for the lamp and its wire.

Walls closed: another place for the lamp, with its wire led on where it stays in sight.

Failing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps:
      lamps: led
      front marker: {shows: marker, side: both, at: front, height: 14 in, wire: 5 ft}

Passing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps:
      lamps: led
      front marker: {shows: marker, side: both, at: front, height: 15 in, wire: 5 ft}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.electrics.lamps_required import RequiredLamp, reflects_for, shows_for
from builder.rules.by_lamp_rule import lamp_remark
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import length, say
from builder.trailer.model import Trailer
from builder.trailer.origin import Origin

LOW_SAYS = "“{name}” is {height} above the road: {rule} has {lamp} at {least} or higher"
HIGH_SAYS = "“{name}” is {height} above the road: {rule} has {lamp} at {most} or lower"
HEIGHT_HELP = (
    "put it between the limits, measured to its middle with the trailer level, or correct the height"
)
HEIGHT_CLOSED_HELP = (
    "put it between the limits, measured to its middle with the trailer level, with its wire led on where it stays in "
    "sight; or correct the height"
)
HAIR_M = 1e-6
"""What a height may miss a limit by and still count as at it: the noise of the arithmetic."""


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every lamp and reflector whose height in the file is outside the rule's; a pair once."""
    if figures.lamps_required is None:
        return
    said: set[tuple[Origin, str]] = set()
    for one in figures.lamps_required.required:
        for name, height_m, origin in _heights(one, trailer):
            sentence = _sentence(one, height_m)
            if sentence and (origin, sentence) not in said:
                said.add((origin, sentence))
                yield _remark(trailer, one, sentence, (name, height_m, origin))


def _heights(one: RequiredLamp, trailer: Trailer) -> Iterator[tuple[str, float, Origin]]:
    row = one.row
    for lamp in trailer.road_lamps:
        if row.kind == "lamp" and shows_for(row, lamp) and lamp.height_m is not None:
            yield lamp.name, lamp.height_m, lamp.origin
    for reflector in trailer.reflectors:
        if reflects_for(row, reflector.at) and reflector.height_m is not None:
            yield reflector.name, reflector.height_m, reflector.origin


def _sentence(one: RequiredLamp, height_m: float) -> str:
    """Return what is wrong with a height; empty where nothing is, or where a size that decides is not known."""
    row = one.row
    if row.lowest_m is not None and height_m < row.lowest_m - HAIR_M:
        return LOW_SAYS
    if row.highest_m is not None and height_m > row.highest_m + HAIR_M and not one.lacking:
        return HIGH_SAYS
    return ""


def _remark(trailer: Trailer, one: RequiredLamp, sentence: str, what: tuple[str, float, Origin]) -> Remark:
    name, height_m, origin = what
    row = one.row
    message = say(
        sentence,
        name=name,
        height=length(height_m, trailer),
        rule=row.authority,
        lamp=row.lamp,
        least=length(row.lowest_m or 0.0, trailer),
        most=length(row.highest_m or 0.0, trailer),
    )
    return lamp_remark(origin, one, message, WayOut(say(HEIGHT_HELP), say(HEIGHT_CLOSED_HELP)))
