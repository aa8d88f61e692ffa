"""What wires pass in the framing: frames, studs and backing blocks, before a skin hides them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import pairwise
from math import ceil, dist

from builder.routes.crossings import AXES, Along, crossings, led_by_openings
from builder.routes.network import SAME_PLACE_M, Stretch
from builder.routes.passings import SKIN_M
from builder.routes.runs import Run
from builder.routes.vectors import Vector, along
from builder.routes.ways import Step
from builder.trailer.body import ENDS, FLATS, SIDES, Block, Body, Frame, Wall
from builder.trailer.outline import Point, pieces_of, points_of, spans
from builder.trailer.places import Chase, Geometry, Place

WALL_M = 0.15
"""What is no further from a side of the body runs in it, through the frames that stand there (common practice)."""
_ONE_M = 0.0001
"""What is no further apart is one point: finer than any tape."""
STEP_M = 0.005
"""How finely a way is looked at where it runs over a block."""
Inside = Mapping[Stretch, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class FramePassed:
    """One hole in a frame: the frame's name, and how far back or up it stands, in metres; the other one is None.

    ``chase`` is the one in which its wires come to it from the front, or from below; ``also`` are further ones that
    lead wires into the same hole. ``point_m`` is where its middle is: back, right and up. ``wires`` are those that
    pass it, ``twice`` those of them that come back through it, each as often as it passes once more.
    """

    chase: str
    frame: str
    back_m: float | None
    up_m: float | None
    point_m: Vector
    wires: tuple[str, ...]
    twice: tuple[str, ...] = ()
    also: tuple[str, ...] = ()

    @property
    def chases(self) -> tuple[str, ...]:
        """Every chase that leads wires into it, in the order of the file."""
        return (self.chase, *self.also)


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


@dataclass(frozen=True, slots=True)
class _Plane:
    """One frame of an entry: the axis that it stands across, 0 back and 2 up, and how far along it, in metres."""

    frame: Frame
    axis: int
    at_m: float

    @property
    def half_m(self) -> float:
        """How far its wood reaches to both sides of its middle, a place's own size at least."""
        return max((self.frame.thick_m or 0.0) / 2, SAME_PLACE_M)


def frames_passed(geometry: Geometry, runs: Iterable[Run]) -> tuple[FramePassed, ...]:
    """Return every hole that wires need in frames, along each chase; none where the file has no frames or no body.

    A frame in a wall is passed by what runs within `WALL_M` of that wall, see `crossings`; beside an opening wires run
    along it on its other side. What passes a frame at one point is one hole.
    """
    body = geometry.body
    if body is None or not body.frames:
        return ()
    outline = points_of(pieces_of(body.profile))
    planes = [
        _Plane(frame, axis, at_m)
        for frame in body.frames
        for axis, measures in ((0, frame.back_m), (2, frame.up_m))
        for at_m in measures
    ]
    order: dict[str, int] = {}
    alike: dict[tuple[Step, ...], list[str]] = {}
    for run in runs:
        order[run.wire] = len(order)
        alike.setdefault(run.steps, []).append(run.wire)
    held: dict[tuple[str, int, float, tuple[int, ...]], _Hole] = {}
    for steps, wires in alike.items():
        names = [step.start for step in steps[:1]] + [step.end for step in steps]
        points = [geometry.places[name].point_m for name in names]
        for plane in planes:
            led = partial(_led, body, outline, plane)
            for number, point in crossings(points, plane.axis, plane.at_m, plane.half_m, led):
                if any(_in_wall(outline, body.width_m / 2, point, wall) for wall in plane.frame.walls):
                    key = plane.frame.name, plane.axis, plane.at_m, tuple(round(m / _ONE_M) for m in point)
                    held.setdefault(key, _Hole(plane, point)).put(steps[number].stretch, wires)
    chases = {name: n for n, name in enumerate(geometry.chases)}
    found = sorted(held.values(), key=lambda hole: hole.rank(geometry, chases))
    return tuple(hole.passed(chases, order) for hole in found)


def _led(body: Body, outline: Sequence[Point], plane: _Plane, points: Sequence[Vector]) -> Along:
    """Return on which side of a frame wires run along it at some points, by the openings in its wall there."""
    half_m = body.width_m / 2
    walls = {wall for wall in plane.frame.walls if all(_in_wall(outline, half_m, p, wall) for p in points)}
    openings = [one for one in body.openings if one.wall in walls]
    return led_by_openings(openings, plane.axis, plane.at_m, points)


@dataclass(slots=True)
class _Hole:
    """A hole while the wires that pass it are gathered."""

    plane: _Plane
    point_m: Vector
    stretches: dict[Stretch, None] = field(default_factory=dict)
    wires: Counter[str] = field(default_factory=Counter)

    def put(self, stretch: Stretch, wires: Iterable[str]) -> None:
        """Lead some wires through it, which come from a stretch."""
        self.stretches[stretch] = None
        self.wires.update(wires)

    def rank(self, geometry: Geometry, chases: Mapping[str, int]) -> tuple[int, int, float]:
        """Return where it comes among all holes: by the first of its chases, then along this."""
        stretch = min(self.stretches, key=lambda one: (chases[one.chase], one.number))
        start = geometry.places[geometry.chases[stretch.chase].through[stretch.number]].point_m
        return chases[stretch.chase], stretch.number, dist(start, self.point_m)

    def passed(self, chases: Mapping[str, int], order: Mapping[str, int]) -> FramePassed:
        """Return it with all that passes it: its chases and its wires in their orders."""
        first, *also = sorted({stretch.chase for stretch in self.stretches}, key=chases.__getitem__)
        wires = sorted(self.wires, key=order.__getitem__)
        return FramePassed(
            first,
            self.plane.frame.name,
            self.plane.at_m if self.plane.axis == 0 else None,
            self.plane.at_m if self.plane.axis == 2 else None,
            self.point_m,
            tuple(wires),
            tuple(wire for wire in wires for _ in range(self.wires[wire] - 1)),
            tuple(also),
        )


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
    first, second = AXES[block.wall]
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


def _in_wall(outline: Sequence[Point], half_m: float, point: Vector, wall: Wall) -> bool:
    deep_m = depth_in_wall(outline, half_m, point, wall)
    return deep_m is not None and SKIN_M < deep_m <= WALL_M


def depth_in_wall(outline: Sequence[Point], half_m: float, point: Vector, wall: Wall) -> float | None:
    """Return how deep a point lies behind the outside of a wall, in metres: below 0 outside of it.

    None where the wall does not reach there. ``outline`` is the body's from the side, ``half_m`` half its width.
    """
    back, right, up = point
    if wall in SIDES:
        return half_m - (-right if wall is Wall.LEFT else right)
    cuts = spans(outline, back, 0) if wall in FLATS else spans(outline, up, 1)
    if not cuts or abs(right) >= half_m - SKIN_M:
        return None
    return {
        Wall.ROOF: cuts[-1][1] - up,
        Wall.FLOOR: up - cuts[0][0],
        Wall.FRONT: back - cuts[0][0],
        Wall.REAR: cuts[-1][1] - back,
    }[wall]
