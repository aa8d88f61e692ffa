"""What wires pass in the framing, against ways sampled point by point."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise
from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.routes.framing import WALL_M, blocks_passed, frames_passed, middle_of
from builder.routes.network import Stretch
from builder.routes.runs import Run, RunEnd
from builder.routes.ways import Step
from builder.trailer.body import Block, Body, Corner, Frame, Opening, Wall
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


def run_through(geometry: Geometry, wire: str, *names: str) -> Run:
    """Return a wire that goes from place to place, each step in the stretch between the two."""
    by_ends = {
        ends: Stretch(chase.name, number)
        for chase in geometry.chases.values()
        for number, (one, other) in enumerate(pairwise(chase.through))
        for ends in ((one, other), (other, one))
    }
    points = {name: place.point_m for name, place in geometry.places.items()}
    steps = [Step(by_ends[one, to], one, to, dist(points[one], points[to])) for one, to in pairwise(names)]
    return Run(wire, tuple(steps), (RunEnd(names[0], 0.0, 0.0), RunEnd(names[-1], 0.0, 0.0)), 0.0)


def holes(geometry: Geometry, *runs: Run) -> list[tuple[float | None, tuple[str, ...], tuple[str, ...]]]:
    return [(one.back_m, one.wires, one.twice) for one in frames_passed(geometry, runs)]


def test_a_wire_passes_the_frames_between_its_ends_and_none_at_which_it_ends() -> None:
    way = [(0.2, 0.7, 0.5), (1.0, 0.7, 0.5), (2.0, 0.7, 0.5)]
    made = geometry(way, [], (Frame("stud", (Wall.RIGHT,), (0.6, 1.0, 1.5), (), None, AT),))
    short, long = run_through(made, "1A", "p0", "p1"), run_through(made, "1B", "p0", "p1", "p2")
    back = run_through(made, "2A", "p2", "p1")
    assert holes(made, short, long, back) == [
        (0.6, ("1A", "1B"), ()),
        (1.0, ("1B",), ()),
        (1.5, ("1B", "2A"), ()),
    ]
    passed = frames_passed(made, [long])
    assert [one.point_m for one in passed] == [pytest.approx((back, 0.7, 0.5)) for back in (0.6, 1.0, 1.5)]


def test_a_place_on_the_wood_of_a_frame_lies_on_it_however_its_middle_was_measured() -> None:
    """Half of 20 mm: what ends 9 mm behind the middle of the frame has not passed it, what ends 11 mm behind has."""
    for beyond_m, count in ((0.009, 0), (0.011, 1)):
        way = [(0.2, 0.7, 0.5), (1.0 + beyond_m, 0.7, 0.5)]
        made = geometry(way, [], (Frame("stud", (Wall.RIGHT,), (1.0,), (), 0.02, AT),))
        assert len(holes(made, run_through(made, "1A", "p0", "p1"))) == count


POST = ("front", "high", "low", "rear")
"""A way comes to a post high up, runs down along it, and goes on low."""


def post(side: float) -> Geometry:
    """Return a body with a post in both walls; the way in the one where ``side`` is, and one from above into it."""
    points = {
        "front": (0.5, 0.7, 0.8),
        "high": (1.0, 0.7, 0.8),
        "low": (1.0, 0.7, 0.2),
        "rear": (2.0, 0.7, 0.2),
        "shelf": (0.8, 0.7, 1.1),
        "lamp": (1.0, 0.7, 0.5),
    }
    places = {name: Place(name, back, right * side, up, AT) for name, (back, right, up) in points.items()}
    ways = {
        "wall": ("front", "high"),
        "upright": ("shelf", "high"),
        "down": ("high", "low"),
        "foot": ("low", "rear"),
        "stub": ("high", "lamp"),
    }
    chases = {name: Chase(name, through, ChaseKind.GROOVE, AT) for name, through in ways.items()}
    frame = Frame("post", (Wall.LEFT, Wall.RIGHT), (1.0,), (), None, AT)
    return Geometry(places, chases, body=Body(PROFILE, WIDE_M, (), (frame,)))


@pytest.mark.parametrize("side", [1.0, -1.0])
def test_both_directions_of_a_wire_along_a_post_have_one_hole_where_it_comes_from_the_front(
    side: float,
) -> None:
    """What ends at the post, turns down on it, or comes back to the front passes nothing."""
    made = post(side)
    there, back = run_through(made, "1A", *POST), run_through(made, "1B", *reversed(POST))
    both = run_through(made, "2A", *POST, *list(reversed(POST))[1:])
    over = run_through(made, "3A", "rear", "low", "high", "shelf")
    none = [
        run_through(made, "4A", "front", "high"),
        run_through(made, "4B", "front", "high", "lamp"),
        run_through(made, "4C", "front", "high", "low", "high", "shelf"),
        run_through(made, "4D", "low", "rear"),
    ]
    (hole,) = frames_passed(made, [there, back, both, over, *none])
    assert (hole.wires, hole.twice) == (("1A", "1B", "2A", "3A"), ("2A",))
    assert hole.point_m == (1.0, 0.7 * side, 0.8)
    assert hole.chases == ("wall", "upright")


def beside_post(begins_m: float, wall: Wall = Wall.RIGHT, up_m: float = 0.1) -> Geometry:
    """Return the body with the post, and an opening of 40 cm and as high as the way runs along it, in one wall."""
    made = post(1.0)
    assert made.body is not None
    opening = Opening("door", wall, begins_m, up_m, 0.4, 0.6, AT)
    return replace(made, body=replace(made.body, openings=(opening,)))


@pytest.mark.parametrize(
    ("begins_m", "up_m"), [(1.05, 0.1), (0.55, 0.1), (1.2, 0.1), (0.1, 0.1), (0.99, 0.1), (1.05, 1.0)]
)
def test_beside_an_opening_wires_run_along_a_post_on_its_other_side(begins_m: float, up_m: float) -> None:
    """The post stands 1 m back, the way turns down at it from 80 cm to 20 cm up, and goes on to the rear.

    An opening that begins 5 cm behind it leaves no room there: wires run down before it, and go through below, those
    of the lamp on it as well. One that ends 5 cm before it: they go through above and run down behind. One further
    away, round the post itself or above the way changes nothing.
    """
    made = beside_post(begins_m, up_m=up_m)
    ways = {
        "1A": POST,
        "1B": tuple(reversed(POST)),
        "2A": ("high", "low", "rear"),
        "2B": ("front", "high", "low"),
        "3A": ("front", "high", "lamp"),
        "4A": ("low", "rear"),
    }
    passed = frames_passed(made, [run_through(made, wire, *way) for wire, way in ways.items()])
    found = {one.point_m: one.wires for one in passed}
    above, below = (1.0, 0.7, 0.8), (1.0, 0.7, 0.2)
    if (begins_m, up_m) == (1.05, 0.1):
        assert found == {below: ("1A", "1B", "2A")}
        assert passed[0].chases == ("down",)
    elif (begins_m, up_m) == (0.55, 0.1):
        assert found == {above: ("1A", "1B", "2B", "3A")}
        assert passed[0].chases == ("wall",)
    else:
        assert found == {above: ("1A", "1B")}


def test_an_opening_in_the_other_wall_changes_nothing() -> None:
    made = beside_post(1.05, Wall.LEFT)
    (hole,) = frames_passed(made, [run_through(made, "1A", *POST)])
    assert hole.point_m == (1.0, 0.7, 0.8)


drawn_ways = st.lists(
    st.tuples(
        st.integers(1, 11).map(lambda n: n / 5), st.sampled_from([-0.7, 0.7]), st.sampled_from([0.3, 0.9])
    ),
    min_size=2,
    max_size=7,
)
"""Ways on a grid, so that many places lie on a frame, and many stretches along it."""
FRAMES_M = (0.4, 1.0, 1.4, 2.0)


def walked(way: list[tuple[float, float, float]], at_m: float) -> int:
    """Return how often one who walks a way step by step gets from one side of a frame to the other."""
    sides: list[int] = []
    for start, end in pairwise(way):
        count = int(dist(start, end) / STEP_M) + 1
        for n in range(count + 1):
            beyond = start[0] + (end[0] - start[0]) * n / count - at_m
            if abs(beyond) > 0.002:
                sides.append(1 if beyond > 0 else -1)
    return sum(one != other for one, other in pairwise(sides))


def by_frame_and_point(
    way: list[tuple[float, float, float]], *, mirrored: bool = False, turned: bool = False
) -> Counter[tuple[float, float, float]]:
    """Return how often a wire passes each hole: frame, across and up; all across turned round where mirrored."""
    sign = -1.0 if mirrored else 1.0
    points = [(back, right * sign, up) for back, right, up in (reversed(way) if turned else way)]
    made = geometry(points, [], (Frame("rib", tuple(Wall), FRAMES_M, (), None, AT),))
    found: Counter[tuple[float, float, float]] = Counter()
    for one in frames_passed(made, [run_through(made, "1A", *made.places)]):
        key = one.back_m or 0.0, round(one.point_m[1] * sign, 6), round(one.point_m[2], 6)
        found[key] += len(one.wires) + len(one.twice)
    return found


@given(drawn_ways)
def test_a_walk_along_a_drawn_way_passes_as_many_frames_in_every_direction(
    way: list[tuple[float, float, float]],
) -> None:
    """The frames are all round the body, but what crosses the inside between both walls passes no wood."""
    found = by_frame_and_point(way)
    assert by_frame_and_point(way, turned=True) == found
    assert by_frame_and_point(way, mirrored=True) == found
    for at_m in FRAMES_M:
        count = sum(passes for hole, passes in found.items() if hole[0] == at_m)
        assert count <= walked(way, at_m)
        if len({right for _, right, _ in way}) == 1:
            assert count == walked(way, at_m)
    twice = by_frame_and_point([*way, *reversed(way[:-1])])
    assert twice == Counter({hole: 2 * count for hole, count in found.items()})
