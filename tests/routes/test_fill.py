"""How full a conduit is: the table's figures by hand, areas counted in another way, and what must hold for all."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.routes.fill import (
    MOST_MORE,
    fill_share,
    jamming_ratio,
    may_jam,
    still_fits,
    wire_diameter,
)
from builder.tables.installation import conduit_fill_limit
from builder.trailer.size import Size

DIAMETERS = st.lists(st.floats(1.0, 8.0), min_size=1, max_size=12)
BORES = st.floats(5.0, 60.0)


def area_mm2(diameter_mm: float) -> float:
    return pi * diameter_mm**2 / 4


@given(DIAMETERS, BORES)
def test_the_share_is_that_of_the_areas(diameters: list[float], bore_mm: float) -> None:
    share = 100 * sum(map(area_mm2, diameters)) / area_mm2(bore_mm)
    assert fill_share(diameters, bore_mm) == pytest.approx(share)


@given(DIAMETERS, BORES, st.floats(1.0, 8.0))
def test_one_wire_more_fills_it_more_and_a_wider_bore_less(
    diameters: list[float], bore_mm: float, other_mm: float
) -> None:
    share = fill_share(diameters, bore_mm)
    assert fill_share([*diameters, other_mm], bore_mm) > share
    assert fill_share(diameters, bore_mm + 1) < share


def test_the_published_limits_by_hand() -> None:
    """NEC Chapter 9 Table 1: 53 % for one, 31 % for two, 40 % for three and more.

    A bore of 10 mm takes one wire of 7.28 mm, two of 3.937 mm, four of 3.162 mm: the squares are 53, 31, 40.
    """
    assert still_fits([], 10.0, 7.28) == 1
    assert still_fits([], 10.0, 7.29) == 0
    assert still_fits([], 10.0, 3.9370) == 2
    assert still_fits([], 10.0, 3.1622) == 4
    assert still_fits([3.1622], 10.0, 3.1622) == 3


def test_a_third_wire_may_go_in_where_a_second_alone_does_not() -> None:
    """Two of 4.0 mm take 32 % of 10 mm, above 31 %; a third of 2.8 mm makes it 39.84 %, below 40 %."""
    assert fill_share([4.0, 4.0], 10.0) == pytest.approx(32.0)
    assert still_fits([4.0, 4.0], 10.0, 2.8) == 1
    assert still_fits([4.0], 10.0, 4.0) == 0


@given(DIAMETERS, BORES, st.floats(0.5, 8.0))
def test_what_still_fits_keeps_the_limit_and_no_larger_number_does(
    diameters: list[float], bore_mm: float, other_mm: float
) -> None:
    more = still_fits(diameters, bore_mm, other_mm)

    def keeps(count: int) -> bool:
        wires = [*diameters, *[other_mm] * count]
        return fill_share(wires, bore_mm) <= conduit_fill_limit(len(wires)).value

    assert more == max((n for n in range(1, MOST_MORE + 1) if keeps(n)), default=0)


def test_room_is_told_of_each_size_of_the_shelf_and_of_a_conduit_without_wires() -> None:
    """A bore of 12 mm: 40 % are 57.6 mm² in squares of diameters; two wires of 3.0 mm (16 AWG) take 18 of them.

    Of 16 AWG (9 each) four more go in, of 12 AWG (4.1 mm, 16.81 each) two. The empty one takes six and three.
    """
    text = (
        "format: 1\nbuild: {name: Dock End, country: US}\n"
        "battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}\n"
        "front box: {fuse ways: 4}\nwire: {on the shelf: [16 AWG, 12 AWG]}\n"
        "places: {front box: {back: 1 ft, up: 1 ft}, lamp: {back: 3 ft, up: 1 ft}, rear: {back: 7 ft, up: 1 ft}}\n"
        "chases:\n  used: {through: [front box, lamp], kind: conduit, bore: 12 mm}\n"
        "  empty: {through: [lamp, rear], kind: conduit, bore: 12 mm}\n"
        "  mains: {through: [front box, rear], kind: conduit, bore: 12 mm, carries: mains}\n"
        "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits:\n  light: {path: [lamp]}\n"
    )
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    told = {
        one.stretch.chase: (one.fill_percent, {str(size): more for size, more in one.room})
        for one in compute(trailer).fills
    }
    assert told == {
        "used": (pytest.approx(12.5), {"16 AWG": 4, "12 AWG": 2}),
        "empty": (0.0, {"16 AWG": 6, "12 AWG": 3}),
    }


@pytest.mark.parametrize(
    ("bore_mm", "jams"), [(8.3, False), (8.4, True), (9.0, True), (9.6, True), (9.7, False)]
)
def test_three_wires_jam_between_2_8_and_3_2(bore_mm: float, jams: bool) -> None:
    """NEC Chapter 9 Table 1 informational note 2, three wires of 3.0 mm."""
    assert may_jam(jamming_ratio([3.0, 3.0, 3.0], bore_mm)) is jams


def test_only_three_wires_jam() -> None:
    assert jamming_ratio([3.0, 3.0], 9.0) is None
    assert jamming_ratio([3.0] * 4, 9.0) is None
    assert not may_jam(None)
    assert jamming_ratio([2.0, 3.0, 4.0], 9.0) == pytest.approx(3.0)


def test_diameters_are_those_of_the_data_sheets() -> None:
    """GXL 16 AWG 3.0 mm, ISO 6722 thin wall 2.5 mm² 3.0 mm at most (quoted); nothing is guessed for thicker wire."""
    sixteen, metric = wire_diameter(Size("AWG", "16")), wire_diameter(Size("mm2", "2.5"))
    assert sixteen is not None
    assert metric is not None
    assert (sixteen.value, sixteen.unit, metric.value) == (3.0, "mm", 3.0)
    assert wire_diameter(Size("AWG", "6")) is None
    assert wire_diameter(Size("mm2", "16")) is None


def test_a_bore_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="bore"):
        fill_share([3.0], 0.0)


CONDUIT = """format: 1
build: {name: Example, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
chases: {tube: {through: [front box, lamp], kind: conduit, bore: 20 mm}}
parts: {lamp: {kind: lamp, draws: 3 W}}
circuits: {lamp: {path: [lamp], size: SIZE}}
wire: {on the shelf: [16 AWG], outside diameters: {DIAMETERS}}
"""


@pytest.mark.parametrize(
    ("size", "diameters", "share"),
    [
        ("16 AWG", "18 AWG: 2 mm", 4.5),  # 2 × 3.0² / 20²
        ("16 AWG", "16 AWG: 4 mm", 8.0),
        ("6 AWG", "6 AWG: 8 mm", 32.0),
        ("6 AWG", "16 AWG: 4 mm", None),
    ],
)
def test_a_measured_diameter_counts_before_the_table(size: str, diameters: str, share: float | None) -> None:
    reading = read_build(CONDUIT.replace("SIZE", size).replace("DIAMETERS", diameters).encode())
    assert reading.trailer is not None
    (one,) = compute(reading.trailer).fills
    assert one.fill_percent == (share if share is None else pytest.approx(share))
    assert [str(unsized) for unsized in one.unsized] == ([size] if share is None else [])
