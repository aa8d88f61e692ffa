"""The test sheet: its order, its points, its limits summed again, and nothing that a build lacks."""

from __future__ import annotations

from itertools import groupby

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from listed import BUILDS, EMPTY, EXAMPLE, HEAD, METRIC, NO_BATTERY, ROAD_ONLY, SMALLEST, Listed, listed

from builder.electrics.figures import LoadFigures
from builder.lists.testing import Group, Kind, Line
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import BATTERY, GROUND_BAR, SUPPLY_BAR, TOW_PLUG
from builder.trailer.parts import Terminal
from builder.trailer.wires import Role


def lines(build: Listed, *kinds: Kind) -> list[Line]:
    return [line for line in build.lists.tests.lines if line.kind in kinds]


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_dead_tests_come_before_live_ones(text: str) -> None:
    groups = [group for group, _ in groupby(line.group for line in listed(text).lists.tests.lines)]
    assert groups == [group for group in Group if group in groups]


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_each_wire_is_tested_end_to_end(text: str) -> None:
    build = listed(text)
    wires = {wire.number: wire for wire in (*build.trailer.wires, *build.trailer.spares)}
    tested = lines(build, Kind.WIRE)
    assert [line.wire for line in tested] == list(wires)
    for line in tested:
        assert (line.red, line.black) == (wires[line.wire].start, wires[line.wire].end)
        if line.wire in build.figures.wires:
            assert line.most == pytest.approx(build.figures.wires[line.wire].resistance_ohm + 0.1)


def test_ends_that_land_on_nothing_are_insulated_before_any_supply_is_joined() -> None:
    """The example's kitchen socket waits, and its spare wire is joined to nothing at either end."""
    build = listed(EXAMPLE)
    ends = [(line.wire, line.part) for line in lines(build, Kind.INSULATED)]
    at_socket = [(number, "kitchen socket") for number in ("10D", "10G")]
    assert ends == [*at_socket, ("S1", "front box"), ("S1", "kitchen socket")]
    order = [line.group for line in build.lists.tests.lines]
    last_dead = max(n for n, group in enumerate(order) if group in (Group.WIRES, Group.SHORTS))
    first_live = min(n for n, group in enumerate(order) if group in (Group.BATTERY, Group.CIRCUIT))
    assert last_dead < order.index(Group.ENDS) < first_live
    assert lines(listed(SMALLEST), Kind.INSULATED) == []


def test_resistance_of_a_spare_wire_by_hand() -> None:
    """NEC Chapter 9 Table 8 (quoted): 14 AWG stranded, 3.14 ohm a thousand feet at 75 °C; 14 ft and 0.1 ohm."""
    build = listed(
        HEAD + "spares: {rear spare: {from: front box, to: rear wall, wire: 14 ft, size: 14 AWG}}\n"
    )
    (spare,) = build.trailer.spares
    line = next(line for line in lines(build, Kind.WIRE) if line.wire == spare.number)
    assert line.most == pytest.approx(14 * 3.14 / 1000 + 0.1, rel=0.01)


def test_a_spare_wire_is_tested_where_there_is_no_other() -> None:
    """NEC Chapter 9 Table 8 (quoted), as above: the table's own 75 °C, that of the assumption."""
    build = listed(
        "format: 1\nbuild: {name: Bean Row, country: US}\nfront box: {fuse ways: 6}\n"
        "spares: {rear spare: {from: front box, to: rear wall, wire: 14 ft, size: 14 AWG}}\n"
    )
    assert not build.trailer.wires
    (line,) = lines(build, Kind.WIRE)
    assert line.wire == build.trailer.spares[0].number
    assert line.most == pytest.approx(14 * 3.14 / 1000 + 0.1, rel=0.01)


def test_resistance_of_a_wire_by_hand() -> None:
    """NEC Chapter 9 Table 8 (quoted): 16 AWG stranded, 4.99 ohm a thousand feet at 75 °C; 12 ft and 0.1 ohm."""
    build = listed(
        HEAD + "parts: {fan: {kind: fan, draws: 1 A}}\ncircuits: {fan: {path: [fan: 12 ft], size: 16 AWG}}\n"
    )
    line = next(line for line in lines(build, Kind.WIRE) if line.wire == "1A")
    assert line.most == pytest.approx(12 * 4.99 / 1000 + 0.1, rel=0.01)


