"""Second ways back to the car, on trailers whose ways can be counted with a finger."""

from __future__ import annotations

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.ways_back import WayBack, grounds_met, ways_back
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.parts import Terminal

HEAD = (
    "format: 1\nbuild: {name: Bean Row, country: US}\ntow plug: {pattern: 7-way blade, to front box: 7 ft}\n"
)
LAMP = "road lamps:\n  plate lamp: {shows: plate, wire: 9 ft}\n"
BATTERY = (
    "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft%s}\n"
    "front box: {fuse ways: 4}\n"
)
BOND = ", frame bond: 8 AWG"
CHARGER = (
    "parts: {charger: {kind: dc charger, gives: 8 A}}\n"
    "circuits:\n  charge: {from: tow plug battery, path: [%s]}\n"
)
START = Terminal("plate lamp", "−")


def trailer(text: str) -> Trailer:
    reading = read_build(text.encode())
    assert reading.trailer is not None, [problem.message for problem in reading.problems]
    return reading.trailer


def lamp_ground(one: Trailer) -> tuple[str, Terminal]:
    """Return the wire from the ground bar to the plug, and the contact it lands on."""
    (wire,) = (w for w in one.wires if w.start.pin == "ground bar" and w.end.part == TOW_PLUG)
    return wire.number, wire.end


def charge_ground(one: Trailer) -> str:
    """Return the wire on which a charge line comes back to the plug."""
    (wire,) = (w for w in one.wires if w.end.part == TOW_PLUG and w.start.pin != "ground bar")
    return wire.number


def test_road_lamps_alone_have_one_way_back() -> None:
    one = trailer(HEAD + LAMP)
    wire, contact = lamp_ground(one)
    assert ways_back(one, START) == (WayBack(wire),)
    assert ways_back(one, START, wires=[wire]) == ()
    assert ways_back(one, START, terminals=[contact]) == ()


def test_a_house_battery_bonded_to_the_frame_opens_the_way_by_the_hitch() -> None:
    bonded, apart = (trailer(HEAD + BATTERY % bond + LAMP) for bond in (BOND, ""))
    assert ways_back(bonded, START, wires=[lamp_ground(bonded)[0]]) == (WayBack(""),)
    assert ways_back(apart, START, wires=[lamp_ground(apart)[0]]) == ()


@pytest.mark.parametrize(
    ("path", "through"), [("charger: 7 ft, battery fuse: 2 ft, battery: 6 in", ("charger",))]
)
def test_a_charge_line_brings_lamps_back_through_a_charger_with_one_minus(
    path: str, through: tuple[str, ...]
) -> None:
    one = trailer(HEAD + BATTERY % "" + CHARGER % path + LAMP)
    wire, contact = lamp_ground(one)
    assert ways_back(one, START, wires=[wire]) == (WayBack(charge_ground(one), through),)
    assert ways_back(one, START, terminals=[contact]) == ()  # it lands on the same contact


def test_a_charge_line_without_a_charger_joins_the_two_by_the_batterys_post() -> None:
    text = HEAD + BATTERY % "" + CHARGER % "car fuse: 7 ft, battery fuse: 2 ft, battery: 6 in" + LAMP
    one = trailer(text.replace("parts: {charger: {kind: dc charger, gives: 8 A}}\n", ""))
    assert ways_back(one, START, wires=[lamp_ground(one)[0]]) == (WayBack(charge_ground(one)),)


def test_the_frame_comes_before_a_way_through_a_charger() -> None:
    one = trailer(HEAD + BATTERY % BOND + CHARGER % "charger: 7 ft, battery fuse: 2 ft, battery: 6 in" + LAMP)
    ways = ways_back(one, START, wires=[lamp_ground(one)[0]])
    assert ways == (WayBack(""), WayBack(charge_ground(one), ("charger",)))


def test_a_lamps_own_wire_lost_leaves_nothing() -> None:
    one = trailer(HEAD + BATTERY % BOND + LAMP)
    (own,) = (w.number for w in one.wires if w.start == START)
    assert ways_back(one, START, wires=[own]) == ()


METRIC = (
    HEAD.replace("US", "GB").replace("7-way blade", "7-pin 12N").replace("7 ft", "2 m")
    + "second plug: {pattern: 7-pin 12S, to front box: 2 m}\n"
    + (BATTERY % "").replace("5 in", "12 cm").replace("4 ft", "1 m")
    + "parts: {charger: {kind: dc charger, gives: 8 A}, cool box: {kind: fridge, draws: 60 W}}\n"
    "circuits:\n  cool box: {from: tow plug 12S 6, path: [cool box: 4 m]}\n"
)


def test_grounds_of_two_plugs_meet_only_inside_the_charger() -> None:
    charge = "  charge: {from: tow plug battery, path: [charger: 2 m, battery fuse: 50 cm, battery: 15 cm]}\n"
    lamp = "road lamps:\n  plate lamp: {shows: plate, side: left, wire: 5 m}\n"
    met = {frozenset(pair[:2]): pair[2] for pair in grounds_met(trailer(METRIC + charge + lamp))}
    assert met == {frozenset({"3", "12S 3"}): ("charger",)}
    assert grounds_met(trailer(METRIC.replace("charger: {kind: dc charger, gives: 8 A}, ", "") + lamp)) == ()


def test_grounds_that_wires_join_meet_without_a_charger() -> None:
    charge = (
        "  charge: {from: tow plug battery, path: [car fuse: 2 m, battery fuse: 50 cm, battery: 15 cm]}\n"
    )
    lamp = "road lamps:\n  plate lamp: {shows: plate, side: left, wire: 5 m}\n"
    text = METRIC.replace("charger: {kind: dc charger, gives: 8 A}, ", "") + charge + lamp
    assert [pair[2] for pair in grounds_met(trailer(text))] == [()]
