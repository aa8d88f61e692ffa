"""What can make road lamps behave oddly, by the wiring itself: shared grounds, LED lamps alone, wires at a hinge."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.guide.making import guides
from builder.guide.model import Cause, Reads, StepKind, Symptom
from builder.guide.odd_lamps import OddLamps, odd_lamps
from builder.routes.plug_ways import Way, plug_ways
from builder.trailer.model import Trailer

EXAMPLES = Path(__file__).parents[2] / "example_build"
NAMES = ("trailer.yaml", "road_lamps/trailer.yaml", "thirteen_pins/trailer.yaml")
US = "format: 1\nbuild: {name: Bean Row, country: US}\ntow plug: {pattern: 4-way flat, to front box: 7 ft}\n"


def trailer(text: str) -> Trailer:
    reading = read_build(text.encode())
    assert reading.trailer is not None, [problem.message for problem in reading.problems]
    return reading.trailer


def odd(text: str) -> OddLamps:
    one = trailer(text)
    return odd_lamps(one, compute(one))


def ends_behind(ways: tuple[Way, ...], wire: str) -> set[str] | None:
    """Return what hangs behind a wire, by a walk of its own over the ways of the plug; None where it is on none."""
    for way in ways:
        if wire in [leg.wire for leg in way.legs]:
            return ends_of((way,))
        found = ends_behind(way.onward, wire)
        if found is not None:
            return found
    return None


def ends_of(ways: tuple[Way, ...]) -> set[str]:
    found: set[str] = set()
    for way in ways:
        found |= ends_of(way.onward) or {way.legs[-1].to.part}
    return found


@pytest.mark.parametrize("name", NAMES)
def test_a_shared_ground_names_just_the_lamps_that_hang_on_its_wire(name: str) -> None:
    text = (EXAMPLES / name).read_text(encoding="utf-8")
    one = trailer(text)
    assert one.tow_plug is not None
    ways = tuple(
        way for at in one.tow_plug.pattern.contacts if at.is_ground for way in plug_ways(one, at.pin)
    )
    found = odd(text).grounds
    assert found
    for ground in found:
        for wire in (number for s in ground.suspects for number in s.wires):
            assert ends_behind(ways, wire) == {thing.part for thing in ground.things}
        assert len({thing.circuit for thing in ground.things}) > 1


def test_a_lamp_with_one_function_and_a_ground_of_its_own_mixes_with_nothing() -> None:
    assert odd(US + "road lamps:\n  plate lamp: {shows: plate, wire: 9 ft}\n").grounds == ()


LAMPS = (
    "road lamps:\n  lamps: {kind}\n  rear lamp: {{shows: [tail, stop, turn], side: both, wire: 9 ft{more}}}\n"
    "  plate lamp: {{shows: plate, wire: 9 ft{plate}}}\n"
)


@pytest.mark.parametrize(
    ("kind", "plate", "contacts"),
    [("led", "", {2, 3, 4}), ("filament", "", set()), ("led", ", bulb: 67", {3, 4})],
)
def test_led_lamps_glow_only_where_no_bulb_shares_their_contact(
    kind: str, plate: str, contacts: set[int]
) -> None:
    text = US + LAMPS.format(kind=kind, more="", plate=plate)
    circuits = {circuit.number: circuit.contact for circuit in trailer(text).circuits}
    assert {circuits[number] for number in odd(text).led} == contacts


def test_a_ground_of_led_lamps_alone_is_told_apart_from_one_with_a_bulb() -> None:
    mixed = US + LAMPS.format(kind="led", more="", plate=", bulb: 67")
    by_size = {len(ground.things): ground.led for ground in odd(mixed).grounds}
    assert by_size == {5: False, 2: True}


def test_without_a_hatch_there_is_no_hinge() -> None:
    for name in NAMES:
        text = (EXAMPLES / name).read_text(encoding="utf-8")
        on_hatch = {lamp.name for lamp in trailer(text).road_lamps if lamp.on_hatch}
        assert {one.thing.part for one in odd(text).hinged} == on_hatch
    assert not odd((EXAMPLES / "road_lamps/trailer.yaml").read_text(encoding="utf-8")).hinged


HATCH = (
    US.replace(
        "tow plug",
        "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}\n"
        "front box: {fuse ways: 4}\ntow plug",
    )
    + "parts:\n  hatch plug: {kind: connector, ways: 6}\n  hatch light: {kind: lamp, draws: 3 W}\n"
    "  fan: {kind: fan, draws: 1 A}\n"
    "circuits:\n  hatch light: {path: [hatch plug: 9 ft, hatch light: 2 ft]}\n  fan: {path: [fan: 3 ft]}\n"
    "road lamps:\n  rear lamp: {shows: [tail, stop, turn], side: left, on the hatch: yes, "
    "path: [hatch plug: 9 ft, rear lamp: 2 ft]}\n"
    "  plate lamp: {shows: plate, on the hatch: yes, wire: 9 ft}\n"
)


def test_at_the_hinge_stand_the_wires_on_both_sides_of_the_connector() -> None:
    found = odd(HATCH)
    one = trailer(HATCH)
    wires = {wire.number: wire for wire in one.wires}
    for lamp in (one_ for one_ in found.hinged if one_.thing.part == "rear lamp"):
        for side in (lamp.feed, lamp.ground):
            assert [s.cause for s in side] == [Cause.WIRE, Cause.WAY, Cause.WIRE]
            numbers = [number for s in side for number in s.wires]
            touched = {end.part for number in numbers for end in (wires[number].start, wires[number].end)}
            assert {"rear lamp", "hatch plug", "front box"} == touched
            assert all("hatch plug" in {wires[n].start.part, wires[n].end.part} for n in numbers)
    assert [thing.part for thing in found.beside] == ["hatch light"]


def test_a_lamp_on_the_hatch_without_a_connector_has_its_own_two_wires_there() -> None:
    (plate,) = (one for one in odd(HATCH).hinged if one.thing.part == "plate lamp")
    wires = {wire.number: wire for wire in trailer(HATCH).wires}
    for side in (plate.feed, plate.ground):
        (suspect,) = side
        (number,) = suspect.wires
        assert {wires[number].start.part, wires[number].end.part} == {"plate lamp", "front box"}


def test_where_a_connector_alone_tells_a_lamp_may_still_come_off_with_what_it_sits_on() -> None:
    found = odd((EXAMPLES / "road_lamps/trailer.yaml").read_text(encoding="utf-8"))
    (plate,) = found.loose
    assert plate.thing.part == "plate lamp"
    for side in (plate.feed, plate.ground):
        assert [one.cause for one in side] == [Cause.WIRE, Cause.WAY, Cause.WIRE]
    assert found.beside_loose == ()


def test_what_goes_through_the_connector_of_a_loose_lamp_is_named_beside_it() -> None:
    found = odd(HATCH.replace("on the hatch: yes, ", ""))
    assert {one.thing.part for one in found.loose} == {"rear lamp"}
    assert [thing.part for thing in found.beside_loose] == ["hatch light"]
    assert found.hinged == found.beside == ()


def test_a_lamp_is_on_the_hatch_or_loose_and_never_both() -> None:
    for name in NAMES:
        found = odd((EXAMPLES / name).read_text(encoding="utf-8"))
        assert not {one.thing for one in found.hinged} & {one.thing for one in found.loose}


def test_only_a_ground_before_the_bar_has_a_second_way() -> None:
    """The frame bond meets the ground bar, and so does the charge line; a hatch's ground has left it behind.

    The charge line ends on the plug's own contact: lost there, it is lost as well and no way back.
    """
    found = odd((EXAMPLES / "trailer.yaml").read_text(encoding="utf-8"))
    wire, contact = (one for one in found.grounds if one.ways)
    most = max(len(one.things) for one in found.grounds)
    assert len(wire.things) == len(contact.things) == most
    assert [way.through for way in wire.ways] == [(), ("dc charger",)]
    assert [way.through for way in contact.ways] == [()]
    assert not any(one.ways for one in odd((EXAMPLES / "road_lamps/trailer.yaml").read_text("utf-8")).grounds)


def test_what_is_dead_beside_the_lamps_tells_a_contact_from_its_wire() -> None:
    """Wires that end on one contact of the plug are lost with it; each of them is lost alone when it breaks."""
    found = odd((EXAMPLES / "braked/trailer.yaml").read_text("utf-8")).grounds
    wire, contact = (one for one in found if len(one.things) == 9)
    assert [suspect.wires for suspect in wire.suspects] == [("6A",)]
    assert wire.beside == ()
    assert {suspect.cause for suspect in contact.suspects} == {Cause.CONTACT, Cause.CAR_GROUND}
    assert [thing.part for thing in contact.beside] == ["left brake", "right brake", "charge line"]


def test_the_guide_for_wrong_lamps_asks_for_the_brakes_before_the_meter() -> None:
    one = trailer((EXAMPLES / "braked/trailer.yaml").read_text("utf-8"))
    made = guides(one, compute(one))
    (wrong,) = (guide for guide in made if guide.symptom is Symptom.WRONG)
    ask = wrong.steps[1]
    assert ask.kind is StepKind.OTHERS
    assert {thing.part for outcome in ask.outcomes for thing in outcome.things} == {
        "left brake",
        "right brake",
    }
    leaves = {leaf.id: leaf.suspects for leaf in wrong.leaves}
    dead = next(leaves[one.to] for one in ask.outcomes if one.reads is Reads.DEAD)
    assert {suspect.cause for suspect in dead} == {Cause.CONTACT, Cause.CAR_GROUND}
    alone = next(suspects for suspects in leaves.values() if any("6A" in s.wires for s in suspects))
    assert len(alone) == 1
