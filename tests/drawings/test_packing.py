"""Wires in a bore: none on another, none through the wall, and none lost."""

from __future__ import annotations

from itertools import combinations
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.drawings.packing import packed

TOUCH = 1e-5


@given(st.lists(st.floats(1.0, 9.0), min_size=1, max_size=24), st.floats(6.0, 50.0))
@settings(deadline=None)
def test_none_overlaps_and_every_wire_is_in_or_told_to_be_left(diameters: list[float], bore: float) -> None:
    laid = packed(diameters, bore)
    assert sorted([one.wire for one in laid.inside] + list(laid.left)) == list(range(len(diameters)))
    for one in laid.inside:
        assert one.radius == diameters[one.wire] / 2
        assert hypot(one.x, one.y) + one.radius <= bore / 2 * (1 + TOUCH)
    for one, other in combinations(laid.inside, 2):
        assert hypot(one.x - other.x, one.y - other.y) >= (one.radius + other.radius) * (1 - TOUCH)


@given(st.floats(0.5, 20.0), st.floats(1.0, 20.0))
def test_a_lone_wire_lies_on_the_bottom(diameter: float, more: float) -> None:
    (one,) = packed([diameter], diameter + more).inside
    assert (one.x, one.y) == (0.0, pytest.approx(more / 2))


def test_a_wire_thicker_than_the_bore_is_left() -> None:
    assert packed([6.0, 2.0], 5.0).left == (0,)
    assert len(packed([6.0, 2.0], 5.0).inside) == 1


def test_three_equal_wires_fill_the_smallest_bore_that_holds_them() -> None:
    """The bore round three equal circles is 1 + 2/√3 = 2.1547 times as wide as they are (geometry)."""
    assert packed([1.0] * 3, 2.16).left == ()
    assert packed([1.0] * 3, 2.15).left == (2,)


def test_seven_equal_wires_lie_round_one() -> None:
    """Six round one fill a bore three times as wide exactly (geometry); with a hair more room they go in."""
    assert packed([1.0] * 7, 3.2).left == ()


@pytest.mark.parametrize("count", [10, 30, 60])
def test_what_the_table_allows_goes_in(count: int) -> None:
    """40 % of the bore's area, the most that the fill table allows for three wires and more."""
    assert packed([2.4] * count, 2.4 * (count / 0.4) ** 0.5).left == ()
