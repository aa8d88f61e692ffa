"""What "everything off" turns off and what stays live all the same: every order in which a line can be built."""

from __future__ import annotations

import pytest
from bs4 import BeautifulSoup

from builder.pages.manual import manual_source
from builder.pages.page_start import off_steps
from builder.pages.verdict import judge_build

BUILD = """\
format: 1
build: {{name: Test Row, country: US}}
battery: {{chemistry: agm, capacity: 100 Ah, path: [{line}]}}
front box: {{fuse ways: 4}}
wire: {{on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG, 8 AWG]}}
parts:
  main fuse: {{kind: fuse}}
  lamp: {{kind: lamp, draws: 3 W}}
  gas alarm: {{kind: alarm, draws: 80 mA}}
  solar module: {{kind: solar module, gives: 50 W}}
  charge controller: {{kind: charge controller, gives: 4 A}}
circuits:
  lamp: {{path: [lamp: 5 ft]}}
  watch: {{from: {start}, fuse: 2 A, path: [gas alarm: 8 ft]}}
  sun: {{from: solar module, path: [charge controller: 6 ft, sun fuse: 3 ft, {end}: 4 in]}}
"""
SWITCHED = "main fuse: 5 in, isolating switch: 1 ft, front box: 2 ft"
CASES = {
    "alarm before the switch": (SWITCHED, "main fuse", "battery", True),
    "alarm behind the switch": (SWITCHED, "isolating switch", "battery", False),
    "switch first, alarm at the fuse behind it": (
        "isolating switch: 5 in, main fuse: 3 in, front box: 2 ft",
        "main fuse",
        "battery",
        False,
    ),
}


def page(text: str, name: str = "index") -> BeautifulSoup:
    verdict = judge_build(text.encode(), "trailer.yaml")
    assert verdict.judged is not None, verdict.problems
    body = manual_source(verdict.judged, "2222-2222", "owner").files[f"{name}.md"]
    assert isinstance(body, str)
    return BeautifulSoup(body, "html.parser")


def listed(start: BeautifulSoup, kind: str) -> str:
    box = start.select_one(f".{kind}")
    assert box is not None
    return " | ".join(item.get_text(" ", strip=True) for item in box.select("li"))


@pytest.mark.parametrize("case", CASES)
def test_what_starts_before_the_isolating_switch_stays_live(case: str) -> None:
    line, start, end, live = CASES[case]
    text = listed(page(BUILD.format(line=line, start=start, end=end)), "stays-live")
    assert ("gas alarm" in text) is live


def test_the_cable_up_to_the_isolating_switch_stays_live() -> None:
    text = listed(page(BUILD.format(line=SWITCHED, start="main fuse", end="battery")), "stays-live")
    assert "through the main fuse up to the isolating switch" in text


def test_without_a_switch_the_main_fuse_comes_out_and_only_the_cable_to_it_stays_live() -> None:
    text = listed(
        page(BUILD.format(line="main fuse: 5 in, front box: 2 ft", start="battery", end="battery")),
        "stays-live",
    )
    assert "The cable from the battery to its main fuse" in text


@pytest.mark.parametrize(("end", "named"), [("battery", True), ("front box", False)])
def test_a_charging_wire_is_live_where_it_meets_the_battery(end: str, named: bool) -> None:
    text = listed(page(BUILD.format(line=SWITCHED, start="main fuse", end=end)), "stays-live")
    assert ("at their battery end: sun" in text) is named


def test_the_card_is_a_thumb_away_and_says_where_the_power_goes_off() -> None:
    start = page(BUILD.format(line=SWITCHED, start="main fuse", end="battery"))
    assert start.select_one('a[href="#card"]') is not None
    card = start.select_one("#card")
    assert card is not None
    assert "The isolating switch: OFF." in card.get_text(" ", strip=True)


def test_a_fuse_is_found_by_its_own_rating_alone() -> None:
    found = page(BUILD.format(line=SWITCHED, start="main fuse", end="battery"), "find")
    row = found.select_one("#part-main-fuse")
    assert row is not None
    assert len(row.select(".fuse")) == 1


@pytest.mark.parametrize("name", ["battery", "front box"])
def test_battery_and_front_box_are_found(name: str) -> None:
    found = page(BUILD.format(line=SWITCHED, start="main fuse", end="battery"), "find")
    assert name in [head.get_text(strip=True) for head in found.select("tbody th")]


@pytest.mark.parametrize(("end", "first"), [("battery", "isolating switch"), ("front box", "solar module")])
def test_a_module_behind_the_switch_is_covered_before_the_battery_is_parted_from_it(
    end: str, first: str
) -> None:
    verdict = judge_build(BUILD.format(line=SWITCHED, start="main fuse", end=end).encode(), "trailer.yaml")
    assert verdict.judged is not None, verdict.problems
    kinds = [step["kind"] for step in off_steps(verdict.judged.trailer)]
    assert kinds[0] == first
    assert sorted(kinds) == ["isolating switch", "solar module"]
