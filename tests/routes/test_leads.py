"""The way to the side where leads come out: against a grid of points, mirrored, and by hand."""

from __future__ import annotations

import heapq
from dataclasses import replace
from math import dist, hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.buildfile.resolving import read_build
from builder.routes.leads import lead_way_m, said_sides, sides_of, spot_of
from builder.trailer.body import Opening, Wall
from builder.trailer.model import Trailer
from builder.trailer.origin import NOWHERE
from builder.trailer.places import Place

FAN = Opening("fan", Wall.ROOF, 1.5, -0.2, 0.4, 0.4, 0.0, NOWHERE)


def at(back: float, right: float, up: float = 1.2) -> Place:
    return Place("there", back, right, up, NOWHERE)


def by_grid(opening: Opening, side: str, start: tuple[float, float]) -> float:
    """Return the shortest way over the points of a grid of 2 cm, in steps to all points up to three away."""
    step = 0.02
    goal = spot_of(opening, side)

    def inside(x: float, y: float) -> bool:
        return (
            opening.along_m + 1e-6 < x < opening.along_m + opening.wide_m - 1e-6
            and opening.across_m + 1e-6 < y < opening.across_m + opening.high_m - 1e-6
        )

    moves = [(a, b) for a in range(-3, 4) for b in range(-3, 4) if (a, b) != (0, 0)]
    best = {(0, 0): 0.0}
    heap = [(0.0, 0, 0)]
    while heap:
        far, i, j = heapq.heappop(heap)
        x, y = goal[0] + i * step, goal[1] + j * step
        if dist((x, y), start) < 1e-6:
            return far
        if far > best.get((i, j), far):
            continue
        for a, b in moves:
            mid = [(x + a * step * n / 6, y + b * step * n / 6) for n in range(1, 7)]
            if any(inside(*spot) for spot in mid) or max(abs(i + a), abs(j + b)) > 60:
                continue
            new = far + hypot(a, b) * step
            if new < best.get((i + a, j + b), 1e9) - 1e-12:
                best[(i + a, j + b)] = new
                heapq.heappush(heap, (new, i + a, j + b))
    raise AssertionError(start)


@pytest.mark.parametrize("side", ["left", "right", "front", "rear"])
@pytest.mark.parametrize("moved", [(-30, -4), (12, 20), (0, 22), (-26, 0), (34, 10)])
def test_the_way_is_the_shortest_of_a_grid(side: str, moved: tuple[int, int]) -> None:
    """Ways over a grid of eight and more directions are longer by 2.8 % at most."""
    goal = spot_of(FAN, side)
    start = goal[0] + moved[0] * 0.02, goal[1] + moved[1] * 0.02
    found, grid = lead_way_m(FAN, side, at(*start)), by_grid(FAN, side, start)
    assert found <= grid + 1e-9
    assert grid <= found * 1.03 + 1e-9


def test_by_hand() -> None:
    """From 30 cm left of a fan 40 cm square: to its left side straight, to the right one round a corner and along."""
    left_of_it = at(1.7, -0.5)
    assert lead_way_m(FAN, "left", left_of_it) == pytest.approx(0.3)
    round_it = hypot(0.2, 0.3) + 0.4 + 0.2
    assert lead_way_m(FAN, "right", left_of_it) == pytest.approx(round_it)
    assert lead_way_m(FAN, "left", at(1.7, 0.0)) == pytest.approx(0.2)  # measured at its middle
    assert lead_way_m(FAN, "left", at(1.7, -0.2)) == pytest.approx(0.0)


@given(
    st.floats(-1, 4),
    st.floats(-1, 1),
    st.sampled_from(["left", "right", "front", "rear"]),
    st.floats(-0.6, 0.3),
)
@settings(max_examples=200, deadline=None)
def test_a_mirrored_trailer_has_the_same_ways(back: float, right: float, side: str, across: float) -> None:
    opening = replace(FAN, across_m=across)
    mirrored = replace(FAN, across_m=-across - FAN.high_m)
    other = {"left": "right", "right": "left"}.get(side, side)
    assert lead_way_m(opening, side, at(back, right)) == pytest.approx(
        lead_way_m(mirrored, other, at(back, -right)), abs=1e-9
    )


