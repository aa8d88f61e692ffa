"""Short tests of the sheet: behind every fuse and at every supply, on points that stay joined."""

from __future__ import annotations

from listed import EXAMPLE, HEAD, METRIC, ROAD_ONLY, Listed, listed

from builder.lists.testing import Kind, Line
from builder.trailer.model import BATTERY, GROUND_BAR, TOW_PLUG
from builder.trailer.parts import Terminal
from builder.trailer.wires import Role


def no_short(build: Listed) -> list[Line]:
    return [line for line in build.lists.tests.lines if line.kind in (Kind.OPEN, Kind.NO_SHORT)]


def test_shorts_are_sought_behind_every_fuse_of_a_circuit() -> None:
    build = listed(EXAMPLE)
    line = build.trailer.battery_line
    assert line is not None
    behind = {one.fuse for one in no_short(build) if one.fuse}
    fuses = {
        fuse.name
        for fuse in build.figures.fuses
        if fuse.circuit != line.number and not (fuse.device == "breaker" and fuse.way is None)
    }
    assert behind == fuses


def test_a_fuse_behind_a_way_is_out_and_has_a_test_of_its_own() -> None:
    build = listed(
        HEAD + "parts: {fan: {kind: fan, draws: 1 A, own switch: yes}}\n"
        "circuits: {air: {path: [fan fuse: 5 ft, fan: 1 ft]}}\n"
    )
    line = next(one for one in no_short(build) if one.fuse == "fan fuse")
    assert (line.red, line.black) == (Terminal("fan fuse", "out"), GROUND_BAR)


def test_what_goes_up_to_a_fuse_is_tested_before_a_supply_is_joined() -> None:
    """Behind the main fuse, from each charger to its fuse, and behind what lets nothing through without a supply.

    No other test reaches these, with every switch on, and all become live.
    """
    build = listed(EXAMPLE)
    by_wire = {one.wire: one for one in no_short(build) if one.wire and not one.fuse}
    assert {number: one.red for number, one in by_wire.items()} == {
        "12A": Terminal("main fuse", "out"),
        "14C": Terminal("dc charger", "out +"),
        "15B": Terminal("charge controller", "out +"),
        "16A": Terminal("shore converter", "+"),
        "4B": Terminal("cabin dimmer", "out"),
        "5B": Terminal("awning receiver", "out 1"),
        "5C": Terminal("awning receiver", "out 2"),
        "6B": Terminal("pump relay", "contact out"),
        "8B": Terminal("phone converter", "out +"),
    }
    assert by_wire["4B"].parts == ("cabin lamp",)
    assert by_wire["12A"].black == GROUND_BAR
    assert by_wire["14C"].parts == ("dc charger",)


def test_without_an_isolating_switch_the_bars_test_reaches_the_main_fuse() -> None:
    build = listed(HEAD + "parts: {fan: {kind: fan, draws: 1 A}}\ncircuits: {air: {path: [fan: 5 ft]}}\n")
    ahead = [one for one in no_short(build) if one.wire and not one.fuse]
    assert [one.red for one in ahead] == [Terminal(BATTERY, "+")]


def test_the_black_probe_of_a_short_test_is_on_what_stays_joined() -> None:
    """With both clamps off, nothing in the trailer is joined to the battery: the return ends at bar or clamp."""
    build = listed(EXAMPLE)
    gas = next(one for one in no_short(build) if one.fuse == "gas alarm fuse")
    assert (gas.red, gas.black) == (Terminal("gas alarm fuse", "out"), GROUND_BAR)
    # its return goes to the battery itself: the page says that the clamp is meant
    meter = next(one for one in no_short(build) if one.fuse == "meter fuse")
    assert (meter.red, meter.black) == (Terminal("meter fuse", "out"), Terminal(BATTERY, "−"))


def test_charge_lines_and_solar_cables_are_tested_for_shorts() -> None:
    build = listed(EXAMPLE)
    tested = {(one.red, one.black) for one in no_short(build) if not one.fuse}
    assert (Terminal(TOW_PLUG, "4"), Terminal(TOW_PLUG, "1")) in tested
    assert (Terminal("solar module", "+"), Terminal("solar module", "−")) in tested


def test_charge_lines_of_a_european_plug_have_their_own_ground() -> None:
    """ISO 11446, as the table of plug contacts has it (quoted): contact 9 is permanent supply, 13 its ground."""
    build = listed(
        METRIC.replace("circuits:", "  fridge: {kind: fridge, draws: 3 A}\ncircuits:").replace(
            "road lamps:",
            "  cold: {from: tow plug battery, path: [fridge fuse: 1 m, fridge: 2 m]}\nroad lamps:",
        )
    )
    tested = {(one.red, one.black) for one in no_short(build) if not one.fuse}
    assert (Terminal(TOW_PLUG, "9"), Terminal(TOW_PLUG, "13")) in tested


