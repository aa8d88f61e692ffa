"""What must hold over each whole table, whatever its single figures."""

from __future__ import annotations

from importlib import resources
from itertools import pairwise
from typing import Literal

import pytest

from builder.tables import NoRow, conductors, gauges, installation, protection, wire_colours
from builder.tables.charging import charge_limit
from builder.tables.table import Table, load_table

OTHER_READERS = {"assumptions", "part_kinds"}
"""Files with a head of another form."""

NAMES = sorted(
    file.name.removesuffix(".csv")
    for file in (resources.files("builder.tables") / "data").iterdir()
    if file.name.endswith(".csv") and file.name.removesuffix(".csv") not in OTHER_READERS
)


def column(table: Table, name: str) -> list[float]:
    return [float(row.cells[name]) for row in table.rows if row.cells[name]]


def rises(values: list[float]) -> bool:
    return all(before <= after for before, after in pairwise(values))


def strictly_rises(values: list[float]) -> bool:
    return all(before < after for before, after in pairwise(values))


@pytest.mark.parametrize("chemistry", ["lead", "lithium"])
def test_a_charger_is_sized_below_what_a_sheet_allows(chemistry: Literal["lead", "lithium"]) -> None:
    assert charge_limit(chemistry, "advised").value < charge_limit(chemistry, "most").value


def test_lithium_takes_more_than_lead() -> None:
    assert charge_limit("lithium", "advised").value > charge_limit("lead", "most").value


@pytest.mark.parametrize("name", NAMES)
def test_each_table_is_whole(name: str) -> None:
    """Reading checks the head, the cells of each row and the word for how it is known."""
    table = load_table(name)
    assert table.rows
    assert all(table.head[key] for key in ("title", "source", "edition", "table", "unit", "known"))
    assert all(row.source and "in the rows" not in row.source for row in table.rows if "source" in row.cells)
    whole = [tuple(row.cells.values()) for row in table.rows]
    assert len(set(whole)) == len(whole)


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("awg_resistance", "gauge"),
        ("awg_ampacity", "gauge"),
        ("sae_minimum_areas", "gauge"),
        ("aircraft_chart", "gauge"),
        ("rv_fuses", "gauge"),
    ],
)
def test_gauges_run_from_thin_to_thick(name: str, key: str) -> None:
    assert strictly_rises([gauges.awg_area_mm2(row.cells[key]) for row in load_table(name).rows])


@pytest.mark.parametrize("name", ["metric_resistance", "metric_ampacity"])
def test_areas_run_from_thin_to_thick(name: str) -> None:
    assert strictly_rises(column(load_table(name), "area_mm2"))


@pytest.mark.parametrize(
    ("name", "columns"),
    [("awg_resistance", ["ohm_per_kft"]), ("metric_resistance", ["plain", "tinned"])],
)
def test_more_copper_resists_less(name: str, columns: list[str]) -> None:
    for each in columns:
        assert strictly_rises(column(load_table(name), each)[::-1])


def test_resistance_times_area_stays_in_the_band_of_stranded_copper() -> None:
    """Copper at 75 °C is 12.61 ohm cmil/ft; lay adds about 2 percent in NEC Table 8."""
    for row in load_table("awg_resistance").rows:
        area_cmil = gauges.awg_area_circular_mils(row.cells["gauge"])
        assert 12.8 < row.number("ohm_per_kft") / 1000 * area_cmil < 12.97, row.cells["gauge"]


def test_metric_resistance_times_area_stays_in_the_band_of_class_5() -> None:
    """Between 19.0 and 20.1 ohm mm2/km: copper at 20 °C is 17.24, strands and lay add the rest."""
    for row in load_table("metric_resistance").rows:
        assert 19.0 <= row.number("plain") * row.number("area_mm2") <= 20.05, row.cells["area_mm2"]
        assert row.number("plain") < row.number("tinned") < 1.04 * row.number("plain")


@pytest.mark.parametrize("name", ["awg_ampacity", "metric_ampacity"])
def test_ampacity_rises_with_copper_and_with_insulation(name: str) -> None:
    table = load_table(name)
    temperatures = table.columns[1:]
    assert strictly_rises([float(each) for each in temperatures])
    for each in temperatures:
        assert strictly_rises(column(table, each)), each
    for row in table.rows:
        assert rises([row.number(each) for each in temperatures]), row.cells


def test_metric_and_american_ampacity_run_side_by_side_at_105_c() -> None:
    """35 mm2 lies next to 2 AWG (33.6 mm2), 70 mm2 next to 2/0 (67.4 mm2); the sources agree there."""
    assert conductors.metric_ampacity(35, 105).value == conductors.awg_ampacity("2", 105).value
    assert conductors.metric_ampacity(70, 105).value == conductors.awg_ampacity("2/0", 105).value


def test_sae_wire_holds_a_little_less_copper_than_awg() -> None:
    for gauge in gauges.sae_gauges():
        share = gauges.sae_minimum_area(gauge).value / gauges.awg_area_circular_mils(gauge)
        assert 0.89 < share < 0.98, gauge


def test_bundle_factors_cover_every_count_and_only_fall() -> None:
    factors = [conductors.bundle_row(count).value for count in range(1, 60)]
    assert rises(factors[::-1])
    assert factors[0] == factors[1] == 1.0
    assert min(factors) == 0.4
    with pytest.raises(NoRow):
        conductors.bundle_row(0)


