"""A value is far from what is usual: a slip of the pen, perhaps.

What: a part takes less than a twentieth or more than twenty times what is usual for its kind; or a wire is more
than three times as long as the trailer.

Why: 30 mW in place of 30 W, or 42 m in place of 4.2 m, changes wires and fuses, and nothing else tells.

Limit: the tool's own table of what is usual for a kind (common practice). Nothing is wrong when the value is
meant.

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

from builder.electrics.currents import draw_current_a
from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.wording import is_above, length, say
from builder.tables.part_kinds import part_kinds
from builder.trailer.model import Trailer
from builder.trailer.parts import Draw, Law, Part

TIMES = 20.0
LENGTHS = 3.0

DRAW_SAYS = "“{part}” takes {draws}; a {kind} usually takes {low} to {high}"
DRAW_HELP = "look at its label: was {unit} meant? Leave it when it is right"
WIRE_SAYS = "wire {wire} is {length} long, in a trailer of {trailer}"
WIRE_HELP = "look at its length in the path: is the point where it should be? Leave it when it is right"
USUAL_BASIS = "usual for its kind, common practice"
LENGTH_BASIS = "the lengths in the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:  # noqa: ARG001 - every rule takes both
    """Yield a remark for every draw far from what is usual, and for every wire far longer than the trailer."""
    for part in trailer.parts.values():
        remark = _draw(part)
        if remark is not None:
            yield remark
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
