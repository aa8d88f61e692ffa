"""A road lamp that the lamp rule asks for is not in the file.

What: by its country, width, length and mass the trailer needs a lamp, or a second one, that ``road lamps`` does
not hold. One housing may do several duties: a word more under ``shows`` is enough where the lamp at hand has that
duty too, as the passing example adds ``marker`` to a lamp that is seen from the side as well. Reflectors are looked at
one by one once the file tells of one, under ``reflectors`` or built into a lamp; until then one remark tells how many
are asked for.

Why: the lamps are the first thing that is looked at on the road and when a trailer is registered; once the walls
are closed there is no way for one more wire.

Limit: for the US 49 CFR 571.108 Table I-b, as transcribed (quoted); elsewhere UN R48 and national practice, partly
from memory: then it is worth knowing only. State or national law on the road comes first: ask there.

Walls open: the lamp or the word that is printed.

Walls closed: the same, with its wire where it stays in sight; a reflector needs none.

Failing example::

    format: 1
    build: {name: Example, country: US}
    trailer: {length: 12 ft, width: 5 ft}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps:
      lamps: led
      front marker: {shows: marker, side: both, at: front, wire: 5 ft}
      rear lamp: {shows: [tail, stop, turn], side: both, reflector: yes, wire: 17 ft}
      plate lamp: {shows: plate, wire: 17 ft}
    reflectors:
      front reflector: {at: front side, side: both, color: amber}
      rear reflector: {at: rear side, side: both, color: red}

Passing example::

    format: 1
    build: {name: Example, country: US}
    trailer: {length: 12 ft, width: 5 ft}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps:
      lamps: led
      front marker: {shows: marker, side: both, at: front, wire: 5 ft}
      rear lamp: {shows: [tail, stop, turn, marker], side: both, reflector: yes, wire: 17 ft}
      plate lamp: {shows: plate, wire: 17 ft}
    reflectors:
      front reflector: {at: front side, side: both, color: amber}
      rear reflector: {at: rear side, side: both, color: red}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.electrics.lamps_required import LampsRequired, Measures, RequiredLamp, is_triangle, rows_for
from builder.rules.by_lamp_rule import lamp_remark
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import say
from builder.tables.lamp_rules import LampRule
from builder.tables.tow_plugs import PlugPattern, plug_pattern, plug_patterns
from builder.trailer.model import Identity, TowPlug, Trailer

LACKS_SAYS = "{rule} asks this trailer for {lamp}: {count} in {colors}; the file has {have}"
FENDERS_SAYS = (
    "{rule} asks this trailer for {lamp}: {count} in {colors}, because its fenders reach {limit} though its body does "
    "not; the file has {have}"
)
LAMP_HELP = (
    "let a lamp there show {shows} too, or add {number}, as in "
    "{name}: {{shows: {shows}, at: {at}, {how}, wire: 5 ft}}"
)
LAMP_CLOSED_HELP = "lay its wire where it stays in sight: {lamp}"
PLUG_HELP = "the {plug} plug has no contact for it; these have: {others}"
REFLECTOR_HELP = (
    "add it under reflectors, as in {at} reflector: {{at: {at}, side: both, color: {color}{more}}}"
)
UNTOLD_SAYS = "{rule} asks this trailer for reflectors, {count} in all; the file names none"
UNTOLD_HELP = "write them under the heading reflectors, or reflector: yes at a lamp that has one built in"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every lamp or reflector of which the file has fewer than the rule asks for.

    Nothing is said of a trailer whose size the file does not give, and of one without road lamps.
    """
    asked = figures.lamps_required
    size = (trailer.identity.width_m, trailer.identity.length_m)
    if asked is None or trailer.tow_plug is None or not trailer.road_lamps or size == (None, None):
        return
    if not asked.reflectors_told:
        yield from _reflectors_untold(trailer.tow_plug, asked)
    for one in asked.required:
        if one.missing and (one.row.kind == "lamp" or asked.reflectors_told):
            plug = trailer.tow_plug
            yield lamp_remark(plug.origin, one, _message(trailer.identity, one), _help(one.row, plug.pattern))


def _reflectors_untold(plug: TowPlug, asked: LampsRequired) -> Iterator[Remark]:
    """Yield one remark where the file has no reflector at all: they may be there and not be written down."""
    wanted = [one for one in asked.required if one.row.kind == "reflector" and not one.lacking]
    if any(one.have for one in wanted) or not wanted:
        return
    message = say(UNTOLD_SAYS, rule=asked.rule, count=sum(one.row.count for one in wanted))
    yield lamp_remark(plug.origin, wanted[0], message, UNTOLD_HELP, Level.WORTH)


def _message(identity: Identity, one: RequiredLamp) -> str:
    row = one.row
    words = {
        "rule": row.authority,
        "count": row.count,
        "lamp": row.lamp,
        "colors": " or ".join(row.colors),
        "have": len(one.have) or "none",
    }
    limit = _reached_by_fenders(identity, row)
    return say(FENDERS_SAYS, limit=limit, **words) if limit else say(LACKS_SAYS, **words)


def _reached_by_fenders(identity: Identity, row: LampRule) -> str:
    """Return the width that only the fenders reach, as the rule writes it; empty where the body does so itself."""
    body = identity.width_m
    lesser = Measures(body, identity.length_m, identity.gross_mass_kg)
    if any(one.lamp == row.lamp for one, _ in rows_for(row.rule, lesser)):
        return ""
    for condition in row.when:
        if condition.measure == "width" and body is not None and not condition.holds(body):
            return condition.text
    return ""


def _help(row: LampRule, plug: PlugPattern) -> str | WayOut:
    if row.kind == "reflector":
        at = "rear side" if row.at == "side" else row.at
        more = ", triangle: yes" if is_triangle(row) else ""
        return say(REFLECTOR_HELP, at=at, color=row.colors[0], more=more)
    if plug.contact_for(row.shows, "left") is None:
        others = [name for name in plug_patterns() if plug_pattern(name).contact_for(row.shows, "left")]
        return say(PLUG_HELP, plug=plug.name, others=", ".join(others))
    pair = row.count == 2
    open_ = say(
        LAMP_HELP,
        shows=row.shows,
        at="middle" if row.at == "side" else row.at,
        name=row.lamp.removesuffix("s"),
        number="a pair" if pair else "one",
        how="side: both"
        if pair
        else f"side: middle, count: {row.count}"
        if row.count > 1
        else "side: middle",
    )
    return WayOut(open_, say(LAMP_CLOSED_HELP, lamp=open_))