def test_a_short_test_names_the_wire_on_the_contact_that_is_meant() -> None:
    """A fuse has two contacts. The charger is joined to the other one of a charge line's fuse and would be read."""
    build = listed(EXAMPLE)
    wires = {wire.number: wire for wire in build.trailer.wires}
    found = {one.fuse: one for one in no_short(build) if one.fuse}
    assert (found["battery fuse"].wire, found["solar fuse"].wire) == ("14D", "15C")
    assert wires["14D"].end.part == wires["15C"].end.part == BATTERY
    for line in found.values():
        assert wires[line.wire].start == line.red
    (gas,) = (
        one for one in build.lists.tests.lines if one.kind is Kind.FEED_DROP and one.part == "gas alarm"
    )
    assert (gas.red, gas.wire) == (wires["12A"].start, "12A")
    others = [
        one for one in build.lists.tests.lines if one.kind is Kind.FEED_DROP and one.part != "gas alarm"
    ]
    assert {one.wire for one in others} == {""}


def test_what_no_switch_takes_off_is_not_said_to_read_open() -> None:
    build = listed(EXAMPLE)
    by_fuse = {one.fuse: one for one in no_short(build) if one.fuse}
    assert (by_fuse["gas alarm fuse"].kind, by_fuse["gas alarm fuse"].parts) == (
        Kind.NO_SHORT,
        ("gas alarm",),
    )
    assert (by_fuse["way 8"].kind, by_fuse["way 8"].parts) == (Kind.NO_SHORT, ("phone converter",))
    # the switch, the relay's contact, the fan's own switch, a socket with nothing in it
    for way in ("way 1", "way 2", "way 6", "way 7", "way 12"):
        assert (by_fuse[way].kind, by_fuse[way].parts) == (Kind.OPEN, ())
    module = next(one for one in no_short(build) if one.part == "solar module")
    assert (module.kind, module.parts) == (Kind.NO_SHORT, ("charge controller",))


def test_with_its_switches_on_a_line_reaches_what_is_behind_them() -> None:
    """A dimmer and a relay let nothing through without a supply; a part with a switch of its own is one of them."""
    by_fuse = {one.fuse: one for one in no_short(listed(EXAMPLE)) if one.fuse}
    steps = by_fuse["way 1"]
    assert steps.switches == ("left step switch", "right step switch", "kitchen step switch")
    assert steps.behind == ("left step lamp", "right step lamp")
    assert (by_fuse["way 7"].switches, by_fuse["way 7"].behind) == (("roof fan",), ("roof fan",))
    assert by_fuse["way 6"].behind == ("pump switch", "pump relay")
    assert by_fuse["way 4"].behind == by_fuse["way 12"].behind == ()
    # the hatch lamp is behind a connector, which is mated
    assert (by_fuse["way 9"].switches, by_fuse["way 9"].behind) == (("hatch switch",), ("hatch lamp",))


def test_every_feed_is_reached_once_all_is_joined() -> None:
    build = listed(EXAMPLE)
    to_come = {part.name for part in build.trailer.parts.values() if part.waiting}
    open_kinds = ("dimmer", "receiver", "relay", "isolating switch", "fuse")
    met: set[Terminal] = {one.red for one in no_short(build) if one.red is not None}
    joins = [(w.start, w.end) for w in build.trailer.wires if w.role in (Role.FEED, Role.TRAVELLER)]
    for link in build.trailer.links:
        part = build.trailer.parts.get(link.a.part)
        if "supply" not in (link.a.pin, link.b.pin) and (part is None or part.kind not in open_kinds):
            joins.append((link.a, link.b))
    for part in build.trailer.parts.values():
        if part.kind in ("two-way switch", "four-way switch"):  # one position after the other joins them all
            ends = [e for w in build.trailer.wires for e in (w.start, w.end) if e.part == part.name]
            joins += [(ends[0], end) for end in ends]
    for _ in joins:
        met |= {b for a, b in joins if a in met} | {a for a, b in joins if b in met}
    for wire in build.trailer.wires:
        if wire.role in (Role.FEED, Role.TRAVELLER) and wire.end.part not in to_come:
            assert {wire.start, wire.end} & met, wire.number


def test_a_contact_at_rest_lets_the_meter_through() -> None:
    """A relay without a supply joins its rest contact: what hangs there is read as well."""
    text = (
        HEAD + "parts: {turn: {kind: relay}, fan: {kind: fan, draws: 1 A}, key: {kind: switch}}\n"
        "circuits:\n"
        "  air: {path: [turn: 5 ft], branches: [{from: turn, output: rest, path: [fan: 1 ft]}]}\n"
        "  coil: {path: [key: 1 ft, turn: {length: 1 ft, as: coil}]}\n"
    )
    line = next(one for one in no_short(listed(text)) if one.fuse == "way 1")
    assert (line.kind, line.parts) == (Kind.NO_SHORT, ("fan",))


def test_bulbs_are_taken_out_and_leds_are_not() -> None:
    """A 1 A taillamp by the trailer trade's estimating rule (quoted) is a bulb, 0.1 A is none."""
    bulbs = next(one for one in no_short(listed(ROAD_ONLY)) if one.circuit == 3)
    assert (bulbs.kind, bulbs.parts, bulbs.bulbs) == (Kind.OPEN, (), ("rear lamp left",))
    leds = listed(ROAD_ONLY.replace("road lamps:", "road lamps:\n  lamps: led"))
    line = next(one for one in no_short(leds) if one.circuit == 3)
    assert (line.kind, line.parts, line.bulbs) == (Kind.NO_SHORT, ("rear lamp left",), ())
