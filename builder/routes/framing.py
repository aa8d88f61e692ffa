"""What wires pass in the framing: frames, studs and backing blocks, before a skin hides them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, dist, floor

from builder.routes.network import Stretch
from builder.routes.passings import SKIN_M
from builder.routes.runs import Run
from builder.routes.vectors import Vector, along
from builder.trailer.body import ENDS, FLATS, SIDES, Block, Body, Frame, Wall
from builder.trailer.outline import Point, pieces_of, points_of, spans
from builder.trailer.places import Chase, Geometry, Place

WALL_M = 0.15
"""What is no further from a side of the body runs in it, through the frames that stand there (common practice)."""
STEP_M = 0.005
"""How finely a way is looked at where it runs over a block."""
Inside = Mapping[Stretch, tuple[str, ...]]
_AXES = {**dict.fromkeys(SIDES, (0, 2)), **dict.fromkeys(ENDS, (1, 2)), **dict.fromkeys(FLATS, (0, 1))}
"""By the wall: which of back, right and up a rectangle in it is measured by, along and across."""


@dataclass(frozen=True, slots=True)
class FramePassed:
    """One frame that a chase passes: its name, and how far back or up it is, in metres; the other one is None.

    ``point_m`` is where the middle of the chase meets it: back, right and up. ``wires`` are those that pass it there,
    ``twice`` those of them that come back through it.
    """

    chase: str
    frame: str
    back_m: float | None
    up_m: float | None
    point_m: Vector
    wires: tuple[str, ...]
    twice: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FrameHoles:
    """One frame and all that passes it, from the topmost down, then from left to right.

    ``back_m`` or ``up_m`` tells where it stands; the other one is None.
    """

    name: str
    back_m: float | None
    up_m: float | None
    holes: tuple[FramePassed, ...]

    @property
    def upright(self) -> bool:
        """Whether it stands upright, at a distance from the front."""
        return self.up_m is None


@dataclass(frozen=True, slots=True)
class BlockPassed:
    """A backing block that lies in the way of a chase, and the wires that pass it."""

    block: Block
    chase: str
    wires: tuple[str, ...]


def frames_passed(
    geometry: Geometry,
    chases: Iterable[Chase],
    inside: Inside,
    again: Inside | None = None,
    runs: Iterable[Run] = (),
) -> tuple[FramePassed, ...]:
    """Return the frames that some chases pass, along each chase; none where the file has no frames or no body.

    A frame in a wall is passed by what runs within `WALL_M` of that wall. ``inside`` has the wires of each stretch,
    ``again`` those that lie in it once more. Wires of ``runs`` that come to a frame in one chase and leave it to the
    other side in another one pass it too.
    """
    body = geometry.body
    if body is None or not body.frames:
        return ()
    outline = points_of(pieces_of(body.profile))
    found: list[FramePassed] = []
    order: dict[str, int] = {}
    for chase in chases:
        order[chase.name] = len(order)
        points = [geometry.places[name].point_m for name in chase.through]
        passed = [
            (
                how_far,
                FramePassed(
                    chase.name,
                    frame.name,
                    at_m if axis == 0 else None,
                    at_m if axis == 2 else None,
                    point,
                    _wires(chase, how_far, inside),
                    _wires(chase, how_far, again or {}),
                ),
            )
            for frame in body.frames
            for axis, measures in ((0, frame.back_m), (2, frame.up_m))
            for at_m in measures
            for how_far, point in _crossings(points, axis, at_m)
            if any(_in_wall(outline, body.width_m / 2, point, wall) for wall in frame.walls)
        ]
        found += [one for _, one in sorted(passed, key=lambda held: held[0])]
    every = dict.fromkeys(_with_changes(found, _changes_at_frames(geometry, body, outline, runs)))
    return tuple(sorted(every, key=lambda one: order.get(one.chase, len(order))))


def _changes_at_frames(
    geometry: Geometry, body: Body, outline: Sequence[Point], runs: Iterable[Run]
) -> Iterator[FramePassed]:
    """Yield for each wire the frames that it comes to in one chase and leaves in another, and where that is."""
    planes: dict[tuple[int, float], list[Frame]] = {}
    for frame in body.frames:
        for axis, measures in ((0, frame.back_m), (2, frame.up_m)):
            for at_m in measures:
                planes.setdefault((axis, at_m), []).append(frame)
    for run in runs:
        names = [step.start for step in run.steps[:1]] + [step.end for step in run.steps]
        points = [geometry.places[name].point_m for name in names]
        chases = [step.stretch.chase for step in run.steps]
        met = dict.fromkeys((axis, point[axis]) for point in points[1:-1] for axis in (0, 2))
        for axis, at_m in met:
            for frame in planes.get((axis, at_m), ()):
                back_m, up_m = (at_m, None) if axis == 0 else (None, at_m)
                for step, point in _at_places(points, chases, axis, at_m):
                    if any(_in_wall(outline, body.width_m / 2, point, wall) for wall in frame.walls):
                        yield FramePassed(chases[step], frame.name, back_m, up_m, point, (run.wire,))


def _at_places(
    points: Sequence[Vector], chases: Sequence[str], axis: int, at_m: float
) -> Iterator[tuple[int, Vector]]:
    """Yield where a wire comes to a plane in one chase and leaves it in another, and which step leads there."""
    for how_far, point in _crossings(points, axis, at_m):
        place = int(how_far)
        if how_far == place and points[place] == point and chases[place - 1] != chases[place]:
            yield place - 1, point


def _with_changes(found: Sequence[FramePassed], more: Iterable[FramePassed]) -> Iterator[FramePassed]:
    """Yield the holes of chases and those between two chases; what is at one point of a frame is one hole."""
    known = frozenset(found)
    holes: dict[tuple[str, float | None, float | None, Vector], list[FramePassed]] = {}
    for one in (*found, *more):
        holes.setdefault((one.frame, one.back_m, one.up_m, one.point_m), []).append(one)
    for alike in holes.values():
        by_chase = [one for one in alike if one in known] or alike[:1]
        wires = tuple(dict.fromkeys(wire for one in alike for wire in one.wires))
        twice = tuple(dict.fromkeys(wire for one in alike for wire in one.twice))
        for one in by_chase:
            yield replace(one, wires=wires, twice=twice) if len(by_chase) == 1 else one


def by_frame(geometry: Geometry, passed: Iterable[FramePassed]) -> tuple[FrameHoles, ...]:
    """Return what passes each frame, in the order of the file, those of one entry from the front or the floor on."""
    order = {frame.name: n for n, frame in enumerate(geometry.body.frames)} if geometry.body else {}
    held: dict[tuple[str, float | None, float | None], list[FramePassed]] = {}
    for one in passed:
        held.setdefault((one.frame, one.back_m, one.up_m), []).append(one)
    keys = sorted(held, key=lambda key: (order[key[0]], key[1] or 0.0, key[2] or 0.0))
    return tuple(
        FrameHoles(*key, tuple(sorted(held[key], key=lambda one: (-one.point_m[2], one.point_m[1]))))
        for key in keys
    )


def blocks_passed(
    geometry: Geometry, chases: Iterable[Chase], inside: Inside, tape_m: float
) -> tuple[BlockPassed, ...]:
    """Return the backing blocks that lie in the way of some chases; none where the file has no outline of the body.

    A chase meets a block where it runs within `WALL_M` of the block's wall and within its rectangle, wider by
    ``tape_m`` all round. Source: common practice.
    """
    body = geometry.body
    if body is None:
        return ()
    outline = points_of(pieces_of(body.profile))
    found: dict[tuple[str, str], BlockPassed] = {}
    for chase in chases:
        points = [geometry.places[name].point_m for name in chase.through]
        for number, piece in enumerate(pairwise(points)):
            wires = inside.get(Stretch(chase.name, number), ())
            for block in geometry.blocks.values():
                within = _part_within(block, piece, tape_m)
                if not any(_in_wall(outline, body.width_m / 2, point, block.wall) for point in within):
                    continue
                before = found.get((block.name, chase.name))
                held = (*before.wires, *wires) if before is not None else wires
                found[block.name, chase.name] = BlockPassed(block, chase.name, tuple(dict.fromkeys(held)))
    order = {name: n for n, name in enumerate(geometry.blocks)}
    return tuple(sorted(found.values(), key=lambda one: order[one.block.name]))


def middle_of(body: Body | None, block: Block) -> Place | None:
    """Return the middle of a backing block's face as a place; None where the body's outline does not reach there."""
    along_m, across_m = block.middle_m
    if body is None:
        return None
    if block.wall in SIDES:
        right_m = body.width_m / 2 * (1 if block.wall is Wall.RIGHT else -1)
        return Place(block.name, along_m, right_m, across_m, block.origin)
    outline = points_of(pieces_of(body.profile))
    cuts = spans(outline, across_m, 1) if block.wall in ENDS else spans(outline, along_m, 0)
    if not cuts:
        return None
    edge_m = cuts[-1][1] if block.wall in (Wall.REAR, Wall.ROOF) else cuts[0][0]
    if block.wall in ENDS:
        return Place(block.name, edge_m, along_m, across_m, block.origin)
    return Place(block.name, along_m, across_m, edge_m, block.origin)


def _part_within(block: Block, piece: tuple[Vector, Vector], tape_m: float) -> list[Vector]:
    """Return points of what of a piece lies within a block's rectangle, no further than `STEP_M` from each other."""
    least, most = 0.0, 1.0
    first, second = _AXES[block.wall]
    for axis, low, size in (
        (first, block.along_m, block.wide_m),
        (second, block.across_m, block.high_m),
    ):
        start, step = piece[0][axis], piece[1][axis] - piece[0][axis]
        ends = low - tape_m - start, low + size + tape_m - start
        if step == 0:
            if not ends[0] <= 0 <= ends[1]:
                return []
            continue
        shares = sorted(end / step for end in ends)
        least, most = max(least, shares[0]), min(most, shares[1])
    if least > most:
        return []
    count = ceil(dist(*piece) * (most - least) / STEP_M) + 1
    return [along(*piece, least + (most - least) * n / count) for n in range(count + 1)]


