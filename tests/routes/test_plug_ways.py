"""The ways of the plug's wires: each wire once, each lamp at an end, connectors and splices passed by name."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from builder.buildfile.resolving import read_build
from builder.routes.plug_ways import Leg, Way, plug_ways
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.wires import Role

EXAMPLES = Path(__file__).parents[2] / "example_build"
NAMES = (
    "trailer.yaml",
    "road_lamps/trailer.yaml",
    "thirteen_pins/trailer.yaml",
    "two_plugs/trailer.yaml",
    "braked/trailer.yaml",
)


def trailer(text: str) -> Trailer:
    reading = read_build(text.encode())
    assert reading.trailer is not None, [problem.message for problem in reading.problems]
    return reading.trailer


def example(name: str) -> Trailer:
    return trailer((EXAMPLES / name).read_text(encoding="utf-8"))


def legs_of(ways: tuple[Way, ...]) -> Iterator[Leg]:
    for way in ways:
        yield from way.legs
        yield from legs_of(way.onward)


def ends_of(ways: tuple[Way, ...]) -> Iterator[str]:
    for way in ways:
        if not way.onward:
            yield way.legs[-1].to.part
        yield from ends_of(way.onward)


def told(ways: tuple[Way, ...]) -> list[object]:
    """Return ways as nested lists: ``wire > where`` for each leg, then the ways that go on."""
    return [
        [f"{leg.wire} > {leg.to.part} {leg.to.pin}" for leg in way.legs] + told(way.onward) for way in ways
    ]


@pytest.mark.parametrize("name", NAMES)
def test_each_wire_of_the_road_lamps_stands_once_and_under_its_own_contact(name: str) -> None:
    one = example(name)
    tow = {circuit.number for circuit in one.circuits if circuit.kind is CircuitKind.TOW}
    assert one.tow_plug is not None
    found = [leg.wire for at in one.tow_plug.pattern.contacts for leg in legs_of(plug_ways(one, at.pin))]
    assert len(found) == len(set(found))
    assert {wire.number for wire in one.wires if wire.circuit in tow} <= set(found)


@pytest.mark.parametrize("name", NAMES)
def test_a_contact_leads_to_the_lamps_that_it_feeds_and_a_ground_to_all(name: str) -> None:
    one = example(name)
    assert one.tow_plug is not None
    for at in one.tow_plug.pattern.contacts:
        lamps = {lamp.name for lamp in one.road_lamps for _, to in lamp.contacts if to == at.pin}
        ends = set(ends_of(plug_ways(one, at.pin)))
        if lamps:
            assert ends == lamps
    every = {lamp.name for lamp in one.road_lamps}
    grounds = [at.pin for at in one.tow_plug.pattern.contacts if at.is_ground]
    assert any(every <= set(ends_of(plug_ways(one, number))) for number in grounds)


HEAD = "format: 1\nbuild: {name: Example, country: US}\ntow plug: {pattern: 4-way flat, to front box: 5 ft}\n"


def test_a_connector_is_passed_by_its_way_and_a_branch_begins_behind_it() -> None:
    one = trailer(
        HEAD + "parts: {hatch plug: {kind: connector, ways: 4}}\nroad lamps:\n"
        "  rear lamp: {shows: [tail, stop, turn], side: both, path: [hatch plug: 10 ft, rear lamp: 2 ft]}\n"
    )
    (left,) = (way for way in plug_ways(one, "3"))
    assert [leg.to.part for leg in left.legs][-2:] == ["hatch plug", "rear lamp left"]
    assert left.legs[-2].to.pin.startswith("way ")
    (tail,) = plug_ways(one, "2")
    assert tail.legs[-1].to.part == "hatch plug"
    assert [way.legs[-1].to.part for way in tail.onward] == ["rear lamp left", "rear lamp right"]
    assert plug_ways(one, "9") == ()


def test_the_way_back_is_told_from_the_plug_as_well() -> None:
    one = trailer(HEAD + "road lamps:\n  plate lamp: {shows: plate, wire: 5 ft}\n")
    (back,) = plug_ways(one, "1")
    returns = {wire.number for wire in one.wires if wire.role is Role.RETURN}
    assert {leg.wire for leg in legs_of((back,))} == returns
    at_plug = next(wire for wire in one.wires if wire.end.part == TOW_PLUG)
    assert back.legs[0].wire == at_plug.number
    assert list(ends_of((back,))) == ["plate lamp"]


def test_a_line_from_the_plug_is_followed_through_fuse_and_splice_to_what_it_feeds() -> None:
    one = trailer(
        HEAD.replace("4-way flat", "7-way blade")
        + "parts:\n  line fuse: {kind: fuse}\n  join: {kind: splice}\n"
        + "  lamp: {kind: lamp, draws: 1 A}\n  fan: {kind: fan, draws: 1 A}\n"
        + "circuits:\n  car line:\n    from: tow plug battery\n    path: [line fuse: 1 ft, join: 4 ft, lamp: 1 ft]\n"
        + "    branches: [{from: join, path: [fan: 2 ft]}]\n"
    )
    (feed,) = plug_ways(one, "4")
    assert [leg.to.part for leg in feed.legs] == ["line fuse", "join"], told((feed,))
    assert sorted(ends_of((feed,))) == ["fan", "lamp"]
