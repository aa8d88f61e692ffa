"""Formulas at their ends: what they refuse, in which words, and what a hair above and below a limit gives.

The values in the middle are the published ones of `tests/check_values`. Here stand values worked by hand from the
formula that each docstring names, and limits of the tables that the docstrings name.
"""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from builder.electrics import conductors, protection
from builder.electrics.charging import charge_hours, charger_size_a, solar_yield_wh
from builder.electrics.currents import converter_input_a, draw_current_a
from builder.electrics.drops import DropStep, hand_drop_v
from builder.electrics.energy import day_use_ah, nights
from builder.tables import NoRow
from builder.trailer.parts import Draw, Law
from builder.trailer.size import Size


def _awg(value: str) -> Size:
    return Size("AWG", value)


def _mm2(value: str) -> Size:
    return Size("mm2", value)


REFUSED: list[tuple[Callable[[], object], type[Exception], str]] = [
    (
        lambda: conductors.load_current_a(12, 0),
        ValueError,
        "a current follows from watts only at a voltage above zero",
    ),
    (
        lambda: conductors.series_current_a(12, 1, -1),
        ValueError,
        "a current through a resistance needs a resistance above zero",
    ),
    (lambda: conductors.ambient_factor(30, 20), ValueError, "the conductor's limit must lie above 30 °C"),
    (
        lambda: conductors.required_area_circular_mils(10.75, 5, 20, 0),
        ValueError,
        "no area keeps a drop of zero",
    ),
    (lambda: conductors.required_area_metric(5, 3, 0), ValueError, "no area keeps a drop of zero"),
    (
        lambda: conductors.min_gauge_for_area(1234567, "AWG"),
        NoRow,
        "no size offered has 1,234,567 circular mils",
    ),
    (
        lambda: conductors.awg_row(_mm2("0.3")),
        NoRow,
        "0.3 mm² is thinner than 22 AWG, the smallest size of the tables",
    ),
    (lambda: protection.fuse_min_rating(5, 0), ValueError, "a share of a fuse's rating is above zero"),
    (lambda: protection.fuse_min_rating(5, 0.8, 0), ValueError, "a share of a fuse's rating is above zero"),
    (
        lambda: protection.fuse_rating_from_continuous_load(5, 0, "blade regular"),
        ValueError,
        "the factor on a load is above zero",
    ),
    (
        lambda: protection.next_standard_rating(41.25, "blade regular"),
        NoRow,
        "the blade regular series ends at 40 A, below the 41.25 A that are needed",
    ),
    (
        lambda: protection.fuse_ceiling(_awg("16"), check_against="my gut"),
        NoRow,
        "a fuse cannot be checked against “my gut”; known are aircraft chart, conductor ampacity, boat rule, rv table",
    ),
    (
        lambda: protection.lowest_ceiling(_mm2("0.3")),
        NoRow,
        "no table says how large a fuse may be for 0.3 mm²",
    ),
]


@pytest.mark.parametrize(("ask", "error", "sentence"), REFUSED)
def test_what_has_no_answer_is_refused_in_words(
    ask: Callable[[], object], error: type[Exception], sentence: str
) -> None:
    with pytest.raises(error, match=f"^{re.escape(sentence)}$"):
        ask()


def test_copper_between_two_temperatures() -> None:
    """AC 43.13-1B 11-66 item (4): a wire of 0.0175 ohm at 20 °C has (234.5 + 200) / 254.5 of it at 200 °C."""
    assert conductors.resistance_at_temperature(0.0175, 20, 200) == pytest.approx(0.0175 * 434.5 / 254.5)
    assert conductors.resistance_at_temperature(1, 0, 100, zero_c=-200) == pytest.approx(300 / 200)


