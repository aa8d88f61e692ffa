"""The test sheet tells what it needs, which holders are live, and which switch to work where none shows its off."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from owner_pages import page_of, table, told_below, view_of, words_of

BUILDS = Path(__file__).parents[2] / "example_build"
TWO_WAY = b"""format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, path: [main fuse: 5 in, cut: 1 ft, front box: 2 ft]}
front box: {fuse ways: 4}
parts:
  cut: {kind: isolating switch}
  door: {kind: two-way switch}
  bed: {kind: two-way switch}
  lamp: {kind: lamp, draws: 3 W}
  alarm: {kind: alarm}
circuits:
  light: {path: [door: 4 ft, bed: 6 ft, lamp: 2 ft]}
  gas: {from: main fuse, path: [alarm fuse: 6 in, alarm: 6 ft]}
"""


@pytest.fixture(scope="module")
def sheet() -> BeautifulSoup:
    return page_of(view_of(TWO_WAY), "tests")


def test_no_position_of_a_two_way_switch_is_off(sheet: BeautifulSoup) -> None:
    told = [words_of(row) for row in sheet.select("tr") if "work one of these once" in words_of(row)]
    assert len(told) == 1
    assert "Resistance behind fuse way 1" in told[0]
    assert told[0].count("if it reads, work one of these once, and read again: door, bed") == 1
    assert "Is a lamp on that these work? Work one of them once: door, bed." in words_of(sheet)


def test_holders_that_are_live_are_named_before_one_is_touched(sheet: BeautifulSoup) -> None:
    text = words_of(sheet)
    told = "these holders are live, whatever is switched off: main fuse, alarm fuse."
    assert told in text
    assert text.index(told) < text.index("Put in: main fuse.")
    # by a fuse of the box behind the isolating switch no such word
    rows = [words_of(row) for row in sheet.select("tr")]
    assert [row for row in rows if "live: " in row and "way" in row and "alarm fuse" not in row] == []
    assert any("Put in: alarm fuse. live: alarm fuse." in row for row in rows)


def test_what_is_put_back_last_is_a_short_list_without_columns_for_a_reading(sheet: BeautifulSoup) -> None:
    rows = table(sheet, "Last: all is put back")
    assert [len(row) for row in rows] == [4, 4]
    done = "Take the minus clamp off. Put in: fuse way 1; alarm fuse. Put the minus clamp back on."
    assert rows[0][1] == done
    assert rows[1][1].startswith("Look over all once more")


def test_what_the_sheet_needs_is_what_its_lines_need(sheet: BeautifulSoup) -> None:
    needs = told_below(sheet, "What this sheet needs")
    assert "10 A DC" in needs
    assert "puller" in needs
    for word in ("clamp meter", "stands for the car", "solar", "shore lead", "insulates"):
        assert word not in needs
    lamps = page_of(view_of((BUILDS / "road_lamps" / "trailer.yaml").read_bytes()), "tests")
    needs = told_below(lamps, "What this sheet needs")
    assert "stands for the car" in needs
    for word in ("10 A DC", "All fuses", "clamp meter", "bolts", "puller"):
        assert word not in needs
