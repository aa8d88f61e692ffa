"""What guides call road lamps: a lamp with one function by its name, its functions together, all of them in a word."""

from __future__ import annotations

from pathlib import Path

from owner_pages import view_of

from builder.guide.model import Thing
from builder.pages.guide_names import thing_data, things_data
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
    assert thing_data(one, plate) == {"part": "plate lamp", "what": ""}
    tail, stop = of(one, "rear lamp left")
    assert thing_data(one, tail) == {"part": "rear lamp left", "what": tail.what}
    assert tail.what != stop.what


def test_all_functions_of_a_lamp_are_the_lamp() -> None:
    one = view()
    both, (tail, _) = of(one, "rear lamp left"), of(one, "rear lamp right")
    names = things_data(one, [*both, tail])["names"]
    assert names == [{"part": "rear lamp left", "what": ""}, {"part": "rear lamp right", "what": tail.what}]


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
