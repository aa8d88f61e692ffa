"""The example builds: both are read without a problem, and the large one holds every path form it is there to show."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from builder.buildfile.resolving import read_build
from builder.tables.tow_plugs import plug_pattern
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.color import Color
from builder.trailer.model import BATTERY, FRONT_BOX, Trailer
from builder.trailer.parts import Form, Part, Terminal
from builder.trailer.wires import Role, Wire

EXAMPLES = Path(__file__).parents[2] / "example_build"
WHOLE = EXAMPLES / "trailer.yaml"
SMALLEST = EXAMPLES / "smallest" / "trailer.yaml"

WIDE_M = 2.032
LONG_M = 9.144
"""49 CFR 571.108 Table I-b: more lamps are asked from 80 in of width and from 30 ft of length on."""


@cache
def build(path: Path) -> Trailer:
    reading = read_build(path.read_bytes())
    assert reading.problems == ()
    assert reading.trailer is not None
    return reading.trailer


def circuit_named(name: str) -> Circuit:
    return next(circuit for circuit in build(WHOLE).circuits if circuit.name == name)


def stops_of(name: str) -> list[str]:
    return [stop.part for stop in circuit_named(name).stops]


def parts_of(kind: str) -> list[Part]:
    return [part for part in build(WHOLE).parts.values() if part.kind == kind]


def wires_of(name: str) -> list[Wire]:
    number = circuit_named(name).number
    return [wire for wire in build(WHOLE).wires if wire.circuit == number]


def circuits_with(part: str) -> list[Circuit]:
    return [circuit for circuit in build(WHOLE).circuits if any(stop.part == part for stop in circuit.stops)]


@pytest.mark.parametrize("path", [WHOLE, SMALLEST], ids=["whole", "smallest"])
def test_example_is_read_without_a_problem(path: Path) -> None:
    assert build(path).circuits


@pytest.mark.parametrize("path", [WHOLE, SMALLEST], ids=["whole", "smallest"])
def test_head_comment_says_that_the_trailer_is_invented(path: Path) -> None:
    head = path.read_text(encoding="utf-8").split("format:")[0]
    assert "invented" in head


@pytest.mark.parametrize("path", [WHOLE, SMALLEST], ids=["whole", "smallest"])
def test_every_part_is_on_a_path(path: Path) -> None:
    assert build(path).unwired == ()


def test_example_is_a_small_trailer_of_the_united_states() -> None:
    identity = build(WHOLE).identity
    assert identity.country == "US"
    assert identity.length_m is not None
    assert identity.width_m is not None
    assert identity.length_m < LONG_M
    assert identity.width_m < WIDE_M


def test_road_lamps_are_those_its_size_asks_for() -> None:
    """49 CFR 571.108 Table I-b, under 80 in and under 30 ft: 2 tail, 2 stop, 2 turn, 4 side markers, 1 plate."""
    lamps = build(WHOLE).road_lamps
    shown = [function for lamp in lamps for function in lamp.shows]
    counts = {function: shown.count(function) for function in set(shown)}
    assert counts == {"tail": 2, "stop": 2, "turn": 2, "marker": 4, "plate": 1}
    for function in ("tail", "stop", "turn"):
        assert sorted(lamp.side for lamp in lamps if function in lamp.shows) == ["left", "right"]
    markers = [lamp for lamp in lamps if "marker" in lamp.shows]
    assert sorted(lamp.side for lamp in markers) == ["left", "left", "right", "right"]
    assert {"front", "rear"} == {lamp.name.split()[0] for lamp in markers}


def test_lamps_of_the_opening_rear_pass_the_hinge_connector() -> None:
    trailer = build(WHOLE)
    connectors = parts_of("connector")
    assert len(connectors) == 1
    behind = {wire.end.part for wire in trailer.wires if wire.start.part == connectors[0].name}
    on_the_rear = {
        lamp.name for lamp in trailer.road_lamps if set(lamp.shows) & {"tail", "stop", "turn", "plate"}
    }
    assert on_the_rear <= behind
    house = [circuit for circuit in circuits_with(connectors[0].name) if circuit.kind is CircuitKind.HOUSE]
    assert [stop for stop in stops_of(house[0].name) if trailer.parts[stop].kind == "lamp"]


def test_hinge_connector_has_a_way_for_each_wire() -> None:
    trailer = build(WHOLE)
    connector = parts_of("connector")[0]
    ends = [end for wire in trailer.wires for end in (wire.start, wire.end)]
    ways = {end.pin.split()[1] for end in ends if end.part == connector.name}
    assert connector.ways is not None
    assert len(ways) <= connector.ways


def test_plug_is_one_that_can_charge() -> None:
    trailer = build(WHOLE)
    assert trailer.tow_plug is not None
    assert trailer.tow_plug.pattern == plug_pattern("7-way blade")
    contact = trailer.tow_plug.pattern.contact_for("battery")
    assert contact is not None
    assert circuit_named("charge line").start == Terminal("tow plug", str(contact.number))


def test_step_lamps_stand_at_two_doors_and_one_is_worked_from_two_places() -> None:
    trailer = build(WHOLE)
    stops = stops_of("step lights")
    assert len([stop for stop in stops if trailer.parts[stop].kind == "lamp"]) == 2
    assert [trailer.parts[stop].kind for stop in stops].count("two-way switch") == 2
    assert [wire.role for wire in wires_of("step lights")].count(Role.TRAVELLER) == 2


def test_a_lamp_is_worked_from_three_places() -> None:
    kinds = [build(WHOLE).parts[stop].kind for stop in stops_of("floor lights")]
    assert kinds[:3] == ["two-way switch", "four-way switch", "two-way switch"]
    assert [wire.role for wire in wires_of("floor lights")].count(Role.TRAVELLER) == 4


def test_two_reading_lamps_have_a_switch_each_and_share_a_splice() -> None:
    parts = build(WHOLE).parts
    lamps = [parts[stop] for stop in stops_of("reading lights") if parts[stop].kind == "lamp"]
    assert [lamp.own_switch for lamp in lamps] == [True, True]
    assert parts[stops_of("reading lights")[0]].kind == "splice"


def test_a_load_stands_in_mid_path() -> None:
    parts = build(WHOLE).parts
    wires = [wire for wire in wires_of("floor lights") if wire.role is Role.FEED]
    assert any(parts[wire.start.part].form is Form.LOAD for wire in wires if wire.start.part in parts)


def test_cabin_lamp_is_dimmed() -> None:
    assert [build(WHOLE).parts[stop].kind for stop in stops_of("cabin light")] == ["dimmer", "lamp"]


def test_receiver_feeds_a_lamp_from_each_of_its_two_outputs() -> None:
    receiver = parts_of("receiver")[0]
    assert len(receiver.outputs) == 2
    assert receiver.idle_a > 0
    feeds = [
        wire
        for wire in wires_of("awning lights")
        if wire.start.part == receiver.name and wire.role is Role.FEED
    ]
    assert {wire.start.pin for wire in feeds} == {"out 1", "out 2"}


def test_strip_is_sold_by_length() -> None:
    """1.5 W for each foot, 5 ft of it: 7.5 W, worked by hand."""
    draw = build(WHOLE).parts["awning strip"].draw
    assert draw is not None
    assert draw.value == pytest.approx(7.5)


def test_pump_runs_through_a_relay_whose_lighted_switch_works_the_coil() -> None:
    trailer = build(WHOLE)
    circuit = circuit_named("water pump")
    relays = [stop for stop in circuit.stops if trailer.parts[stop.part].kind == "relay"]
    assert sorted(stop.as_coil for stop in relays) == [False, True]
    switch = next(
        trailer.parts[stop.part] for stop in circuit.stops if trailer.parts[stop.part].kind == "switch"
    )
    assert switch.draw is not None
    assert [stop.parent for stop in circuit.stops].count(-1) == 2
    assert {load.what for load in trailer.loads if load.circuit == circuit.number} == {"", "coil", "own draw"}


def test_fan_has_its_leads_on_one_side() -> None:
    fan = parts_of("fan")[0]
    assert fan.leads_come_out
    assert fan.lead_length_m is not None


def test_one_socket_is_waiting_and_wired() -> None:
    waiting = [part for part in build(WHOLE).parts.values() if part.waiting]
    assert [part.kind for part in waiting] == ["socket"]
    assert circuits_with(waiting[0].name)


def test_gas_alarm_stands_before_the_isolating_switch_behind_a_fuse_of_its_own() -> None:
    circuit = circuit_named("gas alarm")
    assert circuit.start == Terminal("main fuse", "out")
    assert circuit.fuse_part
    assert circuit.given_fuse_a is not None
    assert build(WHOLE).parts[stops_of("gas alarm")[-1]].kind == "alarm"


def test_circuits_start_in_every_way() -> None:
    starts = {circuit.start.part for circuit in build(WHOLE).circuits}
    assert {FRONT_BOX, BATTERY, "main fuse", "tow plug", "solar module", "shore converter"} <= starts


def test_charge_line_has_a_fuse_at_each_end() -> None:
    kinds = [build(WHOLE).parts[stop].kind if stop != BATTERY else stop for stop in stops_of("charge line")]
    assert kinds == ["fuse", "dc charger", "fuse", BATTERY]


def test_paths_end_at_the_battery_and_at_the_front_box() -> None:
    last = {circuit.stops[-1].part for circuit in build(WHOLE).circuits if circuit.kind is CircuitKind.FROM}
    assert {BATTERY, FRONT_BOX} <= last


def test_battery_line_runs_through_fuse_and_isolating_switch_and_is_bonded_to_the_frame() -> None:
    assert stops_of("battery line") == ["main fuse", "isolating switch", FRONT_BOX]
    assert [wire.role for wire in wires_of("battery line")] == [
        Role.FEED,
        Role.FEED,
        Role.FEED,
        Role.RETURN,
        Role.BOND,
    ]


def test_battery_has_a_box_of_its_own() -> None:
    battery = build(WHOLE).battery
    assert battery is not None
    assert "ventilated" in battery.box
    assert battery.where


def test_a_breaker_stands_in_a_path_behind_a_bar() -> None:
    kinds = [build(WHOLE).parts[stop].kind for stop in stops_of("kitchen power")]
    assert kinds[:2] == ["bar", "breaker"]


def test_a_return_goes_to_a_bar_by_name() -> None:
    returns = [wire for wire in wires_of("tank meter") if wire.role is Role.RETURN]
    assert [wire.end for wire in returns] == [Terminal("kitchen bar", "return")]


def test_mains_names_a_role_and_no_person() -> None:
    mains = build(WHOLE).mains
    assert mains is not None
    assert "licensed" in mains.done_by


def test_a_spare_wire_has_both_ends_on_record() -> None:
    spares = build(WHOLE).spares
    assert len(spares) == 1
    assert spares[0].start.part
    assert spares[0].end.part
    assert spares[0].length_m > 0


def test_circuits_have_colours_of_their_own_and_tracers() -> None:
    trailer = build(WHOLE)
    colors = {wire.color for wire in trailer.wires if wire.role is Role.FEED}
    assert trailer.shelf.feed == Color("red")
    assert len(colors) > 10
    assert any(color.tracer for color in colors)


def test_no_house_feed_has_the_colour_of_a_tow_contact() -> None:
    trailer = build(WHOLE)
    assert trailer.tow_plug is not None
    tow = {circuit.number for circuit in trailer.circuits if circuit.kind is CircuitKind.TOW}
    house = {wire.color for wire in trailer.wires if wire.circuit not in tow and wire.role is not Role.RETURN}
    contacts = trailer.tow_plug.pattern.contacts
    # The battery's contact is black, as the returns and the bond of the house are: its wire is named by function.
    assert not house & {Color(each.base, each.tracer) for each in contacts if each.base != "black"}


def test_every_form_of_part_is_there() -> None:
    forms = {part.form for part in build(WHOLE).parts.values()}
    assert forms >= set(Form) - {Form.BOX}


def test_what_an_owner_looks_for_says_where_it_is() -> None:
    trailer = build(WHOLE)
    without = [part.name for part in trailer.parts.values() if not part.where]
    assert without == []
    assert trailer.front_box is not None
    assert trailer.front_box.where
    assert trailer.tow_plug is not None
    assert trailer.tow_plug.where


def test_house_circuits_fit_the_fuse_block_with_a_way_to_spare() -> None:
    trailer = build(WHOLE)
    ways = [circuit.way for circuit in trailer.circuits if circuit.way is not None]
    assert trailer.front_box is not None
    assert len(ways) < trailer.front_box.fuse_ways
    assert max(ways) <= trailer.front_box.fuse_ways


def test_an_assumption_is_replaced_and_the_insulation_is_given() -> None:
    trailer = build(WHOLE)
    assert trailer.assume
    assert trailer.shelf.insulation_given
    assert trailer.front_box is not None
    assert trailer.front_box.fuses_on_shelf_a
