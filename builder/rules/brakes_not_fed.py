"""Electric brakes have no wire from the tow plug, or the plug has no contact for them.

What: the file has electric brakes, and nothing starts at the plug's contact for brakes.

Why: the car cannot brake the trailer. With a plug that lacks the contact no wire inside the trailer helps.

Limit: the file itself; which contacts a plug has is by its standard (quoted), or by common practice.

Walls open: a circuit from that contact.

Walls closed: the same, with its wires along the frame, where they stay in sight.

Failing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}
    road lamps:
      plate lamp: {shows: plate, wire: 9 ft}

Passing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    brakes: {kind: surge}
    road lamps:
      plate lamp: {shows: plate, wire: 9 ft}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import say
from builder.tables.tow_plugs import plug_pattern, plug_patterns
from builder.trailer.model import Brakes, Trailer
from builder.trailer.parts import BRAKE_MAGNET

PLUG_SAYS = "the trailer has electric brakes, and the {plug} plug has no contact for them"
PLUGLESS_SAYS = "the trailer has electric brakes, and there is no tow plug that could feed them"
WIRE_SAYS = "the trailer has electric brakes, and no circuit starts at the plug's contact {contact} for them"
PLUG_HELP = "these plugs have one: {others}"
WIRE_HELP = (
    "add it under circuits, as in brakes: {{from: tow plug brake, path: [left brake: 14 ft, right brake: 5 ft]}}, with "
    "left brake: {{kind: brake magnet}} and right brake: {{kind: brake magnet}} under parts"
)
WIRE_CLOSED_HELP = "lay its wires along the frame, where they stay in sight: {line}"
COUNT_SAYS = "the trailer has {magnets} brakes with a magnet, and {wired} of them have a wire"
COUNT_HELP = "write magnets: {wired} under brakes, or wire the rest as parts of kind: brake magnet"
COUNT_CLOSED_HELP = (
    "write magnets: {wired} under brakes, or lay wire to the rest along the frame, where it stays in sight: parts of "
    "kind: brake magnet"
)
FILE_BASIS = "the file itself"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark when electric brakes get no current from the plug."""
    brakes, found = trailer.brakes, figures.brakes
    if brakes is None or found is None:
        return
    if found.circuit is not None:
        yield from _counted(trailer, brakes)
        return
    plug = trailer.tow_plug
    if found.contact is not None:
        line = say(WIRE_HELP)
        message, way_out = (
            say(WIRE_SAYS, contact=found.contact),
            WayOut(line, say(WIRE_CLOSED_HELP, line=line)),
        )
    else:
        others = [name for name in plug_patterns() if plug_pattern(name).contact_for("brake") is not None]
        message = say(PLUG_SAYS, plug=plug.pattern.name) if plug else say(PLUGLESS_SAYS)
        only = say(PLUG_HELP, others=", ".join(others))
        way_out = WayOut(only, only)
    yield Remark(origin=brakes.origin, message=message, help=way_out, known="file", basis=say(FILE_BASIS))


def _counted(trailer: Trailer, brakes: Brakes) -> Iterator[Remark]:
    """Yield a remark where more or fewer magnets are wired than the file says there are."""
    wired = sum(
        part.kind == BRAKE_MAGNET and part.name not in trailer.unwired for part in trailer.parts.values()
    )
    if wired != brakes.magnets:
        yield Remark(
            origin=brakes.origin,
            message=say(COUNT_SAYS, magnets=brakes.magnets, wired=wired),
            help=WayOut(say(COUNT_HELP, wired=wired), say(COUNT_CLOSED_HELP, wired=wired)),
            known="file",
            basis=FILE_BASIS,
            level=Level.SHOULD,
        )
