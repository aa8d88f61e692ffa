"""What wires pass in the framing, against ways sampled point by point."""

from __future__ import annotations

from itertools import pairwise
from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.routes.framing import WALL_M, blocks_passed, frames_passed, middle_of
from builder.routes.network import Stretch
from builder.trailer.body import Block, Body, Corner, Frame, Wall
from builder.trailer.origin import Origin
from builder.trailer.places import Chase, ChaseKind, Geometry, Place

AT = Origin(1, 1, 1)
LONG_M, WIDE_M, HIGH_M = 2.4, 1.5, 1.2
PROFILE = tuple(
    Corner(back, up, None, hollow=False, origin=AT)
    for back, up in ((0.0, 0.0), (LONG_M, 0.0), (LONG_M, HIGH_M), (0.0, HIGH_M))
)
TAPE_M = 0.01
STEP_M = 0.002
points = st.tuples(
    st.integers(1, 239).map(lambda n: n / 100),
    st.integers(-74, 74).map(lambda n: n / 100),
    st.integers(1, 119).map(lambda n: n / 100),
)
walls = st.sampled_from(Wall)


def geometry(
    way: list[tuple[float, float, float]], blocks: list[Block], frames: tuple[Frame, ...] = ()
) -> Geometry:
    """Return a box of a body with one chase through some points."""
    places = {f"p{n}": Place(f"p{n}", *point, AT) for n, point in enumerate(way)}
    chase = Chase("way", tuple(places), ChaseKind.GROOVE, AT)
    body = Body(PROFILE, WIDE_M, (), frames)
    return Geometry(places, {"way": chase}, body=body, blocks={block.name: block for block in blocks})


def deep_m(wall: Wall, point: tuple[float, float, float]) -> float:
    """Return how far a point lies inside a wall of the box."""
    back, right, up = point
    return {
        Wall.LEFT: right + WIDE_M / 2,
        Wall.RIGHT: WIDE_M / 2 - right,
        Wall.FRONT: back,
        Wall.REAR: LONG_M - back,
        Wall.ROOF: HIGH_M - up,
        Wall.FLOOR: up,
    }[wall]


def beside_m(block: Block, point: tuple[float, float, float]) -> float:
    """Return how far a point is outside a block's rectangle, as one looks at its wall; below 0 inside it."""
    back, right, up = point
    x, y = {
        Wall.LEFT: (back, up),
        Wall.RIGHT: (back, up),
        Wall.FRONT: (right, up),
        Wall.REAR: (right, up),
        Wall.ROOF: (back, right),
        Wall.FLOOR: (back, right),
    }[block.wall]
    return max(
        block.along_m - x,
        x - block.along_m - block.wide_m,
        block.across_m - y,
        y - block.across_m - block.high_m,
    )


@st.composite
def drawn_blocks(draw: st.DrawFn) -> Block:
    wall = draw(walls)
    along, across = draw(st.integers(-70, 220)) / 100, draw(st.integers(-70, 110)) / 100
    return Block(
        "block", wall, along, across, draw(st.integers(2, 60)) / 100, draw(st.integers(2, 60)) / 100, AT
    )


@given(st.lists(points, min_size=2, max_size=4, unique=True), drawn_blocks())
def test_a_block_is_passed_by_what_runs_over_it_in_its_wall(
    way: list[tuple[float, float, float]], block: Block
) -> None:
    """What runs over it for more than two steps of the sampling is found, and nothing is found that does not."""
    made = geometry(way, [block])
    found = blocks_passed(made, made.chases.values(), {Stretch("way", 0): ("1A",)}, TAPE_M)
    samples: list[tuple[float, float]] = []
    for start, end in pairwise(way):
        count = int(dist(start, end) / STEP_M) + 1
        for n in range(count + 1):
            back, right, up = (a + (b - a) * n / count for a, b in zip(start, end, strict=True))
            point = back, right, up
            samples.append((beside_m(block, point) - TAPE_M, deep_m(block.wall, point)))
    surely = any(out < -0.006 and 0.016 < deep < WALL_M - 0.006 for out, deep in samples)
    perhaps = any(out < 0.006 and 0.004 < deep < WALL_M + 0.006 for out, deep in samples)
    assert bool(found) or not surely
    assert perhaps or not found


@pytest.mark.parametrize("wall", Wall)
def test_the_middle_of_a_block_lies_on_its_wall(wall: Wall) -> None:
    block = Block("block", wall, 0.2, 0.3, 0.2, 0.1, AT)
    body = Body(PROFILE, WIDE_M)
    middle = middle_of(body, block)
    assert middle is not None
    assert deep_m(wall, middle.point_m) == pytest.approx(0)
    assert beside_m(block, middle.point_m) == pytest.approx(-0.05)
    assert middle_of(None, block) is None


def test_wires_at_a_frame_are_those_of_its_stretch_and_of_both_where_it_stands_at_a_place() -> None:
    way = [(0.2, 0.7, 0.5), (1.0, 0.7, 0.5), (2.0, 0.7, 0.5)]
    made = geometry(way, [], (Frame("stud", (Wall.RIGHT,), (0.6, 1.0, 1.5), (), None, AT),))
    inside = {Stretch("way", 0): ("1A", "1B"), Stretch("way", 1): ("1B", "2A")}
    passed = frames_passed(made, made.chases.values(), inside)
    assert [(one.back_m, one.wires) for one in passed] == [
        (0.6, ("1A", "1B")),
        (1.0, ("1A", "1B", "2A")),
        (1.5, ("1B", "2A")),
    ]
    assert [one.point_m for one in passed] == [pytest.approx((back, 0.7, 0.5)) for back in (0.6, 1.0, 1.5)]
