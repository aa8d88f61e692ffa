"""What is made to fit for the wires: how wide and deep a groove or a channel is, and the pieces of a conduit."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from builder.routes.bundle import bundle_diameter_mm
from builder.routes.fill import up_to_a_mark
from builder.routes.network import Stretch, lengths_of
from builder.routes.runs import Runs
from builder.routes.supports import Supports
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
    """What some supports of a chase hold along a part of it, from place to place; ``count`` is how many they are.

    ``wide_m`` is how wide the loop of a clip or tie must be in metres, round all wires there; where they lie ``flat``
    how far a strap or tape reaches across them. It is None where the diameter of a wire there is not known.
    """

    chase: str
    start: str
    end: str
    count: int
    wide_m: float | None
    flat: bool


def loops_of(
    trailer: Trailer, runs: Runs, sizes: Mapping[str, Size], supports: Iterable[Supports]
) -> tuple[Loop, ...]:
    """Return what the supports of each chase hold, one entry for stretches in a row that ask for the same.

    In a groove or a channel wires lie side by side in one layer, see `grooves_of`: what holds them there goes across.
    Anywhere else they are one round bundle, see `bundle_diameter_mm`. What is rounded up to one mark is the same. A
    support at a place between two stretches holds what the wider of them has.
    """
    measured_mm = trailer.shelf.diameters_mm
    known = {size: known_diameter_mm(size, measured_mm) for size in set(sizes.values())}
    found: list[Loop] = []
    for one in supports:
        through, flat = one.chase.through, one.chase.kind in _OPEN
        wide_m = {
            number: _held_m(trailer, [known[sizes[wire]] for wire in runs.laid(stretch)], flat)
            for number in one.between
            for stretch in [Stretch(one.chase.name, number)]
        }
        for number, count in _counted(one, wide_m).items():
            last = found[-1] if found else None
            here = one.chase.name, through[number], wide_m[number]
            if last is not None and (last.chase, last.end, last.wide_m) == here:
                found[-1] = replace(last, end=through[number + 1], count=last.count + count)
            elif count:
                found.append(Loop(here[0], here[1], through[number + 1], count, here[2], flat))
    return tuple(found)


def _held_m(trailer: Trailer, diameters: Sequence[float | None], flat: bool) -> float | None:
    """Return how wide what holds some wires is, in metres, rounded up; None where one has no known diameter."""
    known = [mm for mm in diameters if mm is not None]
    if len(known) < len(diameters):
        return None
    wide_mm = row_width(known) if flat else bundle_diameter_mm(known)
    return up_to_a_mark(wide_mm / 1000, trailer.identity.units)


def _counted(supports: Supports, wide_m: Mapping[int, float | None]) -> dict[int, int]:
    """Return how many supports hold what each stretch has: those between its places, and those at its places.

    One at a place beside two stretches counts with the wider one, or with that whose wires have to be measured.
    """
    found = dict(supports.between)
    for place in sorted({end for number in found for end in (number, number + 1)}):
        beside = [number for number in (place - 1, place) if number in found]
        found[max(beside, key=lambda n: math.inf if (wide := wide_m[n]) is None else wide)] += 1
    return found


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