def test_without_a_battery_nobody_speaks_of_one() -> None:
    for text in (NO_BATTERY, ROAD_ONLY, EMPTY):
        build = listed(text)
        told = [line for line in build.lists.tests.lines if line.group is Group.BATTERY]
        assert told == []
        assert BATTERY not in build.lists.tests.unplug
        for line in build.lists.tests.lines:
            assert line.supply != BATTERY
            assert all(at is None or at.part != BATTERY for at in (line.red, line.black))


def test_a_trailer_with_road_lamps_alone_is_tested_at_its_plug() -> None:
    build = listed(ROAD_ONLY)
    assert build.lists.tests.unplug == (TOW_PLUG,)
    groups = {line.group for line in build.lists.tests.lines}
    assert groups == {Group.WIRES, Group.BARE, Group.SHORTS, Group.ROAD}
    assert not build.lists.tests.fuses_out


def test_an_empty_build_has_an_empty_sheet() -> None:
    sheet = listed(EMPTY).lists.tests
    assert (sheet.lines, sheet.unplug) == ((), ())


def test_supplies_to_take_off_are_all_that_feed() -> None:
    build = listed(EXAMPLE)
    sources = {s.name.split()[0] for s in build.trailer.sections if not s.fed_by}
    assert {name.split()[0] for name in build.lists.tests.unplug} >= sources
    assert build.lists.tests.unplug == (BATTERY, TOW_PLUG, "solar module", "shore converter")


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_each_load_of_a_circuit_is_measured_on_its_own_terminals(text: str) -> None:
    build = listed(text)
    volts = {section.name: section.volts for section in build.trailer.sections}
    for number, figures in build.figures.circuits.items():
        kind = build.trailer.circuit(number).kind
        if kind not in (CircuitKind.HOUSE, CircuitKind.FROM):
            continue
        if any(load.load.charged_from for load in figures.loads):
            continue
        measured = [line for line in lines(build, Kind.VOLTAGE) if line.circuit == number]
        loads = [load for load in figures.loads if load.load.what in ("", "input") and is_there(build, load)]
        assert [(line.red, line.black) for line in measured] == [(o.load.plus, o.load.minus) for o in loads]
        for line, load in zip(measured, loads, strict=True):
            supply_v = volts[load.load.section]
            assert line.most == supply_v
            assert line.below is not None
            assert line.least == pytest.approx(max(0.0, supply_v - line.below))


def is_there(build: Listed, load: LoadFigures) -> bool:
    """Tell whether a load's part does not wait to be built in."""
    part = build.trailer.parts.get(load.load.part)
    return part is None or not part.waiting


def drop_between(build: Listed, load: LoadFigures, returns: bool | None = None) -> float:
    """Return what the wires of a load's feed or return lose in volts with its circuit alone on, None for both.

    The battery's own line is left out.
    """
    line = build.trailer.battery_line
    wires = {wire.number: wire for wire in build.trailer.wires}
    total = 0.0
    for other in build.figures.circuits[load.load.circuit].loads:
        for number in {step.wire for step in load.steps} & {step.wire for step in other.steps}:
            wanted = returns is None or (wires[number].role is Role.RETURN) == returns
            if is_there(build, other) and wanted and (line is None or wires[number].circuit != line.number):
                total += build.figures.wires[number].resistance_ohm * other.current_a
    return total


def load_of(build: Listed, part: str) -> LoadFigures:
    loads = [load for circuit in build.figures.circuits.values() for load in circuit.loads]
    return next(load for load in loads if load.load.part == part and load.load.what == "")


