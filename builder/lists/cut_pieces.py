"""What is cut from spools: each wire by itself, or as one piece of pair cable with the wire that runs beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.figures import Figures, every_size
from builder.electrics.pairs import pair_sides
from builder.trailer.assumed import assumption
from builder.trailer.color import Color
from builder.trailer.model import Trailer
from builder.trailer.size import Size
from builder.trailer.wires import Role, Wire

SAME_M = 1e-6
"""Lengths that differ by less are equal: sums of written lengths in another order."""


@dataclass(frozen=True, slots=True)
class Sort:
    """One kind of wire as it is sold; ``other`` is the second colour of pair cable."""

    color: Color
    other: Color | None
    size: Size

    @property
    def words(self) -> str:
        """What it is called in lists and under ``in stock``."""
        return f"pair {self.size}" if self.other else f"{self.color} {self.size}"


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece to cut, lengths in metres.

    ``wires`` are the numbers of the wires that it becomes, ``start`` and ``end`` the parts between which it runs.
    ``circuit`` is 0 for a spare wire. ``length_m`` is the way, ``tails_m`` what its ends take, ``spare_m`` what is
    cut beyond both.
    """

    sort: Sort
    circuit: int
    wires: tuple[str, ...]
    start: str
    end: str
    length_m: float
    tails_m: float
    spare_m: float

    @property
    def cut_m(self) -> float:
        """How long it is cut, in metres."""
        return self.length_m + self.tails_m + self.spare_m


def pieces(trailer: Trailer, figures: Figures) -> tuple[Piece, ...]:
    """Return every piece of wire of a build, by circuit and size; those of the spare wires come last.

    Where wire is sold as pair, a feed and a return of one circuit that run between the same parts and are planned
    equally long are one piece of cable; so is a return beside the feeds that follow one another along it, which are
    parted at the switch between them. Any other wire is single wire (common practice: no wire is joined on its way).
    """
    found: list[Piece] = []
    cutter = _Cutter(trailer)
    for (circuit, size), wires in _by_circuit(trailer, figures).items():
        on_shelf = size in trailer.shelf.sizes
        feeds, returns = pair_sides(trailer, circuit, wires) if on_shelf else ([], [])
        cables = _cables(feeds, returns, cutter.planned_m)
        in_cable = {wire.number for both in cables for side in both for wire in side}
        found += [cutter.cable(circuit, size, *both) for both in cables]
        found += [cutter.single(circuit, size, wire) for wire in wires if wire.number not in in_cable]
    return tuple(found)


def _by_circuit(trailer: Trailer, figures: Figures) -> dict[tuple[int, Size], list[Wire]]:
    """Return the wires of each circuit by size; the spare ones come last, as circuit 0."""
    sizes = every_size(trailer, figures.wires)
    found: dict[tuple[int, Size], list[Wire]] = {}
    for wire in (*trailer.wires, *trailer.spares):
        found.setdefault((0 if wire.role is Role.SPARE else wire.circuit, sizes[wire.number]), []).append(
            wire
        )
    return found


class _Cutter:
    """Makes pieces of wires, with the tails and the share to spare of one trailer."""

    def __init__(self, trailer: Trailer) -> None:
        self._shelf = trailer.shelf
        self._tail_m = assumption(trailer, "tail at each end").value
        self._more = assumption(trailer, "wire to spare").value / 100.0
        self.planned_m = {wire.number: wire.length_m for wire in (trailer.plan or trailer).wires}

    def single(self, circuit: int, size: Size, wire: Wire) -> Piece:
        ends = wire.start.part, wire.end.part
        return self._piece(Sort(wire.color, None, size), circuit, [wire], ends, (wire.length_m, 1))

    def cable(self, circuit: int, size: Size, feeds: Sequence[Wire], returns: Sequence[Wire]) -> Piece:
        """Return a cable as long as its longer side as built, with tails for the side that has more ends."""
        long_m = max(sum(w.length_m for w in feeds), sum(w.length_m for w in returns))
        first, last = feeds[0].start.part, feeds[-1].end.part
        sort = Sort(self._shelf.feed, self._shelf.ground, size)
        cut = max(len(feeds), len(returns))
        return self._piece(sort, circuit, [*feeds, *returns], (first, last), (long_m, cut))

    def _piece(
        self, sort: Sort, circuit: int, wires: list[Wire], ends: tuple[str, str], long: tuple[float, int]
    ) -> Piece:
        length_m, count = long
        tails_m = 2 * count * self._tail_m
        numbers = tuple(wire.number for wire in wires)
        return Piece(sort, circuit, numbers, *ends, length_m, tails_m, (length_m + tails_m) * self._more)


def _cables(
    feeds: Sequence[Wire], returns: Sequence[Wire], planned_m: Mapping[str, float]
) -> list[tuple[list[Wire], list[Wire]]]:
    """Return which feeds run in one cable with which returns: one wire beside a chain of others, longest first."""
    left = {wire.number: wire for wire in (*feeds, *returns)}
    found: list[tuple[list[Wire], list[Wire]]] = []
    for whole, parted in ((returns, feeds), (feeds, returns)):
        for one in sorted(whole, key=lambda wire: -planned_m[wire.number]):
            if one.number not in left:
                continue
            chain = _chain(one, [wire for wire in parted if wire.number in left])
            if not chain or abs(sum(planned_m[w.number] for w in chain) - planned_m[one.number]) > SAME_M:
                continue
            for wire in (one, *chain):
                del left[wire.number]
            found.append((chain, [one]) if whole is returns else ([one], chain))
    return found


def _chain(beside: Wire, wires: Sequence[Wire]) -> list[Wire]:
    """Return the fewest wires that lead along a wire, away from the supply; none where they do not reach."""
    near, far = beside.start.part, beside.end.part
    if beside.role is Role.RETURN:
        near, far = far, near
    reached: dict[str, list[Wire]] = {near: []}
    todo = [near]
    while todo and far not in reached:
        at = todo.pop(0)
        for wire in wires:
            ends = (wire.start.part, wire.end.part)
            if at in ends:
                to = ends[1] if at == ends[0] else ends[0]
                if to not in reached:
                    reached[to] = [*reached[at], wire]
                    todo.append(to)
    return reached.get(far, [])
