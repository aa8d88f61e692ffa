"""What is cut from spools: each wire by itself, or as one piece of pair cable with the wire that runs beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.electrics.figures import Figures
from builder.electrics.pairs import Cable, by_circuit, cables
from builder.trailer.assumed import assumption
from builder.trailer.color import Color
from builder.trailer.model import Trailer
from builder.trailer.size import Size
from builder.trailer.wires import Wire


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

    Wires that run as a pair are one piece of cable (`cables`), any other wire is single wire.
    """
    found: list[Piece] = []
    cutter = _Cutter(trailer)
    for (circuit, size), wires in by_circuit(trailer, figures).items():
        pairs = cables(trailer, figures, circuit, size, wires)
        in_cable = {wire.number for cable in pairs for wire in cable.wires}
        found += [cutter.cable(circuit, size, cable) for cable in pairs]
        found += [cutter.single(circuit, size, wire) for wire in wires if wire.number not in in_cable]
    return tuple(found)


class _Cutter:
    """Makes pieces of wires, with the tails and the share to spare of one trailer."""

    def __init__(self, trailer: Trailer) -> None:
        self._shelf = trailer.shelf
        self._tail_m = assumption(trailer, "tail at each end").value
        self._more = assumption(trailer, "wire to spare").value / 100.0

    def single(self, circuit: int, size: Size, wire: Wire) -> Piece:
        ends = wire.start.part, wire.end.part
        return self._piece(Sort(wire.color, None, size), circuit, [wire], ends, (wire.length_m, 1))

    def cable(self, circuit: int, size: Size, cable: Cable) -> Piece:
        """Return a cable as long as its longer side as built, with tails for the side that has more ends."""
        long_m = max(sum(wire.length_m for wire in side) for side in (cable.feeds, cable.returns))
        sort = Sort(self._shelf.feed, self._shelf.ground, size)
        count = max(len(cable.feeds), len(cable.returns))
        return self._piece(sort, circuit, cable.wires, (cable.start, cable.end), (long_m, count))

    def _piece(
        self, sort: Sort, circuit: int, wires: Sequence[Wire], ends: tuple[str, str], long: tuple[float, int]
    ) -> Piece:
        length_m, count = long
        tails_m = 2 * count * self._tail_m
        numbers = tuple(wire.number for wire in wires)
        return Piece(sort, circuit, numbers, *ends, length_m, tails_m, (length_m + tails_m) * self._more)