def test_what_the_feed_and_the_return_lose_is_measured_apart() -> None:
    build = listed(EXAMPLE)
    feed = next(line for line in lines(build, Kind.FEED_DROP) if line.part == "water pump")
    back = next(line for line in lines(build, Kind.RETURN_DROP) if line.part == "water pump")
    assert (feed.red, feed.black) == (SUPPLY_BAR, Terminal("water pump", "+"))
    assert (back.red, back.black) == (Terminal("water pump", "−"), GROUND_BAR)
    assert feed.about == pytest.approx(drop_between(build, load_of(build, "water pump"), returns=False))
    assert back.about == pytest.approx(drop_between(build, load_of(build, "water pump"), returns=True))
    assert (feed.most, back.most) == (pytest.approx(feed.about + 0.3), pytest.approx(back.about + 0.1))
    assert feed.current_a == pytest.approx(4.0)


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_the_load_that_loses_most_is_the_one_measured(text: str) -> None:
    build = listed(text)
    for number, figures in build.figures.circuits.items():
        feed = [line for line in lines(build, Kind.FEED_DROP) if line.circuit == number]
        if not feed:
            continue
        loads = [one for one in figures.loads if one.load.what not in ("idle", "own draw", "coil")]
        lost_v = {one.load.part: drop_between(build, one) for one in loads if is_there(build, one)}
        assert lost_v[feed[0].part] == pytest.approx(max(lost_v.values()))


def test_a_shared_return_counts_this_circuit_alone_by_hand() -> None:
    """NEC Chapter 9 Table 8 (quoted): 14 AWG stranded, 3.14 ohm a thousand feet at 75 °C.

    A fan of 1 A returns over 2 ft to a bar and over 10 ft with the heater's 10 A to the ground bar: 12 ft count
    for its own ampere, 0.0377 V and 0.1 V for joints. With the heater on it would be 0.35 V.
    """
    build = listed(
        HEAD
        + "parts: {shelf: {kind: bar}, heater: {kind: heater, draws: 10 A}, fan: {kind: fan, draws: 1 A}}\n"
        "circuits:\n"
        "  heat: {path: [shelf: 10 ft, heater: 1 ft], size: 14 AWG}\n"
        "  air: {path: [fan: 10 ft], size: 14 AWG, return: {to: shelf, length: 2 ft}}\n"
    )
    back = next(line for line in lines(build, Kind.RETURN_DROP) if line.part == "fan")
    assert back.about == pytest.approx(12 * 3.14 / 1000, rel=0.01)
    assert back.most == pytest.approx(12 * 3.14 / 1000 + 0.1, rel=0.01)


def test_a_contact_of_the_plug_counts_its_own_lamps_alone_by_hand() -> None:
    """NEC Chapter 9 Table 8 (quoted): 16 AWG stranded, 4.99 ohm a thousand feet at 75 °C.

    The left rear lamp's turn signal of 2 A, with its tail lamp off: the same 2 A along feed and return.
    """
    build = listed(ROAD_ONLY)
    line = next(line for line in lines(build, Kind.RETURN_DROP) if line.circuit == 3)
    (load,) = build.figures.circuits[3].loads
    used = {step.wire for step in load.steps}
    back = [wire for wire in build.trailer.wires if wire.number in used and wire.role is Role.RETURN]
    assert load.current_a == pytest.approx(2.0)
    assert {str(build.figures.wires[wire.number].size) for wire in back} == {"16 AWG"}
    feet = sum(wire.length_m for wire in back) / 0.3048
    assert line.about == pytest.approx(2.0 * feet * 4.99 / 1000, rel=0.01)


def test_switches_work_what_hangs_on_them() -> None:
    works = {line.part: line.parts for line in lines(listed(EXAMPLE), Kind.WORKS)}
    assert works["left step switch"] == ("left step lamp",)
    assert works["kitchen step switch"] == ("right step lamp",)
    assert works["awning receiver"] == ("awning lamp", "awning strip")
    assert works["pump switch"] == ("pump relay",)
    assert works["roof fan"] == ("roof fan",)


def test_a_fuse_taken_out_stops_what_it_feeds() -> None:
    stops = {line.fuse: line.parts for line in lines(listed(EXAMPLE), Kind.FUSE_OUT)}
    assert stops["way 1"] == ("left step lamp", "right step lamp")
    assert stops["way 8"] == ("phone converter", "phone socket")
    assert stops["gas alarm fuse"] == ("gas alarm",)


def test_idle_draw_and_the_isolating_switch() -> None:
    build = listed(EXAMPLE)
    energy = build.figures.energy
    assert energy is not None
    (idle,), (off,) = lines(build, Kind.IDLE), lines(build, Kind.IDLE_OFF)
    assert (idle.about, idle.parts) == (energy.idle_a, energy.idle_parts)
    assert (off.about, off.parts, off.part) == (energy.off_a, energy.off_parts, "isolating switch")
    small = listed(SMALLEST)
    assert lines(small, Kind.ISOLATED, Kind.IDLE_OFF) == []
    assert len(lines(small, Kind.IDLE)) == 1


