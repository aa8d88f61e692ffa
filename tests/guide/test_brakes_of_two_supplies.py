"""Brakes that two supplies feed: an owner who tries one of them ends where the break is, and the other is off."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from faults import Broken, faults_of, walk
from guide_checks import all_faults

from builder.guide.making import guides
from builder.pages.verdict import Judgement, judge_build
from builder.trailer.model import Trailer

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
