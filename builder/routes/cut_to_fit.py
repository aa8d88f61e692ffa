"""What is made to fit for the wires: how wide and deep a groove or a channel is, and the pieces of a conduit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from builder.routes.bundle import bundle_diameter_mm
from builder.routes.fill import up_to_a_mark
from builder.routes.network import Stretch, lengths_of
from builder.routes.runs import Runs
from builder.routes.tubes import known_diameter_mm, row_width
from builder.trailer.model import Trailer
from builder.trailer.places import Chase, ChaseKind
from builder.trailer.size import Size

PLATE_SIDE_M = 0.0127
"""How far a steel plate reaches beyond a groove on each side, to lie on the wood and be held there: 1/2 in.

Source: common practice.
"""
_OPEN = (ChaseKind.GROOVE, ChaseKind.CHANNEL)


@dataclass(frozen=True, slots=True)
class Groove:
    """How wide and deep a groove, or a channel inside, must be at its widest stretch, in metres, with nothing to spare.

    ``wide_m`` is all its wires side by side in one layer, ``deep_m`` the thickest of them; both None where the
    diameter of a wire is not known, of a size in ``unsized``. ``alike`` tells that all its stretches are as wide.
    """

    chase: str
    start: str
    end: str
    wide_m: float | None
    deep_m: float | None
    unsized: tuple[Size, ...] = ()
    alike: bool = True

    @property
    def plate_m(self) -> float | None:
        """How wide a steel plate over it is at least, `PLATE_SIDE_M` beyond it on each side."""
        return None if self.wide_m is None else self.wide_m + 2 * PLATE_SIDE_M


@dataclass(frozen=True, slots=True)
class ConduitPiece:
    """One piece of a conduit, in metres: it ends where a wire goes in or out, and at both ends of its chase."""

    chase: str
    start: str
    end: str
    length_m: float


def grooves_of(trailer: Trailer, runs: Runs, sizes: Mapping[str, Size]) -> tuple[Groove, ...]:
    """Return the grooves and channels that hold wires, in the order of the file; ``sizes`` are those of all wires.

    Source: arithmetic from outside diameters, as the maker measured them, else as makers' data sheets have them
    (quoted). A wire that lies there twice counts twice.
    """
    measured_mm = trailer.shelf.diameters_mm
    known = {size: known_diameter_mm(size, measured_mm) for size in set(sizes.values())}
    found = (_groove(chase, runs, sizes, known) for chase in trailer.geometry.chases.values())
    return tuple(one for one in found if one is not None)


def _groove(
    chase: Chase, runs: Runs, sizes: Mapping[str, Size], known: Mapping[Size, float | None]
) -> Groove | None:
    if chase.kind not in _OPEN or not chase.takes_wires:
        return None
    widest: Groove | None = None
    widths = set()
    for number, (start, end) in enumerate(pairwise(chase.through)):
        laid = [sizes[wire] for wire in runs.laid(Stretch(chase.name, number))]
        if not laid:
            continue
        unsized = tuple(dict.fromkeys(size for size in laid if known[size] is None))
        if unsized:
            return Groove(chase.name, start, end, None, None, unsized)
        diameters = [mm for size in laid if (mm := known[size]) is not None]
        wide_m = row_width(diameters) / 1000
        widths.add(round(wide_m, 6))
        if widest is None or wide_m > (widest.wide_m or 0.0) + 1e-9:
            widest = Groove(chase.name, start, end, wide_m, max(diameters) / 1000)
    if widest is None or len(widths) == 1:
        return widest
    return Groove(widest.chase, widest.start, widest.end, widest.wide_m, widest.deep_m, alike=False)


@dataclass(frozen=True, slots=True)
class Loop:
    """How wide the loop of a clip or tie must be along a part of a chase, in metres, from place to place.

    ``wide_m`` is None where the diameter of a wire there is not known.
    """

    chase: str
    start: str
    end: str
    wide_m: float | None


def loops_of(
    trailer: Trailer, runs: Runs, sizes: Mapping[str, Size], chases: Iterable[Chase]
) -> tuple[Loop, ...]:
    """Return the loops round the wires of some chases along each, one for stretches in a row that ask for the same.

    What is rounded up to one mark is the same; see `bundle_diameter_mm`.
    """
    measured_mm, units = trailer.shelf.diameters_mm, trailer.identity.units
    known = {size: known_diameter_mm(size, measured_mm) for size in set(sizes.values())}
    found: list[Loop] = []
    for chase in chases:
        for number, (start, end) in enumerate(pairwise(chase.through)):
            laid = runs.laid(Stretch(chase.name, number))
            diameters = [mm for wire in laid if (mm := known[sizes[wire]]) is not None]
            whole = len(diameters) == len(laid)
            wide_m = up_to_a_mark(bundle_diameter_mm(diameters) / 1000, units) if whole else None
            last = found[-1] if found else None
            if last is not None and (last.chase, last.end, last.wide_m) == (chase.name, start, wide_m):
                found[-1] = Loop(chase.name, last.start, end, wide_m)
            elif laid:
                found.append(Loop(chase.name, start, end, wide_m))
    return tuple(found)


def conduit_pieces(trailer: Trailer, runs: Runs) -> tuple[ConduitPiece, ...]:
    """Return the pieces of all conduits in the order of the file; those for mains alone are not ours to cut."""
    return tuple(
        piece
        for chase in trailer.geometry.chases.values()
        if chase.kind is ChaseKind.CONDUIT and chase.takes_wires
        for piece in _pieces(trailer, runs, chase)
    )


def is_open(chase: Chase, runs: Runs, number: int) -> bool:
    """Tell whether a conduit is open at its place of a number, its ends left out: where a wire goes in or out."""
    before, after = (sorted(runs.laid(Stretch(chase.name, n))) for n in (number - 1, number))
    return chase.kind is ChaseKind.CONDUIT and before != after


def _pieces(trailer: Trailer, runs: Runs, chase: Chase) -> Iterator[ConduitPiece]:
    start, length_m = chase.through[0], 0.0
    stretches = lengths_of(trailer.geometry, chase)
    for number, (_, end, long_m) in enumerate(stretches, start=1):
        length_m += long_m
        if number == len(stretches) or is_open(chase, runs, number):
            yield ConduitPiece(chase.name, start, end, length_m)
            start, length_m = end, 0.0
