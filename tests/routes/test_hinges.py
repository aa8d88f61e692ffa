"""Hinge loops: how far their ends get apart, against turning step by step; how sharply they bend, against circles."""

from __future__ import annotations

from math import cos, dist, pi, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.routes.hinges import arc_radius_m, farthest_m
from builder.rules.frame_return import beyond_hinges

NEAR = st.floats(-1.0, 1.0).map(lambda x: round(x, 3))
POINTS = st.tuples(NEAR, NEAR, NEAR)


@given(POINTS, POINTS, st.floats(-1, 1), st.floats(-1, 1), st.integers(1, 270))
def test_the_farthest_is_that_of_turning_by_a_quarter_degree(
    fixed: tuple[float, float, float],
    moving: tuple[float, float, float],
    back: float,
    up: float,
    opens: int,
) -> None:
    """About an axis across the trailer the arithmetic of turning is that of a plane."""
    axis = (back, -1.0, up), (back, 1.0, up)
    found = farthest_m(fixed, moving, axis, opens)
    steps = [radians(opens) * i / (4 * opens) for i in range(4 * opens + 1)]
    best = 0.0
    x, z = moving[0] - back, moving[2] - up
    for turn in steps:
        # a turn about the axis to the right takes up towards back
        there = back + x * cos(turn) + z * sin(turn), moving[1], up + z * cos(turn) - x * sin(turn)
        best = max(best, dist(fixed, there))
    assert best - 1e-9 <= found <= best + 1e-4


def test_a_hatch_of_90_degrees_by_hand() -> None:
    """Both ends 3 in below the axis, side by side: apart by the root of 2 times 3 in."""
    axis = (0.0, -1.0, 0.0), (0.0, 1.0, 0.0)
    found = farthest_m((0.0, 0.0, -0.0762), (0.0, 0.0, -0.0762), axis, 90)
    assert found == pytest.approx(0.0762 * 2**0.5)


@pytest.mark.parametrize("turn", [0.1, 1.0, pi, 5.0])
def test_the_bend_is_that_of_an_arc(turn: float) -> None:
    assert arc_radius_m(0.3 * turn, 2 * 0.3 * sin(turn / 2)) == pytest.approx(0.3, rel=1e-6)


def test_a_straight_wire_does_not_bend() -> None:
    assert arc_radius_m(0.4, 0.4) is None


@given(st.floats(0.05, 0.5), st.floats(0.0, 1.0))
def test_more_wire_between_far_ends_never_bends_wider_than_a_circle_of_it(
    length: float, share: float
) -> None:
    radius = arc_radius_m(length, share * length)
    assert radius is None or radius >= length / (2 * pi) * (1 - 1e-9)


# ---- what moves with the hatch ----

HATCH = """format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft, frame bond: 8 AWG}
front box: {fuse ways: 6}
parts:
  wall lamp: {kind: lamp, draws: 3 W}
  hatch switch: {kind: switch}
  hatch lamp: {kind: lamp, draws: 3 W}
  tail board: {kind: lamp, draws: 3 W}
circuits:
  hatch: {return: frame, path: [wall lamp, hatch switch, hatch lamp, tail board]}
places:
  front box: {back: 1 ft, up: 4 ft}
  wall lamp: {back: 5 ft, up: 4 ft}
  hatch switch: {back: 6 ft, up: 4 ft}
  hatch lamp: {back: 7 ft, up: 3 ft}
  tail board: {back: 7 ft, up: 2 ft}
chases:
  groove: {through: [front box, wall lamp]}
  loop: {kind: hinge loop, through: [wall lamp, hatch switch], slack: 8 in}
  lid: {through: [hatch switch, hatch lamp]}
  flap: {kind: hinge loop, through: [hatch lamp, tail board], slack: 8 in}
"""


def test_parts_beyond_a_hinge_move_with_it() -> None:
    trailer = read_build(HATCH.encode()).trailer
    assert trailer is not None
    found = beyond_hinges(trailer, compute(trailer), trailer.circuits[0])
    assert found == {"hatch switch": "loop", "hatch lamp": "loop", "tail board": "flap"}


def test_what_comes_back_through_the_same_hinge_stands_still() -> None:
    text = HATCH.replace("hatch lamp, tail board]}\nplaces", "hatch lamp, tail board, wall socket]}\nplaces")
    text = text.replace("circuits:", "  wall socket: {kind: socket, draws: 3 W}\ncircuits:")
    text = text.replace("chases:", "  wall socket: {back: 4 ft, up: 4 ft}\nchases:")
    text += "  rail: {through: [wall lamp, wall socket]}\n"
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    found = beyond_hinges(trailer, compute(trailer), trailer.circuits[0])
    assert found == {"hatch switch": "loop", "hatch lamp": "loop", "tail board": "flap"}
