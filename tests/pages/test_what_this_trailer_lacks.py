"""Pages do not speak of what a trailer lacks: mains, gas, walls, a lamp that is not there."""

from __future__ import annotations

from pathlib import Path

import pytest
from owner_pages import page_of, table, view_of, words_of

from builder.pages.page_start import goes_dead
from builder.pages.page_stops import guides_page
from builder.pages.templates import render
from builder.pages.view import View
from builder.trailer.circuits import CircuitKind

BUILDS = Path(__file__).parents[2] / "example_build"


@pytest.fixture(scope="module")
def whole() -> View:
    return view_of((BUILDS / "trailer.yaml").read_bytes())


@pytest.fixture(scope="module")
def lamps() -> View:
    return view_of((BUILDS / "road_lamps" / "trailer.yaml").read_bytes())


@pytest.fixture(scope="module")
def pins() -> View:
    return view_of((BUILDS / "thirteen_pins" / "trailer.yaml").read_bytes())


def test_only_what_charges_is_looked_at(whole: View, pins: View) -> None:
    """The whole trailer has a shore lead; the one with thirteen pins has the car and the sun."""
    assert "is the shore lead in at both ends" in words_of(page_of(whole, "stops"))
    text = words_of(page_of(pins, "stops"))
    assert "is there sun, does the engine run?" in text
    assert "shore lead" not in text


def test_a_contact_tells_what_this_trailer_has_on_it(pins: View) -> None:
    """Contact 5 of ISO 11446 is for right tail, markers and plate; here the plate lamp hangs on contact 7."""
    for page in ("towing", "garage"):
        caption = "The plug, contact by contact" if page == "garage" else "Contacts of the 13-pin plug"
        row = next(one for one in table(page_of(pins, page), caption) if one[0].split(" ")[0] == "5")
        here, _, also = row[1].partition("in the standard also:")
        assert "right tail lamp" in here
        assert "plate lamp" not in here
        assert "plate lamp" in also


def test_road_lamps_alone_have_no_gas_and_no_walls_and_the_plug_carries_most(lamps: View) -> None:
    stops = page_of(lamps, "stops")
    assert "gas" not in words_of(stops)
    carries = table(stops, "These carry most: a loose screw shows here first")
    assert carries[0][0].startswith("tow plug, contact ")
    assert "inside the walls" not in words_of(page_of(lamps, "adding"))
    care = words_of(page_of(lamps, "care"))
    assert "cap" not in care.replace("capacity", "")
    assert "locked" not in care


def test_mains_is_warned_of_where_the_shore_lead_charges_alone(whole: View) -> None:
    """The sun's circuit is worked on with its own wires only."""
    names = {}
    for path, guides in whole.guide_pages.items():
        if guides and guides[0].circuit is not None and any(one.symptom == "charge" for one in guides):
            template, data = guides_page(whole, path)
            name = whole.trailer.circuit(guides[0].circuit).name
            names[name] = "Mains can kill" in render(f"pages/{template}.md.jinja", "en", data)
    assert names["solar"] is False
    assert names["shore charging"] is True


def test_a_part_that_waits_does_not_go_dead(whole: View) -> None:
    waiting = [part.name for part in whole.trailer.parts.values() if part.waiting]
    assert waiting
    told = ", ".join(line["name"] for line in goes_dead(whole.trailer))
    assert [name for name in waiting if name in told] == []


def test_road_lamps_have_no_switch_of_the_trailer_to_turn_off(whole: View) -> None:
    told = {True: 0, False: 0}
    for path, guides in whole.guide_pages.items():
        if not guides or guides[0].circuit is None or not any(one.symptom == "fuse" for one in guides):
            continue
        template, data = guides_page(whole, path)
        road = whole.trailer.circuit(guides[0].circuit).kind is CircuitKind.TOW
        text = render(f"pages/{template}.md.jinja", "en", data)
        assert ("Turn all switches of this circuit off" in text) is not road, path
        told[road] += 1
    assert told[True] > 1
    assert told[False] > 1
