"""What feeds a circuit: everything that must be unplugged before a resistance is measured in it."""

from __future__ import annotations

from collections.abc import Iterable

from builder.electrics.network import OUT, Back, neighbours, reach, with_converters
from builder.guide.model import Supply
from builder.trailer.model import BATTERY, BATTERY_PLUS, TOW_PLUG, Trailer
from builder.trailer.parts import Form, Terminal

ISOLATOR, CLAMP, PULL, COVER = "isolating switch", "minus post", "pull", "cover"


def supplies_of(trailer: Trailer, circuits: tuple[int, ...]) -> tuple[Supply, ...]:
    """Return every supply from which current can reach the feeds of these circuits, in the order to take them off.

    Solar modules are covered first, and the battery is last: without it the voltage behind a module in the light
    can rise above what a controller and the lamps bear (makers' manuals of controllers, from memory).

    What the isolating switch parts from these circuits together with the battery stays as it is: nobody climbs onto a
    roof for it.

    Current is followed through fuses, switches and contacts, as if all were on, and backwards through chargers and
    converters: what charges the battery feeds all that hangs on it.
    """
    ends = [
        end
        for wire in trailer.wires
        if wire.circuit in circuits and wire.role in OUT
        for end in (wire.start, wire.end)
    ]
    reached = _reach(trailer, ends)
    has_battery = BATTERY_PLUS in reached and trailer.battery is not None
    if has_battery and (switch := _parting_switch(trailer, ends)):
        # what charges the battery at its post does not reach behind a switch that is off
        reached = _reach(trailer, ends, without=switch)
    parts = [p for p in trailer.parts.values() if p.form is Form.SUPPLY and Terminal(p.name, "+") in reached]
    covered = [Supply(part.kind, part.name, COVER) for part in parts if part.kind == "solar module"]
    pulled = [Supply(part.kind, part.name, PULL) for part in parts if part.kind != "solar module"]
    if any(terminal.part == TOW_PLUG for terminal in reached):
        pulled.append(Supply(TOW_PLUG, TOW_PLUG, PULL))
    last = [_battery_off(trailer, ends)] if has_battery else []
    return (*covered, *pulled, *last)


def _reach(trailer: Trailer, ends: Iterable[Terminal], without: str = "") -> Back:
    """Return which plus terminals can feed some ends; ``without`` names a part that is open."""
    graph = neighbours(trailer, OUT, lambda link: link.a.part != without)
    return reach(with_converters(trailer, graph, backwards=True), *ends)


def _battery_off(trailer: Trailer, ends: list[Terminal]) -> Supply:
    """Return how the battery is taken off: by the isolating switch where it parts it from these ends, else its clamp.

    The main fuse is no way: whoever pulls it takes the minus clamp off before (common practice).
    """
    switch = _parting_switch(trailer, ends)
    return Supply(BATTERY, switch, ISOLATOR) if switch else Supply(BATTERY, BATTERY, CLAMP)


def _parting_switch(trailer: Trailer, ends: list[Terminal]) -> str:
    """Return the isolating switch that parts these ends from the battery; empty where none does."""
    line = trailer.battery_line
    for stop in line.stops if line else ():
        part = trailer.parts.get(stop.part)
        is_switch = part is not None and part.kind == ISOLATOR
        if is_switch and BATTERY_PLUS not in _reach(trailer, ends, without=stop.part):
            return stop.part
    return ""
