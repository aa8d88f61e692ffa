"""The pages of road lamps: every wire of the plug with its colour and size, and odd lamps of this trailer alone."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.pages.view import View
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG

EXAMPLES = Path(__file__).parents[2] / "example_build"
NAMES = ("trailer.yaml", "road_lamps/trailer.yaml", "thirteen_pins/trailer.yaml")
WIRES = "Which wire goes where"
FILAMENT = (
    b"format: 1\nbuild: {name: Bean Row, country: US}\ntow plug: {pattern: 4-way flat, to front box: 7 ft}\n"
    b"road lamps:\n  lamps: filament\n  rear lamp: {shows: [tail, stop, turn], side: both, wire: 9 ft}\n"
)


def example(name: str) -> View:
    return view_of((EXAMPLES / name).read_bytes())


def legs(page: BeautifulSoup) -> dict[str, Tag]:
    found = {}
    for leg in page.select(".ways .leg"):
        link = leg.select_one("a[href^='wires.html#wire-']")
        assert link is not None
        assert link.get_text() not in found
        found[link.get_text()] = leg
    return found


@pytest.mark.parametrize("name", NAMES)
def test_every_wire_of_the_road_lamps_is_told_with_colour_size_and_end(name: str) -> None:
    view = example(name)
    shown = legs(page_of(view, "towing"))
    tow = {circuit.number for circuit in view.trailer.circuits if circuit.kind is CircuitKind.TOW}
    connectors = {part.name for part in view.trailer.parts.values() if part.kind == "connector"}
    for wire in view.trailer.wires:
        if wire.circuit not in tow:
            continue
        told = words_of(shown[wire.number])
        assert f"{wire.color} " in told
        assert str(view.figures.wires[wire.number].size) in told
        ends = [end for end in (wire.start, wire.end) if end.part != TOW_PLUG]
        assert any(f"to {end.part}" in told or end.part == "front box" for end in ends), told
        passed = [end for end in ends if end.part in connectors and f"to {end.part}" in told]
        assert all(f"way {end.pin.split()[1]}" in told for end in passed)


@pytest.mark.parametrize("name", NAMES)
def test_a_wire_stands_in_the_row_of_its_contact(name: str) -> None:
    view = example(name)
    for row in page_of(view, "towing").select("tr:has(.ways)"):
        head = row.select_one("th")
        assert head is not None
        number = re.match(r"\d+", words_of(head))
        assert number is not None
        first = row.select_one(".leg a")
        assert first is not None
        wire = view.wires[first.get_text()]
        assert (TOW_PLUG, number[0]) in [(end.part, end.pin) for end in (wire.start, wire.end)]


def test_a_contact_without_a_wire_has_no_row() -> None:
    view = example("thirteen_pins/trailer.yaml")
    assert [row[0].split()[0] for row in table(page_of(view, "towing"), WIRES)] == [
        "1", "2", "3", "4", "5", "6", "7", "9", "13",
    ]  # fmt: skip


def test_odd_lamps_speak_of_what_this_trailer_has() -> None:
    heads = {
        name: [words_of(tag) for tag in page_of(example(name), "odd-lamps").find_all("h2")] for name in NAMES
    }
    hinge, glow = "It changes when the hatch moves", "An LED lamp glows or flickers while it is off"
    assert hinge in heads["trailer.yaml"]
    assert hinge not in heads["road_lamps/trailer.yaml"]
    assert all(glow in one for one in heads.values())
    bulbs = page_of(view_of(FILAMENT), "odd-lamps")
    assert glow not in [words_of(tag) for tag in bulbs.find_all("h2")]
    assert "LED" not in words_of(bulbs)


def test_every_link_of_the_odd_lamps_leads_to_something_on_the_page() -> None:
    for name in NAMES:
        page = page_of(example(name), "odd-lamps")
        wanted = {str(a["href"])[1:] for a in page.select("a[href^='#']")}
        assert wanted <= {str(tag["id"]) for tag in page.select("[id]")}


def test_what_led_lamps_take_is_the_figure_of_their_circuit() -> None:
    view = example("road_lamps/trailer.yaml")
    rows = table(page_of(view, "odd-lamps"), "These contacts feed LED lamps alone")
    told = {row[0].split()[0]: row[2] for row in rows}
    assert told == {"2": "0.71 A", "3": "0.35 A", "4": "0.35 A"}


def test_without_a_battery_a_glow_that_stays_is_no_question() -> None:
    alone = told_below(
        page_of(example("road_lamps/trailer.yaml"), "odd-lamps"),
        "An LED lamp glows or flickers while it is off",
    )
    assert "nothing else feeds the road lamps" in alone
    assert "battery" not in alone


def test_a_trailer_without_fuses_assumes_nothing_of_them() -> None:
    told = words_of(page_of(example("road_lamps/trailer.yaml"), "assumed"))
    assert "smallest fuse" not in told
    assert "drop allowed at a switch" not in told
    assert "smallest fuse" in words_of(page_of(example("trailer.yaml"), "assumed"))