def test_a_contact_lights_its_lamps_against_its_own_ground() -> None:
    build = listed(METRIC)
    plug = build.trailer.tow_plug
    assert plug is not None
    for line in lines(build, Kind.LAMPS):
        assert line.red is not None
        contact = plug.pattern.contact(int(line.red.pin))
        assert line.black == Terminal(TOW_PLUG, str(contact.return_contact))
        current = next(c.current_a for c in build.figures.plug if c.number == contact.number)
        assert line.about == pytest.approx(current)
    assert {line.parts for line in lines(build, Kind.LAMPS)} >= {("rear lamp left",), ("rear lamp right",)}


@pytest.mark.parametrize(
    ("draw_a", "fuse_a"), [(0.5, 3), (2.0, 3), (2.4, 3), (2.5, 4), (4.0, 5), (9.0, 15), (60.0, None)]
)
def test_the_supply_that_stands_for_the_car_has_a_fuse_for_its_busiest_contact(
    draw_a: float, fuse_a: float | None
) -> None:
    """Four fifths of a rating are carried for hours: 2.4 A of 3 A, 4 A of 5 A; 1 A and 2 A are hard to find.

    The blade series goes 3, 4, 5, 7.5, 10, 15 … 40 A (trade list of ratings, quoted).
    """
    text = ROAD_ONLY.replace(
        "wire: 14 ft", f"wire: 14 ft, draws: {{tail: 0.1 A, stop: {draw_a} A, turn: 0.2 A}}"
    )
    supply = listed(text).lists.tests.plug_supply
    if fuse_a is None:
        assert supply is None
        return
    assert supply is not None
    assert (supply.most_a, supply.fuse_a) == (pytest.approx(draw_a), fuse_a)


def test_without_road_lamps_nothing_stands_for_the_car() -> None:
    assert listed(EMPTY).lists.tests.plug_supply is None


def test_charging_is_bound_by_the_charger() -> None:
    build = listed(EXAMPLE)
    charge = {line.part: line.most for line in lines(build, Kind.CHARGE)}
    assert charge["dc charger"] == pytest.approx(10.0)
    assert charge["shore converter"] == pytest.approx(15.0)
    rises = {line.part: line.most for line in lines(build, Kind.RISES)}
    assert rises["dc charger"] == pytest.approx(14.4)
    assert rises["shore converter"] == pytest.approx(13.8)
    # as stated for the dc charger; the controller's is assumed, 13.6 to 14.8 V
    assert rises["charge controller"] == pytest.approx(14.8)
    source = next(line for line in lines(build, Kind.SOURCE) if line.part == "solar module")
    assert (source.red, source.black) == (Terminal("solar module", "+"), Terminal("solar module", "−"))


CHARGERS = (
    HEAD
    + """\
tow plug: {pattern: 7-way blade, to front box: 7 ft}
parts:
  shore converter: {kind: shore converter}
  solar module: {kind: solar module}
  charge controller: {kind: charge controller}
circuits:
  shore: {from: shore converter, path: [converter fuse: 1 ft, front box: 6 in]}
  sun: {from: solar module, path: [charge controller: 5 ft, solar fuse: 2 ft, battery: 6 in]}
  car: {from: tow plug battery, path: [car fuse: 7 ft, battery: 6 in]}
"""
)


def test_charging_is_bound_as_the_batterys_page_tells_it() -> None:
    build = listed(CHARGERS)
    energy = build.figures.energy
    assert energy is not None
    told = {way.charger or way.supply: way.current_a for way in energy.charging}
    charge = {line.part: line.most for line in lines(build, Kind.CHARGE)}
    assert charge == {part: pytest.approx(high) for part, (_, high) in told.items()}
    assert len(told) == 3
    assert any(high > low for low, high in told.values())
    assert {line.part: line.most for line in lines(build, Kind.RISES)} == {
        "shore converter": 14.8,
        "charge controller": 14.8,
        "tow plug 4": None,
    }


def test_a_charging_voltage_of_the_makers_own_is_the_bound() -> None:
    build = listed(CHARGERS + "assume: {charging voltage: 14.1 V}\n")
    assert {line.most for line in lines(build, Kind.RISES)} == {14.1, None}


