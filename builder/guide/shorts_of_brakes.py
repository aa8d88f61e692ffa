"""What a short behind the switch of a breakaway may lie in: its own wires, and those on which the car feeds brakes."""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.braking import breakaway_line
from builder.electrics.network import OUT, neighbours, reach
from builder.guide.model import Cause, Point, Suspect
from builder.trailer.circuits import Circuit
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.parts import BREAKAWAY_SWITCH, Form, Terminal


def away_switch(trailer: Trailer, circuit: Circuit) -> str:
    """Return the switch of the breakaway on a circuit; empty where it is another circuit."""
    if circuit != breakaway_line(trailer):
        return ""
    return next(
        (s.part for s in circuit.stops if (p := trailer.parts.get(s.part)) and p.kind == BREAKAWAY_SWITCH), ""
    )


def behind_switch(trailer: Trailer, circuit: Circuit, switch: str) -> Point:
    """Return where the red probe goes to read what hangs behind the switch: on the feed that leaves it."""
    wire = next(w for w in trailer.wires if w.circuit == circuit.number and w.start.part == switch)
    return Point(wire.start, wire.number)


def joined_to_brakes(trailer: Trailer, circuit: Circuit) -> Iterator[Suspect]:
    """Yield what other circuits have on the feed that a circuit ends at: wires, plug contact and loads.

    Wires are followed both ways, through splices only: the one from the plug hangs there too, its plug pulled.
    """
    graph = neighbours(trailer, OUT, lambda link: _is_joint(trailer, link.a))
    ends = [w.end for w in trailer.wires if w.circuit == circuit.number and w.role in OUT]
    ends = [end for end in ends if _is_joint(trailer, end) or _is_load(trailer, end)]
    reached = reach(graph, *ends)
    for wire in trailer.wires:
        if wire.circuit != circuit.number and wire.role in OUT and wire.start in reached:
            if wire.start.part == TOW_PLUG:
                yield Suspect(Cause.CONTACT, TOW_PLUG, wire.start.pin)
            yield Suspect(Cause.WIRE, "", "", (wire.number,))
    parts = dict.fromkeys(terminal.part for terminal in reached if _is_load(trailer, terminal))
    yield from (Suspect(Cause.LOAD, part) for part in parts if not trailer.parts[part].waiting)


def _is_joint(trailer: Trailer, terminal: Terminal) -> bool:
    part = trailer.parts.get(terminal.part)
    return part is not None and part.form is Form.JOINT


def _is_load(trailer: Trailer, terminal: Terminal) -> bool:
    part = trailer.parts.get(terminal.part)
    return part is not None and part.form is Form.LOAD
