"""The trailer as one sees it from above, from a side or from an end: pure geometry in metres.

In every view the first coordinate runs to the right and the second one down, as on a sheet of paper.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import asin, atan2, cos, dist, sin, sqrt

from builder.trailer.body import ENDS, FLATS, SIDES, Block, Body, Frame, Opening, Wall
from builder.trailer.outline import Point, extents, pieces_of, points_of, spans

TICK_M = 0.05
"""How far a frame that one sees on end is drawn into the body."""
_SAMPLES = 24
"""Straight pieces that stand for the part of the profile that an opening takes."""
_ARC_PIECES = 12
"""Straight pieces that stand for an arc where names are to keep clear of it."""


class View(StrEnum):
    """From where one looks; ``ALONG`` is the view from above turned, so that the front is at the left."""

    ABOVE = "above"
    ALONG = "along"
    LEFT = "left"
    RIGHT = "right"
    REAR = "rear"
    FRONT = "front"


PLANS = (View.ABOVE, View.ALONG)
_ELEVATIONS = {View.LEFT: Wall.LEFT, View.RIGHT: Wall.RIGHT}
_FACES = {View.REAR: Wall.REAR, View.FRONT: Wall.FRONT}


@dataclass(frozen=True, slots=True)
class Step:
    """One piece of a line to a point: straight where the radius is 0, else the shorter arc.

    ``clockwise`` tells which way an arc turns on the sheet.
    """

    to: Point
    radius_m: float = 0.0
    clockwise: bool = False


@dataclass(frozen=True, slots=True)
class Trace:
    """A line in a view: ``what`` is outline, opening, edge (an opening seen on end), frame or backing block."""

    what: str
    name: str
    start: Point
    steps: tuple[Step, ...]
    closed: bool = False
    thick_m: float | None = None

    @property
    def points(self) -> tuple[Point, ...]:
        """Every point that it leads to."""
        return (self.start, *(step.to for step in self.steps))

    def straight_pieces(self) -> Iterator[tuple[Point, Point]]:
        """Yield straight pieces from end to end of it; several stand for an arc."""
        points = [self.start]
        for step in self.steps:
            points += [*_along_arc(points[-1], step), step.to]
        yield from pairwise([*points, self.start] if self.closed else points)


def _along_arc(start: Point, step: Step) -> list[Point]:
    """Return points between the ends of an arc; none of a straight piece."""
    chord = dist(start, step.to)
    if not step.radius_m or not chord:
        return []
    radius = max(step.radius_m, chord / 2)
    away = sqrt(max(radius**2 - chord**2 / 4, 0.0)) / chord * (1 if step.clockwise else -1)
    across = start[1] - step.to[1], step.to[0] - start[0]
    centre = tuple((start[k] + step.to[k]) / 2 + across[k] * away for k in (0, 1))
    turn = 2 * asin(min(chord / 2 / radius, 1.0)) * (1 if step.clockwise else -1)
    first = atan2(start[1] - centre[1], start[0] - centre[0])
    angles = [first + turn * n / _ARC_PIECES for n in range(1, _ARC_PIECES)]
    return [(centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)) for angle in angles]


def seen(view: View, point_m: tuple[float, float, float]) -> Point:
    """Return where a point (back, right, up) stands in a view, in metres."""
    back, right, up = point_m
    return {
        View.ABOVE: (right, back),
        View.ALONG: (back, -right),
        View.LEFT: (back, -up),
        View.RIGHT: (-back, -up),
        View.REAR: (right, -up),
        View.FRONT: (-right, -up),
    }[view]


def outline_of(body: Body, view: View) -> Trace:
    """Return the outline of the body in a view: its profile from a side, else the rectangle that it takes."""
    pieces = pieces_of(body.profile)
    front, rear, under, top = extents(points_of(pieces))
    half = body.width_m / 2
    if view in PLANS:
        corners = [(front, -half, 0.0), (rear, -half, 0.0), (rear, half, 0.0), (front, half, 0.0)]
        return _closed("outline", "", [seen(view, corner) for corner in corners])
    if view in _FACES:
        ends = [(0.0, -half, under), (0.0, half, under), (0.0, half, top), (0.0, -half, top)]
        return _closed("outline", "", [seen(view, corner) for corner in ends])

    def at(point: Point) -> Point:
        return seen(view, (point[0], 0.0, point[1]))

    mirrored = view is View.RIGHT
    steps = tuple(Step(at(piece.end), piece.radius_m, (piece.sweep < 0) != mirrored) for piece in pieces)
    return Trace("outline", "", at(pieces[0].start), steps, closed=True)


def traces_of(body: Body, view: View, blocks: Iterable[Block] = ()) -> tuple[Trace, ...]:
    """Return what one sees of the body in a view: frames, backing blocks, openings and its outline, in this order.

    A backing block is shown where one looks at its wall.
    """
    points = points_of(pieces_of(body.profile))
    frames = [trace for frame in body.frames for trace in _frame(frame, body, view, points)]
    openings = [
        trace for opening in body.openings if (trace := _opening(opening, body, view, points)) is not None
    ]
    return (
        *frames,
        *(_block(one, view) for one in blocks if _faces(view, one.wall)),
        *openings,
        outline_of(body, view),
    )


def _closed(what: str, name: str, corners: Sequence[Point]) -> Trace:
    return Trace(what, name, corners[0], tuple(map(Step, corners[1:])), closed=True)


def _open(what: str, name: str, points: Sequence[Point], thick_m: float | None = None) -> Trace:
    return Trace(what, name, points[0], tuple(map(Step, points[1:])), thick_m=thick_m)


def _opening(opening: Opening, body: Body, view: View, points: Sequence[Point]) -> Trace | None:
    """Return an opening as a rectangle where one looks at its wall, as an edge where its wall stands on end."""
    along = opening.along_m, opening.along_m + opening.wide_m
    across = opening.across_m, opening.across_m + opening.high_m
    if view in PLANS:
        return _opening_from_above(opening, body, view, points)
    if view in _FACES:
        if opening.wall is not _FACES[view]:
            return None
        return _rounded(opening, [seen(view, (0.0, x, y)) for x, y in _corners(along, across)])
    if opening.wall is _ELEVATIONS[view]:
        return _rounded(opening, [seen(view, (x, 0.0, y)) for x, y in _corners(along, across)])
    on_edge = opening.wall not in SIDES
    found = _on_profile(opening.wall, along if opening.wall in FLATS else across, points) if on_edge else []
    return _open("edge", opening.name, [seen(view, (x, 0.0, y)) for x, y in found]) if found else None


def _faces(view: View, wall: Wall) -> bool:
    """Tell whether one looks at a wall in a view: from above at the roof and the floor."""
    if view in PLANS:
        return wall in FLATS
    return wall is (_ELEVATIONS | _FACES)[view]


def _block(block: Block, view: View) -> Trace:
    along = block.along_m, block.along_m + block.wide_m
    across = block.across_m, block.across_m + block.high_m
    corners = _corners(along, across)
    if block.wall in FLATS:
        return _closed("block", block.name, [seen(view, (x, y, 0.0)) for x, y in corners])
    if block.wall in ENDS:
        return _closed("block", block.name, [seen(view, (0.0, x, y)) for x, y in corners])
    return _closed("block", block.name, [seen(view, (x, 0.0, y)) for x, y in corners])


def _opening_from_above(opening: Opening, body: Body, view: View, points: Sequence[Point]) -> Trace:
    front, rear, _, _ = extents(points)
    along = opening.along_m, opening.along_m + opening.wide_m
    across = opening.across_m, opening.across_m + opening.high_m
    if opening.wall in FLATS:
        return _rounded(opening, [seen(view, (x, y, 0.0)) for x, y in _corners(along, across)])
    if opening.wall in SIDES:
        half = body.width_m / 2
        right = -half if opening.wall is Wall.LEFT else half
        return _open("edge", opening.name, [seen(view, (back, right, 0.0)) for back in along])
    back = front if opening.wall is Wall.FRONT else rear
    return _open("edge", opening.name, [seen(view, (back, right, 0.0)) for right in along])


def _corners(along: tuple[float, float], across: tuple[float, float]) -> list[Point]:
    return [(along[0], across[0]), (along[1], across[0]), (along[1], across[1]), (along[0], across[1])]


def _on_profile(wall: Wall, reach: tuple[float, float], points: Sequence[Point]) -> list[Point]:
    """Return the points of the profile that an opening in roof, floor, front or rear wall takes."""
    axis = 1 if wall in ENDS else 0
    last = wall in (Wall.ROOF, Wall.REAR)
    found = []
    for step in range(_SAMPLES + 1):
        at = reach[0] + (reach[1] - reach[0]) * step / _SAMPLES
        cuts = spans(points, at, axis)
        if cuts:
            edge = cuts[-1][1] if last else cuts[0][0]
            found.append((edge, at) if axis else (at, edge))
    return found if len(found) > 1 else []


def _rounded(opening: Opening, corners: Sequence[Point]) -> Trace:
    """Return a rectangle with the round corners of an opening."""
    radius = min(opening.radius_m, opening.wide_m / 2, opening.high_m / 2)
    if radius <= 0:
        return _closed("opening", opening.name, corners)
    (ax, ay), (bx, by), (cx, cy) = corners[:3]
    clockwise = (bx - ax) * (cy - by) - (by - ay) * (cx - bx) > 0
    steps: list[Step] = []
    count = len(corners)
    for place in range(count):
        before, corner, after = corners[place - 1], corners[place], corners[(place + 1) % count]
        steps.append(Step(_towards(corner, before, radius)))
        steps.append(Step(_towards(corner, after, radius), radius, clockwise))
    return Trace("opening", opening.name, steps[-1].to, tuple(steps), closed=True)


def _towards(start: Point, end: Point, by: float) -> Point:
    """Return the point so far from a corner towards the next, along one of the two axes."""
    return tuple(a + (by if b > a else -by if b < a else 0.0) for a, b in zip(start, end, strict=True))  # type: ignore[return-value]


def _frame(frame: Frame, body: Body, view: View, points: Sequence[Point]) -> Iterator[Trace]:
    if view in PLANS:
        yield from _frame_from_above(frame, body.width_m / 2, view)
    elif view in _FACES:
        if _FACES[view] in frame.walls:
            half = body.width_m / 2
            for up in frame.up_m:
                ends = [seen(view, (0.0, right, up)) for right in (-half, half)]
                yield _open("frame", frame.name, ends, frame.thick_m)
    else:
        yield from _frame_from_the_side(frame, view, points)


def _frame_from_above(frame: Frame, half: float, view: View) -> Iterator[Trace]:
    """Return upright frames: right across where they are in roof or floor, else a mark at the side they are in."""
    reach = []
    if set(FLATS) & set(frame.walls):
        reach = [(-half, half)]
    else:
        in_m = min(TICK_M, half)
        reach += [(-half, in_m - half)] if Wall.LEFT in frame.walls else []
        reach += [(half - in_m, half)] if Wall.RIGHT in frame.walls else []
    for back in frame.back_m:
        for ends in reach:
            points = [seen(view, (back, right, 0.0)) for right in ends]
            yield _open("frame", frame.name, points, frame.thick_m)


def _frame_from_the_side(frame: Frame, view: View, points: Sequence[Point]) -> Iterator[Trace]:
    whole = _ELEVATIONS[view] in frame.walls
    for back in frame.back_m:
        for low, high in spans(points, back, 0):
            reach = [(low, high)] if whole else []
            if not whole:
                reach += [(low, min(low + TICK_M, high))] if Wall.FLOOR in frame.walls else []
                reach += [(max(high - TICK_M, low), high)] if Wall.ROOF in frame.walls else []
            for ends in reach:
                yield _open("frame", frame.name, [seen(view, (back, 0.0, up)) for up in ends], frame.thick_m)
    for up in frame.up_m if whole else ():
        for near, far in spans(points, up, 1):
            yield _open(
                "frame", frame.name, [seen(view, (back, 0.0, up)) for back in (near, far)], frame.thick_m
            )
