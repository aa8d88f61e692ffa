"""Pages of a trailer with two plugs, and of one whose brakes have two supplies, against the build and its figures."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.electrics.plug_states import STATES
from builder.pages.page_circuit import circuit_page
from builder.pages.templates import render
from builder.pages.view import View

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def plugs() -> View:
    return view_of((ROOT / "example_build" / "two_plugs" / "trailer.yaml").read_bytes())


@pytest.fixture(scope="module")
def braked() -> View:
    return view_of((ROOT / "example_build" / "braked" / "trailer.yaml").read_bytes())


def test_every_contact_of_both_plugs_has_a_row_with_the_wires_that_land_on_it(plugs: View) -> None:
    rows = table(page_of(plugs, "towing"), "Contacts of the 7-pin 12N and 12S plug")
    landed: dict[str, set[str]] = {}
    for wire in plugs.trailer.wires:
        for end in (wire.start, wire.end):
            if end.part == "tow plug":
                pin = end.pin if " " in end.pin else f"12N {end.pin}"  # beside a second plug both are named
                landed.setdefault(pin, set()).add(wire.number)
    told = {re.sub(r" \(.*\)", "", row[0]): set(re.findall(r"\b\d+[A-Z]\b", row[2])) for row in rows}
    assert len(rows) == 14
    assert {pin: wires for pin, wires in told.items() if wires} == landed


def test_both_plugs_are_named_where_one_is_pulled_out(plugs: View) -> None:
    for name in ("index", "towing"):
        said = words_of(page_of(plugs, name))
        assert "both plugs out" in said.replace("pull both plugs out", "both plugs out")
        assert "on the drawbar, left hook" in said
        assert "on the drawbar, right hook" in said
    assert "memory of common use" in words_of(page_of(plugs, "towing"))


def test_a_car_with_the_first_socket_alone_lights_the_lamps_and_brings_no_supply(plugs: View) -> None:
    rows = {row[0]: row for row in table(page_of(plugs, "garage"), "What works at another socket")}
    assert "no adapter" in rows["7-pin 12N"][3]
    assert "reversing lamp" in rows["7-pin 12N"][2]
    assert "power from the car" in rows["7-pin 12N"][2]
    assert rows["13-pin"][2] == "nothing"


@pytest.mark.parametrize("name", ["plugs", "braked"])
def test_the_garage_reads_what_comes_back_by_each_ground(name: str, request: pytest.FixtureRequest) -> None:
    view: View = request.getfixturevalue(name)
    rows = {row[0]: row for row in table(page_of(view, "garage"), "What comes back by the ground")}
    first = "12N " if name == "plugs" else ""
    said = {str(number): f"{first}{number}" for number in range(1, 14)}
    grounds = view.figures.plug_grounds
    assert list(rows) == [said.get(ground.pin, ground.pin) for ground in grounds]
    for ground in grounds:
        row = rows[said.get(ground.pin, ground.pin)]
        assert row[1] == ", ".join(said.get(pin, pin) for pin in ground.serves)
        for cell, state in zip(row[2:5], STATES, strict=True):
            shown = float(re.match(r"[\d.]+", cell).group())  # type: ignore[union-attr]
            assert shown == pytest.approx(ground.amps[state], rel=0.06, abs=0.05)


@pytest.mark.parametrize("circuit", ["brakes", "breakaway"])
def test_a_circuit_of_the_brakes_warns_and_names_the_other(braked: View, circuit: str) -> None:
    made = next(one for one in braked.trailer.circuits if one.name == circuit)
    data = circuit_page(braked, made) | {"drawing": {"problem": "not drawn"}}
    said = words_of(BeautifulSoup(render("pages/circuit.md.jinja", "en", data), "html.parser"))
    other = {"brakes": "breakaway", "breakaway": "brakes"}[circuit]
    assert "pull the tow plug out of the car before you pull the pin" in said.casefold()
    assert "people who are trained for it" in said
    assert re.search(rf"(the car feeds them|feeds these brakes): {other}", said)


def test_start_says_that_the_breakaway_stays_live(braked: View) -> None:
    assert "breakaway battery up to its switch" in told_below(
        page_of(braked, "index"), "Switch everything off"
    )


def test_no_page_of_a_trailer_without_them_speaks_of_either() -> None:
    view = view_of((ROOT / "example_build" / "road_lamps" / "trailer.yaml").read_bytes())
    for name in ("index", "towing"):
        said = words_of(page_of(view, name)).casefold()
        assert "breakaway" not in said
        assert "both plugs" not in said
