"""What guides call road lamps: a lamp with one function by its name, its functions together, all of them in a word."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from owner_pages import view_of, words_of

from builder.guide.model import Thing
from builder.pages.guide_names import driver_turns_on, thing_data, things_data
from builder.pages.manual import manual_source_of_file
from builder.pages.view import View

EXAMPLE = Path(__file__).parents[2] / "example_build" / "road_lamps" / "trailer.yaml"


def view() -> View:
    return view_of(EXAMPLE.read_bytes())


def of(one: View, part: str) -> list[Thing]:
    return [thing for thing in one.road_things if thing.part == part]


def test_a_lamp_with_one_function_goes_by_its_name() -> None:
    one = view()
    (plate,) = of(one, "plate lamp")
    assert plate.what == "plate"
    assert thing_data(one, plate) == {"part": "plate lamp", "what": "", "by": ""}
    tail, stop = of(one, "rear lamp left")
    assert thing_data(one, tail) == {"part": "rear lamp left", "what": tail.what, "by": ""}
    assert tail.what != stop.what


def test_all_functions_of_a_lamp_are_the_lamp() -> None:
    one = view()
    both, (tail, _) = of(one, "rear lamp left"), of(one, "rear lamp right")
    names = things_data(one, [*both, tail])["names"]
    assert names == [
        {"part": "rear lamp left", "what": "", "by": ""},
        {"part": "rear lamp right", "what": tail.what, "by": ""},
    ]


def test_all_road_lamps_and_all_the_others_are_said_in_a_word() -> None:
    one = view()
    mine, others = one.road_things[:1], one.road_things[1:]
    assert things_data(one, one.road_things)["every"] == "all"
    assert things_data(one, others, mine)["every"] == "other"
    assert things_data(one, others)["every"] == ""
    assert things_data(one, others[1:], mine)["every"] == ""


def test_a_few_lamps_are_named_even_where_they_are_all() -> None:
    text = EXAMPLE.read_text(encoding="utf-8").partition("parts:")[0]
    one = view_of(f"{text}road lamps:\n  plate lamp: {{shows: plate, wire: 9 ft}}\n".encode())
    found = things_data(one, one.road_things)
    assert found["every"] == ""
    assert [name["part"] for name in found["names"]] == ["plate lamp"]


def test_what_is_no_road_lamp_keeps_the_rest_from_being_all() -> None:
    one = view_of((EXAMPLE.parents[1] / "trailer.yaml").read_bytes())
    assert things_data(one, [*one.road_things, Thing(1, "step lamp left")])["every"] == ""


DRIVER = {
    "tail": "key on, engine off, the car's lamps on",
    "marker": "key on, engine off, the car's lamps on",
    "plate": "key on, engine off, the car's lamps on",
    "front position": "key on, engine off, the car's lamps on",
    "stop": "key on, engine off, a foot on the brake",
    "fog": "key on, engine off, headlamps and rear fog lamp on",
    "reverse": "key on, engine off, parking brake set, reverse gear in",
    "left turn": "key on, engine off, left turn signal on",
    "right turn": "key on, engine off, right turn signal on",
}
"""What somebody in the car turns on for each function of a lamp, written down apart from the manual's own words."""
SHOWN = {"indicator": "turn", "brake": "stop", "reversing": "reverse", "side marker": "marker"}
"""What lamps show in British words, and the words of the file."""
BRITISH = {"parking brake set": "handbrake on", "turn signal": "indicator"}


def asked_of_the_driver(build: str) -> set[tuple[str, str]]:
    """Return each lamp and what the guides have the driver turn on for it, as a reader finds them."""
    files = manual_source_of_file(EXAMPLE.parents[1] / build, "owner").files
    found: set[tuple[str, str]] = set()
    for name, text in files.items():
        if name.startswith("stops-") and name.endswith(".md"):
            said = words_of(BeautifulSoup(str(text), "html.parser"))
            found |= set(re.findall(r"Have ([\w ()]+) lit from the car: ([^.]+)\.", said))
    return found


@pytest.mark.parametrize(
    "build", ["road_lamps/trailer.yaml", "thirteen_pins/trailer.yaml", "two_plugs/trailer.yaml"]
)
def test_the_driver_turns_on_what_lights_the_lamp_that_is_read(build: str) -> None:
    one = view_of((EXAMPLE.parents[1] / build).read_bytes())
    european = one.trailer.identity.country != "US"
    lamps = {lamp.name: lamp for lamp in one.trailer.road_lamps}
    asked = asked_of_the_driver(build)
    assert asked
    for said, turned_on in asked:
        part, _, what = said.removesuffix(")").partition(" (")
        lamp = lamps[part]
        functions = what.strip().split(" and ") if what else list(lamp.shows)
        functions = [SHOWN.get(word, word) for word in functions] if european else functions
        wanted = {DRIVER[f"{lamp.side} turn" if word == "turn" else word] for word in functions}
        for american, british in BRITISH.items() if european else ():
            wanted = {words.replace(american, british) for words in wanted}
        assert turned_on in wanted, said


def test_the_brake_comes_before_the_turn_signal_of_the_same_contact() -> None:
    one = view()
    turned_on = {thing.what: driver_turns_on(one, thing) for thing in of(one, "rear lamp right")}
    assert turned_on == {"tail": ("lights",), "stop and turn": ("brake", "right turn")}


def test_what_the_car_does_not_light_is_not_asked_of_the_driver() -> None:
    one = view_of((EXAMPLE.parents[1] / "trailer.yaml").read_bytes())
    assert driver_turns_on(one, Thing(1, "left step lamp")) == ()