def _wires(chase: Chase, how_far: float, inside: Inside) -> tuple[str, ...]:
    """Return the wires at a point of a chase, so many places from its first: at a place those of both sides."""
    numbers = {ceil(how_far) - 1, floor(how_far)} & set(range(len(chase.through) - 1))
    return tuple(
        dict.fromkeys(
            wire for number in sorted(numbers) for wire in inside.get(Stretch(chase.name, number), ())
        )
    )


def _crossings(points: Sequence[Vector], axis: int, at_m: float) -> Iterator[tuple[float, Vector]]:
    """Yield where a way crosses a plane, and how many places are behind by then; what only touches it does not.

    A place on the plane is a crossing where the way comes to it from one side and leaves it to the other.
    """
    before: int | None = None
    for place, point in enumerate(points):
        if point[axis] == at_m:
            continue
        if before is not None and (points[before][axis] < at_m) != (point[axis] < at_m):
            if place - before > 1:
                yield before + 1.0, points[before + 1]
            else:
                share = (at_m - points[before][axis]) / (point[axis] - points[before][axis])
                yield before + share, along(points[before], point, share)
        before = place


def _in_wall(outline: Sequence[Point], half_m: float, point: Vector, wall: Wall) -> bool:
    back, right, up = point
    if wall in (Wall.LEFT, Wall.RIGHT):
        return SKIN_M < half_m - (-right if wall is Wall.LEFT else right) <= WALL_M
    cuts = spans(outline, back, 0) if wall in (Wall.ROOF, Wall.FLOOR) else spans(outline, up, 1)
    if not cuts:
        return False
    deep = {
        Wall.ROOF: cuts[-1][1] - up,
        Wall.FLOOR: up - cuts[0][0],
        Wall.FRONT: back - cuts[0][0],
        Wall.REAR: cuts[-1][1] - back,
    }[wall]
    return abs(right) < half_m - SKIN_M and SKIN_M < deep <= WALL_M
