"""The printed test sheet in the order of the work: what is joined, mated and filled at each part of it."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from owner_pages import page_of, table, told_below, view_of, words_of

BUILDS = Path(__file__).parents[2] / "example_build"
BARE = "Each wire by itself, no part joined"
SHORTS = "Feed against return, before any supply is joined"


@pytest.fixture(scope="module")
def sheet() -> BeautifulSoup:
    return page_of(view_of((BUILDS / "trailer.yaml").read_bytes()), "tests")


@pytest.fixture(scope="module")
def text(sheet: BeautifulSoup) -> str:
    return words_of(sheet)


def test_bare_wires_come_before_joined_parts_and_those_before_the_battery(sheet: BeautifulSoup) -> None:
    heads = [words_of(tag) for tag in sheet.find_all("h2")]
    order = ["Each wire, before the walls are closed", BARE, SHORTS, "The battery is joined", "Each circuit"]
    assert [head for head in heads if head in order] == order


def test_each_row_of_bare_wires_is_ticked_with_open_walls_and_with_the_skins_on(sheet: BeautifulSoup) -> None:
    rows = {row[1]: row for row in table(sheet, BARE)}
    assert "1B: left step lamp +" in rows["step lights"][2]
    assert "9B: hatch plug, way 1" in rows["hatch light"][2]
    assert rows["spare"][2] == "S1: front box"
    assert "Open walls Skins on" in words_of(sheet.select_one(f'[aria-label="{BARE}"] thead'))
    assert "Clip black to this: ground bar" in told_below(sheet, BARE)
    assert "every other bare end beside it" in told_below(sheet, BARE)


def test_all_is_joined_mated_and_set_on_before_feed_is_read_against_return(sheet: BeautifulSoup) -> None:
    first, *rows = table(sheet, SHORTS)
    assert first[1].startswith("Mount and join all parts.")
    assert "Put both halves together: hatch plug." in first[1]
    assert "Set on: cool box breaker." in first[1]
    (steps,) = (row for row in rows if "fuse way 1," in row[2])
    told = "then work one after the other, and read each time: left step switch, right step switch, kitchen step switch"
    assert told in steps[3]
    assert "behind them: left step lamp, right step lamp" in steps[3]


def test_the_leads_own_reading_is_taken_off_only_above_what_the_limits_hold(text: str) -> None:
    assert "Up to 0.1 Ω take nothing off" in text
    assert "take off what is above 0.1 Ω" in text
    assert "both crimps hold" not in text
    assert "A bare end gets its crimp when its part is joined" in text


def test_every_holder_that_is_live_is_named(text: str) -> None:
    _, _, told = text.partition("these holders are live, whatever is switched off: ")
    told, _, _ = told.partition(" A tool")
    assert told.startswith("main fuse, gas alarm fuse, meter fuse, battery fuse, solar fuse.")
    assert "While isolating switch is on, so is: converter fuse." in told


def test_no_holder_is_touched_once_something_charges(sheet: BeautifulSoup) -> None:
    rows = [row[1] for row in table(sheet, "Charging")]
    (filled,) = (n for n, words in enumerate(rows) if "Put in:" in words)
    put = rows[filled]
    assert put.index("off the minus stud") < put.index("Put in:") < put.index("back on the minus stud")
    assert "converter fuse" in put
    assert "live:" not in put
    assert filled < min(n for n, words in enumerate(rows) if words.startswith("Current into the battery"))
    assert not [row for row in table(sheet, "Last: all is put back") if "Put in" in row[1]]


def test_the_cars_own_socket_is_probed_and_not_the_plug(sheet: BeautifulSoup) -> None:
    (row,) = (row for row in table(sheet, "Charging") if "at the car's own socket" in row[1])
    assert row[2] == "red: the car's socket 4 (A) black: the car's socket 1 (GD)"
    assert "Some cars switch their socket on only when they see a trailer." in row[1]
    assert "as the plug's do in a mirror" in told_below(sheet, "Charging")


def test_a_pump_an_alarm_and_a_converter_are_told_of_at_their_lines(sheet: BeautifulSoup) -> None:
    rows = [words_of(row) for row in sheet.select("tr")]
    (water,) = (n for n, row in enumerate(rows) if "fill the tank first" in row)
    assert "Put in: fuse way 6." in rows[water]
    (alarm,) = (row for row in rows if "Press the test button of gas alarm" in row)
    assert "it sounds" in alarm
    (gives,) = (n for n, row in enumerate(rows) if "Voltage that phone converter gives" in row)
    assert "about 5 V" in rows[gives]
    assert "with 5 V at the supply" in rows[gives + 1]


@pytest.mark.parametrize("name", ["smallest", "braked", "thirteen_pins", "two_plugs", "road_lamps"])
def test_other_trailers_have_the_same_order(name: str) -> None:
    page = page_of(view_of((BUILDS / name / "trailer.yaml").read_bytes()), "tests")
    heads = [words_of(tag) for tag in page.find_all("h2")]
    assert heads.index(BARE) < heads.index(SHORTS)
    assert table(page, SHORTS)[0][1].startswith("Mount and join all parts.")


def test_the_breakaways_own_battery_keeps_its_fuse_live() -> None:
    page = page_of(view_of((BUILDS / "braked" / "trailer.yaml").read_bytes()), "tests")
    rows = [words_of(row) for row in page.select("tr") if "breakaway fuse" in words_of(row)]
    touched = [row for row in rows if "Put in:" in row or "Take the fuse out" in row]
    assert len(touched) == 3
    assert all("live: breakaway fuse." in row for row in touched)
    # with its leads off, the ends that belong on it are probed
    (row,) = (row for row in rows if "Resistance behind breakaway fuse" in row)
    assert "breakaway battery −, the wire that belongs on it" in row
