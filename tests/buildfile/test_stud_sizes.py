"""Sizes of studs and screws as makers write them, and the table that they come from."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

import pytest

from builder.buildfile.value_sizes import read_stud
from builder.quantities import Misread
from builder.tables.studs import MOST_WIRES, stud_sizes
from builder.trailer.landing_points import StudSize


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("M6", "M6"),
        ("m 6", "M6"),
        ("6 mm", "M6"),
        ("M3.5", "M3.5"),
        ("No. 8", "No. 8"),
        ("no 10", "No. 10"),
        ("#8", "No. 8"),
        ("number 6", "No. 6"),
        ("1/4 in", "1/4 in"),
        ('1/4"', "1/4 in"),
        ("0.25 in", "1/4 in"),
        ("5/16 in", "5/16 in"),
        ("3/8 in", "3/8 in"),
        ("10 mm", "M10"),
    ],
)
def test_sizes_are_read_as_makers_write_them(text: str, name: str) -> None:
    found = read_stud(text)
    assert isinstance(found, StudSize)
    assert (found.name, found.ring) == (name, stud_sizes()[name][0])


@pytest.mark.parametrize(
    ("text", "fixes"),
    [("8", ("M8", "No. 8")), ("5/16", ("5/16 in",)), ("10", ("M10", "No. 10")), ("7 mm", ()), ("big", ())],
)
def test_what_names_no_size_is_told_with_what_it_may_be(text: str, fixes: tuple[str, ...]) -> None:
    found = read_stud(text)
    assert isinstance(found, Misread)
    assert found.fixes == fixes
    for fix in fixes:
        assert isinstance(read_stud(fix), StudSize)


def test_diameters_are_those_of_the_standards() -> None:
    """A number is 0.060 in and 0.013 in for each (ASME B1.1, from memory); M and fractions of an inch say their own."""
    for name, (_, mm) in stud_sizes().items():
        number = re.fullmatch(r"No\. (\d+)", name)
        inches = re.fullmatch(r"(\d+/\d+) in", name)
        if number:
            wanted = (0.060 + 0.013 * int(number[1])) * 25.4
        elif inches:
            wanted = float(Fraction(inches[1])) * 25.4
        else:
            wanted = float(name.removeprefix("M"))
        assert mm == pytest.approx(wanted, abs=0.006)


def test_sizes_of_one_ring_stand_together() -> None:
    rings: dict[int, list[float]] = {}
    for ring, mm in stud_sizes().values():
        rings.setdefault(ring, []).append(mm)
    assert all(len(mm) == 2 for mm in rings.values())
    order = [rings[ring] for ring in sorted(rings)]
    for one, after in pairwise(order):
        assert max(one) < min(after)
    assert MOST_WIRES.known == "practice"
