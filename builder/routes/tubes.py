"""The wires of each stretch as a tube round the straight piece that they run along."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import dist, sqrt

from builder.routes.fill import wire_diameter
from builder.routes.network import Stretch, lengths_of
from builder.routes.runs import Runs
from builder.routes.vectors import Vector
from builder.trailer.places import Chase, ChaseKind, Geometry
from builder.trailer.size import Size


@dataclass(frozen=True, slots=True)
class Tube:
    """What may hold a wire in one stretch: all that is nearer to its piece than ``radius_m``.

    ``core_m`` is what holds one for sure where the wires lie as the file says: the bore of a conduit, half of the
    thickest wire elsewhere. Both are None where the diameter of a wire is not known; ``unsized`` has those sizes.
    """

    stretch: Stretch
    piece: tuple[Vector, Vector]
    wires: tuple[str, ...]
    core_m: float | None
    radius_m: float | None
    unsized: tuple[Size, ...] = ()

    @property
    def straight_m(self) -> float:
        """The distance between both ends of its piece."""
        return dist(*self.piece)


def row_width(diameters_mm: Sequence[float]) -> float:
    """Return the width in mm of wires of these diameters that lie side by side in a row.

    Wires that touch take up no more in any direction, however they lie. Source: arithmetic.
    """
    return sum(diameters_mm)


def loop_sag_m(length_m: float, slack_m: float) -> float:
    """Return how far a loose wire may lie beside the straight line between its two ends, in metres.

    A wire that is ``slack_m`` longer than the distance between its ends lies within the ellipse round them; its half
    width is returned (arithmetic). ``length_m`` is the wire's length, slack included.
    """
    straight_m = length_m - slack_m
    return sqrt(max(length_m * length_m - straight_m * straight_m, 0.0)) / 2


def known_diameter_mm(size: Size, measured_mm: Mapping[Size, float]) -> float | None:
    """Return the outside diameter of an insulated wire in mm: as measured, else by makers' data sheets (quoted).

    None where neither has one: a figure from memory is no limit for anybody.
    """
    if size in measured_mm:
        return measured_mm[size]
    fact = wire_diameter(size)
    return fact.value if fact is not None and fact.known != "memory" else None


def tubes_of(
    geometry: Geometry, runs: Runs, sizes: Mapping[str, Size], measured_mm: Mapping[Size, float] | None = None
) -> tuple[Tube, ...]:
    """Return the tube of every stretch that holds a wire, and of every conduit with a bore, in the order of the file.

    ``sizes`` are those of all wires by number, ``measured_mm`` the outside diameters that the maker measured.
    """
    known = {size: known_diameter_mm(size, measured_mm or {}) for size in set(sizes.values())}
    found = []
    for chase in geometry.chases.values():
        for number, (start, end, length_m) in enumerate(lengths_of(geometry, chase)):
            stretch = Stretch(chase.name, number)
            wires = runs.inside.get(stretch, ())
            if wires or chase.bore_m is not None:
                piece = geometry.places[start].point_m, geometry.places[end].point_m
                laid = wires, [sizes[wire] for wire in runs.laid(stretch)]
                found.append(_tube(chase, stretch, (piece, length_m), laid, known))
    return tuple(found)


def _tube(
    chase: Chase,
    stretch: Stretch,
    lies: tuple[tuple[Vector, Vector], float],
    laid: tuple[tuple[str, ...], Sequence[Size]],
    known: Mapping[Size, float | None],
) -> Tube:
    (piece, length_m), (wires, sizes) = lies, laid
    if chase.bore_m is not None:
        return Tube(stretch, piece, wires, chase.bore_m / 2, chase.bore_m / 2)
    unsized = tuple(dict.fromkeys(size for size in sizes if known[size] is None))
    if unsized:
        return Tube(stretch, piece, wires, None, None, unsized)
    diameters = [mm for size in sizes if (mm := known[size]) is not None]
    radius_m = row_width(diameters) / 2000
    if chase.kind is ChaseKind.HINGE:
        return Tube(stretch, piece, wires, 0.0, radius_m + loop_sag_m(length_m, chase.slack_m))
    return Tube(stretch, piece, wires, max(diameters) / 2000, radius_m)
