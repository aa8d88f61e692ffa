"""On which screw or stud of several each wire lands: once numbers are issued, what is there keeps its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.trailer.ledger import number_order
from builder.trailer.model import Trailer
from builder.trailer.parts import Terminal


def seated(
    trailer: Trailer, terminal: Terminal, numbers: Sequence[str], count: int | None, most: int
) -> Mapping[int, tuple[str, ...]]:
    """Return which wires land on each screw or stud of a terminal, by its number from 1; free ones are left out.

    ``numbers`` are the wires there, ``count`` how many studs there are, None where nobody told, and ``most`` how many
    wires one of them takes. Wires go one on each stud: those of the ledger in the order in which they were issued, so
    that a new one moves none of them, then the others by number. A number that was issued and is no more keeps its
    stud free, so that nothing else on the bar moves. Where the studs run out, the next wire takes such a stud, then
    further ones go round from the first on where a stud takes several. Wires beyond what all take are never left out,
    and whoever counts sees them: where a stud takes one they get studs that are not there, else they go round again.
    """
    there = frozenset(numbers)
    issued = issued_order(trailer)
    seats = sorted(
        {*numbers, *_gone(trailer, terminal)},
        key=lambda number: (issued.get(number, len(issued)), number_order(number)),
    )
    free = [seat for seat, number in enumerate(seats[:count], start=1) if number not in there]
    found: dict[int, tuple[str, ...]] = {}
    beyond = 0
    for seat, number in enumerate(seats, start=1):
        if number not in there:
            continue
        stud = seat
        if count is not None and seat > count:
            if free:
                stud = free.pop(0)
            else:
                stud = 1 + beyond % count if most > 1 else count + 1 + beyond
                beyond += 1
        found[stud] = (*found.get(stud, ()), number)
    return dict(sorted(found.items()))


def issued_order(trailer: Trailer) -> Mapping[str, int]:
    """Return the place of each wire's number in the order in which numbers were issued; empty before they are."""
    return {wire.number: rank for rank, wire in enumerate(trailer.ledger.wires if trailer.ledger else ())}


def _gone(trailer: Trailer, terminal: Terminal) -> list[str]:
    """Return the numbers of wires that landed on a terminal and are no more."""
    gone = frozenset(trailer.gone)
    wires = trailer.ledger.wires if trailer.ledger is not None else ()
    return [
        wire.number
        for wire in wires
        if (wire.retired or wire.number in gone) and terminal in (wire.start, wire.end)
    ]
