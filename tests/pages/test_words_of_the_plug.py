"""Words about the plug and its lamps: one name for a contact, the words of the place, and nothing the plug has not."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.pages.manual import manual_source_of_file
from builder.pages.page_find import find_page
from builder.pages.view import View
from builder.trailer.plug_functions import contact_mark, functions_said, shown_in

ROOT = Path(__file__).parents[2] / "example_build"
BRITISH = ("thirteen_pins", "two_plugs")


def build(name: str) -> View:
    return view_of((ROOT / name / "trailer.yaml").read_bytes())


def whole(name: str) -> str:
    """Return all that an owner's manual says, its drawings too."""
    files = manual_source_of_file(ROOT / name / "trailer.yaml", "owner").files
    texts = (str(text) for path, text in files.items() if path.endswith((".md", ".svg")))
    return " ".join(" ".join(BeautifulSoup(text, "html.parser").get_text(" ").split()) for text in texts)


@pytest.fixture(scope="module", params=BRITISH)
def british(request: pytest.FixtureRequest) -> str:
    return whole(request.param)


def test_british_lamps_are_called_by_british_words_everywhere(british: str) -> None:
    """Common practice of the trade: indicator, brake, reversing and side marker lamps."""
    for american in (
        r"\((?:stop|turn|reverse|marker)\)",
        r"(?:left|right), (?:stop|turn|reverse|marker)\b",
        r"road lamps, (?:stop|reverse)",
        r"\bstrip \((?:stop|reverse)\)",
        r"contact [\w ]+, (?:stop|reverse)\b",
    ):
        assert re.findall(american, british) == []
    assert "road lamps, brake lamp" in british


def test_what_a_lamp_shows_is_said_in_the_words_of_the_place() -> None:
    assert shown_in("GB", "stop, turn") == "brake, indicator"
    assert shown_in("DE", "front position") == "front position"
    assert shown_in("US", "stop, turn") == "stop, turn"


def test_a_contact_is_called_by_what_it_does_here_and_by_one_name() -> None:
    view = build("thirteen_pins")
    plug = view.trailer.tow_plug
    assert plug is not None
    five, nine = plug.pattern.contact("5"), plug.pattern.contact("9")
    assert contact_mark(view.trailer, five) == "right tail, front position"
    assert contact_mark(view.trailer, nine) == functions_said(view.trailer, nine) == "power from the car"
    text = whole("thirteen_pins")
    assert "permanent supply" not in text
    assert "right tail and plate" not in text
    assert "contact 9, battery" not in text
    # a mark that stands on the plug is kept
    blade = build("braked").trailer
    assert blade.tow_plug is not None
    assert contact_mark(blade, blade.tow_plug.pattern.contact("4")) == "A"


def test_a_flat_plug_has_no_numbers_on_it_and_nothing_to_turn() -> None:
    text = words_of(page_of(build("road_lamps"), "towing"))
    assert "The numbers are those on the plug" not in text
    assert "The numbers count along the row from the end with the ground. Such a plug has none on it." in text
    assert "nothing is moulded on such a plug" in text
    assert "turned as it goes in" not in text


def test_letters_are_told_of_only_where_contacts_have_some() -> None:
    assert "letters beside them" not in words_of(page_of(build("thirteen_pins"), "towing"))
    assert "letters beside them are the contact's mark" in words_of(page_of(build("braked"), "towing"))


def test_how_a_round_plug_goes_in_is_from_memory_and_left_to_what_is_moulded_on_it() -> None:
    text = words_of(page_of(build("thirteen_pins"), "towing"))
    assert "most often turned as it goes in" in text
    assert "this is told from memory, so do as it is moulded on plug and socket" in text
    assert "turned as it goes in" not in words_of(page_of(build("two_plugs"), "towing"))


@pytest.mark.parametrize("name", ["road_lamps", "braked", "thirteen_pins", "two_plugs"])
def test_hitching_up_asks_for_lock_ball_weight_chains_jack_and_defers_to_the_papers(name: str) -> None:
    """Common practice, without a source."""
    text = told_below(page_of(build(name), "towing"), "Hitching up")
    for asked in (
        "The ball on the car is of the size that is on the coupling.",
        "See that the coupling is locked.",
        "Look at the tongue weight",
        "Fasten the chains",
        "Turn the jack all the way up",
        "The papers of the car, the coupling and the trailer come first.",
    ):
        assert asked in text
    assert ("Shut and lock the hatch." in text) == (name == "thirteen_pins")


def test_a_european_manual_says_nose_weight_and_230_volts_and_local_rules(british: str) -> None:
    assert "nose weight" in british
    assert "tongue weight" not in british
    assert not re.search(r"\b120\b(?! ?(?:mm|Ω))", british)
    assert "Local codes" not in british


def test_one_of_two_plugs_lamps_is_parted_only_where_some_car_needs_it() -> None:
    shared = "A plain one cannot make two lamps of one"
    assert shared not in words_of(page_of(build("thirteen_pins"), "towing"))
    assert shared in words_of(page_of(build("road_lamps"), "towing"))


def test_tracers_are_explained_only_where_a_wire_has_one() -> None:
    assert "With a tracer" not in words_of(page_of(build("road_lamps"), "wires"))
    assert "With a tracer" in words_of(page_of(build("braked"), "wires"))


def test_what_joins_or_parts_lamps_is_no_converter_of_volts() -> None:
    rows = table(page_of(build("road_lamps"), "garage"), "What works at another socket")
    assert any("a lamp converter" in row[-1] for row in rows)
    assert not any(re.search(r"\ba converter", row[-1]) for row in rows)


def test_the_front_box_of_a_bare_trailer_is_found_where_the_cable_of_the_plug_ends() -> None:
    view = build("road_lamps")
    rows = {row[0]: row[-1] for row in table(page_of(view, "find"), "Parts in alphabet")}
    assert rows["front box"] == "where the cable of the tow plug ends, 5 ft from the plug"
    for page in ("towing", "fuses"):
        assert "5 ft from the plug" in words_of(page_of(view, page))


def test_an_earth_bar_is_sorted_under_its_own_letter() -> None:
    names = [row["said"] for row in find_page(build("thirteen_pins"))["parts"]]
    assert names.index("earth bar") == names.index("front box") - 2 == names.index("fog lamp") - 1
    assert "ground bar" in [row["said"] for row in find_page(build("braked"))["parts"]]


def test_thin_cores_are_not_told_of_as_smaller_than_the_smallest_size() -> None:
    text = whole("road_lamps")
    assert "Cores of the plug's cable have the size that is usual for it: 2A 18 AWG." in text
    assert "Of a size of their own: 2A" not in text


def test_a_resistance_has_one_source_and_a_place_that_is_there(british: str) -> None:
    assert "NEC" not in british
    assert "table above, I with" not in british
    assert "R by the resistance that is named at the top of this page" in british
