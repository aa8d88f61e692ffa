"""A switch carries more than its own rating.

What: the current through a switch, relay, dimmer or isolating switch, with everything on, is above the rating
that the file gives it; or above what it switches for long, because the load is a motor, a coil or a filament.

Why: its contacts burn or weld together, and then it does not switch off.

Limit: the rating in the file (*must fix* with loads that the file states). What a motor, coil or filament asks
for on top comes from FAA AC 43.13-1B Table 11-4 (read), written for aircraft: a *should fix*. So is a switch in the
battery's own line below the rating of its fuse (common practice): the fuse lets that pass for as long as it likes.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {heater switch: {kind: switch, rating: 3 A}, heater: {kind: heater, draws: 5 A}}
    circuits:
      heater: {path: [heater switch: 3 ft, heater: 3 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {heater switch: {kind: switch, rating: 10 A}, heater: {kind: heater, draws: 5 A}}
    circuits:
      heater: {path: [heater switch: 3 ft, heater: 3 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.electrics.switching import line_rating_a
from builder.rules.finding import Level, Remark
from builder.rules.loading import stated_on_wire_a
from builder.rules.wording import amps, amps_up, is_above, say
from builder.trailer.model import Trailer
from builder.trailer.parts import Part

TOO_SMALL_SAYS = "“{part}” carries {load} with everything on, and its rating is {rating}"
HARD_LOAD_SAYS = (
    "“{part}” switches {load} of a motor, coil or filament; for that its {rating} should be {least}"
)
LINE_SAYS = "“{part}” stands in the battery's line with a rating of {rating}, and its fuse lets {least} pass"
LARGER_HELP = "choose a larger one, rating: {least}, or let a relay switch the load"
LARGER_LINE_HELP = "choose a larger one, rating: {least}"
RATING_BASIS = "the rating in the file, and what hangs on it"
HARD_LOAD_BASIS = "FAA AC 43.13-1B Table 11-4"
LINE_BASIS = "common practice"
OTHERS = ("fuse", "breaker", "connector")
"""Kinds with a rating that another rule judges."""


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for everything that switches and has a rating below what it carries, or should have."""
    switches = {switch.name: switch for switch in figures.switches}
    for part in trailer.parts.values():
        if part.rating_a is None or part.kind in OTHERS:
            continue
        behind = [wire.number for wire in trailer.wires if wire.start.part == part.name]
        load_a = max((figures.wires[n].current_a for n in behind if n in figures.wires), default=0.0)
        least_a = load_a
        if part.name in switches:
            load_a, least_a = switches[part.name].load_a, switches[part.name].least_rating_a
        if is_above(load_a, part.rating_a):
            stated = max((stated_on_wire_a(trailer, figures, n) for n in behind), default=0.0)
            yield _remark(
                trailer, part, (TOO_SMALL_SAYS, load_a, least_a), stated=is_above(stated, part.rating_a)
            )
        elif is_above(least_a, part.rating_a):
            yield _remark(trailer, part, (HARD_LOAD_SAYS, load_a, least_a), stated=False)
        elif is_above(line_a := line_rating_a(trailer, figures, part), part.rating_a):
            yield _remark(trailer, part, (LINE_SAYS, load_a, line_a), stated=False)


def _remark(trailer: Trailer, part: Part, what: tuple[str, float, float], *, stated: bool) -> Remark:
    sentence, load_a, least_a = what
    hard = sentence == HARD_LOAD_SAYS
    bases = {HARD_LOAD_SAYS: HARD_LOAD_BASIS, LINE_SAYS: LINE_BASIS}
    line = part.kind == "isolating switch"
    return Remark(
        origin=part.origin,
        message=say(
            sentence,
            part=part.name,
            load=amps_up(load_a),
            rating=amps(part.rating_a or 0.0),
            least=amps_up(least_a),
        ),
        help=say(LARGER_LINE_HELP if line else LARGER_HELP, least=amps_up(least_a)),
        known="read" if hard else "file" if stated else "practice",
        basis=bases.get(sentence, RATING_BASIS),
        level=Level.MUST if stated else Level.SHOULD,
        circuit=next((c.number for c in trailer.circuits if any(s.part == part.name for s in c.stops)), None),
    )
