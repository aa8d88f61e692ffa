"""A road lamp or reflector has a colour that the lamp rule does not allow there.

What: what ``shines`` or ``color`` says in the file is none of the colours that the rule has for this lamp.

Why: the colour tells who follows in the dark which end of a trailer he sees, and which way it goes.

Limit: for the US 49 CFR 571.108 Table I-b, as transcribed (quoted); elsewhere UN R48 and national practice, partly
from memory: then it is worth knowing only. In the US what stands at the rear is red, the plate lamp white, what stands
at the front or at mid-length amber; rear turn lamps may be red or amber. State or national law on the road comes
first: ask there.

Failing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps:
      lamps: led
      front marker: {shows: marker, side: both, at: front, shines: red, wire: 5 ft}

Passing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps:
      lamps: led
      front marker: {shows: marker, side: both, at: front, shines: amber, wire: 5 ft}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.electrics.lamps_required import RequiredLamp, reflects_for, shows_for
from builder.rules.by_lamp_rule import lamp_remark
from builder.rules.finding import Remark
from builder.rules.wording import say
from builder.trailer.model import Trailer
from builder.trailer.origin import Origin

COLOUR_SAYS = "“{name}” is {color}: {rule} has {lamp} in {colors}"
COLOUR_HELP = "fit one in {colors}, or correct the word in the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every lamp and reflector whose colour in the file is none of the rule's; a pair once."""
    if figures.lamps_required is None:
        return
    said: set[tuple[Origin, str]] = set()
    for one in figures.lamps_required.required:
        for name, color, origin in _colors(one, trailer):
            if color not in one.row.colors and (origin, one.row.lamp) not in said:
                said.add((origin, one.row.lamp))
                yield _remark(one, name, color, origin)


def _colors(one: RequiredLamp, trailer: Trailer) -> Iterator[tuple[str, str, Origin]]:
    """Yield name, colour and place in the file of all that the row speaks of and whose colour the file gives."""
    row = one.row
    for lamp in trailer.road_lamps:
        if row.kind == "lamp" and shows_for(row, lamp) and row.shows in lamp.shines:
            yield lamp.name, lamp.shines[row.shows], lamp.origin
    for reflector in trailer.reflectors:
        if reflects_for(row, reflector.at) and reflector.color:
            yield reflector.name, reflector.color, reflector.origin


def _remark(one: RequiredLamp, name: str, color: str, origin: Origin) -> Remark:
    colors = " or ".join(one.row.colors)
    message = say(
        COLOUR_SAYS, name=name, color=color, rule=one.row.authority, lamp=one.row.lamp, colors=colors
    )
    return lamp_remark(origin, one, message, say(COLOUR_HELP, colors=colors))
