"""Where two plugs stand side by side, every page says of each contact which plug it is on, and asks for both plugs."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.pages.manual import content_number, manual_source
from builder.pages.page_stops import guides_page
from builder.pages.templates import render
from builder.pages.verdict import judge_build
from builder.pages.view import View
from builder.trailer.model import TOW_PLUG

ROOT = Path(__file__).parents[2]
DATA = (ROOT / "example_build" / "two_plugs" / "trailer.yaml").read_bytes()
ONE_PLUG = (ROOT / "example_build" / "thirteen_pins" / "trailer.yaml").read_bytes()
NAKED = re.compile(r"\bcontacts? \d+(?![\dNS])[^.]{0,30}|\btow plug,? \d+ \(")
"""A contact by its number alone, without the short name of its plug."""


@pytest.fixture(scope="module")
def view() -> View:
    return view_of(DATA)


def _everything(data: bytes) -> dict[str, str]:
    judged = judge_build(data, "trailer.yaml").judged
    assert judged is not None
    files = manual_source(judged, content_number(data), "workshop").files
    shown = {path: str(text) for path, text in files.items() if path.endswith((".md", ".svg"))}
    return {path: words_of(BeautifulSoup(text, "html.parser")) for path, text in shown.items()}


def test_no_page_and_no_drawing_names_a_contact_without_its_plug() -> None:
    everything = _everything(DATA)
    assert [found for text in everything.values() for found in NAKED.findall(text)] == []
    named = set(re.findall(r"12[NS] \d", " ".join(everything.values())))
    assert named >= {f"12N {number}" for number in range(1, 8)}


def test_a_single_plug_has_plain_numbers() -> None:
    text = " ".join(_everything(ONE_PLUG).values())
    assert NAKED.search(text)
    assert not re.search(r"12N \d", text)


@pytest.mark.parametrize(
    ("page", "caption"),
    [
        ("towing", "Contacts of the 7-pin 12N and 12S plug"),
        ("garage", "The plug, contact by contact"),
        ("car-or-trailer", "At the socket of the car"),
        ("car-or-trailer", "At the plug of the trailer"),
        ("odd-lamps", "These contacts feed LED lamps alone"),
        ("wires", "Contacts of the 7-pin 12N and 12S plug"),
    ],
)
def test_every_row_of_a_contact_names_its_plug(view: View, page: str, caption: str) -> None:
    rows = table(page_of(view, page), caption)
    assert rows
    assert all(re.match(r"12[NS] \d", row[0]) for row in rows)


def test_the_reversing_lamp_of_the_second_plug_comes_back_by_the_earth_of_the_first(view: View) -> None:
    rows = table(page_of(view, "car-or-trailer"), "At the plug of the trailer")
    (row,) = (row for row in rows if row[0] == "12S 1")
    assert row[1] == "contact 12N 3 (31)"


def test_the_second_plug_stands_among_what_corrodes_with_the_lamps_that_hang_on_it(view: View) -> None:
    rows = table(page_of(view, "odd-lamps"), "Contacts to look at, in this order")
    plug = view.trailer.tow_plug
    assert plug is not None
    assert plug.second is not None
    on_second = {
        lamp.name for lamp in view.trailer.road_lamps for _, at in lamp.contacts if at.startswith("12S")
    }
    told = {row[0]: row[1:] for row in rows}
    assert told["tow plug 12N"] == ["all road lamps", plug.where]
    assert told["tow plug 12S"][1] == plug.second.where
    assert {name.split(" (")[0] for name in told["tow plug 12S"][0].split(", ")} == on_second


def test_a_plug_that_no_lamp_hangs_on_is_not_among_them() -> None:
    lamp = b"shows: [tail, stop, turn, reverse]"
    shines = b"amber, reverse: white}"
    assert lamp in DATA
    assert shines in DATA
    data = DATA.replace(lamp, b"shows: [tail, stop, turn]").replace(shines, b"amber}")
    rows = table(page_of(view_of(data), "odd-lamps"), "Contacts to look at, in this order")
    assert [row[0] for row in rows] == ["tow plug 12N"]


def test_whoever_plugs_in_is_told_of_both(view: View) -> None:
    assert "push both plugs in" in told_below(page_of(view, "towing"), "Hitching up")
    assert "Push both plugs into the car: 12N, 12S." in words_of(page_of(view, "battery"))
    single = view_of(ONE_PLUG)
    assert "both plugs" not in told_below(page_of(single, "towing"), "Hitching up")
    assert "both plugs" not in words_of(page_of(single, "battery"))


def test_both_plugs_are_out_before_a_dead_test_and_both_go_in_for_a_charge(view: View) -> None:
    page = page_of(view, "tests")
    out = told_below(page, "First: take off every supply")
    assert "Pull both plugs out of the car: 12N, 12S." in out
    assert "the tow plug" not in out.lower()
    text = words_of(page)
    assert "Put both plugs into the car (12N, 12S), and let its engine run." in text
    assert "Stop the engine, and pull both plugs out of the car: 12N, 12S." in text
    assert "at the car's own sockets, with its engine running, no plug in them yet" in text
    single = words_of(page_of(view_of(ONE_PLUG), "tests"))
    assert "Pull the tow plug out of the car." in single
    assert "both plugs" not in single


def test_the_sheet_of_wires_and_the_model_name_the_same_contacts(view: View) -> None:
    plug = view.trailer.tow_plug
    assert plug is not None
    said = {row[0] for row in table(page_of(view, "wires"), "Contacts of the 7-pin 12N and 12S plug")}
    assert said == {plug.said(one.pin) for one in view.figures.plug}
    pins = {end.pin for wire in view.trailer.wires for end in (wire.start, wire.end) if end.part == TOW_PLUG}
    assert "3" in pins, "the record keeps the number that is moulded on the first plug"


def test_a_guide_tells_where_the_one_plug_is_that_its_contact_is_on(view: View) -> None:
    plug = view.trailer.tow_plug
    assert plug is not None
    assert plug.second is not None
    template, data = guides_page(view, "stops-12-road-lamps-reversing-lamp")
    said = words_of(BeautifulSoup(render(f"pages/{template}.md.jinja", "en", data), "html.parser"))
    assert f"Tow plug, contact 12S 1 (reversing lamp): {plug.second.where}." in said
    assert f"They are here: {plug.kept}." in said
    assert f"It is here: {plug.kept}" not in said
