"""A value is far from what is usual: a slip of the pen, perhaps.

What: a part takes less than a twentieth or more than twenty times what is usual for its kind; a wire is more
than three times as long as the trailer; or a groove or an open bay runs through a place outside the outline of the
body.

Why: 30 mW in place of 30 W, or 42 m in place of 4.2 m, changes wires and fuses, and nothing else tells. A groove lies
in its wall, so that a place outside it is a slip of the tape.

Limit: the tool's own table of what is usual for a kind (common practice); for a place, 10 mm (3/8 in) that a tape may
be off (common practice). Ahead of the body, and at its underside or below, a place may be anywhere. Nothing is wrong
when the value is meant.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 30 mW}}
    circuits:
      light: {path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      light: {path: [lamp: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from builder.electrics.currents import draw_current_a
from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.wording import is_above, length, say
from builder.tables.part_kinds import part_kinds
from builder.trailer.model import Trailer
from builder.trailer.outline import outside_by_m, pieces_of, points_of
from builder.trailer.parts import Draw, Law, Part
from builder.trailer.places import ChaseKind

TIMES = 20.0
LENGTHS = 3.0
TAPE_M = 0.01
"""By how much measures of the body may disagree: a tape's tolerance, common practice."""

DRAW_SAYS = "“{part}” takes {draws}; a {kind} usually takes {low} to {high}"
DRAW_HELP = "look at its label: was {unit} meant? Leave it when it is right"
WIRE_SAYS = "wire {wire} is {length} long, in a trailer of {trailer}"
WIRE_HELP = "look at its length in the path: is the point where it should be? Leave it when it is right"
PLACE_SAYS = "“{place}” is {far} outside the outline of the body, and “{chase}” runs through it in a wall"
PLACE_HELP = (
    "measure it again, or mend the outline of the body; a chase that runs outside it is written kind: channel"
)
PLACE_BASIS = "the outline and the places of the file"
USUAL_BASIS = "usual for its kind, common practice"
LENGTH_BASIS = "the lengths in the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:  # noqa: ARG001 - every rule takes both
    """Yield a remark for every draw far from what is usual, and for every wire far longer than the trailer."""
    for part in trailer.parts.values():
        remark = _draw(part)
        if remark is not None:
            yield remark
    yield from _outside_its_wall(trailer)
    whole = trailer.identity.length_m
    told = set()
    for wire in trailer.wires:
        if whole and is_above(wire.length_m, LENGTHS * whole) and wire.origin not in told:
            told.add(wire.origin)
            yield Remark(
                origin=wire.origin,
                message=say(
                    WIRE_SAYS,
                    wire=wire.number,
                    length=length(wire.length_m, trailer),
                    trailer=length(whole, trailer),
                ),
                help=WIRE_HELP,
                known="practice",
                basis=LENGTH_BASIS,
                circuit=wire.circuit,
            )


def _outside_its_wall(trailer: Trailer) -> Iterator[Remark]:
    """Yield a remark for each place outside the body that a chase inside its walls runs through."""
    body, geometry = trailer.geometry.body, trailer.geometry
    if body is None:
        return
    outline = points_of(pieces_of(body.profile))
    inside = [one for one in geometry.chases.values() if one.kind in (ChaseKind.GROOVE, ChaseKind.BAY)]
    told = set()
    for chase, name in chain.from_iterable([(one.name, name) for name in one.through] for one in inside):
        place = geometry.places[name]
        out_m = max(outside_by_m(outline, (place.back_m, place.up_m)), abs(place.right_m) - body.width_m / 2)
        if name in told or place.back_m < 0 or place.up_m <= 0 or not is_above(out_m, TAPE_M):
            continue
        told.add(name)
        yield Remark(
            origin=place.origin,
            message=say(PLACE_SAYS, place=name, far=length(out_m, trailer), chase=chase),
            help=PLACE_HELP,
            known="practice",
            basis=PLACE_BASIS,
        )


def _draw(part: Part) -> Remark | None:
    kind = part_kinds().get(part.kind)
    if kind is None or kind.draw is None or part.draw is None or part.draw.assumption:
        return None
    low, _, high = kind.draw
    takes, least, most = (
        draw_current_a(part.draw),
        draw_current_a(Draw(low, kind.draw_unit, Law(kind.law))),
        draw_current_a(Draw(high, kind.draw_unit, Law(kind.law))),
    )
    if not (is_above(takes, most * TIMES) or is_above(least / TIMES, takes)):
        return None
    unit = part.draw.unit
    return Remark(
        origin=part.origin,
        message=say(
            DRAW_SAYS,
            part=part.name,
            draws=_with_prefix(part.draw.value, unit),
            kind=part.kind,
            low=f"{low:g}",
            high=f"{high:g} {kind.draw_unit}",
        ),
        help=say(DRAW_HELP, unit=unit if takes < least else f"m{unit}"),
        known="practice",
        basis=USUAL_BASIS,
    )


def _with_prefix(value: float, unit: str) -> str:
    return f"{value * 1000:g} m{unit}" if value < 1 else f"{value:g} {unit}"
