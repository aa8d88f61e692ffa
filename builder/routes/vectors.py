"""Points and arrows in space: what the distances between fasteners and wires are worked out with."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import hypot, sqrt

Vector = tuple[float, float, float]
Flat = tuple[float, float]
"""A point of a face, by its two measures in it."""


def minus(a: Vector, b: Vector) -> Vector:
    """Return the arrow from ``b`` to ``a``."""
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def dot(a: Vector, b: Vector) -> float:
    """Return the scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """Return the vector product."""
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def along(a: Vector, b: Vector, share: float) -> Vector:
    """Return the point so far from ``a`` to ``b``: 0 is ``a``, 1 is ``b``."""
    return tuple(x + share * (y - x) for x, y in zip(a, b, strict=True))  # type: ignore[return-value]


def scaled(a: Vector, factor: float) -> Vector:
    """Return an arrow so many times as long."""
    return a[0] * factor, a[1] * factor, a[2] * factor


def length_of(a: Vector) -> float:
    """Return how long an arrow is."""
    return sqrt(dot(a, a))


def unit(a: Vector) -> Vector:
    """Return the arrow of length 1 in the same direction; raises ZeroDivisionError for one without a length."""
    return scaled(a, 1.0 / length_of(a))


def middle(points: Iterable[Vector]) -> Vector:
    """Return the middle of the box round some points; raises ValueError without any."""
    sides = tuple(zip(*points, strict=True))
    if not sides:
        raise ValueError("no points have no middle")
    return tuple((min(side) + max(side)) / 2 for side in sides)


def between_pieces(p: tuple[Vector, Vector], q: tuple[Vector, Vector]) -> float:
    """Return the least distance between two straight pieces.

    The nearest points are looked for inside both and, where they lie beyond an end, at that end (common practice).
    """
    d1, d2, r = minus(p[1], p[0]), minus(q[1], q[0]), minus(p[0], q[0])
    a, e, b = dot(d1, d1), dot(d2, d2), dot(d1, d2)
    c, f = dot(d1, r), dot(d2, r)
    steep = a * e - b * b
    s = _clamped((b * f - c * e) / steep) if steep > 1e-15 * max(a * e, 1e-30) else 0.0
    t = (b * s + f) / e if e > 0 else 0.0
    if not 0.0 <= t <= 1.0 or e <= 0:
        t = _clamped(t)
        s = _clamped((b * t - c) / a) if a > 0 else 0.0
    return length_of(minus(along(p[0], p[1], s), along(q[0], q[1], t)))


def to_edge(point: Flat, a: Flat, b: Flat) -> float:
    """Return the distance of a point of a face from a straight edge in it."""
    near = on_edge(point, a, b)
    return hypot(point[0] - near[0], point[1] - near[1])


def on_edge(point: Flat, a: Flat, b: Flat) -> Flat:
    """Return the point of a straight edge that is nearest to a point of its face."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy
    share = _clamped(((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / square) if square > 0 else 0.0
    return a[0] + share * dx, a[1] + share * dy


def inside(point: Flat, outline: Sequence[Flat]) -> bool:
    """Tell whether a point lies inside an outline: a ray from it crosses the edges an odd number of times."""
    found = False
    before = outline[-1]
    for corner in outline:
        if (corner[1] > point[1]) != (before[1] > point[1]):
            x = corner[0] + (point[1] - corner[1]) * (before[0] - corner[0]) / (before[1] - corner[1])
            found ^= point[0] < x
        before = corner
    return found


def from_outline(point: Flat, outline: Sequence[Flat]) -> float:
    """Return how far outside an outline a point lies; nothing inside it."""
    if inside(point, outline):
        return 0.0
    return min(to_edge(point, outline[i - 1], outline[i]) for i in range(len(outline)))


def edges_cross(outline: Sequence[Flat]) -> bool:
    """Tell whether an outline crosses itself, as it does where its corners do not follow each other round it."""
    count = len(outline)
    edges = [(outline[i], outline[(i + 1) % count]) for i in range(count)]
    return any(
        _cross(edges[i], edges[j])
        for i in range(count)
        for j in range(i + 2, count)
        if not (i == 0 and j == count - 1)
    )


def _cross(one: tuple[Flat, Flat], other: tuple[Flat, Flat]) -> bool:
    sides = [_side(one, other[0]), _side(one, other[1]), _side(other, one[0]), _side(other, one[1])]
    return sides[0] * sides[1] < 0 and sides[2] * sides[3] < 0


def _side(edge: tuple[Flat, Flat], point: Flat) -> float:
    (ax, ay), (bx, by) = edge
    return (bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)


def _clamped(share: float) -> float:
    return min(max(share, 0.0), 1.0)