def test_resistance_by_the_metre() -> None:
    """NEC Chapter 9 Table 8, 14 AWG: 3.14 ohm/kft at 75 °C. IEC 60228 class 5, 2.5 mm²: 7.98 ohm/km at 20 °C."""
    gauge = conductors.resistance_ohm_per_m(_awg("14"), 75)
    assert gauge.ohm_per_m == pytest.approx(3.14 / 304.8)
    assert gauge.table_temperature_c == 75
    metric = conductors.resistance_ohm_per_m(_mm2("2.5"), 20)
    assert metric.ohm_per_m == pytest.approx(7.98 / 1000)
    assert metric.table_temperature_c == 20
    assert conductors.resistance_ohm_per_m(_mm2("2.5"), 70).ohm_per_m == pytest.approx(7.98e-3 * 300 / 250)
    assert "Table 8" in gauge.source
    assert "60228" in metric.source


def test_a_constant_power_load_behind_a_wire() -> None:
    """P = U I with U = E - I R: 20 W at 10 V take 2 A, and 1 ohm drops the 2 V to 12 V; above E²/4R nothing stands."""
    assert conductors.constant_power_current_a(20, 12, 1) == pytest.approx(2)
    assert conductors.constant_power_current_a(36, 12, 1) == pytest.approx(6)
    assert conductors.constant_power_current_a(36.1, 12, 1) is None


def test_watts_at_less_than_a_volt() -> None:
    """P = U I: 1 W at 0.5 V is 2 A."""
    assert conductors.load_current_a(1, 0.5) == 2


def test_a_switch_at_a_voltage_that_the_table_lacks() -> None:
    with pytest.raises(NoRow, match="lamp at 24 V"):
        protection.switch_min_rating(4, "lamp", 24)


def test_a_current_through_several_resistances() -> None:
    assert conductors.series_current_a(12, 1, 2, 3) == pytest.approx(2)
    assert conductors.series_current_a(12, 0.5) == pytest.approx(24)


def test_warm_wires_count_as_two_unless_told() -> None:
    """Two wires of 1 ohm and a load of 10 ohm at 24 V: 2 A, 2 V in each wire; 4 V over both."""
    cold = (24, 1, 10, 20, 0.00393)
    assert conductors.voltage_drop_per_wire_hot(*cold) == pytest.approx(2)
    assert conductors.load_voltage_hot(*cold) == pytest.approx(20)
    assert conductors.load_voltage_hot(*cold, wires=1) == pytest.approx(24 * 10 / 11)
    warm = conductors.voltage_drop_per_wire_hot(24, 1, 10, 70, 0.004)
    assert warm == pytest.approx(1.2 * 24 / 12.4)


@pytest.mark.parametrize(
    ("metric", "gauge"), [("2.5", "14"), ("0.5", "22"), ("6", "10"), ("10", "8"), ("16", "6"), ("70", "2/0")]
)
def test_a_metric_size_goes_by_the_gauge_below_it(metric: str, gauge: str) -> None:
    """ASTM B258 areas: 22 AWG 0.326, 14 AWG 2.08, 10 AWG 5.26, 8 AWG 8.37, 6 AWG 13.3, 2/0 67.4 mm²."""
    assert conductors.awg_row(_mm2(metric)) == _awg(gauge)
    assert conductors.awg_row(_awg("3/0")) == _awg("3/0")


def test_nothing_is_left_where_the_surroundings_are_as_hot_as_the_wire_bears() -> None:
    assert conductors.ambient_factor(60, 60) == 0
    assert conductors.ambient_factor(60, 75) == 0
    assert conductors.ambient_factor(60, 30) == 1
    assert conductors.ambient_factor(31, 30.75) == pytest.approx(0.5)


def test_ampacity_and_what_it_was_worked_out_from() -> None:
    """33 CFR 183.425 Table 5: 16 AWG carries 15 A at 60 °C and 25 A at 105 °C; note 2: six in a bundle, 60 %."""
    plain = conductors.ampacity_a(_awg("16"))
    assert (plain.amps, plain.table_amps, plain.row, plain.column_c) == (15, 15, _awg("16"), 60)
    assert (plain.ambient_factor, plain.bundle_factor) == (1, 1)
    assert "Table 5" in plain.source
    hot = conductors.ampacity_a(_mm2("1.5"), insulation_c=110, ambient_c=86.25, conductors_in_bundle=6)
    assert (hot.table_amps, hot.row, hot.column_c) == (25, _awg("16"), 105)
    assert hot.ambient_factor == pytest.approx(0.5)
    assert hot.bundle_factor == 0.6
    assert hot.amps == pytest.approx(7.5)


