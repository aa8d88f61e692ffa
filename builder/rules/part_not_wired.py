"""A part is described and no wire goes to it.

What: a part stands under ``parts``, and no path names it.

Why: it was forgotten, or its name is spelt in two ways. Once the walls are closed it stays without a wire.

Limit: none; the file itself. What a relay feeds at rest counts as wired.

Walls open: a wire for it, or no such part.

Walls closed: new wire that stays in sight, or no such part.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {porch lamp: {kind: lamp}, lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {porch lamp: {kind: lamp}, lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 6 ft, porch lamp: 4 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.electrics.network import neighbours, reach
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import name_of, say
from builder.trailer.model import FRAME, Trailer
from builder.trailer.parts import Form, Terminal
from builder.trailer.wires import Role

NO_WIRE_SAYS = "no wire goes to “{part}”"
COIL_SAYS = "the coil of “{part}” is wired, and nothing goes through its contact"
COIL_HELP = "put it before the part that it works, as in path: [{part}: 3 ft, water pump: 8 ft]"
NO_WIRE_HELP = "name it in a path, as in path: [{part}: 6 ft], or take it out of parts"
FRAME_SAYS = "the return of {part} ends at the frame, and no wire joins the frame to the ground bar"
FRAME_HELP = "take return: frame out, or add it under battery, as in frame bond: 8 AWG"
NOT_FED_SAYS = "no supply feeds {part}"
NOT_FED_HELP = (
    "let its return go back to where its circuit starts: take return: out, or name another place in it"
)
NO_WIRE_CLOSED_HELP = (
    "lay its wire where it stays in sight and name it in a path, as in path: [{part}: 6 ft], or take it out "
    "of parts"
)
FRAME_CLOSED_HELP = (
    "add it under battery, as in frame bond: 8 AWG; or lay a ground wire where it stays in sight, and take "
    "return: frame out"
)
NOT_FED_CLOSED_HELP = (
    "lay a return where it stays in sight, back to where its circuit starts: take return: out, or name another "
    "place in it"
)
FILE_BASIS = "the paths in the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every part that no path names, and for every part that no supply reaches."""
    for name in trailer.unwired:
        yield Remark(
            origin=trailer.parts[name].origin,
            message=say(NO_WIRE_SAYS, part=name),
            help=WayOut(say(NO_WIRE_HELP, part=name), say(NO_WIRE_CLOSED_HELP, part=name)),
            known="file",
            basis=FILE_BASIS,
        )
    yield from _coils_alone(trailer)
    fed = {
        (load.load.plus, load.load.minus) for circuit in figures.circuits.values() for load in circuit.loads
    }
    rest = _at_rest(trailer)
    to_frame = {wire.start for wire in trailer.wires if wire.role is Role.RETURN and wire.end.part == FRAME}
    for load in trailer.loads:
        if (load.plus, load.minus) in fed or load.plus in rest:
            continue
        framed = load.minus in to_frame
        yield Remark(
            origin=load.origin,
            message=say(FRAME_SAYS if framed else NOT_FED_SAYS, part=name_of(load)),
            help=WayOut(FRAME_HELP, FRAME_CLOSED_HELP)
            if framed
            else WayOut(NOT_FED_HELP, NOT_FED_CLOSED_HELP),
            known="file",
            basis=FILE_BASIS,
            circuit=load.circuit,
        )


def _coils_alone(trailer: Trailer) -> Iterator[Remark]:
    """Yield a remark for every relay whose coil is wired and whose contact is not: it works nothing."""
    starts = {wire.end for wire in trailer.wires}
    for part in trailer.parts.values():
        coil, contact = Terminal(part.name, "coil +"), Terminal(part.name, "contact in")
        if part.form is Form.RELAY and coil in starts and contact not in starts:
            yield Remark(
                origin=part.origin,
                message=say(COIL_SAYS, part=part.name),
                help=say(COIL_HELP, part=part.name),
                known="file",
                basis=FILE_BASIS,
            )


def _at_rest(trailer: Trailer) -> frozenset[Terminal]:
    """Return what the rest contact of a relay feeds: it is wired, and off while everything else is on."""
    graph = neighbours(trailer)
    relays = [part.name for part in trailer.parts.values() if part.form is Form.RELAY]
    return frozenset(terminal for name in relays for terminal in reach(graph, Terminal(name, "contact rest")))
