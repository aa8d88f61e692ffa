"""What an owner reads of plugs that no standard has, and of contacts that cars wire for different things."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.pages.page_stops import guides_page
from builder.pages.templates import render
from builder.pages.view import View

ROOT = Path(__file__).parents[2] / "example_build"
LAMPS = """\
road lamps:
  lamps: KIND
  front marker: {shows: marker, side: both, wire: 5 ft}
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 13 ft}
  plate lamp: {shows: plate, wire: 13 ft}
"""
LOCK_OUT = """\
format: 1
build: {name: Tin Plover, country: US}
trailer: {length: 11 ft, width: 5 ft, gross weight: 1500 lb}
tow plug: {pattern: 5-way flat, to front box: 6 ft}
brakes: {kind: surge}
parts:
  lock-out valve: {kind: appliance, draws: 2 A, where: "on the coupling"}
circuits:
  lock-out: {from: tow plug reverse, path: [lock-out valve: 3 ft]}
""" + LAMPS.replace("KIND", "led")
BRAKED = """\
format: 1
build: {name: Quarry Finch, country: US}
trailer: {length: 13 ft, width: 5 ft 4 in, gross weight: 2600 lb}
battery: {chemistry: agm, capacity: 75 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6, fuses: blade}
tow plug: {pattern: 6-way round, to front box: 6 ft}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG, 8 AWG], sold as: single, feed: red, return: black}
brakes: {kind: electric, drum: 10 in, magnets: 2}
parts:
  left magnet: {kind: brake magnet}
  right magnet: {kind: brake magnet}
  brake splice: {kind: splice}
  car-side fuse: {kind: fuse, rating: 20 A}
  battery fuse: {kind: fuse, rating: 20 A}
circuits:
  charge: {from: tow plug battery, path: [car-side fuse: 1 ft, battery fuse: 7 ft, battery: 6 in]}
  brakes:
    from: tow plug brake
    path: [brake splice: 11 ft, left magnet: 4 ft]
    branches: [{from: brake splice, path: [right magnet: 4 ft]}]