def test_a_hair_below_an_area_is_the_noise_of_the_arithmetic() -> None:
    """SAE J1128 minimum areas: 16 AWG 2336, 14 AWG 3702 circular mils; ASTM B258: 16 AWG 2583 circular mils."""
    assert conductors.min_gauge_for_area(3702, "SAE_min") == _awg("14")
    assert conductors.min_gauge_for_area(3702 * (1 + 1e-10), "SAE_min") == _awg("14")
    assert conductors.min_gauge_for_area(3702 * (1 + 1e-8), "SAE_min") == _awg("12")
    assert conductors.min_gauge_for_area(2500, "AWG") == _awg("16")
    assert conductors.min_gauge_for_area(2500, "SAE_min") == _awg("14")
    assert conductors.min_gauge_for_area(2500, "AWG", ["18", "12"]) == _awg("12")


def test_the_hand_formulas_of_area() -> None:
    """CM = K I L / E: 10.75 × 5 A × 20 ft / 0.5 V = 2150; S = 2 L I / (56 E): 2 × 7 m × 4 A / (56 × 0.5 V) = 2 mm²."""
    assert conductors.required_area_circular_mils(10.75, 5, 20, 0.5) == pytest.approx(2150)
    assert conductors.min_gauge_for_voltage_drop(10.75, 5, 20, 0.5, "SAE_min") == _awg("16")
    assert conductors.min_gauge_for_voltage_drop(10.75, 5, 20, 0.5, "SAE_min", ["12", "10"]) == _awg("12")
    assert conductors.required_area_metric(4, 7, 0.5) == pytest.approx(2)
    assert conductors.required_area_metric(4, 7, 0.5, conductivity=28) == pytest.approx(4)
    assert conductors.min_metric_size(2) == _mm2("2.5")
    assert conductors.min_metric_size(2.5) == _mm2("2.5")


def test_fuses_for_a_load() -> None:
    """A blade series goes 1, 2, 3, 4, 5, 7.5, 10 … 40 A; 80 % of a fuse may be used for hours."""
    assert protection.next_standard_rating(7.5, "blade regular") == 7.5
    assert protection.next_standard_rating(7.5 * (1 + 1e-10), "blade regular") == 7.5
    assert protection.next_standard_rating(7.5 * (1 + 1e-8), "blade regular") == 10
    assert protection.fuse_min_rating(8) == pytest.approx(10)
    assert protection.fuse_min_rating(8, ambient_factor=0.5) == pytest.approx(20)
    assert protection.fuse_min_rating(8, 1) == pytest.approx(8)
    assert protection.fuse_rating_from_continuous_load(6, 1.25, "blade regular") == 7.5


def test_how_large_a_fuse_may_be_by_each_table() -> None:
    """AC 43.13-1B Table 11-3: 16 AWG fuse 10 A, breaker 15 A. 33 CFR Table 5: 15 A at 60 °C, 25 A at 105 °C, ×1.5."""
    size = _awg("16")
    chart = protection.fuse_ceiling(size)
    assert (chart.amps, chart.known, chart.against, chart.row) == (10, "read", "aircraft chart", size)
    assert "Table 11-3" in chart.source
    assert protection.fuse_ceiling(size, device="breaker").amps == 15
    strict = protection.fuse_ceiling(size, 105, "conductor ampacity")
    assert (strict.amps, strict.against) == (25, "conductor ampacity")
    boat = protection.fuse_ceiling(size, 105, "boat rule")
    assert (boat.amps, boat.known, boat.against, boat.row) == (37.5, "read", "boat rule", size)
    assert "Table 5" in boat.source
    assert ", times 1.5 by 33 CFR 183.455" in boat.source
    assert protection.max_ocp_33cfr(size) == 22.5
    assert protection.max_ocp_33cfr(size, 105) == 37.5
    assert protection.fuse_max_rating_by_conductor(20) == 20
    assert protection.fuse_max_rating_by_conductor(20, "boat rule") == 30


