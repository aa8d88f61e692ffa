"""Each wire by itself with no part joined: between them the ends of the sheet reach every wire, each once."""

from __future__ import annotations

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from listed import BUILDS, EXAMPLE, HEAD, Listed, listed

from builder.lists.testing import Group, Line
from builder.trailer.model import BATTERY, FRONT_BOX, GROUND_BAR, TOW_PLUG
from builder.trailer.parts import Terminal


def bare(build: Listed) -> list[Line]:
    return [line for line in build.lists.tests.lines if line.group is Group.BARE]


def reached(build: Listed, number: str) -> set[str]:
    """The wires that a probe on one end meets: gone from wire to wire over what lands before a part is mounted."""
    early = {
        part.name
        for part in build.trailer.parts.values()
        if part.kind in ("bar", "splice") and not part.waiting
    }
    early |= {FRONT_BOX, TOW_PLUG, BATTERY}
    found, ahead = {number}, [number]
    wires = {wire.number: wire for wire in (*build.trailer.wires, *build.trailer.spares)}
    while ahead:
        here = wires[ahead.pop()]
        for other in build.trailer.wires:
            shared = {here.start, here.end} & {other.start, other.end}
            if other.number not in found and any(end.part in early for end in shared):
                found.add(other.number)
                ahead.append(other.number)
    return found


def reaches_all(build: Listed) -> None:
    wires = {wire.number: wire for wire in (*build.trailer.wires, *build.trailer.spares)}
    met: list[str] = []
    for line in bare(build):
        for touch in line.touches:
            assert any(touch.at in (wires[n].start, wires[n].end) for n in touch.wires), line
            own = reached(build, touch.wires[0])
            assert own == set(touch.wires), line
            met += own
    assert len(met) == len(set(met))
    blacks = {line.black for line in bare(build)}
    every = set(wires)
    for number in every - set(met):
        ends = {end for n in reached(build, number) for end in (wires[n].start, wires[n].end)}
        assert ends & blacks, number


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_every_wire_that_is_not_ground_is_touched_once(text: str) -> None:
    reaches_all(listed(text))


@given(builds())
@settings(max_examples=25)
def test_so_it_is_in_every_generated_build(generated: GeneratedBuild) -> None:
    reaches_all(listed(generated.text))


def test_wires_behind_switches_and_connectors_have_an_end_of_their_own() -> None:
    lines = bare(listed(EXAMPLE))
    touched = {touch.wires: touch.at for line in lines for touch in line.touches}
    assert touched["1A", "1C"] == Terminal(FRONT_BOX, "way 1")
    assert touched["1B",] == Terminal("left step lamp", "+")
    assert touched["4B",] == Terminal("cabin lamp", "+")
    assert touched["9B",].part == "hatch plug"
    # what a splice joins behind a wall is one with the wire to it
    assert touched["3A", "3B", "3C"] == Terminal(FRONT_BOX, "way 3")
    # a return from lamp to lamp ends beside its feed: the two are read against each other
    assert touched["2J",].part == touched["2G",].part == "left floor lamp"
    assert {line.black for line in lines} == {GROUND_BAR}
    assert touched["S1",].part == FRONT_BOX


def test_a_part_that_waits_changes_nothing_but_a_joint_does() -> None:
    text = HEAD + (
        "parts: {tie: {kind: splice}, one: {kind: lamp, draws: 1 W}, two: {kind: lamp, draws: 1 W}}\n"
        "circuits: {light: {path: [tie: 5 ft, one: 1 ft], branches: [{from: tie, path: [two: 1 ft]}]}}\n"
    )

    def row(build: Listed) -> list[tuple[str, ...]]:
        return [touch.wires for line in bare(build) if line.circuit == 1 for touch in line.touches]

    whole = row(listed(text))
    assert row(listed(text + "waiting: {two: in May}\n")) == whole
    assert len(whole) == 1
    assert len(row(listed(text + "waiting: {tie: in May}\n"))) > 1
