"""Measures what is left between fasteners and wires point by point, without any of the builder's code."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, ceil, pi, sqrt

Point = tuple[float, float, float]
STEP_M = 0.002
"""Wires are looked at every 2 mm."""
_COARSE = 20


def sub(a: Point, b: Point) -> Point:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def dot(a: Point, b: Point) -> float:
    return sum(x * y for x, y in zip(a, b, strict=True))


def step(a: Point, arrow: Point, far: float) -> Point:
    return (a[0] + arrow[0] * far, a[1] + arrow[1] * far, a[2] + arrow[2] * far)


def apart(a: Point, b: Point) -> float:
    return sqrt(sum((x - y) ** 2 for x, y in zip(a, b, strict=True)))


def sideways(arrow: Point) -> tuple[Point, Point]:
    """Return two arrows of length 1 across an arrow and across each other."""
    first = (
        (0.0, -arrow[2], arrow[1])
        if abs(arrow[0]) < 0.5 * sqrt(dot(arrow, arrow))
        else (-arrow[1], arrow[0], 0.0)
    )
    first = step((0.0, 0.0, 0.0), first, 1 / sqrt(dot(first, first)))
    long = sqrt(dot(arrow, arrow))
    a = (arrow[0] / long, arrow[1] / long, arrow[2] / long)
    return first, (
        a[1] * first[2] - a[2] * first[1],
        a[2] * first[0] - a[0] * first[2],
        a[0] * first[1] - a[1] * first[0],
    )


def on_skin(point: Point, ring: list[Point], towards: Point) -> Point:
    """Return the place on a flat piece of skin that is nearest to a point."""
    foot = step(point, towards, -dot(sub(point, ring[0]), towards))
    x, y = sideways(towards)
    angles = [atan2(dot(sub(corner, foot), y), dot(sub(corner, foot), x)) for corner in ring]
    turned = sum((angles[i] - angles[i - 1] + pi) % (2 * pi) - pi for i in range(len(ring)))
    if abs(turned) > pi:
        return foot
    best = ring[0]
    for i in range(len(ring)):
        best = _on_edge(foot, ring[i - 1], ring[i], best)
    return best


def _on_edge(point: Point, a: Point, b: Point, best: Point) -> Point:
    """Return the nearest of many points on an edge, looked for ever more finely, or ``best`` if that is nearer."""
    low, high = 0.0, 1.0
    while True:
        shares = [low + (high - low) * i / _COARSE for i in range(_COARSE + 1)]
        share = min(shares, key=lambda s: apart(point, step(a, sub(b, a), s)))
        near = step(a, sub(b, a), share)
        width = (high - low) / _COARSE
        far_m = apart(point, near)
        if far_m - width * apart(a, b) > apart(point, best):
            return best
        if width * apart(a, b) < 1e-5:
            return near if far_m < apart(point, best) else best
        low, high = max(share - width, 0.0), min(share + width, 1.0)


def outside_by(point: Point, face: tuple[list[Point], Point], wide_m: float, deepest_m: float) -> float:
    """Return how far a point has to go at least to get behind a face; below nothing behind it."""
    ring, towards = face
    depth = dot(sub(point, ring[0]), towards)
    beside = max(-depth, depth - deepest_m) - wide_m
    if beside > 0:
        return beside
    return max(beside, apart(step(point, towards, -depth), on_skin(point, ring, towards)) - wide_m)


def samples_behind(
    piece: tuple[Point, Point], face: tuple[list[Point], Point], wide_m: float, deepest_m: float
) -> Iterator[Point]:
    """Yield points on a piece behind a face every 2 mm, and those where it gets behind it and out again.

    What is too far to get behind the face on the way to the next sample is passed over.
    """
    a, b = piece
    count = max(ceil(apart(a, b) / STEP_M), 1)
    before: tuple[float, bool] | None = None
    i = 0
    while i <= count:
        share = i / count
        point = step(a, sub(b, a), share)
        far_m = outside_by(point, face, wide_m, deepest_m)
        now = far_m <= 0
        if before is not None and before[1] != now:
            out, in_ = (before[0], share) if now else (share, before[0])
            for _ in range(14):
                half = (out + in_) / 2
                if outside_by(step(a, sub(b, a), half), face, wide_m, deepest_m) <= 0:
                    in_ = half
                else:
                    out = half
            yield step(a, sub(b, a), in_)
        if now:
            yield point
        before = share, now
        i += max(int(far_m / STEP_M), 1)


def from_fastener(point: Point, face: tuple[list[Point], Point], reach_m: float) -> float:
    """Return how far a point is from the nearest fastener: one that goes in at the nearest place on the skin."""
    ring, towards = face
    head = on_skin(point, ring, towards)
    far = min(max(dot(sub(point, head), towards), 0.0), reach_m)
    return apart(point, step(head, towards, far))