def test_a_size_that_the_chart_lacks_goes_by_the_conductor() -> None:
    """Table 11-3 ends at 1/0; 2/0 AWG carries 225 A at 60 °C and 330 A at 105 °C by 33 CFR 183.425 Table 5."""
    thick = protection.fuse_ceiling(_awg("2/0"), 105)
    assert (thick.amps, thick.against) == (330, "conductor ampacity")
    assert protection.fuse_ceiling(_awg("2/0")).amps == 225
    assert [one.against for one in protection.fuse_ceilings(_awg("2/0"))] == [
        "conductor ampacity",
        "boat rule",
    ]


def test_all_ceilings_in_order_and_the_lowest() -> None:
    ceilings = protection.fuse_ceilings(_awg("16"), 105, "breaker")
    assert [one.against for one in ceilings] == list(protection.CHECK_AGAINST)
    assert [one.amps for one in ceilings][:3] == [15, 25, 37.5]
    assert protection.lowest_ceiling(_awg("16")) in protection.fuse_ceilings(_awg("16"))
    assert protection.lowest_ceiling(_awg("16")).amps == min(
        one.amps for one in protection.fuse_ceilings(_awg("16"))
    )
    assert (
        protection.lowest_ceiling(_awg("1/0"), 105, "breaker").amps
        < protection.fuse_ceiling(_awg("1/0"), 105, "boat rule").amps
    )


@pytest.mark.parametrize(("kind", "rating"), [("lamp", 20), ("inductive", 8), ("motor", 8), ("resistive", 4)])
def test_switches_by_what_they_switch(kind: str, rating: float) -> None:
    """AC 43.13-1B Table 11-4 at 12 V, for 4 A: lamps ×5, inductive loads and motors ×2, heaters ×1."""
    assert protection.switch_min_rating(4, kind) == rating


@pytest.mark.parametrize(
    ("draw", "current_a"),
    [
        (Draw(24, "W", Law.POWER, 12), 24 / 10),
        (Draw(24, "W", Law.RESISTANCE, 12), 2 * 10 / 12),
        (Draw(24, "W", Law.CURRENT, 12), 2),
        (Draw(2, "A", Law.POWER, 12), 2.4),
        (Draw(2, "A", Law.RESISTANCE, 12), 2 * 10 / 12),
        (Draw(2, "A", Law.CURRENT, 12), 2),
    ],
)
def test_a_draw_at_another_voltage_than_its_own(draw: Draw, current_a: float) -> None:
    """24 W or 2 A told at 12 V, asked at 10 V: Ohm's law for each way a load follows its voltage."""
    assert draw_current_a(draw, 10) == pytest.approx(current_a)
    assert draw_current_a(draw) == pytest.approx(2)


def test_batteries_by_hand() -> None:
    """50 Ah to put back at 5 A, ×1.6: 16 h. 100 W × 4 h less 25 %: 300 Wh. 10 to 30 % of 80 Ah: 8 to 24 A."""
    assert charge_hours(100, 0.5, 5, 1.6) == pytest.approx(16)
    assert solar_yield_wh(100, 4, 25) == pytest.approx(300)
    assert (charger_size_a(80, "min"), charger_size_a(80, "max")) == (8, 24)
    assert converter_input_a(90, 0.9, 12.5) == pytest.approx(8)
    assert day_use_ah(0.5, 6) == 3
    assert nights(50, 20) == 2.5
    assert nights(50, 0) == 0
    assert nights(50, 0.5) == 100


def test_a_drop_is_the_sum_of_its_stretches() -> None:
    assert hand_drop_v([DropStep("1", 0.1, 2, 0.2), DropStep("2", 0.2, 2, 0.4)]) == pytest.approx(0.6)
    assert hand_drop_v([]) == 0
