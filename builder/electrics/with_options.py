"""What may come later, judged as if it were there: the same figures of the trailer with it, beside today's."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from builder.electrics.figures import Figures, FuseFigures, OptionCircuit, OptionFigures, OptionWire
from builder.trailer.circuits import Circuit
from builder.trailer.model import Option, Trailer
from builder.trailer.size import Size
from builder.trailer.wires import Role, Wire

_SAME_A = 1e-9


def option_figures(
    trailer: Trailer, today: Figures, compute: Callable[[Trailer], Figures]
) -> tuple[OptionFigures, ...]:
    """Return the figures of each option, in the order of the file.

    Arguments: ``trailer`` without any of them and its figures ``today``; ``compute`` works out a trailer. A wire that
    is there keeps its size: it gets no thicker because something is added. A fuse is another matter, since it can be
    changed; one whose rating the file gives stays. Source: own work.
    """
    return tuple(_option(trailer, today, option, compute) for option in trailer.options)


def _option(
    trailer: Trailer, today: Figures, option: Option, compute: Callable[[Trailer], Figures]
) -> OptionFigures:
    there = {wire.number for wire in trailer.wires}
    new = [wire for wire in option.trailer.wires if wire.number not in there]
    stand_in = spares_in_use(new, option.spares)
    held = _held(option.trailer, today, stand_in)
    figures = compute(held)
    used = {spare.number for spare in stand_in.values()}
    kept = {wire.number for wire in held.wires}
    return OptionFigures(
        name=option.name,
        trailer=held,
        figures=figures,
        circuits=tuple(
            _circuit(circuit, today, figures)
            for circuit in held.circuits
            if _is_touched(circuit, new, today, figures)
        ),
        wires=tuple(
            _wire(wire, figures, stand_in.get(wire.number)) for wire in held.wires if wire.number not in there
        ),
        gone=tuple(wire.number for wire in trailer.wires if wire.number not in kept),
        short=tuple(spare.number for spare in option.spares if spare.number not in used),
        ways_free=sum(way.circuit is None for way in today.ways),
        ways_needed=sum(c.way is not None and c.number not in today.circuits for c in held.circuits),
        main=_main(held, figures),
        today_main=_main(trailer, today),
    )


def spares_in_use(new: list[Wire], spares: tuple[Wire, ...]) -> dict[str, Wire]:
    """Return the spare wire that stands for a new one, by that one's number.

    Each spare, the longest first, stands for the longest wire that it reaches and no other one stands for.
    Source: own work.
    """
    found: dict[str, Wire] = {}
    for spare in sorted(spares, key=lambda wire: -wire.length_m):
        reached = [one for one in new if one.number not in found and one.length_m <= spare.length_m]
        if reached:
            longest = max(reached, key=lambda one: one.length_m)
            found[longest.number] = spare
    return found


def _held(trailer: Trailer, today: Figures, stand_in: dict[str, Wire]) -> Trailer:
    """Return a trailer with the sizes of today's wires, and of the spares that stand for new ones."""

    def size_of(wire: Wire) -> Size | None:
        if wire.number in stand_in:
            return stand_in[wire.number].size
        made = today.wires.get(wire.number)
        return wire.size or (made.size if made is not None else None)

    return replace(trailer, wires=tuple(replace(wire, size=size_of(wire)) for wire in trailer.wires))


def _is_touched(circuit: Circuit, new: list[Wire], today: Figures, figures: Figures) -> bool:
    """Tell whether an option adds a circuit, a wire on it, or current; the battery's line is told of by its fuse."""
    then = today.circuits.get(circuit.number)
    if then is None or any(wire.circuit == circuit.number for wire in new):
        return True
    now = figures.circuits[circuit.number]
    return bool(now.loads) and abs(now.load_current_a - then.load_current_a) > _SAME_A


def _circuit(circuit: Circuit, today: Figures, figures: Figures) -> OptionCircuit:
    left = (one.left_w for one in figures.headroom if one.circuit == circuit.number)
    return OptionCircuit(
        figures.circuits[circuit.number], today.circuits.get(circuit.number), circuit.way, next(left, None)
    )


def _wire(wire: Wire, figures: Figures, spare: Wire | None) -> OptionWire:
    return OptionWire(
        wire.number,
        wire.circuit,
        wire.start.part,
        wire.end.part,
        Role.FEED if wire.role is Role.TRAVELLER else wire.role,
        wire.length_m,
        figures.wires[wire.number].size,
        spare.number if spare is not None else "",
    )


def _main(trailer: Trailer, figures: Figures) -> FuseFigures | None:
    line = trailer.battery_line
    return figures.circuits[line.number].fuse if line is not None else None
