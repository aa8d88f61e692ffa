"""The walk over the wires: what counts as joined, from several ends, and up through converters."""

from __future__ import annotations

from functools import cache

from builder.buildfile.resolving import read_build
from builder.electrics.network import HOME, OUT, neighbours, reach, sections_up, way_back, with_converters
from builder.trailer.model import BATTERY_PLUS, GROUND_BAR, SUPPLY_BAR, Trailer
from builder.trailer.parts import Terminal

TEXT = b"""\
format: 1
build: {name: Test Walk, country: US}
battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 6 in, front box: 3 ft], return: 3 ft, frame bond: 8 AWG}
front box: {fuse ways: 4}
parts:
  lamp switch: {kind: switch}
  lamp: {kind: lamp, draws: 3 W}
  first: {kind: converter, gives at: 9 V}
  second: {kind: converter, gives at: 5 V}
  small lamp: {kind: lamp, draws: 1 W, at: 5 V}
circuits:
  light: {path: [lamp switch: 4 ft, lamp: 4 ft]}
  small: {path: [first: 2 ft, second: 2 ft, small lamp: 2 ft]}
"""


@cache
def trailer() -> Trailer:
    made = read_build(TEXT).trailer
    assert made is not None
    return made


def parts(reached: object) -> set[str]:
    assert isinstance(reached, dict)
    return {terminal.part for terminal in reached}


def test_feeds_and_returns_are_walked_apart() -> None:
    out, home = (
        reach(neighbours(trailer(), OUT), BATTERY_PLUS),
        reach(neighbours(trailer(), HOME), GROUND_BAR),
    )
    assert Terminal("lamp", "+") in out
    assert Terminal("lamp", "−") not in out
    assert Terminal("lamp", "−") in home
    assert "frame" in parts(home)
    assert "frame" not in parts(out)


def test_a_link_that_is_open_ends_the_walk() -> None:
    shut = neighbours(trailer(), OUT, lambda link: link.a.part != "lamp switch")
    assert Terminal("lamp switch", "in") in reach(shut, BATTERY_PLUS)
    assert "lamp" not in parts(reach(shut, BATTERY_PLUS))
    assert parts(reach(shut, BATTERY_PLUS, Terminal("lamp", "+"))) >= {"battery", "lamp", "lamp switch"}


def test_a_converter_lets_through_from_its_input_only_unless_it_is_asked_backwards() -> None:
    graph = neighbours(trailer(), OUT)
    assert "small lamp" not in parts(reach(graph, BATTERY_PLUS))
    assert "small lamp" in parts(reach(with_converters(trailer(), graph), BATTERY_PLUS))
    small = Terminal("small lamp", "+")
    assert "battery" not in parts(reach(with_converters(trailer(), graph), small))
    assert "battery" in parts(reach(with_converters(trailer(), graph, backwards=True), small))


def test_sections_lead_up_to_the_supply() -> None:
    assert [section.name for section in sections_up(trailer(), "second")] == ["second", "first", "battery"]
    assert [section.name for section in sections_up(trailer(), "battery")] == ["battery"]
    assert sections_up(trailer(), "no such section") == ()


def test_the_way_back_is_the_shortest_and_nearest_first() -> None:
    back = way_back(reach(neighbours(trailer()), BATTERY_PLUS), SUPPLY_BAR)
    assert back is not None
    ends = [(trailer().wires[index].start.part, trailer().wires[index].end.part) for index in back]
    assert ends == [("main fuse", "front box"), ("battery", "main fuse")]
