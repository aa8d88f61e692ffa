"""What must hold for every text and every length."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.quantities import (
    Misread,
    read_capacity,
    read_count,
    read_current,
    read_hours,
    read_length,
    read_mass,
    read_percent,
    read_power,
    read_power_or_current,
    read_size,
    read_temperature,
    read_voltage,
    read_yes_no,
    show_length,
    show_mass,
    show_rest,
)

steady = settings(deadline=None, derandomize=True, max_examples=200)

READERS = [
    read_capacity,
    read_count,
    read_current,
    read_hours,
    read_length,
    read_mass,
    read_percent,
    read_power,
    read_power_or_current,
    read_size,
    read_temperature,
    read_voltage,
    read_yes_no,
]
MAY_BE_ZERO = {read_hours, read_percent}
SIGNS = "0123456789.,:;/-+'\"′″’”“~#%°²½ \u00a0\u200b５OlxM"
WORDS = [
    *("ft", "in", "m", "mm", "mm²", "mm2", "W", "A", "mA", "MA", "Ah", "V", "AC", "AWG", "ga", "per", "or"),
    *("to", "and", "C", "F", "h", "min", "lb", "oz", "1/2", "1/0", "1e3", "e", "inf", "about", "yes"),
]
PIECES = [*SIGNS, *WORDS]
near_quantities = st.lists(st.sampled_from(PIECES), max_size=9).map("".join)
any_text = st.text(st.characters(), max_size=30) | near_quantities
fractions = st.sampled_from([("", 0.0), (" 1/2", 0.5), (" 3/4", 0.75), (" 5/8", 0.625)])


def check_misread(text, wrong):
    assert wrong.message
    assert wrong.help.startswith("write ")
    assert wrong.length >= 1
    assert wrong.start >= 0
    assert wrong.start + wrong.length <= max(1, len(text))


@pytest.mark.parametrize("reader", READERS)
@steady
@given(text=any_text)
def test_any_text_is_read_or_marked(reader, text):
    outcome = reader(text)
    if isinstance(outcome, Misread):
        check_misread(text, outcome)
        return
    value = getattr(outcome, "value", outcome)
    if isinstance(value, str | bool):
        return
    assert math.isfinite(value)
    if reader is read_temperature:
        assert value >= -273.15
    elif reader in MAY_BE_ZERO:
        assert value >= 0
    else:
        assert value > 0


@pytest.mark.parametrize("reader", READERS)
@steady
@given(text=near_quantities)
def test_a_mended_text_has_no_further_fault(reader, text):
    """Where the help names one spelling outright, that spelling is read."""
    outcome = reader(text)
    if isinstance(outcome, Misread) and " or " not in outcome.help and "such as" not in outcome.help:
        spelling = (
            outcome.help.removeprefix("write ").split(", if ")[0].split("; ")[0].split(" for the whole")[0]
        )
        assert not isinstance(reader(spelling), Misread)


@steady
@given(feet=st.integers(1, 500), inches=st.integers(0, 11), part=fractions)
def test_mixed_spellings_agree(feet, inches, part):
    spelled, fraction = part
    expected = (feet * 12 + inches + fraction) * 0.0254
    for text in (
        f"{feet} ft {inches}{spelled} in",
        f"{feet}' {inches}{spelled}\"",
        f"{feet}′{inches}{spelled}″",
        f"{feet}'-{inches}{spelled.replace(' ', '-')}\"",
        f"{feet} feet and {inches}{spelled} inches",
        f"{feet * 12 + inches + fraction} in",
        f"{expected * 1000:.6f} mm",
    ):
        assert read_length(text) == pytest.approx(expected, rel=1e-9)


@steady
@given(metres=st.floats(0.002, 1000))
def test_a_printed_length_is_read_back_within_its_rounding(metres):
    inch = 0.0254
    finest = inch / 16 if metres < 12 * inch else inch / 4
    assert read_length(show_length(metres, "feet")) == pytest.approx(metres, abs=finest * (1 + 1e-9))
    coarse = 0.0005 if metres < 0.9995 else 0.005
    assert read_length(show_length(metres, "metric")) == pytest.approx(metres, abs=coarse * (1 + 1e-9))


@steady
@given(metres=st.floats(0.01, 1000))
def test_a_rest_is_printed_as_no_more_than_there_is_and_no_less_than_one_mark_below(metres):
    inch, hair = 0.0254, 1e-6
    finest = inch / 8 if metres < 12 * inch else inch / 2
    coarse = 0.001 if metres < 1 else 0.01
    for units, mark in (("feet", finest), ("metric", coarse)):
        told = read_length(show_rest(metres, units))
        assert metres - mark < told <= metres + hair


@steady
@given(metres=st.floats(0.002, 1000), units=st.sampled_from(["feet", "metric"]))
def test_printing_what_was_printed_changes_nothing(metres, units):
    printed = show_length(metres, units)
    assert show_length(read_length(printed), units) == printed


@steady
@given(kilograms=st.floats(1, 5000))
def test_a_printed_weight_is_read_back_within_its_rounding(kilograms):
    assert read_mass(show_mass(kilograms, "feet")) == pytest.approx(kilograms, abs=0.2268)
    assert read_mass(show_mass(kilograms, "metric")) == pytest.approx(kilograms, abs=0.5)


@steady
@given(
    number=st.integers(1, 999).map(lambda thousandths: thousandths / 8),
    unit=st.sampled_from(["W", "A", "mA"]),
)
def test_a_draw_for_each_foot_is_the_same_wherever_it_is_spelled(number, unit):
    by_foot = read_power_or_current(f"{number} {unit} per ft")
    by_inch = read_power_or_current(
        f"{number / 12!r} {unit}/in" if number % 12 == 0 else f"{number} {unit}/foot"
    )
    assert by_foot.per_m
    assert by_inch.value == pytest.approx(by_foot.value, rel=1e-9)
    assert by_foot.value * 0.3048 == pytest.approx(read_power_or_current(f"{number} {unit}").value, rel=1e-12)
