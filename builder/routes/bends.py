"""Where wires turn from one straight piece to the next, and how sharply they may do so."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import acos, degrees

from builder.routes.cut_to_fit import is_open
from builder.routes.network import Stretch
from builder.routes.runs import Runs
from builder.routes.tubes import known_diameter_mm
from builder.routes.vectors import Vector, dot, length_of, minus
from builder.tables.installation import bend_radius_multiple
from builder.tables.table import Fact
from builder.trailer.places import Chase, Geometry
from builder.trailer.size import Size

STRAIGHT_DEG = 5.0
"""A turn by less than that is none: a tape measure does not find it (common practice)."""


@dataclass(frozen=True, slots=True)
class Turn:
    """One turn of wires at a place, between two stretches: by ``angle_deg``, nothing being straight on.

    ``least_m`` is the smallest radius for the thickest of ``wires``; None where a diameter is not known. ``twice`` are
    those of the wires that turn there once more on their way back.
    """

    place: str
    stretches: tuple[Stretch, Stretch]
    angle_deg: float
    wires: tuple[str, ...]
    least_m: float | None
    twice: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Bends:
    """The bends of one chase: ``turned_deg`` is what it turns from end to end, ``least_m`` the smallest radius.

    It is the sum of its turns in whole degrees. ``open_deg`` is the part of it where a conduit is open: no piece of
    it bends there, and its wires turn in the open. The radius is ``limit`` times the outside diameter of its thickest
    wire, ``thickest_mm``; both are None where it holds no wire, or one whose diameter is not known.
    """

    chase: Chase
    turned_deg: float
    thickest_mm: float | None
    least_m: float | None
    limit: Fact
    open_deg: float = 0.0

    @property
    def bent_deg(self) -> float:
        """What the chase itself bends by: in a conduit, its pieces."""
        return self.turned_deg - self.open_deg


def angle_deg(before: Vector, at: Vector, after: Vector) -> float:
    """Return by how much a way turns at a point, in degrees: 0 where it goes straight on, 180 where it comes back."""
    one, other = minus(at, before), minus(after, at)
    size = length_of(one) * length_of(other)
    if size <= 0:
        return 0.0
    return degrees(acos(min(max(dot(one, other) / size, -1.0), 1.0)))


def _whole_deg(before: Vector, at: Vector, after: Vector) -> float:
    """Return by how much a way turns at a point in whole degrees; 0 where a tape does not find it."""
    angle = angle_deg(before, at, after)
    return float(round(angle)) if angle >= STRAIGHT_DEG else 0.0


def open_wire() -> Fact:
    """Return the least bend radius of open wire, as a multiple of its diameter: 10 (US Army TM, read)."""
    return bend_radius_multiple("open wire or cable")


def bends_of(
    geometry: Geometry, runs: Runs, sizes: Mapping[str, Size], measured_mm: Mapping[Size, float]
) -> tuple[Bends, ...]:
    """Return the bends of every chase, in the order of the file.

    ``sizes`` are those of all wires by number, ``measured_mm`` the outside diameters that the maker measured.
    """
    found = []
    for chase in geometry.chases.values():
        points = [geometry.places[name].point_m for name in chase.through]
        angles = [_whole_deg(*three) for three in zip(points, points[1:], points[2:], strict=False)]
        open_deg = sum(deg for n, deg in enumerate(angles, start=1) if deg and is_open(chase, runs, n))
        inside = {
            wire
            for number in range(len(chase.through) - 1)
            for wire in runs.inside.get(Stretch(chase.name, number), ())
        }
        thickest = thickest_mm((sizes[wire] for wire in inside), measured_mm)
        found.append(Bends(chase, sum(angles), thickest, _least_m(thickest), open_wire(), open_deg))
    return tuple(found)


def turns_of(
    geometry: Geometry, runs: Runs, sizes: Mapping[str, Size], measured_mm: Mapping[Size, float]
) -> tuple[Turn, ...]:
    """Return every turn that a wire takes on its way, each once, in the order of the stretches.

    A turn from one chase into another counts like one within a chase.
    """
    wires: dict[tuple[str, Stretch, Stretch], dict[str, int]] = {}
    angles: dict[tuple[str, Stretch, Stretch], float] = {}
    for number, run in runs.runs.items():
        for one, other in pairwise(run.steps):
            first, last = sorted((one.stretch, other.stretch))
            if first == last:
                continue  # a wire that turns round at a part lies there in a loop
            key = one.end, first, last
            if key not in angles:
                places = (geometry.places[name].point_m for name in (one.start, one.end, other.end))
                angles[key] = angle_deg(*places)
            times = wires.setdefault(key, {})
            times[number] = times.get(number, 0) + 1
    order = {stretch: place for place, stretch in enumerate(runs.inside)}
    turned = [key for key, angle in angles.items() if angle >= STRAIGHT_DEG]
    return tuple(
        Turn(
            place,
            (first, last),
            angles[place, first, last],
            tuple(wires[place, first, last]),
            _least_m(thickest_mm((sizes[wire] for wire in wires[place, first, last]), measured_mm)),
            tuple(wire for wire, count in wires[place, first, last].items() if count > 1),
        )
        for place, first, last in sorted(turned, key=lambda key: (order[key[1]], order[key[2]]))
    )


def thickest_mm(sizes: Iterable[Size], measured_mm: Mapping[Size, float]) -> float | None:
    """Return the largest outside diameter of wires of some sizes in mm; None without any, or where one is unknown."""
    known = [known_diameter_mm(size, measured_mm) for size in sizes]
    there = [mm for mm in known if mm is not None]
    return max(there) if there and len(there) == len(known) else None


def _least_m(thickest: float | None) -> float | None:
    return None if thickest is None else thickest * open_wire().value / 1000
