"""The pages that tell car from trailer, and the one for a garage, against the build and the figures."""

from __future__ import annotations

from pathlib import Path

import pytest
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.electrics.plug_states import STATES
from builder.pages.view import View
from builder.tables.tow_plugs import PlugContact

ROOT = Path(__file__).parents[2]
BUILDS = {
    "road lamps": ROOT / "example_build" / "road_lamps" / "trailer.yaml",
    "thirteen pins": ROOT / "example_build" / "thirteen_pins" / "trailer.yaml",
    "two plugs": ROOT / "example_build" / "two_plugs" / "trailer.yaml",
    "braked": ROOT / "example_build" / "braked" / "trailer.yaml",
    "brakes": ROOT / "tests" / "check_values" / "brakes_and_bulbs.yaml",
}


@pytest.fixture(scope="module", params=BUILDS)
def view(request: pytest.FixtureRequest) -> View:
    return view_of(BUILDS[request.param].read_bytes())


def test_each_lamp_contact_is_tested_with_all_its_lamps_and_no_other_contact_is(view: View) -> None:
    rows = table(page_of(view, "car-or-trailer"), "At the plug of the trailer")
    wanted = {}
    for lamp in view.trailer.road_lamps:
        for _, contact in lamp.contacts:
            wanted.setdefault(contact, []).append(lamp.name)
    assert {row[0]: row[2] for row in rows} == {
        contact: ", ".join(dict.fromkeys(names)) for contact, names in wanted.items()
    }


def test_no_supply_is_put_on_a_contact_that_leads_to_a_battery_or_to_brakes(view: View) -> None:
    page = page_of(view, "car-or-trailer")
    tested = {row[0] for row in table(page, "At the plug of the trailer")}
    plug = view.trailer.tow_plug
    assert plug is not None
    for contact in plug.pattern.contacts:
        if set(contact.functions) & {"battery", "switched supply", "brake"}:
            assert contact.pin not in tested
            assert f"{contact.pin} (" in words_of(page).split("Never put a supply on these contacts:")[1]


def test_the_fuse_of_the_test_lead_carries_every_lamp_circuit(view: View) -> None:
    """3 A is what the trade takes (quoted); more only where lamps take more."""
    text = words_of(page_of(view, "car-or-trailer"))
    amps = float(text.split("Use a 12 V battery with a ")[1].split(" A fuse")[0])
    most = max(one.amps["everything"] for one in view.figures.plug_states if one.estimate_a)
    assert amps > most
    assert amps == 3.0 or amps < 2.5 * most


def test_the_garage_reads_what_each_contact_carries_in_each_state(view: View) -> None:
    rows = {
        row[0].split(" (")[0]: row for row in table(page_of(view, "garage"), "The plug, contact by contact")
    }
    for one in view.figures.plug_states:
        printed = [float(cell.split()[0]) for cell in rows[one.pin][3:6]]
        assert printed == pytest.approx([one.amps[state] for state in STATES], rel=0.04, abs=0.02)


def test_a_ground_carries_what_comes_back_to_it(view: View) -> None:
    """Kirchhoff's current law at the plug: contacts by the return that the table of plugs gives each."""
    plug = view.trailer.tow_plug
    assert plug is not None
    states = {one.pin: one for one in view.figures.plug_states}
    for ground in (one for one in plug.pattern.contacts if one.is_ground and one.pin in states):
        for state in STATES:
            back = sum(
                one.amps[state]
                for pin, one in states.items()
                if _way_back(plug.pattern.contact(pin)) == ground.pin
            )
            assert states[ground.pin].amps[state] == pytest.approx(back)


def _way_back(contact: PlugContact) -> str | None:
    """Return the ground of a contact by the table; a reversing lamp on a 12S comes back by the lamps' earth, 12N 3."""
    if contact.pin == "12S 1":
        return "3"
    number = contact.return_contact
    return f"{contact.plug} {number}".strip() if number is not None else None


def test_brakes_stand_on_the_garage_page_only_where_the_trailer_has_them(view: View) -> None:
    text = words_of(page_of(view, "garage"))
    assert ("Breakaway battery" in text) == (view.trailer.brakes is not None)


FIVE = """\
format: 1
build: {name: Example, country: US}
tow plug: {pattern: 5-way flat, to front box: 6 ft}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 12 ft}
  backup lamp: {shows: reverse, side: middle, wire: 12 ft}
"""


def test_a_contact_that_can_be_for_brakes_is_not_fed_even_where_a_lamp_hangs_on_it() -> None:
    """Contact 5 of the 5-way flat is for brakes or for reversing (common practice)."""
    page = page_of(view_of(FIVE.encode()), "car-or-trailer")
    assert {row[0] for row in table(page, "At the plug of the trailer")} == {"2", "3", "4"}
    assert "5 (" in words_of(page).split("Never put a supply on these contacts:")[1]


def test_the_weight_and_the_brakes_of_this_trailer_stand_above_the_rules() -> None:
    """1450 lb by the example's file, in pounds since it is built in feet; 1 lb is 0.45359237 kg by definition."""
    data = (ROOT / "example_build" / "trailer.yaml").read_bytes()
    told = told_below(page_of(view_of(data), "garage"), "Must it have brakes?")
    assert "This trailer may weigh 1450 lb loaded" in told
    assert "The file names no brakes." in told
    metric = view_of(BUILDS["thirteen pins"].read_bytes())
    weight = metric.trailer.identity.gross_mass_kg
    told = told_below(page_of(metric, "garage"), "Must it have brakes?")
    assert (f"may weigh {weight:.0f} kg" if weight else "does not say what this trailer may weigh") in told
    braked = told_below(page_of(view_of(BUILDS["brakes"].read_bytes()), "garage"), "Must it have brakes?")
    assert "The file names electric brakes." in braked


def test_a_column_that_no_contact_fills_is_left_out(view: View) -> None:
    """The car's fuses are known for some plugs only."""
    plug = view.trailer.tow_plug
    assert plug is not None
    known = any(one.car_fuse_a for one in plug.pattern.contacts)
    page = page_of(view, "garage")
    assert ("Usual fuse in the car" in page.get_text()) == known
    assert ("The usual fuse in the car is common practice" in page.get_text()) == known
