"""The test sheet: its order, its points, its limits summed again, and nothing that a build lacks."""

from __future__ import annotations

from itertools import groupby

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from listed import BUILDS, EMPTY, EXAMPLE, HEAD, METRIC, NO_BATTERY, ROAD_ONLY, SMALLEST, Listed, listed

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
    wires = {wire.number: wire for wire in build.trailer.wires}
    tested = lines(build, Kind.WIRE)
    assert [line.wire for line in tested] == list(wires)
    for line in tested:
        assert (line.red, line.black) == (wires[line.wire].start, wires[line.wire].end)
        assert line.most == pytest.approx(build.figures.wires[line.wire].resistance_ohm + 0.1)


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
    assert groups == {Group.WIRES, Group.SHORTS, Group.ROAD}
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
        loads = [load for load in figures.loads if load.load.what in ("", "input")]
        assert [(line.red, line.black) for line in measured] == [(o.load.plus, o.load.minus) for o in loads]
        for line, load in zip(measured, loads, strict=True):
            supply_v = volts[load.load.section]
            assert line.most == supply_v
            assert line.below == pytest.approx(load.drop_v + 0.4)
            assert line.least == pytest.approx(max(0.0, supply_v - load.drop_v - 0.4))


def drop_between(build: Listed, part: str, returns: bool) -> float:
    """Return what the wires of a load's feed or return lose in volts, the battery's own line left out."""
    line = build.trailer.battery_line
    wires = {wire.number: wire for wire in build.trailer.wires}
    loads = [load for circuit in build.figures.circuits.values() for load in circuit.loads]
    load = next(load for load in loads if load.load.part == part and load.load.what == "")
    total = 0.0
    for step in load.steps:
        wire = wires[step.wire]
        if (wire.role is Role.RETURN) == returns and (line is None or wire.circuit != line.number):
            total += build.figures.wires[step.wire].resistance_ohm * step.current_a
    return total


def test_what_the_feed_and_the_return_lose_is_measured_apart() -> None:
    build = listed(EXAMPLE)
    feed = next(line for line in lines(build, Kind.FEED_DROP) if line.part == "water pump")
    back = next(line for line in lines(build, Kind.RETURN_DROP) if line.part == "water pump")
    assert (feed.red, feed.black) == (SUPPLY_BAR, Terminal("water pump", "+"))
    assert (back.red, back.black) == (Terminal("water pump", "−"), GROUND_BAR)
    assert feed.about == pytest.approx(drop_between(build, "water pump", returns=False))
    assert back.about == pytest.approx(drop_between(build, "water pump", returns=True))
    assert (feed.most, back.most) == (pytest.approx(feed.about + 0.3), pytest.approx(back.about + 0.1))
    assert feed.current_a == pytest.approx(4.0)


def test_the_load_that_loses_most_is_the_one_measured() -> None:
    build = listed(EXAMPLE)
    for number, figures in build.figures.circuits.items():
        feed = [line for line in lines(build, Kind.FEED_DROP) if line.circuit == number]
        loads = [load for load in figures.loads if load.load.what in ("", "input")]
        if feed and feed[0].group is Group.CIRCUIT:
            assert feed[0].part == max(loads, key=lambda load: load.drop_v).load.part


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


def test_charging_is_bound_by_the_charger() -> None:
    build = listed(EXAMPLE)
    charge = {line.part: line.most for line in lines(build, Kind.CHARGE)}
    assert charge["dc charger"] == pytest.approx(10.0)
    assert charge["shore converter"] == pytest.approx(15.0)
    rises = {line.part: line.most for line in lines(build, Kind.RISES)}
    assert rises["dc charger"] == pytest.approx(14.4)
    assert rises["shore converter"] == pytest.approx(13.8)
    source = next(line for line in lines(build, Kind.SOURCE) if line.part == "solar module")
    assert (source.red, source.black) == (Terminal("solar module", "+"), Terminal("solar module", "−"))


def test_shorts_are_sought_behind_every_fuse_of_a_circuit() -> None:
    build = listed(EXAMPLE)
    line = build.trailer.battery_line
    assert line is not None
    behind = {one.fuse for one in lines(build, Kind.OPEN) if one.fuse}
    fuses = {
        fuse.name
        for fuse in build.figures.fuses
        if fuse.circuit != line.number and not (fuse.way is None and build.trailer.circuit(fuse.circuit).way)
    }
    assert behind == fuses
    gas = next(one for one in lines(build, Kind.OPEN) if one.fuse == "gas alarm fuse")
    assert (gas.red, gas.black) == (Terminal("gas alarm fuse", "out"), Terminal(BATTERY, "−"))


@given(builds())
@settings(max_examples=60)
def test_of_every_build_points_are_there_and_limits_make_sense(generated: GeneratedBuild) -> None:
    build = listed(generated.text)
    landed = {end for wire in build.trailer.wires for end in (wire.start, wire.end)}
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
