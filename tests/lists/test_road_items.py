"""Bulbs, reflectors and the breakaway battery on the shopping list: each counted from what the file says."""

from __future__ import annotations

import pytest
from listed import EXAMPLE, listed

from builder.buildfile.resolving import read_build
from builder.lists.road_items import SPARE_BULBS
from builder.lists.shopping import Item

US = "format: 1\nbuild: {name: Bean Row, country: US}\ntow plug: {pattern: 4-way flat, to front box: 7 ft}\n"
DE = "format: 1\nbuild: {name: Bean Row, country: DE}\ntow plug: {pattern: 13-pin, to front box: 2 m}\n"


def items(text: str, section: str) -> dict[str, Item]:
    return {item.id: item for item in listed(text).lists.shopping.section(section)}


@pytest.mark.parametrize(
    ("head", "lamp", "wanted"),
    [
        (US, "{shows: [tail, stop, turn], bulb: 1157", {"1157": 2}),
        (US, "{shows: [tail, marker], bulb: 194", {"194": 2}),
        (US, "{shows: [tail, stop, turn], count: 2, bulb: 1157", {"1157": 4}),
        (
            DE,
            "{shows: [tail, stop, turn], bulb: {tail: P21/5W, stop: P21/5W, turn: PY21W}",
            {"P21/5W": 2, "PY21W": 2},
        ),
        (DE, "{shows: [stop, turn], bulb: {stop: P21W, turn: P21W}", {"P21W": 4}),
        (DE, "{shows: [tail, turn], bulb: {turn: PY21W}", {"PY21W": 2}),
        (DE, "{shows: tail", {}),
    ],
)
def test_a_pair_of_lamps_wants_a_bulb_for_each_filament_that_is_lit_apart(
    head: str, lamp: str, wanted: dict[str, int]
) -> None:
    wire = "14 ft" if head is US else "4 m"
    found = items(f"{head}road lamps:\n  rear lamp: {lamp}, side: both, wire: {wire}}}\n", "bulbs")
    assert {item.series: item.used for item in found.values()} == wanted
    assert all(item.need == item.used + SPARE_BULBS for item in found.values())
    assert all(set(item.names) == {"rear lamp left", "rear lamp right"} for item in found.values())


LAMPS = "road lamps:\n  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft, bulb: 1157}\n"


@pytest.mark.parametrize(("there", "buy"), [(1, 2), (3, 0), (9, 0)])
def test_bulbs_in_stock_are_taken_off_and_never_more_than_are_needed(there: int, buy: int) -> None:
    (bulb,) = items(f"{US}in stock: {{bulbs: {{1157: {there}}}}}\n{LAMPS}", "bulbs").values()
    assert (bulb.need, bulb.buy, bulb.stock) == (3, buy, min(there, 3))


def test_a_bulb_in_stock_that_nobody_knows_is_told_with_the_nearest() -> None:
    reading = read_build(f"{US}in stock: {{bulbs: {{1175: 2}}}}\n{LAMPS}".encode())
    assert reading.trailer is None
    (problem,) = reading.problems
    assert problem.name == "name in stock"
    assert "1157" in problem.help


def test_reflectors_are_bought_by_form_and_colour_and_those_in_lamps_are_not() -> None:
    lamps = LAMPS.replace("bulb: 1157", "reflector: yes")
    more = (
        "reflectors:\n  back one: {at: rear, side: both, color: red, triangle: yes}\n"
        "  side one: {at: rear side, side: both, color: red}\n  front one: {at: front side, side: both, color: amber}\n"
    )
    stock = "in stock: {parts: [side one left, front one left, front one right]}\n"
    found = items(US + stock + lamps + more, "reflectors")
    assert {key: (item.used, item.buy) for key, item in found.items()} == {
        "triangle reflector red": (2, 2),
        "reflector red": (2, 1),
        "reflector amber": (2, 0),
    }
    parts = items(US + stock + lamps + more, "parts").values()
    assert {item.names[0] for item in parts if item.reflector} == {"rear lamp left", "rear lamp right"}


BRAKES = "brakes: {kind: electric, drum: 10 in, magnets: 2%s}\n"


def test_a_breakaway_battery_is_bought_where_the_file_has_one() -> None:
    head = US.replace("4-way flat", "7-way blade")
    with_one = head + BRAKES % ", breakaway battery: 5 Ah" + LAMPS
    battery = items(with_one, "box")["box breakaway battery"]
    assert (battery.capacity_ah, battery.buy) == (5.0, 1)
    there = with_one + "in stock: {parts: [breakaway battery]}\n"
    assert items(there, "box")["box breakaway battery"].buy == 0
    assert "box breakaway battery" not in items(head + BRAKES % "" + LAMPS, "box")


def test_the_example_holds_no_bulb_that_its_lamps_do_not_have() -> None:
    build = listed(EXAMPLE)
    named = {name for lamp in build.trailer.road_lamps for name in lamp.bulbs}
    assert {item.series for item in build.lists.shopping.section("bulbs")} == named
