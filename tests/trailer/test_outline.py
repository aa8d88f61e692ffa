"""The profile of the body: arcs by what a compass draws, and spans against a count of crossings."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, dist, pi, sin, sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from builder.trailer.body import Corner
from builder.trailer.origin import NOWHERE
from builder.trailer.outline import (
    crosses_itself,
    extents,
    holds,
    is_possible,
    outside_by_m,
    pieces_of,
    points_of,
    spans,
)

Point = tuple[float, float]


def corner(back: float, up: float, radius: float | None = None, *, hollow: bool = False) -> Corner:
    return Corner(back, up, radius, hollow, NOWHERE)


BOX = (corner(0, 0), corner(4, 0), corner(4, 2), corner(0, 2))
QUARTER = (corner(0, 0), corner(4, 0), corner(4, 2), corner(1, 2), corner(0, 1, 1.0))
"""A box of 4 by 2 whose upper front corner is a quarter of a circle of radius 1."""


def test_a_quarter_circle_has_its_middle_where_a_compass_stands() -> None:
    arc = pieces_of(QUARTER)[3]
    assert arc.centre == pytest.approx((1, 1))
    assert abs(arc.sweep) == pytest.approx(pi / 2)
    at_45_degrees = (1 - sqrt(0.5), 1 + sqrt(0.5))
    further_out = (0.9 - sqrt(0.5), 1.1 + sqrt(0.5))
    points = points_of(pieces_of(QUARTER))
    assert outside_by_m(points, at_45_degrees) == pytest.approx(0, abs=2e-3)
    assert outside_by_m(points, further_out) == pytest.approx(0.1 * sqrt(2), abs=2e-3)


@pytest.mark.parametrize("order", [1, -1], ids=["over the rear", "over the roof"])
@pytest.mark.parametrize("hollow", [False, True], ids=["out", "hollow"])
def test_an_arc_bends_out_of_the_body_unless_it_is_hollow(order: int, hollow: bool) -> None:
    """Half a circle over the roof adds its area, or takes it away, in whatever order the points are written."""
    base = [corner(0, 0), corner(4, 0), corner(4, 2), corner(0, 2)]
    ring = base if order == 1 else [base[0], *reversed(base[1:])]
    to = next(n for n in range(4) if {ring[n - 1].up_m, ring[n].up_m} == {2})
    ring[to] = corner(ring[to].back_m, ring[to].up_m, 2.0 if not hollow else 4.0, hollow=hollow)
    points = points_of(pieces_of(ring))
    area = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*points, points[0]]))) / 2
    segment = 2 * pi if not hollow else 16 * pi / 6 - 4 * sqrt(3)  # half a circle; a sixth less its triangle
    assert area == pytest.approx(8 - segment if hollow else 8 + segment, rel=1e-3)


def test_no_arc_reaches_further_than_across() -> None:
    assert is_possible((0, 0), corner(2, 0, 1.0))
    assert is_possible((0, 0), corner(2, 0, 0.998))  # a ruler's tolerance
    assert not is_possible((0, 0), corner(2, 0, 0.99))
    assert is_possible((0, 0), corner(2, 0))


@given(st.floats(0.5, 40), st.floats(0.2, 0.99))
def test_every_point_of_an_arc_is_as_far_from_its_middle_as_the_radius_says(
    radius: float, share: float
) -> None:
    chord = 2 * radius * share
    ring = (corner(0, 0), corner(chord, 0), corner(chord, 3), corner(0, 3, radius))
    arc = pieces_of(ring)[2]
    assert arc.centre is not None
    found = [point for point in points_of(pieces_of(ring)) if point[1] > 3 - 1e-9]
    assert all(dist(arc.centre, point) == pytest.approx(radius) for point in found)
    steps = [dist(one, other) for one, other in pairwise(found)]
    assert max(steps) < radius * 0.14  # within half a millimetre a metre of the arc
    assert all(point[1] <= 3 + radius - sqrt(radius**2 - chord**2 / 4) + 1e-9 for point in found)


@st.composite
def stars(draw: st.DrawFn) -> list[Point]:
    """Return points round a middle, each further on than the one before: a line that cannot cross itself."""
    count = draw(st.integers(3, 9))
    reach = draw(st.lists(st.floats(0.5, 3), min_size=count, max_size=count))
    return [(r * cos(2 * pi * n / count), r * sin(2 * pi * n / count)) for n, r in enumerate(reach)]


def _by_angles(points: list[Point], at: Point) -> bool:
    """Tell by the sum of the angles under which the sides are seen: another way than counting crossings."""
    total = 0.0
    for a, b in pairwise([*points, points[0]]):
        one, other = (a[0] - at[0], a[1] - at[1]), (b[0] - at[0], b[1] - at[1])
        total += atan2(one[0] * other[1] - one[1] * other[0], one[0] * other[0] + one[1] * other[1])
    return abs(total) > pi


@given(stars(), st.tuples(st.floats(-3, 3), st.floats(-3, 3)))
def test_what_is_inside_is_told_as_by_the_angles(points: list[Point], at: Point) -> None:
    near = min(
        outside_by_m([a, b, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)], at)
        for a, b in pairwise([*points, points[0]])
    )
    assume(near > 1e-6)
    assert holds(points, at) is _by_angles(points, at)
    assert (outside_by_m(points, at) == 0) is _by_angles(points, at)


@given(stars())
def test_a_star_does_not_cross_itself_and_a_bow_tie_does(points: list[Point]) -> None:
    assert not crosses_itself(points)
    assert crosses_itself([(0, 0), (4, 2), (4, 0), (0, 2)])


def test_spans_and_extents_of_a_box() -> None:
    points = points_of(pieces_of(BOX))
    assert spans(points, 1.0, 0) == ((0.0, 2.0),)
    assert spans(points, 0.5, 1) == ((0.0, 4.0),)
    assert spans(points, 5.0, 0) == ()
    assert extents(points) == (0, 4, 0, 2)
    assert outside_by_m(points, (6, 2)) == pytest.approx(2)
    assert outside_by_m(points, (7, 6)) == pytest.approx(5)
