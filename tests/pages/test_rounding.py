"""One rounding for every number: its digits, its size, its signs."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from builder.pages.rounding import (
    FIGURES,
    Reader,
    length,
    meter_volts,
    rating,
    sheet_ohms,
    sheet_volts,
    shown,
    significant,
    temperature,
)

NUMBERS = st.floats(min_value=-1e9, max_value=1e9, allow_nan=False).filter(lambda x: x == 0 or abs(x) > 1e-9)
READERS = st.sampled_from(list(Reader))
PLAIN = re.compile(r"-?(?:0|[1-9]\d*)(?:\.\d*[1-9])?")


@given(NUMBERS, READERS)
@example(-0.0, Reader.OWNER)
@example(99.96, Reader.WORKSHOP)
@example(0.0995, Reader.OWNER)
@example(123456789.0, Reader.OWNER)
@example(1e-7, Reader.WORKSHOP)
def test_a_number_is_printed_as_plain_digits(value: float, reader: Reader) -> None:
    text = shown(value, reader)
    assert PLAIN.fullmatch(text), text
    assert text != "-0"


@given(NUMBERS, READERS)
def test_it_has_no_more_figures_than_its_reader_gets(value: float, reader: Reader) -> None:
    digits = "".join(map(str, Decimal(shown(value, reader)).as_tuple().digits))
    assert len(digits.strip("0")) <= FIGURES[reader]


@given(NUMBERS, READERS)
def test_it_is_off_by_half_a_unit_of_its_last_figure_at_most(value: float, reader: Reader) -> None:
    text = shown(value, reader)
    exact = Decimal(value)
    if value == 0:
        assert text == "0"
        return
    unit = Decimal(1).scaleb(exact.adjusted() - FIGURES[reader] + 1)
    assert abs(Decimal(text) - exact) <= unit / 2


@given(NUMBERS, NUMBERS, READERS)
def test_a_larger_number_is_never_printed_smaller(one: float, other: float, reader: Reader) -> None:
    small, large = sorted((one, other))
    assert Decimal(shown(small, reader)) <= Decimal(shown(large, reader))


@given(NUMBERS, st.integers(1, 8))
def test_printing_twice_changes_nothing(value: float, figures: int) -> None:
    once = significant(value, figures)
    assert significant(float(once), figures) == once


@pytest.mark.parametrize(
    ("value", "owner", "workshop"),
    [
        (0.2563, "0.26", "0.256"),
        (1234.0, "1200", "1230"),
        (16.072, "16", "16.1"),
        (0.00389, "0.0039", "0.00389"),
        (4.0, "4", "4"),
        (0.1, "0.1", "0.1"),
        (99.96, "100", "100"),
        (0.0, "0", "0"),
    ],
)
def test_the_owner_gets_two_figures_and_the_workshop_three(value: float, owner: str, workshop: str) -> None:
    assert (shown(value, Reader.OWNER), shown(value, Reader.WORKSHOP)) == (owner, workshop)


# the series of blade fuses, ISO 8820-3 (from memory)
@pytest.mark.parametrize("value", [1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40])
def test_a_rating_stands_as_on_the_part(value: float) -> None:
    assert rating(value) == str(value)
    assert rating(float(value)) == str(value)


LENGTH = re.compile(r"(?:(\d+) ft)?(?: ?(?:(\d+)(?!/))?(?: ?(\d)/(\d))? in)?")


def metres(text: str) -> float:
    """Read feet, inches and a fraction, by the exact foot of 0.3048 m."""
    found = LENGTH.fullmatch(" ".join(text.split()))
    assert found is not None, text
    feet, inches, top, bottom = (int(piece or 0) for piece in found.groups())
    return (feet * 12 + inches + (top / bottom if bottom else 0)) * 0.0254


@given(st.floats(0.01, 60))
def test_feet_and_inches_are_those_of_a_tape(value: float) -> None:
    step_in = 1 / 8 if value < 0.3048 else 1 / 2  # below a foot to the eighth, else to the half inch
    assert metres(length(value, "feet")) == pytest.approx(value, abs=step_in * 0.0254 / 2 + 1e-9)


@given(st.floats(0.01, 60))
def test_metres_are_those_of_a_tape(value: float) -> None:
    text = " ".join(length(value, "metric").split())
    found = re.fullmatch(r"([\d.]+) (m|cm|mm)", text)
    assert found is not None, text
    assert float(found[1]) * {"m": 1, "cm": 0.01, "mm": 0.001}[found[2]] == pytest.approx(
        value, abs=0.0005 if value < 0.9995 else 0.0051
    )


@pytest.mark.parametrize(
    ("feet", "text"), [(14.5, "14 ft 6 in"), (6, "6 ft"), (0.5, "6 in"), (1 + 1 / 6, "1 ft 2 in")]
)
def test_lengths_stand_as_they_are_said(feet: float, text: str) -> None:
    assert " ".join(length(feet * 0.3048, "feet").split()) == text


@pytest.mark.parametrize(
    ("volts", "text"), [(12.65, "12.7"), (12.45, "12.5"), (12.24, "12.2"), (12.0, "12.0"), (9.96, "10.0")]
)
def test_a_meter_tells_a_tenth_of_a_volt(volts: float, text: str) -> None:
    assert meter_volts(volts) == text


@pytest.mark.parametrize(
    ("celsius", "units", "text"),
    [
        (0, "feet", "32 °F"),
        (5, "feet", "41 °F"),
        (-15.6, "feet", "4 °F"),
        (-57.2, "feet", "−71 °F"),
        (-15.6, "metric", "−16 °C"),
        (-0.4, "metric", "0 °C"),
    ],
)
def test_a_temperature_is_told_in_the_degrees_of_the_build(celsius: float, units: str, text: str) -> None:
    assert temperature(celsius, units) == text.replace(" ", "\u00a0")


@pytest.mark.parametrize(
    ("volts", "text"),
    [
        (0.0, "0"),
        (0.000416, "0.01"),
        (0.00216, "0.01"),
        (0.01, "0.01"),
        (0.0101, "0.02"),
        (0.1 + 0.2, "0.3"),  # a hair above in the arithmetic
        (0.30232, "0.31"),
        (5.0, "5"),
        (9.991, "10"),
        (12.0, "12"),
        (13.844, "13.8"),
    ],
)
def test_volts_of_the_test_sheet_are_rounded_up_to_what_a_meter_shows(volts: float, text: str) -> None:
    """A meter in its range of 20 V shows hundredths (common practice); a limit never becomes tighter below 10 V."""
    assert sheet_volts(volts) == text


@pytest.mark.parametrize(
    ("ohms", "text"),
    [(0.0, "0"), (0.132, "0.2"), (0.2, "0.2"), (0.1 + 0.2, "0.3"), (9.91, "10"), (12.34, "12.3")],
)
def test_ohms_of_the_test_sheet_are_rounded_up_to_what_a_meter_shows(ohms: float, text: str) -> None:
    """A meter in its range of 200 ohm shows tenths (common practice)."""
    assert sheet_ohms(ohms) == text


@given(st.floats(min_value=0.0, max_value=9.99))
def test_a_limit_of_the_test_sheet_is_never_tighter_and_never_a_hundredth_wider(volts: float) -> None:
    printed = float(sheet_volts(volts))
    assert volts - 1e-5 <= printed < volts + 0.01 + 1e-5
