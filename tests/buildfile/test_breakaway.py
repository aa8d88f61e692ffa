"""The breakaway's circuit ends where the brakes are wired: two supplies, the same magnets, each counted once."""

from __future__ import annotations

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.guide.supplies import supplies_of
from builder.lists.dead_tests import to_unplug
from builder.pages.page_start import live_things
from builder.trailer.model import Trailer

HEAD = """
format: 1
build: {name: Heron Mill, country: US}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}
parts:
  away battery: {kind: breakaway battery}
  away switch: {kind: breakaway switch, rating: 20 A}
  brake splice: {kind: splice}
  left brake: {kind: brake magnet, draws: 3.75 A}
  right brake: {kind: brake magnet, draws: 3.75 A}
circuits:
"""
BRAKES = """  brakes:
    from: tow plug brake
    size: 12 AWG
    path: [brake splice: 14 ft, left brake: 4 ft]
    branches: [{from: brake splice, path: [right brake: 4 ft]}]
"""
AWAY = "  breakaway: {from: away battery, fuse: 20 A, size: 12 AWG, path: [away switch: 1 ft, brake splice: 10 ft]}\n"


def worked(text: str) -> tuple[Trailer, Figures]:
    reading = read_build(text.encode())
    assert reading.trailer is not None, [problem.message for problem in reading.problems]
    return reading.trailer, compute(reading.trailer)


def wires_of(trailer: Trailer, figures: Figures, name: str) -> dict[tuple[str, str], float]:
    number = next(circuit.number for circuit in trailer.circuits if circuit.name == name)
    return {
        (wire.start.part, wire.end.part): figures.wires[wire.number].current_a
        for wire in trailer.wires
        if wire.circuit == number
    }


@pytest.mark.parametrize("text", [HEAD + BRAKES + AWAY, HEAD + AWAY + BRAKES], ids=["behind", "before"])
def test_both_land_on_one_splice_and_each_magnet_counts_once(text: str) -> None:
    trailer, figures = worked(text)
    away, brakes = (wires_of(trailer, figures, name) for name in ("breakaway", "brakes"))
    assert away[("away switch", "brake splice")] == pytest.approx(7.5)
    assert away[("brake splice", "away battery")] == pytest.approx(7.5)
    assert brakes[("tow plug", "brake splice")] == pytest.approx(7.5)
    assert brakes[("brake splice", "left brake")] == pytest.approx(3.75)
    assert brakes[("left brake", "brake splice")] == pytest.approx(3.75)


def test_the_drop_from_either_supply_is_that_of_its_own_way() -> None:
    trailer, figures = worked(HEAD + BRAKES + AWAY)
    by_name = {trailer.circuit(n).name: made for n, made in figures.circuits.items()}
    ohm = figures.wires
    for name, ways in (("breakaway", 3 + 1), ("brakes", 1 + 1)):
        load = next(one for one in by_name[name].loads if one.load.part == "left brake")
        own = [step.wire for step in load.steps if trailer.wires and step.wire in ohm]
        shared = sum(3.75 * ohm[n].resistance_ohm for n in own if ohm[n].current_a == pytest.approx(3.75))
        full = [n for n in own if ohm[n].current_a == pytest.approx(7.5)]
        assert len(full) == ways
        assert load.drop_v == pytest.approx(shared + sum(7.5 * ohm[n].resistance_ohm for n in full))


def test_everything_that_lists_supplies_names_the_breakaway() -> None:
    trailer, _ = worked(HEAD + BRAKES + AWAY)
    for name in ("brakes", "breakaway"):
        number = next(circuit.number for circuit in trailer.circuits if circuit.name == name)
        assert {(one.kind, one.name) for one in supplies_of(trailer, (number,))} == {
            ("breakaway battery", "away battery"),
            ("tow plug", "tow plug"),
        }
    assert "away battery" in to_unplug(trailer)
    assert {"kind": "breakaway battery", "name": "away battery"} in live_things(trailer)


def test_the_switch_and_the_fuse_carry_what_the_magnets_take() -> None:
    trailer, figures = worked(HEAD + BRAKES + AWAY)
    (switch,) = figures.switches
    assert (switch.name, switch.load_a) == ("away switch", pytest.approx(7.5))
    (fuse,) = (fuse for fuse in figures.fuses if trailer.circuit(fuse.circuit).name == "breakaway")
    assert fuse.load_a == pytest.approx(7.5)
    assert {one.part: one.current_a for one in figures.carried}["brake splice"] == pytest.approx(7.5)


def test_it_may_end_on_a_magnet_of_a_row_too() -> None:
    row = "  brakes: {from: tow plug brake, size: 12 AWG, path: [left brake: 14 ft, right brake: 5 ft]}\n"
    trailer, figures = worked(HEAD + row + AWAY.replace("brake splice: 10 ft", "left brake: 9 ft"))
    assert figures.brakes is not None
    assert trailer.circuit(figures.brakes.breakaway or 0).name == "breakaway"
    away = next(c for c in figures.circuits.values() if trailer.circuit(c.number).name == "breakaway")
    assert [one.load.part for one in away.loads] == ["left brake", "right brake"]
    assert wires_of(trailer, figures, "brakes")[("left brake", "right brake")] == pytest.approx(3.75)


def test_without_a_breakaway_switch_a_part_is_wired_once() -> None:
    text = HEAD + BRAKES + AWAY.replace("away switch: 1 ft, ", "")
    assert [problem.name for problem in read_build(text.encode()).problems] == ["wired twice"]


def test_the_house_battery_can_hold_the_brakes_and_its_nights_do_not_count_them() -> None:
    house = (
        "battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}\n"
        "front box: {fuse ways: 4}\n"
    )
    head = HEAD.replace("parts:", house + "parts:")
    without, with_it = (
        worked(head + BRAKES)[1],
        worked(head + BRAKES + AWAY.replace("away battery,", "battery,"))[1],
    )
    assert without.energy is not None
    assert with_it.energy is not None
    assert with_it.energy.days == without.energy.days


def test_a_joint_of_another_circuit_is_no_place_for_it() -> None:
    text = (
        HEAD.replace(
            "parts:\n",
            "battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}\n"
            "front box: {fuse ways: 4}\nparts:\n  bar: {kind: bar}\n  lamp: {kind: lamp}\n",
        )
        + "  lamp: {path: [bar: 3 ft, lamp: 2 ft]}\n"
        + BRAKES
        + AWAY.replace("brake splice: 10 ft", "bar: 10 ft")
    )
    assert [problem.name for problem in read_build(text.encode()).problems] == ["wired twice"]