@pytest.mark.parametrize(
    ("chemistry", "kind", "least_v"),
    [
        ("flooded", Kind.RESTED, 12.24),
        ("agm", Kind.RESTED, 12.3),
        ("gel", Kind.BATTERY, 11.5),
        ("lithium", Kind.BATTERY, 12.0),
    ],
)
def test_a_battery_at_rest_is_held_against_its_table(chemistry: str, kind: Kind, least_v: float) -> None:
    """Half full. Battery Council International table, reproduced (quoted): 12.24 V; the AGM table of an owner's
    manual (read) gives 12.0 V at 25 % and 12.6 V at 75 %. Gel and lithium have none: the voltage of an empty one.
    """
    build = listed(HEAD.replace("agm", chemistry))
    (line,) = [one for one in build.lists.tests.lines if one.kind in (Kind.RESTED, Kind.BATTERY)]
    assert (line.kind, line.least) == (kind, pytest.approx(least_v))


COIL_ALONE = (
    HEAD
    + """\
parts:
  fan relay: {kind: relay, draws: 0.15 A}
  coil switch: {kind: switch}
  fan: {kind: fan, draws: 3 A}
circuits:
  air: {path: [fan relay: 5 ft, fan: 1 ft]}
  coil: {path: [coil switch: 5 ft, fan relay: {length: 4 ft, as: coil}]}
"""
)


def test_a_coil_in_a_circuit_of_its_own_is_tested() -> None:
    build = listed(COIL_ALONE)
    number = next(c.number for c in build.trailer.circuits if c.name == "coil")
    own = {
        line.kind: line
        for line in build.lists.tests.lines
        if line.circuit == number and line.group is Group.CIRCUIT
    }
    readings = {Kind.VOLTAGE, Kind.FEED_DROP, Kind.RETURN_DROP}
    assert set(own) == {Kind.JOIN, Kind.WORKS, *readings, Kind.FUSE_OUT}
    assert own[Kind.VOLTAGE].red == Terminal("fan relay", "coil +")
    assert own[Kind.WORKS].parts == own[Kind.FUSE_OUT].parts == ("fan relay",)


def test_a_chain_of_converters_is_followed_to_its_end() -> None:
    build = listed(
        HEAD + "parts:\n"
        "  main switch: {kind: switch}\n"
        "  first: {kind: converter, gives at: 9 V}\n"
        "  second: {kind: converter, gives at: 5 V}\n"
        "  lamp: {kind: lamp, draws: 1 W, at: 5 V}\n"
        "circuits: {light: {path: [main switch: 1 ft, first: 1 ft, second: 1 ft, lamp: 1 ft]}}\n"
    )
    (works,), (stops,) = lines(build, Kind.WORKS), lines(build, Kind.FUSE_OUT)
    assert set(works.parts) == set(stops.parts) == {"first", "second", "lamp"}


def test_a_part_that_waits_is_not_expected_to_work() -> None:
    build = listed(EXAMPLE)
    live = [line for line in build.lists.tests.lines if line.group in (Group.CIRCUIT, Group.ROAD)]
    assert not [line for line in live if "kitchen socket" in (line.part, *line.parts)]


@given(builds())
@settings(max_examples=60)
def test_of_every_build_points_are_there_and_limits_make_sense(generated: GeneratedBuild) -> None:
    build = listed(generated.text)
    wires = (*build.trailer.wires, *build.trailer.spares)
    landed = {end for wire in wires for end in (wire.start, wire.end)}
    poles = {pole for section in build.trailer.sections for pole in (section.plus, section.minus)}
    for line in build.lists.tests.lines:
        assert (line.red is None) == (line.black is None)
        for at in filter(None, (line.red, line.black)):
            assert at in landed | poles, line
        assert line.red is None or line.red != line.black
        numbers = [n for n in (line.least, line.most, line.about, line.below) if n is not None]
        assert all(n >= 0 for n in numbers)
        assert not numbers or line.unit
        if line.least is not None and line.most is not None:
            assert line.least <= line.most
        if line.about is not None and line.most is not None:
            assert line.about < line.most
    if build.trailer.battery is None:
        assert not [line for line in build.lists.tests.lines if line.group is Group.BATTERY]
