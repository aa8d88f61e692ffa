"""Sizes, resistances, currents and ceilings: what must hold for every wire."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.drawings.contrast import contrast_ratio, relative_luminance
from builder.electrics import conductors, protection
from builder.routes.bundle import bundle_factor
from builder.tables import NoRow
from builder.tables.gauges import TRADE_GAUGES, metric_areas_mm2
from builder.tables.protection import fuse_series
from builder.trailer.size import Size, by_area

AWG = [Size("AWG", gauge) for gauge in TRADE_GAUGES]
METRIC = [Size("mm2", f"{area:g}") for area in metric_areas_mm2()]
TABLED = [size for size in AWG if size.value not in {"22", "20"}]
WIRED = [size for size in METRIC if size.area_mm2 > 0.823]  # 18 AWG, the first row of 33 CFR Table 5

tabled = st.sampled_from(TABLED)
wired = st.sampled_from(TABLED + WIRED)
any_size = st.sampled_from(AWG + METRIC)
copper_c = st.floats(-20, 105)


@pytest.mark.parametrize(
    ("size", "text"),
    [(Size("AWG", "16"), "16 AWG"), (Size("AWG", "2/0"), "2/0 AWG"), (Size("mm2", "2.5"), "2.5 mm²")],
)
def test_a_size_is_written_as_the_trade_writes_it(size: Size, text: str) -> None:
    assert str(size) == text


def test_sizes_of_both_kinds_sort_by_area() -> None:
    """16 AWG is 1.31 mm², 14 AWG 2.08 mm² (ASTM B258)."""
    mixed = [Size("mm2", "2.5"), Size("AWG", "14"), Size("mm2", "1.5"), Size("AWG", "16")]
    assert [str(size) for size in sorted(mixed, key=by_area)] == ["16 AWG", "1.5 mm²", "14 AWG", "2.5 mm²"]


@given(a=wired, b=wired, temperature=copper_c)
def test_more_copper_of_a_kind_never_resists_more(a: Size, b: Size, temperature: float) -> None:
    thin, thick = sorted((a, b), key=by_area)
    if thin.kind == thick.kind:
        thin_ohm = conductors.resistance_ohm_per_m(thin, temperature).ohm_per_m
        assert conductors.resistance_ohm_per_m(thick, temperature).ohm_per_m <= thin_ohm


@given(size=wired, cold=copper_c, rise=st.floats(0.5, 60))
def test_warm_copper_resists_more_by_about_four_thousandths_a_degree(
    size: Size, cold: float, rise: float
) -> None:
    before = conductors.resistance_ohm_per_m(size, cold).ohm_per_m
    after = conductors.resistance_ohm_per_m(size, cold + rise).ohm_per_m
    assert 0.0028 < (after / before - 1) / rise < 0.0048


def test_resistance_at_the_temperature_of_its_table_is_the_table() -> None:
    """NEC Table 8: 14 AWG 3.14 ohm/kft at 75 °C; IEC 60228 class 5: 2.5 mm² 7.98 ohm/km at 20 °C."""
    awg = conductors.resistance_ohm_per_m(Size("AWG", "14"), 75)
    metric = conductors.resistance_ohm_per_m(Size("mm2", "2.5"), 20)
    assert awg.ohm_per_m * 304.8 == pytest.approx(3.14)
    assert metric.ohm_per_m * 1000 == pytest.approx(7.98)
    assert (awg.table_temperature_c, metric.table_temperature_c) == (75, 20)


@pytest.mark.parametrize(
    ("metric", "gauge"),
    # from the AWG areas of ASTM B258: 0.518, 0.823, 1.31, 2.08, 3.31, 5.26, 8.37 and 67.4 mm²
    [
        ("0.75", "20"),
        ("1", "18"),
        ("1.5", "16"),
        ("2.5", "14"),
        ("4", "12"),
        ("6", "10"),
        ("10", "8"),
        ("70", "2/0"),
    ],
)
def test_a_metric_size_goes_by_the_row_below_it(metric: str, gauge: str) -> None:
    assert conductors.awg_row(Size("mm2", metric)) == Size("AWG", gauge)


@given(size=any_size)
def test_the_row_read_never_holds_more_copper_than_the_wire(size: Size) -> None:
    assert conductors.awg_row(size).area_mm2 <= size.area_mm2


def test_thinner_than_every_row_is_refused() -> None:
    with pytest.raises(NoRow, match="thinner than 22 AWG"):
        conductors.awg_row(Size("mm2", "0.25"))


@given(size=wired, insulation=st.floats(60, 200), ambient=st.floats(0, 90), count=st.integers(1, 40))
def test_heat_and_company_only_take_from_a_wire(
    size: Size, insulation: float, ambient: float, count: int
) -> None:
    worked = conductors.ampacity_a(size, insulation, ambient, count)
    hotter = conductors.ampacity_a(size, insulation, ambient + 5, count)
    fuller = conductors.ampacity_a(size, insulation, ambient, count + 1)
    assert 0 <= hotter.amps <= worked.amps
    assert fuller.amps <= worked.amps
    assert worked.amps == pytest.approx(worked.table_amps * worked.ambient_factor * worked.bundle_factor)


def test_nothing_is_left_where_the_air_is_as_hot_as_the_insulation_bears() -> None:
    assert conductors.ampacity_a(Size("AWG", "14"), 60, 60).amps == 0
    assert conductors.ampacity_a(Size("AWG", "14"), 60, 75).amps == 0


def test_a_pair_alone_keeps_its_current() -> None:
    """33 CFR 183.425 Table 5: 14 AWG at 60 °C carries 20 A; its note 2 begins at three conductors."""
    assert conductors.ampacity_a(Size("AWG", "14")).amps == 20
    assert [bundle_factor(count) for count in (2, 3, 6, 7, 24, 25)] == [1.0, 0.7, 0.6, 0.5, 0.5, 0.4]


@given(k=st.floats(10, 13), current=st.floats(0.1, 60), length=st.floats(1, 60), drop=st.floats(0.1, 1.5))
def test_the_gauge_of_the_hand_formula_keeps_the_drop_and_the_next_thinner_does_not(
    k: float, current: float, length: float, drop: float
) -> None:
    offered = ["18", "16", "14", "12", "10", "8", "6", "4", "2", "1", "1/0", "2/0", "3/0", "4/0"]
    try:
        found = conductors.min_gauge_for_voltage_drop(k, current, length, drop, "AWG")
    except NoRow:
        assert k * current * length / conductors.awg_area_circular_mils("4/0") > drop
        return
    place = offered.index(found.value)
    assert k * current * length / conductors.awg_area_circular_mils(found.value) <= drop * 1.000001
    if place:
        assert k * current * length / conductors.awg_area_circular_mils(offered[place - 1]) > drop * 0.999999


@given(power=st.floats(0.1, 200), volts=st.floats(10, 15), ohm=st.floats(0.001, 2))
def test_a_constant_power_load_gets_its_power_at_the_upper_voltage(
    power: float, volts: float, ohm: float
) -> None:
    current = conductors.constant_power_current_a(power, volts, ohm)
    if current is None:
        assert power > volts**2 / (4 * ohm) * (1 - 1e-9)  # the most that this wire can hand over
    else:
        left = volts - current * ohm
        assert left * current == pytest.approx(power, rel=1e-6)
        assert left >= volts / 2 * (1 - 1e-9)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: conductors.load_current_a(10, 0),
        lambda: conductors.series_current_a(12, 0.0),
        lambda: conductors.required_area_circular_mils(10.75, 5, 10, 0),
        lambda: conductors.required_area_metric(5, 10, -1),
        lambda: conductors.ambient_factor(30, 20),
        lambda: protection.fuse_min_rating(5, 0),
        lambda: protection.fuse_rating_from_continuous_load(5, 0, "blade regular"),
    ],
)
def test_a_formula_without_an_answer_says_so(refused: object) -> None:
    with pytest.raises(ValueError, match=r"zero|30 °C"):
        refused()  # type: ignore[operator]


@given(minimum=st.floats(0.1, 40))
def test_the_next_rating_is_the_least_that_is_enough(minimum: float) -> None:
    ratings = [rating.value for rating in fuse_series("blade regular")]
    chosen = protection.next_standard_rating(minimum, "blade regular")
    assert chosen in ratings
    assert chosen >= minimum * (1 - 1e-6)
    assert all(rating < minimum for rating in ratings if rating < chosen)


@given(thirds=st.integers(1, 30))
def test_noise_of_the_arithmetic_never_costs_a_rating(thirds: int) -> None:
    """Watts over volts times 1.25 can come out a hair above a rating that it exactly is."""
    exact = Fraction(thirds, 3) * 3
    chosen = protection.next_standard_rating(float(exact) * (1 + 1e-12), "blade regular")
    assert chosen == next(r.value for r in fuse_series("blade regular") if r.value >= exact)


def test_a_load_beyond_the_series_is_named_with_both_figures() -> None:
    with pytest.raises(NoRow, match=r"blade regular series ends at 40 A, below the 50 A"):
        protection.next_standard_rating(50, "blade regular")
    with pytest.raises(NoRow, match="no fuse series is called glass"):
        protection.next_standard_rating(5, "glass")


@pytest.mark.parametrize(
    ("size", "amps", "against"),
    [
        (Size("AWG", "16"), 10, "aircraft chart"),  # FAA AC 43.13-1B Table 11-3
        (Size("AWG", "14"), 15, "aircraft chart"),
        (Size("AWG", "20"), 5, "aircraft chart"),
        (Size("mm2", "2.5"), 15, "aircraft chart"),  # as 14 AWG
        (Size("AWG", "3"), 120, "conductor ampacity"),  # no row there: 33 CFR Table 5, 60 °C
        (Size("AWG", "2/0"), 225, "conductor ampacity"),
    ],
)
def test_a_fuse_is_judged_by_the_aircraft_chart_unless_it_has_no_row(
    size: Size, amps: float, against: str
) -> None:
    ceiling = protection.fuse_ceiling(size)
    assert (ceiling.amps, ceiling.against, ceiling.known) == (amps, against, "read")


def test_each_table_can_be_named_to_judge_by() -> None:
    """16 AWG at 60 °C: FAA 10 A, 33 CFR 15 A and 150 percent of it, NEC RV table 8 A."""
    size = Size("AWG", "16")
    by_name = {
        name: protection.fuse_ceiling(size, check_against=name).amps for name in protection.CHECK_AGAINST
    }
    assert by_name == {"aircraft chart": 10, "conductor ampacity": 15, "boat rule": 22.5, "rv table": 8}
    assert [each.amps for each in protection.fuse_ceilings(size)] == list(by_name.values())
    with pytest.raises(NoRow, match="cannot be checked against “wishes”"):
        protection.fuse_ceiling(size, check_against="wishes")


def test_the_choice_stays_below_the_table_from_memory_too() -> None:
    lowest = protection.lowest_ceiling(Size("AWG", "16"))
    assert (lowest.amps, lowest.known) == (8, "memory")


def test_where_tables_agree_the_read_one_is_named() -> None:
    """14 AWG: 15 A in FAA Table 11-3 (read) and in the NEC RV table (memory)."""
    assert protection.lowest_ceiling(Size("AWG", "14")).known == "read"


def test_a_breaker_has_a_column_of_its_own() -> None:
    """FAA AC 43.13-1B Table 11-3: 12 AWG, fuse 20 A, breaker 30 A; no breaker for 1 AWG."""
    assert protection.fuse_ceiling(Size("AWG", "12"), device="breaker").amps == 30
    assert protection.fuse_ceiling(Size("AWG", "1"), device="breaker").against == "conductor ampacity"


@given(size=wired, insulation=st.sampled_from([60, 75, 80, 90, 105, 125, 200]))
def test_the_lowest_ceiling_is_below_every_other(size: Size, insulation: int) -> None:
    lowest = protection.lowest_ceiling(size, insulation)
    assert all(lowest.amps <= other.amps for other in protection.fuse_ceilings(size, insulation))
    assert lowest.amps <= protection.fuse_ceiling(size, insulation).amps


hex_colour = st.integers(0, 0xFFFFFF).map(lambda value: f"#{value:06X}")


@given(a=hex_colour, b=hex_colour)
def test_contrast_does_not_ask_which_colour_comes_first(a: str, b: str) -> None:
    assert contrast_ratio(a, b) == contrast_ratio(b, a)
    assert 1 <= contrast_ratio(a, b) <= 21.000001


@pytest.mark.parametrize("text", ["red", "#FFF", "#12345G", "123456", "#1234567", "#１２３４５６"])
def test_what_is_no_screen_colour_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="#RRGGBB"):
        relative_luminance(text)
