"""A part that waits on the test sheet: nothing is asked of it live, and dead tests expect only what is there."""

from __future__ import annotations

import pytest
from listed import HEAD, Listed, listed
from test_put_back import check

from builder.lists.testing import Act, Group, Kind, Line
from builder.trailer.model import BATTERY, GROUND_BAR, SUPPLY_BAR, TOW_PLUG

CHARGED = (
    HEAD
    + """\
parts:
  lamp: {kind: lamp, draws: 3 W}
  sun: {kind: solar module, gives: 100 W}
  sun fuse: {kind: fuse, rating: 10 A}
  controller: {kind: charge controller}
  controller fuse: {kind: fuse, rating: 10 A}
  shore: {kind: shore converter, gives: 10 A}
  shore fuse: {kind: fuse, rating: 15 A}
circuits:
  light: {path: [lamp: 6 ft]}
  solar: {from: sun, path: [sun fuse: 1 ft, controller: 12 ft, controller fuse: 4 ft, battery: 6 in]}
  mains: {from: shore, path: [shore fuse: 1 ft, front box: 6 in]}
"""
)
SOLAR = ("sun", "sun fuse", "controller", "controller fuse")
PLUGGED = (
    HEAD
    + """\
tow plug: {pattern: 4-way flat, to front box: 7 ft}
parts: {hatch plug: {kind: connector, ways: 8}, lamp: {kind: lamp, draws: 24 W}}
circuits: {light: {path: [lamp: 1 ft]}}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, path: [hatch plug: 5 ft, rear lamp: 3 ft]}
  marker: {shows: marker, side: left, wire: 4 ft}
"""
)
BEHIND = (
    HEAD + "parts: {fan fuse: {kind: fuse}, fan: {kind: fan, draws: 1 A}, plug: {kind: connector, ways: 4}}\n"
)


def waiting(text: str, name: str) -> Listed:
    """Return a build in which one part waits; its sheet joins and puts in only what is there, and all of it."""
    build = listed(f"{text}waiting: {{{name}: in May}}\n")
    check(build)
    assert not [s for line in build.lists.tests.lines for s in line.steps if name in s.names]
    return build


def charging(build: Listed) -> set[str]:
    lines = (line for line in build.lists.tests.lines if line.group is Group.CHARGING)
    return {line.part for line in lines if line.kind is Kind.CHARGE}


def short(build: Listed, fuse: str) -> Line:
    kinds = (Kind.OPEN, Kind.NO_SHORT)
    (line,) = (one for one in build.lists.tests.lines if one.kind in kinds and one.fuse == fuse)
    return line


def bars(build: Listed) -> Line:
    kinds = (Kind.OPEN, Kind.NO_SHORT)
    lines = build.lists.tests.lines
    return next(
        one for one in lines if one.kind in kinds and (one.red, one.black) == (SUPPLY_BAR, GROUND_BAR)
    )


def test_with_all_there_both_ways_charge() -> None:
    assert charging(listed(CHARGED)) == {"controller", "shore"}
    assert listed(CHARGED).lists.tests.unplug == (BATTERY, "sun", "shore")


@pytest.mark.parametrize("name", SOLAR)
def test_a_module_charges_nothing_while_something_on_its_way_waits(name: str) -> None:
    build = waiting(CHARGED, name)
    assert charging(build) == {"shore"}
    told = [line for line in build.lists.tests.lines if line.group is Group.CHARGING]
    assert not [line for line in told if line.red is not None and line.red.part in SOLAR]


@pytest.mark.parametrize("name", ["shore", "shore fuse"])
def test_nor_does_a_converter_from_shore_power(name: str) -> None:
    build = waiting(CHARGED, name)
    assert charging(build) == {"controller"}
    acts = {step.act for line in build.lists.tests.lines for step in line.steps}
    assert Act.SHORE_IN not in acts


@pytest.mark.parametrize("name", ["sun", "shore"])
def test_a_supply_that_is_not_there_is_not_taken_off(name: str) -> None:
    left = {"sun": "shore", "shore": "sun"}[name]
    assert waiting(CHARGED, name).lists.tests.unplug == (BATTERY, left)


