"""The cut list: spool by spool what is still cut from it, in stock or to be bought, and what is left."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import accumulate
from statistics import median

from builder.electrics.figures import Figures
from builder.electrics.pairs import SAME_M
from builder.lists.cut_pieces import Piece, Sort, pieces
from builder.lists.cutting import cut_from
from builder.routes.fits import lacks_loop
from builder.trailer.already_in import already_in, piece_in
from builder.trailer.assumed import assumption
from builder.trailer.model import Trailer
from builder.trailer.origin import NOWHERE, Origin
from builder.trailer.size import by_area
from builder.trailer.stock import WireInStock

FOOT_M = 0.3048
ENOUGH_WIRES = 5
"""Measured wires from which a maker's own allowance is told: a handful (common practice)."""


@dataclass(frozen=True, slots=True)
class Spool:
    """One spool: ``length_m`` is what is on it, in metres, ``pieces`` what is still cut from it, in the order to cut.

    ``number`` counts the spools in stock of one kind of wire, 0 is what is bought of it. ``needed`` tells that any
    piece at all is of its kind, also one that is in already, ``shortest_m`` is the shortest of those that are still to
    be cut, 0 where none is. ``origin`` is where the file has it in stock.
    """

    number: int
    sort: Sort
    length_m: float
    pieces: tuple[Piece, ...]
    needed: bool
    shortest_m: float
    origin: Origin = field(default=NOWHERE, compare=False)

    @property
    def id(self) -> str:
        """What it is known by: its kind of wire, and its number or that it is bought."""
        return f"{self.sort.words} {self.number or 'bought'}"

    @property
    def bought(self) -> bool:
        """Whether it is to be bought."""
        return self.number == 0

    @property
    def cut_m(self) -> float:
        """What is cut from it, in metres."""
        return sum(piece.cut_m for piece in self.pieces)

    @property
    def left_m(self) -> tuple[float, ...]:
        """What is left after each piece, in metres."""
        return tuple(max(0.0, self.length_m - cut) for cut in accumulate(p.cut_m for p in self.pieces))

    @property
    def rest_m(self) -> float:
        """What is left at the end, in metres."""
        return max(0.0, self.length_m - self.cut_m)

    @property
    def too_short(self) -> bool:
        """Whether it is in stock and shorter than every piece of its kind of wire that is still to be cut."""
        return self.needed and not self.bought and self.length_m < self.shortest_m - SAME_M


@dataclass(frozen=True, slots=True)
class OwnAllowance:
    """What the maker's measured wires tell: relative differences to the planned lengths, in percent.

    ``median_percent`` and ``most_percent`` are positive where the wires are longer than planned; ``wires`` are the
    numbers they rest on, ``counted_percent`` what the lists count at present.
    """

    wires: tuple[str, ...]
    median_percent: float
    most_percent: float
    counted_percent: float

    @property
    def enough(self) -> bool:
        """Whether there are enough wires to go by."""
        return len(self.wires) >= ENOUGH_WIRES


@dataclass(frozen=True, slots=True)
class CutList:
    """All spools: pair cable first, then single wire, thick wire first, then by colour; stock before what is bought.

    ``already`` are the pieces that are in, in the same order, with why they count as in: nothing is cut for them.
    ``own`` is None where no length was measured. ``no_loop`` are the numbers of the wires whose length by the file is
    enough for their way, and not for the loop at the front box and the slack as well.
    """

    spools: tuple[Spool, ...]
    already: tuple[tuple[Piece, str], ...] = ()
    own: OwnAllowance | None = None
    no_loop: tuple[str, ...] = ()


