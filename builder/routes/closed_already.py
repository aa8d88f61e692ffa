"""What lies wholly in bays that the maker closed: nobody works there any more."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from builder.routes.bays_held import Placed
from builder.routes.vectors import Vector
from builder.trailer.bays import ClosedBay, closed_bay
from builder.trailer.body import ENDS, Patch
from builder.trailer.model import Trailer
from builder.trailer.places import Chase

_HAIR_M = 0.001


class ClosedAlready:
    """The closed bays of a trailer, and what lies in them; ``tape_m`` is the tape's tolerance in metres."""

    def __init__(self, trailer: Trailer, tape_m: float) -> None:
        self._trailer = trailer
        self._placed = Placed(trailer.geometry, tape_m) if trailer.closed_bays else None
        self._at: dict[Vector, tuple[ClosedBay, ...]] = {}

    def at(self, point: Vector) -> tuple[ClosedBay, ...]:
        """Return the closed bays that a point lies in; none where it lies in no bay, or in one that is open."""
        if point not in self._at:
            beside = point[0] + _HAIR_M, point[1], point[2]
            self._at[point] = self._of_piece((point, beside))
        return self._at[point]

    def along(self, chase: Chase) -> tuple[ClosedBay, ...]:
        """Return the closed bays that a chase lies in from end to end, its places and all between them; else none."""
        points = [self._trailer.geometry.places[name].point_m for name in chase.through]
        found = [self.at(point) for point in points]
        found += [self._of_piece(piece) for piece in pairwise(points)]
        return tuple(dict.fromkeys(bay for bays in found for bay in bays)) if all(found) else ()

    def under(self, patch: Patch) -> tuple[ClosedBay, ...]:
        """Return the closed bays that a rectangle in a wall lies in; none where one of them is open."""
        if self._placed is None:
            return ()
        low_m, long_m = (
            (patch.across_m, patch.high_m) if patch.wall in ENDS else (patch.along_m, patch.wide_m)
        )
        names = [
            bay.name
            for bay in self._placed.bays
            if bay.wall is patch.wall and bay.from_m < low_m + long_m and bay.to_m > low_m
        ]
        return self._closed(names)

    def _of_piece(self, piece: tuple[Vector, Vector]) -> tuple[ClosedBay, ...]:
        if self._placed is None:
            return ()
        return self._closed([bay.name for bay, _ in self._placed.bays_of(piece)])

    def _closed(self, names: Iterable[str]) -> tuple[ClosedBay, ...]:
        found = [closed_bay(self._trailer.closed_bays, name) for name in names]
        closed = tuple(one for one in found if one is not None)
        return closed if len(closed) == len(found) else ()
