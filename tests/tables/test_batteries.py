"""Tables on batteries: they run one way, a straight line joins their rows, and they end where they end."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.tables import NoRow, batteries
from builder.tables.assumptions import defaults
from builder.tables.table import load_table


@pytest.mark.parametrize(("chemistry", "low"), [("flooded", 0), ("agm", 25)])
def test_a_fuller_battery_rests_higher_and_the_table_reads_both_ways(chemistry: str, low: int) -> None:
    volts = [batteries.rest_voltage(chemistry, percent).value for percent in range(low, 101)]
    assert all(before < after for before, after in pairwise(volts))
    for percent in (low, 33, 50, 62.5, 100):
        reads = batteries.rest_voltage(chemistry, percent).value
        assert batteries.full_by_rest_voltage(chemistry, reads).value == pytest.approx(percent)


@given(st.floats(0, 40))
def test_warmth_never_takes_capacity_away(temperature_c: float) -> None:
    here = batteries.capacity_percent("lead acid", temperature_c).value
    warmer = batteries.capacity_percent("lead acid", min(40.0, temperature_c + 5)).value
    assert here <= warmer


def test_an_emptier_wet_battery_freezes_sooner() -> None:
    points = [batteries.freezing_point_c(percent).value for percent in range(25, 101)]
    assert all(before > after for before, after in pairwise(points))


def test_makers_differ_on_the_cold_and_all_of_them_are_told() -> None:
    assert batteries.lowest_temperatures_c("charge") == (0, 0, 5)
    assert batteries.lowest_temperatures_c("discharge") == (-20,)


@pytest.mark.parametrize(
    "ask",
    [
        lambda: batteries.rest_voltage("lithium", 50),
        lambda: batteries.rest_voltage("flooded", 100.1),
        lambda: batteries.rest_voltage("agm", 24),
        lambda: batteries.full_by_rest_voltage("agm", 13.5),
        lambda: batteries.capacity_percent("agm", -20),
        lambda: batteries.capacity_percent("gel", 20),
        lambda: batteries.freezing_point_c(10),
        lambda: batteries.lowest_temperature_c("charge", "4"),
        lambda: batteries.charger_percent("mean"),
        lambda: batteries.store_months("lithium"),
    ],
)
def test_beyond_its_rows_a_table_says_nothing(ask: object) -> None:
    assert callable(ask)
    with pytest.raises(NoRow):
        ask()


def test_every_row_of_these_tables_was_read_or_quoted() -> None:
    """They are printed to an owner as limits, so nothing from memory may stand in them."""
    for name in ("rest_volts", "cold", "freezing", "temperatures", "chargers", "store"):
        assert {row.known for row in load_table(f"battery_{name}").rows} <= {"read", "quoted"}, name


def test_the_sun_is_assumed_within_the_months_of_two_places() -> None:
    # typical year of the National Renewable Energy Laboratory, horizontal, h a day (read): Golden CO has 1.701 in
    # December and a mean of 4.438, San Francisco CA 7.148 in June and a mean of 4.702
    sun = defaults()["full sun in a day"]
    assert (sun.low, sun.high) == (pytest.approx(1.701, abs=0.05), pytest.approx(7.148, abs=0.05))
    assert 4.438 <= sun.value <= 4.702


def test_the_usual_losses_of_a_solar_system_multiply_to_what_is_assumed() -> None:
    # Dobos 2014 (quoted): soiling 2, shading 3, mismatch 2, wiring 2, connections 0.5, light 1.5, nameplate 1,
    # availability 3 percent
    left = 1.0
    for percent in (2, 3, 2, 2, 0.5, 1.5, 1, 3):
        left *= 1 - percent / 100
    assert defaults()["solar losses"].value == pytest.approx(100 * (1 - left), abs=0.1)


def test_an_hour_of_the_handbook_is_the_upper_end_of_what_a_lead_battery_asks_for() -> None:
    extra = defaults()["extra charge of a lead battery"]
    assert (
        extra.value == extra.high == pytest.approx(60)
    )  # hours = 1.6 Ah / A, vehicle battery notes (quoted)
