"""What may come later, judged as if it were there: the same figures of the trailer with it, beside today's."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from enum import Enum

from builder.electrics.figures import Figures, FuseFigures, OptionCircuit, OptionFigures, OptionWire
from builder.trailer.circuits import Circuit
from builder.trailer.model import FRONT_BOX, Option, Trailer
from builder.trailer.wires import Leg, Role, Wire

_SAME_A, _SAME_M = 1e-9, 1e-6
"""What differs by no more is the same: a current, and a length that was added up in another order."""


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
    place = _place_of(option.trailer, trailer)
    stand_in = spares_in_use(new, option.spares, place)
    held = _held(option.trailer, (trailer, today), stand_in, place)
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
        elsewhere=tuple(
            (stand_in[wire.number].number, wire.number)
            for wire in new
            if wire.number in stand_in and ends_of(stand_in[wire.number], wire, place) is Ends.ELSEWHERE
        ),
        ways_free=sum(way.circuit is None for way in today.ways),
        ways_needed=sum(c.way is not None and c.number not in today.circuits for c in held.circuits),
        main=_main(held, figures),
        today_main=_main(trailer, today),
    )


class Ends(Enum):
    """Whether a spare wire ends where a new wire does, as far as the file tells."""

    ELSEWHERE = 0
    UNKNOWN = 1
    SAME = 2


def spares_in_use(
    new: Sequence[Wire], spares: Sequence[Wire], place: Callable[[str], str | None]
) -> dict[str, Wire]:
    """Return the spare wire that stands for a new one, by that one's number.

    Each spare, the longest first, stands for the longest wire that it reaches and no other one stands for: for one
    with the same two ends where there is any, else for one whose ends are not known to be elsewhere, else for any.
    ``place`` tells where a part or a place is, None where nobody knows. Source: own work.
    """
    found: dict[str, Wire] = {}
    for spare in sorted(spares, key=lambda wire: -wire.length_m):
        free = {one.number: one for one in new if one.number not in found}
        known = {number: ends_of(spare, one, place) for number, one in free.items()}
        if Ends.SAME in known.values():
            free = {number: one for number, one in free.items() if known[number] is Ends.SAME}
        reached = [one for one in free.values() if one.length_m <= spare.length_m + _SAME_M]
        if reached:
            best = max(reached, key=lambda one: (known[one.number].value, one.length_m))
            found[best.number] = spare
    return found


def ends_of(spare: Wire, wire: Wire, place: Callable[[str], str | None]) -> Ends:
    """Tell whether a spare wire has the two ends of a wire, whichever way round."""
    one, other = (spare.legs[0].start, spare.legs[-1].end) if spare.legs else ("", "")
    if wire.legs:
        start, end = wire.legs[0].start, wire.legs[-1].end
    else:
        start, end = wire.start.part, wire.end.part

    def at(name: str, part: str) -> Ends:
        if name == part:
            return Ends.SAME
        if place(name) is not None and place(part) is not None:
            return Ends.SAME if place(name) == place(part) else Ends.ELSEWHERE
        return Ends.ELSEWHERE if FRONT_BOX in (name, part) else Ends.UNKNOWN

    ways = ((at(one, start), at(other, end)), (at(one, end), at(other, start)))
    return max((min(way, key=lambda known: known.value) for way in ways), key=lambda known: known.value)


def _place_of(*trailers: Trailer) -> Callable[[str], str | None]:
    """Return what tells where a part is, or a name that is a place, in the first of some trailers that has it."""

    def place(name: str) -> str | None:
        for trailer in trailers:
            stand = trailer.geometry.stands.get(name)
            if stand is not None:
                return stand.place
        return None

    return place


def _held(
    trailer: Trailer,
    today: tuple[Trailer, Figures],
    stand_in: dict[str, Wire],
    place: Callable[[str], str | None],
) -> Trailer:
    """Return a trailer with the sizes of today's wires, and of the spares that stand for new ones.

    Such a spare counts in its own length, and lies where it lies where its ends are those of the wire.
    """
    today_trailer, figures = today

    def held(wire: Wire) -> Wire:
        spare = stand_in.get(wire.number)
        if spare is None:
            made = figures.wires.get(wire.number)
            return replace(wire, size=wire.size or (made.size if made is not None else None))
        taken = replace(wire, size=spare.size, length_m=spare.length_m, length_source=spare.length_source)
        if not wire.legs or not spare.legs or ends_of(spare, wire, place) is not Ends.SAME:
            return taken
        start, end = wire.legs[0].start, wire.legs[-1].end
        past = spare.legs[0].past
        turned = place(start) != place(spare.legs[0].start)
        return replace(taken, legs=(Leg(start, end, past[::-1] if turned else past),))

    pulled = {one.name for one in today_trailer.pulled}
    in_already = tuple(number for number, spare in stand_in.items() if spare.start.pin in pulled)
    return replace(trailer, wires=tuple(map(held, trailer.wires)), in_already=in_already)


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