@given(st.floats(-1, 4), st.floats(-1, 1), st.sampled_from(["left", "right", "front", "rear"]))
@settings(max_examples=200, deadline=None)
def test_no_way_is_shorter_than_the_straight_line(back: float, right: float, side: str) -> None:
    assert lead_way_m(FAN, side, at(back, right)) >= dist((back, right), spot_of(FAN, side)) - 1e-9


@pytest.mark.parametrize(
    ("wall", "sides"),
    [
        (Wall.ROOF, ("front", "rear", "left", "right")),
        (Wall.LEFT, ("front", "rear", "bottom", "top")),
        (Wall.REAR, ("left", "right", "bottom", "top")),
    ],
)
def test_an_opening_has_four_sides(wall: Wall, sides: tuple[str, ...]) -> None:
    opening = replace(FAN, wall=wall)
    assert sides_of(opening) == sides
    spots = [x for side in sides for x in spot_of(opening, side)]
    assert spots == pytest.approx([1.5, 0.0, 1.9, 0.0, 1.7, -0.2, 1.7, 0.2])


def test_words_for_sides() -> None:
    assert said_sides("Left side") == ("left",)
    assert said_sides("at the back, upper") == ("rear", "top")
    assert said_sides("somewhere") == ()


BUILD = """format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
parts:
  fan: {kind: fan, draws: 3 A, opening: fan hole, leads come out: SIDE, place: beside it}
circuits:
  fan: {path: [fan]}
places:
  front box: {back: 1 ft, SEEN: 2 ft, up: 4 ft}
  beside it: {back: 5 ft, SEEN: 2 ft, up: 4 ft}
chases: {groove: {through: [front box, beside it]}}
body: {width: 5 ft, profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in},
  {back: 8 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]}
openings: {fan hole: {in: roof, back: 4 ft 6 in, length: 12 in, width: 12 in}}
"""


def built(side: str, seen: str) -> Trailer:
    reading = read_build(BUILD.replace("SIDE", side).replace("SEEN", seen).encode())
    assert reading.trailer is not None, [(one.name, one.message) for one in reading.problems]
    return reading.trailer


def test_the_length_of_a_wire_counts_the_way_to_the_side() -> None:
    """The place is 2 ft left of the middle, the fan's hole 1 ft wide: 18 in to its left side; 24.7 in to its front."""
    near, far = built("left", "left"), built("right", "left")
    stand = near.geometry.stands["fan"]
    assert (stand.opening, stand.side) == ("fan hole", "left")
    assert stand.lead_m == pytest.approx(18 * 0.0254)
    assert near.wires[0].length_m == pytest.approx((48 + 12 + 18) * 0.0254)
    round_it = hypot(6, 18) + 12 + 6
    assert far.wires[0].length_m == pytest.approx((48 + 12 + round_it) * 0.0254)
    front = built("front", "left").geometry.stands["fan"].lead_m
    assert front == pytest.approx((hypot(6, 18) + 6) * 0.0254)


def test_a_mirrored_build_has_the_same_lengths() -> None:
    for side, other in (("left", "right"), ("right", "left"), ("rear", "rear")):
        one, two = built(side, "left"), built(other, "right")
        assert [w.length_m for w in one.wires] == pytest.approx([w.length_m for w in two.wires])


@pytest.mark.parametrize(
    ("change", "name", "helps"),
    [
        (("opening: fan hole", "opening: fan hall"), "unknown opening", "“fan hole”"),
        (("leads come out: SIDE", "leads come out: top"), "unknown side", "front, rear, left or right"),
        (
            ("leads come out: SIDE", "leads come out: front left"),
            "unknown side",
            "front, rear, left or right",
        ),
    ],
)
def test_what_cannot_be_is_told(change: tuple[str, str], name: str, helps: str) -> None:
    text = BUILD.replace(*change).replace("SIDE", "left").replace("SEEN", "left")
    (problem,) = read_build(text.encode()).problems
    assert problem.name == name
    assert helps in problem.help