def cut_list(trailer: Trailer, figures: Figures) -> CutList:
    """Return what is cut from which spool.

    What is in already is not cut again. It was taken from what is no longer in stock, so that what lies there now is
    for the pieces that are still to be cut. Each kind of wire is cut by itself: what changes one of them leaves the
    lines of all others as they are.
    """
    known = already_in(trailer)
    by_sort: dict[Sort, list[Piece]] = {}
    already: list[tuple[Piece, str]] = []
    for piece in pieces(trailer, figures):
        mine = by_sort.setdefault(piece.sort, [])
        why = piece_in(piece.wires, known)
        if why:
            already.append((piece, why))
        else:
            mine.append(piece)
    stock: dict[Sort, list[WireInStock]] = {}
    for wire in trailer.stock.wire:
        stock.setdefault(_sort_of(trailer, wire), []).append(wire)
    already.sort(key=lambda one: in_order(one[0].sort))
    spools = (
        spool
        for sort in sorted({**by_sort, **stock}, key=in_order)
        for spool in _spools(sort, by_sort.get(sort), stock.get(sort, []), trailer.identity.units)
    )
    own, no_loop = own_allowance(trailer, figures), _without_loop(trailer, figures)
    return CutList(tuple(spools), tuple(already), own, no_loop)


def in_order(sort: Sort) -> tuple[bool, float, str]:
    """Return what kinds of wire are sorted by: pair cable first, then thick wire first, then by colour."""
    return sort.other is None, -by_area(sort.size), str(sort.color)


def _without_loop(trailer: Trailer, figures: Figures) -> tuple[str, ...]:
    runs = figures.runs.runs
    return tuple(
        wire.number
        for wire in (*trailer.wires, *trailer.spares)
        if wire.number in runs and lacks_loop(trailer, wire, runs[wire.number])
    )


def _sort_of(trailer: Trailer, wire: WireInStock) -> Sort:
    if wire.color is None:
        return Sort(trailer.shelf.feed, trailer.shelf.ground, wire.size)
    return Sort(wire.color, None, wire.size)


def _spools(
    sort: Sort, wanted: Sequence[Piece] | None, there: Sequence[WireInStock], units: str
) -> list[Spool]:
    """Return the spools of one kind of wire, each with its pieces, the longest first.

    ``wanted`` is None where no piece of the build is of this kind, empty where all of them are in already. A long
    piece that was cut wrong still serves as a shorter one (common practice).
    """
    cuts = wanted or ()
    places = cut_from([wire.length_m for wire in there], [piece.cut_m for piece in cuts])
    shortest_m = min((piece.cut_m for piece in cuts), default=0.0)

    def of(spool: int | None) -> tuple[Piece, ...]:
        mine = [piece for piece, place in zip(cuts, places, strict=True) if place == spool]
        return tuple(sorted(mine, key=lambda piece: -round(piece.cut_m, 6)))

    found = [
        Spool(place + 1, sort, wire.length_m, of(place), wanted is not None, shortest_m, wire.origin)
        for place, wire in enumerate(there)
    ]
    bought = of(None)
    if bought:
        length_m = rounded_up_m(sum(piece.cut_m for piece in bought), units)
        found.append(Spool(0, sort, length_m, bought, True, shortest_m))
    return found


def rounded_up_m(length_m: float, units: str) -> float:
    """Return a length in metres rounded up to whole feet or metres, as wire is cut from a spool (common practice)."""
    step_m = FOOT_M if units == "feet" else 1.0
    return max(0, math.ceil(length_m / step_m - SAME_M)) * step_m


def own_allowance(trailer: Trailer, figures: Figures) -> OwnAllowance | None:
    """Return how far measured lengths lie from planned ones; None where none was measured.

    A wire counts where its change gives a length and the plan has one. The median is told, since one wire that was
    led another way must not count for all (common practice).
    """
    measured = {c.about for c in trailer.changes if c.kind == "wire" and "length" in c.words}
    wires = [one for one in figures.wire_changes if one.number in measured and one.planned_length_m > SAME_M]
    if not wires:
        return None
    more = [(one.length_m / one.planned_length_m - 1.0) * 100.0 for one in wires]
    counted = assumption(trailer, "wire to spare").value
    return OwnAllowance(tuple(one.number for one in wires), median(more), max(more), counted)
