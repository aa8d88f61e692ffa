"""Second ways back to the car: by the frame and the hitch, or by another wire on the tow plug's ground."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from builder.electrics.network import HOME, neighbours
from builder.trailer.model import FRAME, TOW_PLUG, Trailer
from builder.trailer.parts import Form, Terminal


@dataclass(frozen=True, slots=True)
class WayBack:
    """A way on which current still comes back to the car when a ground is lost.

    ``wire`` is the one by which it enters the plug; empty where it goes by the frame and the hitch. ``through`` are
    the converters and chargers on it: many have one minus for both their sides inside, and some have not.
    """

    wire: str
    through: tuple[str, ...] = ()


def ways_back(
    trailer: Trailer,
    start: Terminal,
    *,
    wires: Collection[str] = (),
    terminals: Collection[Terminal] = (),
) -> tuple[WayBack, ...]:
    """Return the ways that are left from a load's minus to the car when wires and terminals are lost.

    Args:
        trailer: the trailer, hitched to the car.
        start: where the current leaves the load.
        wires: numbers of the wires that are lost.
        terminals: the contacts that are lost, with all that lands on them.

    Returns:
        Ways that need no charger first; of those to one wire the first. None where nothing is left.

    That a coupling joins the frame of the trailer to the car's, more or less well, is common practice; so is the one
    minus of most chargers.

    """
    lost = {index for index, wire in enumerate(trailer.wires) if wire.number in wires}
    reached = _reached(trailer, start, lost, terminals)
    found = [
        WayBack(wire.number, reached[end])
        for index, wire in enumerate(trailer.wires)
        if index not in lost and wire.role in HOME
        for end, plug in ((wire.start, wire.end), (wire.end, wire.start))
        if plug.part == TOW_PLUG and plug not in terminals and end in reached
    ]
    found += [WayBack("", through) for at, through in reached.items() if at.part == FRAME]
    return tuple(sorted(found, key=lambda way: (len(way.through), way.wire)))


def _reached(
    trailer: Trailer, start: Terminal, lost: Collection[int], terminals: Collection[Terminal]
) -> Mapping[Terminal, tuple[str, ...]]:
    """Return every terminal on the ground side that is joined to one, with the chargers between.

    The tow plug is no way from wire to wire: beyond it is the car.
    """
    graph = neighbours(trailer, HOME)
    reached: dict[Terminal, tuple[str, ...]] = {start: ()}
    level = [start]
    while level:
        while level:
            here = level.pop(0)
            for near, wire in graph.get(here, ()):
                open_ = near.part == TOW_PLUG or near in terminals or wire in lost
                if not open_ and near not in reached:
                    reached[near] = reached[here]
                    level.append(near)
        for here in tuple(reached):  # what one minus inside a charger joins comes after all else
            minus = _other_minus(trailer, here)
            if minus is not None and minus not in reached and minus not in terminals:
                reached[minus] = (*reached[here], here.part)
                level.append(minus)
    return reached


def _other_minus(trailer: Trailer, at: Terminal) -> Terminal | None:
    """Return the minus of a charger's other side; None at any other terminal."""
    part = trailer.parts.get(at.part)
    if part is None or part.form is not Form.SECTION:
        return None
    other = {"in −": "out −", "out −": "in −"}.get(at.pin)
    return Terminal(at.part, other) if other else None


def grounds_met(trailer: Trailer) -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    """Return each pair of the tow plug's ground contacts that meet in the trailer, with the chargers between them.

    Where none stands between, wires join them.
    """
    lands = [
        (pole.pin, end)
        for wire in trailer.wires
        if wire.role in HOME
        for pole, end in ((wire.start, wire.end), (wire.end, wire.start))
        if pole.part == TOW_PLUG
    ]
    met: dict[tuple[str, str], tuple[str, ...]] = {}
    for pin, end in lands:
        reached = _reached(trailer, end, (), ())
        for other, at in lands:
            pair = (min(pin, other), max(pin, other))
            if pin != other and at in reached and len(reached[at]) < len(met.get(pair, (*reached[at], ""))):
                met[pair] = reached[at]
    return tuple((one, other, through) for (one, other), through in met.items())
