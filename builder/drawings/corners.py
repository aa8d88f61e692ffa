"""Corners and crossings of lines that run level and upright only."""

from __future__ import annotations

from itertools import pairwise

from builder.drawings.placed import Point, Route


def clean(points: list[Point]) -> tuple[Point, ...]:
    """Drop corners that do not turn."""
    kept: list[Point] = []
    for point in points:
        if kept and abs(kept[-1][0] - point[0]) < 0.05 and abs(kept[-1][1] - point[1]) < 0.05:
            continue
        if len(kept) > 1 and _in_line(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    return tuple(kept)


def _in_line(a: Point, b: Point, c: Point) -> bool:
    return any(abs(a[i] - b[i]) < 0.05 and abs(b[i] - c[i]) < 0.05 for i in (0, 1))


def crossings(routes: tuple[Route, ...]) -> tuple[tuple[str, Point, bool], ...]:
    """Return where a later leg crosses an earlier one: its name, the place, and whether it runs upright there."""
    found = []
    for place, later in enumerate(routes):
        for earlier in routes[:place]:
            for a in pairwise(later.points):
                for b in pairwise(earlier.points):
                    point = _cross(a, b)
                    if point is not None:
                        found.append((later.leg.id, point, abs(a[0][0] - a[1][0]) < 0.05))
    return tuple(found)


def _cross(a: tuple[Point, Point], b: tuple[Point, Point]) -> Point | None:
    upright, level = (a, b) if abs(a[0][0] - a[1][0]) < 0.05 else (b, a)
    if abs(upright[0][0] - upright[1][0]) >= 0.05 or abs(level[0][1] - level[1][1]) >= 0.05:
        return None
    x, y = upright[0][0], level[0][1]
    inside_x = min(level[0][0], level[1][0]) + 1 < x < max(level[0][0], level[1][0]) - 1
    inside_y = min(upright[0][1], upright[1][1]) + 1 < y < max(upright[0][1], upright[1][1]) - 1
    return (x, y) if inside_x and inside_y else None
