"""Labels to wrap round a wire: their lengths by hand, and what must hold for every thickness."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from listed import BUILDS, HEAD, listed

from builder.lists.wrap_labels import OVER_MM, wrap_of


@pytest.mark.parametrize(
    ("diameter_mm", "lines", "printed_mm", "tail_mm"),
    [
        # once round is 9.42 mm: two lines of 4 mm, and a tail of 13.42 mm
        (3.0, 2, 8.0, 13.42),
        # 18.54 mm: four lines
        (5.9, 4, 16.0, 22.54),
        # 5.97 mm holds no two lines of 4 mm: two of 2.98 mm
        (1.9, 2, 5.97, 9.97),
    ],
)
def test_lengths_by_hand(diameter_mm: float, lines: int, printed_mm: float, tail_mm: float) -> None:
    wrap = wrap_of(diameter_mm)
    assert wrap.lines == lines
    assert wrap.printed_mm == pytest.approx(printed_mm, abs=0.01)
    assert wrap.tail_mm == pytest.approx(tail_mm, abs=0.01)
    assert wrap.whole_mm == pytest.approx(printed_mm + tail_mm, abs=0.02)


@given(st.floats(0.5, 50.0))
def test_print_goes_once_round_at_most_and_the_tail_covers_all_of_it(diameter_mm: float) -> None:
    wrap = wrap_of(diameter_mm)
    round_mm = pi * diameter_mm
    assert wrap.lines >= 2
    assert wrap.printed_mm <= round_mm + 1e-9
    assert round_mm - wrap.printed_mm < wrap.line_mm + 1e-9
    assert wrap.tail_mm == pytest.approx(round_mm + OVER_MM)


def test_no_wire_is_as_thin_as_nothing() -> None:
    with pytest.raises(ValueError, match="above zero"):
        wrap_of(0.0)


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_every_label_is_in_one_group_of_its_wires_size(text: str) -> None:
    build = listed(text)
    wires = {number: wire.size for number, wire in build.figures.wires.items()}
    found = [label for group in build.lists.wraps for label in group.labels]
    assert sorted(map(repr, found)) == sorted(map(repr, build.lists.labels))
    for group in build.lists.wraps:
        assert {wires[label.wire] for label in group.labels if label.wire in wires} <= {group.size}
    areas = [group.size.area_mm2 for group in build.lists.wraps]
    assert areas == sorted(areas)


def test_a_measured_wire_counts_and_one_of_no_known_thickness_has_no_label() -> None:
    more = (
        "wire: {on the shelf: [16 AWG], outside diameters: {16 AWG: 3.5 mm}}\n"
        "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits:\n  light: {path: [lamp: 6 ft]}\n"
    )
    head = HEAD.replace("to front box: 4 ft", "to front box: 4 ft, size: 4 AWG")
    wraps = {str(group.size): group.wrap for group in listed(head + more).lists.wraps}
    assert wraps["4 AWG"] is None
    thin = wraps["16 AWG"]
    assert thin is not None
    assert thin.diameter_mm == 3.5
