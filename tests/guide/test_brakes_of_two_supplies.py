"""Brakes that two supplies feed: an owner who tries one of them ends where the break is, and the other is off."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from faults import Broken, faults_of, walk
from guide_checks import all_faults

from builder.electrics.braking import magnets_ohm
from builder.guide.making import guides
from builder.guide.model import Cause, Guide, Reads, StepKind, Suspect
from builder.pages.verdict import Judgement, judge_build
from builder.tables.brakes import brake_magnet
from builder.trailer.model import Trailer
from builder.trailer.parts import Terminal
from builder.trailer.wires import Role

ROOT = Path(__file__).parents[2]
AWAY = "breakaway battery"
ELSEWHERE = {"6A", "10D"}
"""Grounds that the frame and another ground stand in for, in this picture of the wiring."""


@pytest.fixture(scope="module")
def build() -> Judgement:
    verdict = judge_build((ROOT / "example_build" / "braked" / "trailer.yaml").read_bytes(), "trailer.yaml")
    assert verdict.judged is not None
    return verdict.judged


def with_pin(trailer: Trailer, *, out: bool) -> Trailer:
    """Return the trailer with the pin out and the plug pulled, or with the pin in and the breakaway's switch open."""
    if out:
        return replace(
            trailer, sections=tuple(one for one in trailer.sections if not one.name.startswith("tow plug"))
        )
    return replace(
        trailer,
        sections=tuple(one for one in trailer.sections if one.name != AWAY),
        links=tuple(one for one in trailer.links if one.a.part != "breakaway switch"),
    )


@pytest.mark.parametrize("out", [False, True], ids=["by the car", "by the breakaway"])
def test_every_break_is_found_from_the_supply_that_is_on(build: Judgement, out: bool) -> None:
    made = guides(build.trailer, build.figures)
    number = next(one.number for one in build.trailer.circuits if one.name == "breakaway")
    tried = 0
    for fault, guide in faults_of(made):
        begins = [thing for thing in guide.things if (thing.circuit == number) == out]
        if not begins or ELSEWHERE.intersection(fault.wires):
            continue
        broken = Broken(with_pin(build.trailer, out=out), fault, guide.things)
        broken.works = Broken(build.trailer, fault, guide.things).works  # type: ignore[method-assign]
        assert not (out and fault.cause is Cause.CAR), guide.id  # the breakaway has a battery of its own
        assert not broken.works(begins[0]), (fault, guide.id)
        ends, _ = walk(broken, made, begins[0])
        assert fault in ends, (fault, guide.id, ends)
        tried += 1
    assert tried > 10


@pytest.mark.parametrize("name", ["braked", "two_plugs"])
def test_the_guides_of_both_builds_hold_together(name: str) -> None:
    verdict = judge_build((ROOT / "example_build" / name / "trailer.yaml").read_bytes(), "trailer.yaml")
    assert verdict.judged is not None
    made = guides(verdict.judged.trailer, verdict.judged.figures)
    assert all_faults(verdict.judged, made) == []


def short_guide(build: Judgement) -> Guide:
    (found,) = (one for one in guides(build.trailer, build.figures) if one.fuse == "breakaway fuse")
    return found


def test_a_short_is_looked_for_on_both_sides_of_the_pin(build: Judgement) -> None:
    """Both readings need all supplies off; the second lies behind the switch, which is open while its pin is in."""
    first, before, behind = short_guide(build).steps
    assert first.kind is StepKind.UNPLUG
    assert {one.name for one in first.unplug} == {AWAY, "tow plug"}
    assert before.red is not None
    assert behind.red is not None
    assert (before.red.terminal.part, before.parts, before.normal_ohm) == ("breakaway fuse", (), None)
    assert behind.red.terminal == Terminal("breakaway switch", "out")
    assert behind.parts == ("breakaway switch",)
    assert behind.unplug == before.unplug == first.unplug


def test_behind_the_pin_all_is_named_that_a_short_can_lie_in(build: Judgement) -> None:
    """Oracle: all feeds of both circuits but those before the switch, what they end at, and the plug's contact."""
    guide = short_guide(build)
    _, before, behind = guide.steps
    leaves = {leaf.id: set(leaf.suspects) for leaf in guide.leaves}
    ends = [{one.reads: one.to for one in step.outcomes} for step in (before, behind)]
    brakes = build.figures.brakes
    assert brakes is not None
    feeds = {
        w.number
        for w in build.trailer.wires
        if w.circuit in (brakes.circuit, brakes.breakaway) and w.role is Role.FEED
    }
    assert {name for s in leaves[ends[0][Reads.TOUCHING]] for name in s.wires} == {"5B"}
    found = leaves[ends[1][Reads.TOUCHING]]
    assert {name for s in found for name in s.wires} == feeds - {"5A", "5B"}
    assert {s.part for s in found if s.cause is Cause.LOAD} == {"left brake", "right brake"}
    assert {(s.part, s.pin) for s in found if s.cause is Cause.CONTACT} == {("tow plug", str(brakes.contact))}
    assert leaves[ends[1][Reads.NOTHING]] == {Suspect(Cause.ELSE)}


def test_the_normal_reading_is_that_of_all_magnets_side_by_side(build: Judgement) -> None:
    one = brake_magnet("10 in").ohm_low
    assert short_guide(build).steps[-1].normal_ohm == pytest.approx(1.0 / (1.0 / one + 1.0 / one))
    assert magnets_ohm(build.trailer, ["left brake"]) == pytest.approx(one)
    assert magnets_ohm(build.trailer, ["reading lamp"]) is None
