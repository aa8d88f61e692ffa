"""What lands where: every terminal of the front box, the tow plug and the connectors."""

from __future__ import annotations

from collections.abc import Sequence

from builder.electrics.figures import Landing, PlugContactFigures, WayFigures
from builder.trailer.model import FRONT_BOX, GROUND_BAR, SUPPLY_BAR, TOW_PLUG, Trailer
from builder.trailer.parts import Form, Terminal


def landings(trailer: Trailer) -> tuple[Landing, ...]:
    """Return every landing, front box first: supply, ways, strip, ground bar; then plug, then parts in name order.

    Each wire on the ground bar has a screw of its own; a strip position takes one wire a side, so a contact
    that feeds several wires takes as many positions, bridged.
    """
    at: dict[Terminal, list[str]] = {}
    for wire in trailer.wires:
        at.setdefault(wire.start, []).append(wire.number)
        at.setdefault(wire.end, []).append(wire.number)
    found: list[Landing] = []
    if SUPPLY_BAR in at:
        found.append(Landing(FRONT_BOX, SUPPLY_BAR.pin, "supply", tuple(at[SUPPLY_BAR])))
    found += _ways(trailer, at)
    found += _strip(trailer, at)
    for screw, number in enumerate(at.get(GROUND_BAR, ()), start=1):
        found.append(Landing(FRONT_BOX, GROUND_BAR.pin, f"screw {screw}", (number,)))
    others = sorted(t for t in at if t.part != FRONT_BOX)
    found += [_other(trailer, terminal, at[terminal]) for terminal in others]
    return tuple(found)


def _ways(trailer: Trailer, at: dict[Terminal, list[str]]) -> list[Landing]:
    ways = sorted((c.way, c.start) for c in trailer.circuits if c.way is not None)
    return [Landing(FRONT_BOX, start.pin, f"way {way}", tuple(at.get(start, ()))) for way, start in ways]


def _strip(trailer: Trailer, at: dict[Terminal, list[str]]) -> list[Landing]:
    found = []
    position = 0
    for terminal in (t for t in at if t.part == FRONT_BOX and t.pin.startswith("strip: ")):
        incoming = [n for n in at[terminal] if _from_plug(trailer, n)]
        outgoing = [n for n in at[terminal] if n not in incoming]
        for place in range(max(1, len(outgoing))):
            position += 1
            wires = (*(incoming if place == 0 else ()), *outgoing[place : place + 1])
            found.append(Landing(FRONT_BOX, terminal.pin, f"strip {position}", wires))
    return found


def _from_plug(trailer: Trailer, number: str) -> bool:
    wire = next(wire for wire in trailer.wires if wire.number == number)
    return TOW_PLUG in (wire.start.part, wire.end.part)


def _other(trailer: Trailer, terminal: Terminal, numbers: Sequence[str]) -> Landing:
    part = trailer.parts.get(terminal.part)
    spliced = terminal.part == TOW_PLUG and len(numbers) > 1  # a contact takes one end
    if part is not None and len(numbers) > 1:
        spliced = part.form is Form.THROUGH or part.lead_length_m is not None
    return Landing(terminal.part, terminal.pin, terminal.pin, tuple(numbers), splice=spliced)


def strip_positions(found: Sequence[Landing]) -> int:
    """Return how many strip positions the landings take."""
    return sum(landing.part == FRONT_BOX and landing.place.startswith("strip ") for landing in found)


def ground_screws(found: Sequence[Landing]) -> int:
    """Return how many screws of the ground bar the landings take."""
    return sum(landing.part == FRONT_BOX and landing.pin == GROUND_BAR.pin for landing in found)


def way_figures(trailer: Trailer) -> tuple[WayFigures, ...]:
    """Return every way of the fuse block in order, spare ones too, and last the ways beyond it that are taken."""
    taken = {circuit.way: circuit.number for circuit in trailer.circuits if circuit.way is not None}
    count = trailer.front_box.fuse_ways if trailer.front_box else 0
    return tuple(WayFigures(way, taken.get(way)) for way in sorted({*range(1, count + 1), *taken}))


def plug_figures(trailer: Trailer, wires_a: Sequence[float]) -> tuple[PlugContactFigures, ...]:
    """Return every contact of the tow plug in contact order, with its current in amperes with everything on."""
    if trailer.tow_plug is None:
        return ()
    found = []
    for contact in trailer.tow_plug.pattern.contacts:
        terminal = Terminal(TOW_PLUG, contact.pin)
        here = [i for i, wire in enumerate(trailer.wires) if terminal in (wire.start, wire.end)]
        circuits = [trailer.wires[i].circuit for i in here]
        found.append(
            PlugContactFigures(
                number=contact.number,
                function=", ".join(contact.functions) if not contact.is_ground else contact.label,
                color=f"{contact.base} with {contact.tracer}" if contact.tracer else contact.base,
                current_a=sum(wires_a[i] for i in here),
                circuit=circuits[0] if circuits else None,
                known=contact.known,
                plug=contact.plug,
            )
        )
    return tuple(found)