""" + LAMPS.replace("KIND", "filament")
SWAPPED = "Cars do not have the same on every contact of such a socket."
BULBS = "Take the bulbs of these lamps out."


@cache
def built(text: str) -> View:
    return view_of(text.encode())


@cache
def example(name: str) -> View:
    return view_of((ROOT / name / "trailer.yaml").read_bytes())


def guides_of(view: View, path: str) -> BeautifulSoup:
    template, data = guides_page(view, path)
    return BeautifulSoup(render(f"pages/{template}.md.jinja", "en", data), "html.parser")


def steps_of(view: View, path: str, words: str) -> list[str]:
    return [t for one in guides_of(view, path).select(".guide-step") if words in (t := words_of(one))]


def test_what_hangs_on_the_reversing_contact_is_read_in_reverse_gear_with_no_engine_running() -> None:
    """That contact is live with the key on and the reverse gear in (common practice)."""
    view = built(LOCK_OUT)
    readings = steps_of(view, "stops-01-lock-out", "Measure the voltage.")
    assert readings
    for one in readings:
        assert "key on, engine off, parking brake set, reverse gear in" in one
    said = words_of(guides_of(view, "stops-01-lock-out"))
    assert "have it started" not in said
    assert "wheels chocked" in said


def test_a_contact_that_cars_wire_differently_is_measured_before_another_car_is_plugged_in() -> None:
    """On a 6-way round S and A change places, on a 5-way flat the fifth is for one thing or the other (practice)."""
    for name in ("towing", "garage"):
        said = words_of(page_of(built(BRAKED), name))
        assert SWAPPED in said
        assert (
            "Contact 5 is for this here: electric brakes. In some cars it is for power from the car." in said
        )
        assert (
            "Contact 6 is for this here: power from the car. In some cars it is for electric brakes." in said
        )
        said = words_of(page_of(built(LOCK_OUT), name))
        assert "Contact 5 is for this here: reversing lamp. In some cars it is for electric brakes." in said
        assert "takes the trailer's brakes away whenever the driver brakes" in said


@pytest.mark.parametrize("name", ["road_lamps", "thirteen_pins", "braked", "two_plugs"])
def test_where_the_plug_settles_every_contact_nothing_is_said_of_it(name: str) -> None:
    for page in ("towing", "garage"):
        assert SWAPPED not in words_of(page_of(example(name), page))


def test_a_garage_reads_a_contact_by_what_it_is_for_on_this_trailer() -> None:
    (row,) = table(page_of(built(LOCK_OUT), "garage"), "Measure these at the car's socket by themselves")
    assert row[:3] == ["5", "reversing lamp", "contact 1"]
    assert "reverse gear in" in row[3]
    assert "keep the plug out: electric brakes" in row[3]
    rows = table(page_of(built(BRAKED), "garage"), "Measure these at the car's socket by themselves")
    assert [row[0] for row in rows] == ["5 (S)", "6 (A)"]
    assert "a foot on the brake" in rows[0][3]
    assert "keep the plug out: power from the car" in rows[0][3]


def test_a_lamp_on_a_contact_that_may_be_for_brakes_is_measured_there_too() -> None:
    text = LOCK_OUT.replace(
        "circuits:\n  lock-out: {from: tow plug reverse, path: [lock-out valve: 3 ft]}\n", ""
    )
    text = text.replace('  lock-out valve: {kind: appliance, draws: 2 A, where: "on the coupling"}\n', "")
    text = text.replace("parts:\n", "") + "  backup lamp: {shows: reverse, side: middle, wire: 12 ft}\n"
    (row,) = table(page_of(built(text), "garage"), "Measure these at the car's socket by themselves")
    assert row[:2] == ["5", "reversing lamp"]


@pytest.mark.parametrize("text", [LOCK_OUT, BRAKED])
def test_no_standard_is_claimed_for_a_plug_that_has_none(text: str) -> None:
    for name in ("towing", "garage"):
        said = words_of(page_of(built(text), name))
        assert "as common practice has it" in said
        for words in ("by the standard", "in the standard", "of the standard"):
            assert words not in said
    assert "no standard for it is known here" in words_of(page_of(built(text), "towing"))


def test_who_wires_a_flat_plug_with_nothing_on_it_finds_its_contacts_by_a_car() -> None:
    said = words_of(page_of(built(LOCK_OUT), "towing"))
    assert "on the plug; letters" not in said
    assert "The numbers are those of this manual. Such a plug may have none on it." in said
    assert "its number or mark" not in said
    assert "one contact has 12 V with the car's lamps on" in told_below(
        page_of(built(LOCK_OUT), "towing"), "Test each core before you join it"
    )
    round_ = words_of(page_of(built(BRAKED), "towing"))
    assert "Go by its number or mark" in round_
    assert "The letters are the marks on the plug. The numbers are those of this manual." in round_


def test_brakes_that_the_coupling_works_are_tried_by_no_hand_control() -> None:
    told = told_below(page_of(built(LOCK_OUT), "stops"), "Do not drive before all this works")
    assert "hand control" not in told
    assert "as the paper of the coupling says" in told
    assert "hand control" in told_below(page_of(built(BRAKED), "stops"), "Do not drive before all this works")
    for name in ("towing", "garage"):
        assert "brake controller tells the fuse" not in words_of(page_of(built(LOCK_OUT), name))


def test_what_stays_live_with_the_key_off_is_said_of_supplies_alone() -> None:
    live = "stays live with the key off"
    told = told_below(page_of(built(BRAKED), "towing"), "Power from the car")
    assert "In some cars contact 6 is dead" in told
    assert "Contact 5 gives something only in a car that has a brake controller." in told
    assert live in told
    assert live not in told_below(page_of(built(LOCK_OUT), "towing"), "Power from the car")
    two = told_below(page_of(example("two_plugs"), "towing"), "Power from the car")
    assert "In some cars these contacts are dead, or have no fuse yet: 12S 4, 12S 6." in two


def test_a_fuse_of_the_car_that_no_guide_is_for_has_a_way_out_as_well() -> None:
    told = told_below(page_of(built(LOCK_OUT), "stops"), "A fuse opens again")
    assert "who knows 12 volt wiring: lock-out." in told
    assert "charge, brakes." in told_below(page_of(built(BRAKED), "stops"), "A fuse opens again")
    assert "the fuse in the car opens again" not in words_of(page_of(example("road_lamps"), "stops"))


def test_a_breakaway_that_nobody_wrote_down_is_not_spoken_of_as_if_it_were_there() -> None:
    """Two magnets of 3.2 ohm take 7.5 A at 12 V: 1.9 Ah in a quarter of an hour."""
    told = told_below(page_of(built(BRAKED), "garage"), "Brakes")
    assert "none was written down; its battery would give 1.9 Ah in 15 min" in told
    assert "The breakaway battery needs charging" not in told
    assert "ask the authority" in told
    there = told_below(page_of(example("braked"), "garage"), "Brakes")
    assert "The breakaway battery needs charging" in there
    assert "none was written down" not in there


def test_bulbs_come_out_before_a_short_is_looked_for_and_led_lamps_stay() -> None:
    """A cold filament has about a tenth of its resistance, and several side by side read like a short (practice)."""
    page = next(path for path in built(BRAKED).guide_pages if "tail" in path)
    (step,) = steps_of(built(BRAKED), page, BULBS)
    assert "Take off all that feeds this circuit." in step
    (end,) = steps_of(built(BRAKED), page, "No short now.")
    assert "Then put the bulbs back." in end
    for path in example("road_lamps").guide_pages:
        assert BULBS not in words_of(guides_of(example("road_lamps"), path))


def test_a_contact_of_a_connector_carries_what_all_wires_behind_it_bring_back() -> None:
    """At the hatch plug four lamps come back over one way: 1.1 + 0.5 + 1.1 + 0.15 A, as in the wire before it."""
    (guide,) = (one for one in example("thirteen_pins").guides if one.id == "wrong")
    loads = [
        step.load_a
        for step in guide.steps
        if step.red is not None and step.red.terminal.pin == "way 4 out" and step.load_a is not None
    ]
    assert len(loads) == 2
    assert loads == pytest.approx([2.85, 2.85])


def test_the_guide_for_wrong_lamps_says_at_most_where_the_fog_lamp_may_be_off() -> None:
    drops = steps_of(example("thirteen_pins"), "stops-wrong", "Measure what is lost on the way.")
    assert drops
    for one in drops:
        assert "flow here, with everything on. With less on, the reading is smaller." in one
    said = words_of(guides_of(example("thirteen_pins"), "stops-wrong"))
    assert "Only the lamps of the table light" in said
    assert "Just the right lamps" not in said


def test_a_british_trailer_without_brakes_is_held_against_the_weight_of_the_car() -> None:
    rows = table(page_of(example("two_plugs"), "garage"), "Examples of brake rules")
    (britain,) = (row for row in rows if row[0] == "Great Britain")
    assert "half the kerb weight of the car" in britain[1]
    assert britain[2] == "from memory: look it up"
    german = table(page_of(example("thirteen_pins"), "garage"), "Examples of brake rules")
    assert "Great Britain" not in [row[0] for row in german]
