"""What a crimp must hold: told for every size that is wired, in the order of the sizes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from owner_pages import page_of, table, view_of

from builder.tables import NoRow
from builder.tables.connections import crimp_pull
from builder.tables.gauges import TRADE_GAUGES, awg_area_mm2, metric_areas_mm2

BUILDS = Path(__file__).parents[2] / "example_build"


@pytest.mark.parametrize(
    ("build", "unit", "kilograms"), [("", "lb", 0.45359237), ("thirteen_pins", "kg", 1.0)]
)
def test_each_size_that_is_wired_has_its_weight(build: str, unit: str, kilograms: float) -> None:
    view = view_of((BUILDS / build / "trailer.yaml").read_bytes())
    record = json.loads(json.dumps(view.record))
    wired = {wire["size"] for wire in (*record["wires"], *record["spares"])}
    pulls = record["crimp_pulls"]
    assert {pull["size"] for pull in pulls} == wired
    masses = [pull["hung_mass_kg"] for pull in pulls]
    assert masses == sorted(masses)
    told = table(page_of(view, "landings"), "What a crimp must hold for a minute")
    assert told == [[pull["size"], f"{pull['hung_mass_kg'] / kilograms:.0f} {unit}"] for pull in pulls]


def test_a_thicker_wire_holds_no_less_and_one_between_two_gauges_what_the_thinner_holds() -> None:
    areas = sorted([*map(awg_area_mm2, TRADE_GAUGES), *metric_areas_mm2()])
    known = [area for area in areas if area >= awg_area_mm2("18")]
    forces = [crimp_pull(area).value for area in known]
    assert forces == sorted(forces)
    assert crimp_pull(2.5).value == crimp_pull(awg_area_mm2("14")).value  # 2.08 mm², and 12 AWG is 3.31 mm²


def test_thinner_than_the_table_is_not_known() -> None:
    with pytest.raises(NoRow, match=r"0\.5 mm²"):
        crimp_pull(0.5)