def test_the_front_box_is_charged_only_where_its_line_is_whole() -> None:
    text = CHARGED.replace(
        "to main fuse: 5 in, to front box: 4 ft", "path: [main fuse: 5 in, isolator: 1 ft, front box: 4 ft]"
    )
    text = text.replace("parts:\n", "parts:\n  isolator: {kind: isolating switch}\n")
    assert charging(listed(text)) == {"controller", "shore"}
    build = waiting(text, "isolator")
    assert charging(build) == {"controller"}
    live = [line for line in build.lists.tests.lines if line.group in (Group.BATTERY, Group.CIRCUIT)]
    assert {line.kind for line in live} <= {Kind.BATTERY, Kind.RESTED, Kind.JOIN}


def test_lamps_behind_a_connector_that_waits_are_not_expected_to_shine() -> None:
    whole, build = listed(PLUGGED), waiting(PLUGGED, "hatch plug")
    lamps = {line.red: line for line in whole.lists.tests.lines if line.kind is Kind.LAMPS}
    left = [line for line in build.lists.tests.lines if line.kind is Kind.LAMPS]
    assert [line.parts for line in left] == [("marker",)]
    marker = next(
        load
        for circuit in build.figures.circuits.values()
        for load in circuit.loads
        if load.load.part == "marker"
    )
    assert left[0].about == pytest.approx(marker.current_a)
    assert (lamps[left[0].red].about or 0.0) > marker.current_a
    road = [line for line in build.lists.tests.lines if line.group is Group.ROAD]
    assert not [line for line in road if line.part.startswith("rear lamp")]
    assert {line.red.part for line in left if line.red} == {TOW_PLUG}


def test_behind_a_fuse_that_waits_the_meter_still_finds_the_load() -> None:
    """The wire that would leave the fuse leads to the fan, whose return is in."""
    build = waiting(BEHIND + "circuits: {air: {path: [fan fuse: 1 ft, fan: 3 ft]}}\n", "fan fuse")
    line = short(build, "fan fuse")
    assert (line.kind, line.parts) == (Kind.NO_SHORT, ("fan",))
    way = short(build, "way 1")
    assert (way.kind, way.parts) == (Kind.OPEN, ())


@pytest.mark.parametrize(
    "path", ["fan fuse: 1 ft, plug: 1 ft, fan: 3 ft", "plug: 1 ft, fan fuse: 1 ft, fan: 3 ft"]
)
def test_a_connector_that_waits_parts_feed_or_return(path: str) -> None:
    text = BEHIND + f"circuits: {{air: {{path: [{path}]}}}}\n"
    assert short(listed(text), "fan fuse").parts == ("fan",)
    assert short(waiting(text, "plug"), "fan fuse").kind is Kind.OPEN


def test_a_supply_that_waits_does_not_hang_on_the_box() -> None:
    text = CHARGED.replace("[shore fuse: 1 ft, front box: 6 in]", "[front box: 6 in]")
    text = text.replace("  shore fuse: {kind: fuse, rating: 15 A}\n", "")
    assert (bars(listed(text)).kind, bars(listed(text)).parts) == (Kind.NO_SHORT, ("shore",))
    assert bars(waiting(text, "shore")).kind is Kind.OPEN


def test_a_contact_whose_coil_cannot_be_worked_is_not_asked_for() -> None:
    text = HEAD + (
        "parts: {relay: {kind: relay}, knob: {kind: switch}, fan: {kind: fan, draws: 3 A}}\n"
        "circuits:\n  air: {path: [relay: 5 ft, fan: 1 ft]}\n"
        "  coil: {path: [knob: 5 ft, relay: {length: 4 ft, as: coil}]}\n"
    )
    asked = [line for line in listed(text).lists.tests.lines if line.kind is Kind.VOLTAGE]
    assert "fan" in {line.part for line in asked}
    left = waiting(text, "knob").lists.tests.lines
    assert not [line for line in left if line.group is Group.CIRCUIT and "fan" in (line.part, *line.parts)]


def test_what_a_converter_feeds_waits_with_the_converters_fuse() -> None:
    text = HEAD + (
        "parts: {usb fuse: {kind: fuse}, step down: {kind: converter, gives at: 5 V}, "
        "sock: {kind: socket, draws: 10 W, at: 5 V}}\n"
        "circuits: {usb: {path: [usb fuse: 1 ft, step down: 3 ft, sock: 1 ft]}}\n"
    )
    assert [
        line for line in listed(text).lists.tests.lines if line.kind is Kind.VOLTAGE and line.part == "sock"
    ]
    left = waiting(text, "usb fuse").lists.tests.lines
    assert not [line for line in left if line.group is Group.CIRCUIT]
