"""What of a straight piece lies behind a face, and how near the fasteners of that face come to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot, sqrt

from builder.routes.faces import Face
from builder.routes.vectors import Flat, Vector, along, between_pieces, from_outline, inside

_SAME = 1e-12


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a straight piece behind a face: between which shares of it, and both ends by the face's measures."""

    begins: float
    ends: float
    start: Vector
    end: Vector

    @property
    def depth_m(self) -> float:
        """The least depth of it behind the face, in metres; below nothing where it lies before the face."""
        return min(self.start[2], self.end[2])


def parts_behind(
    face: Face, piece: tuple[Vector, Vector], wide_m: float, deepest_m: float
) -> tuple[Part, ...]:
    """Return the parts of a piece that lie behind a face.

    A point lies behind it where it is not further than ``wide_m`` outside its outline and before it, and not deeper
    than ``deepest_m``; all in metres.
    """
    a, b = face.seen(piece[0]), face.seen(piece[1])
    if min(a[2], b[2]) > deepest_m or max(a[2], b[2]) < -wide_m or _beside(face.outline, a, b, wide_m):
        return ()

    def is_behind(share: float) -> bool:
        x, y, depth = along(a, b, share)
        return -wide_m <= depth <= deepest_m and from_outline((x, y), face.outline) <= wide_m

    found: list[tuple[float, float]] = []
    for begins, ends in pairwise(sorted({0.0, 1.0, *_changes(face.outline, (a, b), wide_m, deepest_m)})):
        if ends - begins > _SAME and is_behind((begins + ends) / 2):
            if found and found[-1][1] == begins:
                found[-1] = found[-1][0], ends
            else:
                found.append((begins, ends))
    return tuple(Part(begins, ends, along(a, b, begins), along(a, b, ends)) for begins, ends in found)


def _beside(outline: Sequence[Flat], a: Vector, b: Vector, wide_m: float) -> bool:
    """Tell whether a piece lies wholly beside the box round an outline: then it is nowhere behind it."""
    return any(
        min(a[k], b[k]) > max(corner[k] for corner in outline) + wide_m
        or max(a[k], b[k]) < min(corner[k] for corner in outline) - wide_m
        for k in (0, 1)
    )


def _changes(
    outline: Sequence[Flat], piece: tuple[Vector, Vector], wide_m: float, deepest_m: float
) -> Iterator[float]:
    """Yield the shares of a piece at which it may get behind a face or out from behind it."""
    a, b = piece
    steps = [_level(a[2], b[2], -wide_m), _level(a[2], b[2], deepest_m)]
    dx, dy = b[0] - a[0], b[1] - a[1]
    for i, corner in enumerate(outline):
        before = outline[i - 1]
        long_m = hypot(corner[0] - before[0], corner[1] - before[1])
        if long_m > 0:
            nx, ny = (before[1] - corner[1]) / long_m, (corner[0] - before[0]) / long_m
            off = (a[0] - before[0]) * nx + (a[1] - before[1]) * ny
            steps += [_level(off, off + dx * nx + dy * ny, side) for side in (-wide_m, 0.0, wide_m)]
        steps += _round(corner, (a[0], a[1]), (dx, dy), wide_m)
    yield from (share for share in steps if share is not None and 0.0 < share < 1.0)


def _level(start: float, end: float, level: float) -> float | None:
    """Return the share at which something that goes evenly from one value to another passes a third."""
    return (level - start) / (end - start) if abs(end - start) > _SAME else None


def _round(centre: Flat, start: Flat, arrow: Flat, radius_m: float) -> list[float | None]:
    """Return the shares at which a piece passes a circle."""
    x, y = start[0] - centre[0], start[1] - centre[1]
    a = arrow[0] ** 2 + arrow[1] ** 2
    half = x * arrow[0] + y * arrow[1]
    under = half * half - a * (x * x + y * y - radius_m * radius_m)
    if a <= _SAME or under < 0:
        return []
    return [(-half - sqrt(under)) / a, (-half + sqrt(under)) / a]


def from_fasteners(outline: Sequence[Flat], part: tuple[Vector, Vector], reach_m: float) -> float:
    """Return the least distance in metres between a piece and all fasteners that go into a face ``reach_m`` deep.

    They may sit anywhere within the outline, and go straight in: together they fill a body, which is as near as one
    of its edges, or as an end of the piece is to it; nothing where the piece gets into it. Both are in the face's own
    measures.
    """
    a, b = part
    if _gets_in(outline, part, reach_m):
        return 0.0
    nearest = min(_from_body(outline, a, reach_m), _from_body(outline, b, reach_m))
    for i, corner in enumerate(outline):
        before = outline[i - 1]
        for edge in (
            ((*before, 0.0), (*corner, 0.0)),
            ((*before, reach_m), (*corner, reach_m)),
            ((*corner, 0.0), (*corner, reach_m)),
        ):
            nearest = min(nearest, between_pieces(part, edge))
    return nearest


def _from_body(outline: Sequence[Flat], point: Vector, reach_m: float) -> float:
    depth = max(-point[2], point[2] - reach_m, 0.0)
    return hypot(depth, from_outline((point[0], point[1]), outline))


def _gets_in(outline: Sequence[Flat], part: tuple[Vector, Vector], reach_m: float) -> bool:
    """Tell whether a piece passes through the top, the bottom or a side of the body of all fasteners."""
    a, b = part
    for level in (0.0, reach_m):
        share = _level(a[2], b[2], level)
        if share is not None and 0.0 <= share <= 1.0:
            point = along(a, b, share)
            if inside((point[0], point[1]), outline):
                return True
    return any(_through_side(outline[i - 1], outline[i], part, reach_m) for i in range(len(outline)))


def _through_side(before: Flat, corner: Flat, part: tuple[Vector, Vector], reach_m: float) -> bool:
    a, b = part
    ex, ey = corner[0] - before[0], corner[1] - before[1]
    dx, dy = b[0] - a[0], b[1] - a[1]
    turn = dx * ey - dy * ex
    if abs(turn) <= _SAME:
        return False
    x, y = before[0] - a[0], before[1] - a[1]
    share, where = (x * ey - y * ex) / turn, (x * dy - y * dx) / turn
    depth = a[2] + share * (b[2] - a[2])
    return 0.0 <= share <= 1.0 and 0.0 <= where <= 1.0 and 0.0 <= depth <= reach_m
