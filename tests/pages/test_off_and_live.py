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
ROAD_ONLY = """\
format: 1
build: {name: Gravel Kite, country: US}
tow plug: {pattern: 4-way flat, to front box: 6 ft}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft}
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


def test_without_a_switch_one_rule_stands_wherever_all_is_switched_off() -> None:
    text = BUILD.format(line="main fuse: 5 in, front box: 2 ft", start="battery", end="battery")
    start = page(text)
    first = [item.get_text(" ", strip=True) for item in start.select(".off-list .steps li")]
    # the module is covered before the battery is parted from it, and the caution stands where the hand goes
    assert first[0].startswith("Cover the solar module")
    assert first[1].startswith("Take all wires off the battery's minus post")
    assert "Let no tool touch both posts" in first[1]
    assert "The two posts of the battery" in listed(start, "stays-live")
    for name in ("index", "fuses", "battery"):
        told = page(text, name).get_text(" ", strip=True)
        assert "Take all wires off the battery's minus post" in told, name
        assert "main fuse out of its holder" not in told, name


def test_a_new_fuse_behind_the_switch_sends_nobody_onto_the_roof() -> None:
    text = BUILD.format(line=SWITCHED, start="main fuse", end="battery")
    told = page(text, "fuses").select(".steps li")[0].get_text(" ", strip=True)
    assert "Turn the isolating switch to OFF." in told
    assert "Cover" not in told
    behind = BUILD.format(line=SWITCHED, start="main fuse", end="front box")
    told = page(behind, "fuses").select(".steps li")[0].get_text(" ", strip=True)
    assert "Cover the solar module" in told
    assert "Do not climb" in told


def test_road_lamps_alone_are_dead_once_the_plug_is_out_and_the_card_says_to_pull_it() -> None:
    start = page(ROAD_ONLY)
    assert "All road lamps" in listed(start, "goes-dead")
    assert listed(start, "stays-live") == "nothing"
    card = start.select_one("#card")
    assert card is not None
    assert "Stop the engine. Pull the tow plug out of the car" in card.get_text(" ", strip=True)
    hot = page(ROAD_ONLY, "stops").get_text(" ", strip=True)
    assert "pull the tow plug out of the car at once" in hot


@pytest.mark.parametrize(("end", "named"), [("battery", True), ("front box", False)])
def test_a_charging_wire_is_live_where_it_meets_the_battery(end: str, named: bool) -> None:
    text = listed(page(BUILD.format(line=SWITCHED, start="main fuse", end=end)), "stays-live")
    assert ("at their battery end: sun" in text) is named


def test_the_card_is_a_thumb_away_and_says_where_the_power_goes_off() -> None:
    start = page(BUILD.format(line=SWITCHED, start="main fuse", end="battery"))
    assert start.select_one('a[href="#card"]') is not None
    card = start.select_one("#card")
    assert card is not None
    assert "Turn the isolating switch to OFF." in card.get_text(" ", strip=True)


def test_a_fuse_is_found_by_its_own_rating_alone() -> None:
    found = page(BUILD.format(line=SWITCHED, start="main fuse", end="battery"), "find")
    row = found.select_one("#part-main-fuse")
    assert row is not None
    assert len(row.select(".fuse")) == 1


@pytest.mark.parametrize("name", ["battery", "front box", "ground bar"])
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


def test_the_card_tells_a_chirp_from_a_loud_alarm_and_leaves_a_switch_beside_the_smoke() -> None:
    start = page(BUILD.format(line=SWITCHED, start="main fuse", end="battery"))
    card = start.select_one("#card")
    assert card is not None
    told = card.get_text(" ", strip=True)
    assert told.index("A steady or loud alarm: everybody out.") < told.index("One short chirp now and then")
    assert "smoke or the hot battery is near it, leave it" in told