@pytest.mark.parametrize("device", ["fuse_a", "breaker_a"])
def test_aircraft_chart_rises_with_copper(device: str) -> None:
    assert rises(column(load_table("aircraft_chart"), device))


def test_no_fuse_of_the_aircraft_chart_exceeds_its_breaker() -> None:
    for row in load_table("aircraft_chart").rows:
        if row.cells["breaker_a"]:
            assert row.number("fuse_a") <= row.number("breaker_a")


def test_rv_table_is_the_strictest() -> None:
    for row in load_table("rv_fuses").rows:
        assert row.known == "memory"
        assert row.number("max_a") <= conductors.awg_ampacity(row.cells["gauge"], 60).value


@pytest.mark.parametrize("series", protection.fuse_series_names())
def test_fuse_ratings_rise(series: str) -> None:
    assert strictly_rises([rating.value for rating in protection.fuse_series(series)])


@pytest.mark.parametrize("series", ["blade mini", "blade regular", "blade maxi"])
def test_every_blade_fuse_has_a_colour_of_its_own(series: str) -> None:
    colours = [protection.fuse_colour(series, rating.value).word for rating in protection.fuse_series(series)]
    assert len(set(colours)) == len(colours)


def test_fuse_colours_are_words_that_can_be_drawn() -> None:
    for row in load_table("fuse_colours").rows:
        assert wire_colours.screen_colour(row.cells["colour"])
        assert row.known == "memory"


def test_mini_and_regular_fuses_share_their_colours() -> None:
    for rating in protection.fuse_series("blade mini"):
        mini = protection.fuse_colour("blade mini", rating.value)
        assert mini == protection.fuse_colour("blade regular", rating.value)


@pytest.mark.parametrize("wire_type", [installation.GXL, installation.THIN_WALL])
def test_thicker_wire_is_wider(wire_type: str) -> None:
    rows = [row for row in load_table("outside_diameters").rows if row.cells["type"] == wire_type]
    widths = [row.number("diameter_mm") for row in rows]
    assert strictly_rises(widths)


def test_diameters_leave_room_for_copper_and_a_wall() -> None:
    for row in load_table("outside_diameters").rows:
        size = row.cells["size"]
        area = gauges.awg_area_mm2(size) if row.cells["type"] == "GXL" else float(size)
        bare_mm = (4 * area / 3.1416) ** 0.5
        assert bare_mm + 0.4 < row.number("diameter_mm") < bare_mm + 3.5, row.cells


def test_an_inch_is_25_4_mm_in_every_pair() -> None:
    for rule in ("bored hole edge distance", "steel plate thickness"):
        inches = installation.framing_distance(rule, "wood", "in").value
        millimetres = installation.framing_distance(rule, "wood", "mm").value
        assert inches * 25.4 == pytest.approx(millimetres, abs=0.06)


def test_awg_doubles_every_three_sizes_nearly() -> None:
    """The series of ASTM B258: six sizes double the diameter, within half a percent."""
    assert gauges.awg_diameter_in("8") == pytest.approx(2 * gauges.awg_diameter_in("14"), rel=0.006)
    assert gauges.awg_diameter_in("4/0") == pytest.approx(0.46, abs=1e-12)
    assert gauges.awg_diameter_in("36") == pytest.approx(0.005, abs=1e-12)


@pytest.mark.parametrize("gauge", ["", "0", "00", "5/0", "0/0", "-1", "41", "1.5", "２", "2/0 ", "AWG 14"])
def test_what_is_no_gauge_is_refused_in_a_sentence(gauge: str) -> None:
    with pytest.raises(NoRow, match="AWG series has no size"):
        gauges.awg_area_mm2(gauge)


def test_a_missing_row_is_named_with_its_source() -> None:
    with pytest.raises(NoRow) as missing:
        conductors.awg_resistance("20")
    assert "20 AWG" in str(missing.value)
    assert "Chapter 9 Table 8" in str(missing.value)


def test_insulation_between_two_columns_counts_as_the_lower() -> None:
    assert conductors.ampacity_column(70) == 60
    assert conductors.ampacity_column(105) == 105
    assert conductors.ampacity_column(250) == 200
    with pytest.raises(NoRow):
        conductors.ampacity_column(59)


def test_k_and_resistivity_agree_on_the_metal() -> None:
    """K of a hand formula is copper a little warmer than 20 °C: above 10.37, below 12.9 (75 °C stranded)."""
    cold = conductors.copper_constant("resistivity at 20 °C", "ohm-cmil/ft").value
    metric = conductors.copper_constant("resistivity at 20 °C", "ohm-mm2/km").value
    assert cold * 1.66243 == pytest.approx(metric, rel=1e-3)  # 1 ohm cmil/ft = 1.66243e-9 ohm m
    for basis in ("SAE_min", "AWG"):
        assert cold < conductors.k_constant(basis).value < 12.9


def test_distances_are_longer_under_a_sheath() -> None:
    open_in = protection.device_distance("33 CFR", "source of power", sheathed=False)
    sheathed_in = protection.device_distance("33 CFR", "source of power", sheathed=True)
    assert (open_in.value, sheathed_in.value) == (7, 40)  # 33 CFR 183.455(b)
    with pytest.raises(NoRow, match="park trailer"):
        protection.device_distance("33 CFR", "park trailer low voltage supply", sheathed=False)
