"""The profile of the body as a closed line of straight pieces and arcs: pure geometry, in metres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, dist, hypot, pi, sin, sqrt

from builder.trailer.body import Corner

Point = tuple[float, float]
"""Back and up, in metres."""
_TURN = 2 * pi
_STEP = pi / 48
"""How much of an arc a straight piece stands for: within 0.54 mm of an arc of 1 m radius."""
RULER_M = 0.003
"""By how much a radius may be shorter than half its chord and still be read as that half; common practice."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of the profile; ``centre`` and ``radius_m`` are those of an arc, None and 0 of a straight piece.

    ``sweep`` is the angle of the arc in radians, positive where it turns from back to up.
    """

    start: Point
    end: Point
    centre: Point | None = None
    radius_m: float = 0.0
    sweep: float = 0.0


def turns_to_up(corners: Sequence[Corner]) -> bool:
    """Tell whether the corners go round the body from its front over its rear to its roof (the area is positive)."""
    points = [(corner.back_m, corner.up_m) for corner in corners]
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*points, points[0]])) > 0


def is_possible(start: Point, corner: Corner) -> bool:
    """Tell whether the radius of a corner reaches from a point to it: half of their distance at least."""
    if corner.radius_m is None:
        return True
    return corner.radius_m >= dist(start, (corner.back_m, corner.up_m)) / 2 - RULER_M


def pieces_of(corners: Sequence[Corner]) -> tuple[Piece, ...]:
    """Return the pieces of the profile, the one that ends at the first corner last.

    Every radius must be possible; one that falls short of half its chord by less than `RULER_M` is read as that half.
    """
    outward = 1.0 if turns_to_up(corners) else -1.0
    found = []
    for before, corner in pairwise([*corners, corners[0]]):
        start, end = (before.back_m, before.up_m), (corner.back_m, corner.up_m)
        if corner.radius_m is None or start == end:
            found.append(Piece(start, end))
        else:
            found.append(_arc(start, end, corner.radius_m, -outward if corner.hollow else outward))
    return tuple(found)


def _arc(start: Point, end: Point, radius_m: float, turn: float) -> Piece:
    """Return the shorter arc between two points; ``turn`` is 1 where it turns from back to up, else -1."""
    chord = dist(start, end)
    radius_m = max(radius_m, chord / 2)
    away = sqrt(max(radius_m * radius_m - chord * chord / 4, 0.0))
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    across = -(end[1] - start[1]) / chord * turn, (end[0] - start[0]) / chord * turn
    centre = middle[0] + across[0] * away, middle[1] + across[1] * away
    first = atan2(start[1] - centre[1], start[0] - centre[0])
    last = atan2(end[1] - centre[1], end[0] - centre[0])
    sweep = (last - first) * turn % _TURN
    return Piece(start, end, centre, radius_m, min(sweep, _TURN - sweep) * turn)


def points_of(pieces: Sequence[Piece]) -> tuple[Point, ...]:
    """Return the profile as points that straight lines join; the last one is joined to the first."""
    found: list[Point] = []
    for piece in pieces:
        found.append(piece.start)
        if piece.centre is None:
            continue
        first = atan2(piece.start[1] - piece.centre[1], piece.start[0] - piece.centre[0])
        count = max(int(abs(piece.sweep) / _STEP), 1)
        for step in range(1, count + 1):
            angle = first + piece.sweep * step / (count + 1)
            found.append(
                (piece.centre[0] + piece.radius_m * cos(angle), piece.centre[1] + piece.radius_m * sin(angle))
            )
    return tuple(found)


def extents(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """Return the least and the most back, and the least and the most up, of some points."""
    backs, ups = [point[0] for point in points], [point[1] for point in points]
    return min(backs), max(backs), min(ups), max(ups)


def spans(points: Sequence[Point], at_m: float, axis: int) -> tuple[tuple[float, float], ...]:
    """Return where a straight line lies inside the profile: upright at a back for axis 0, level at an up for axis 1."""
    cuts = sorted(
        a[1 - axis] + (at_m - a[axis]) / (b[axis] - a[axis]) * (b[1 - axis] - a[1 - axis])
        for a, b in pairwise([*points, points[0]])
        if (a[axis] <= at_m) != (b[axis] <= at_m)
    )
    return tuple(zip(cuts[::2], cuts[1::2], strict=False))


def holds(points: Sequence[Point], point: Point) -> bool:
    """Tell whether a point lies inside the profile."""
    return any(low <= point[1] <= high for low, high in spans(points, point[0], 0))


def outside_by_m(points: Sequence[Point], point: Point) -> float:
    """Return how far outside the profile a point lies, in metres; 0 inside and on it."""
    if holds(points, point):
        return 0.0
    return min(_to_line(point, a, b) for a, b in pairwise([*points, points[0]]))


def _to_line(point: Point, a: Point, b: Point) -> float:
    along = b[0] - a[0], b[1] - a[1]
    square = along[0] ** 2 + along[1] ** 2
    share = ((point[0] - a[0]) * along[0] + (point[1] - a[1]) * along[1]) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return hypot(point[0] - a[0] - share * along[0], point[1] - a[1] - share * along[1])


def crosses_itself(points: Sequence[Point]) -> bool:
    """Tell whether two pieces of the profile that do not follow each other cross or touch."""
    lines = list(pairwise([*points, points[0]]))
    last = len(lines) - 1
    return any(
        _cross(*lines[one], *lines[other])
        for one in range(len(lines))
        for other in range(one + 2, len(lines))
        if not (one == 0 and other == last)
    )


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
        return False
    return _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0


def _side(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
