"""One break at a time: an owner who follows the guides ends where it is."""

from __future__ import annotations

from pathlib import Path

import pytest
from faults import Broken, faults_of, loads_of, walk, walk_alone
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, Phase, given, settings

from builder.guide.making import guides
from builder.guide.model import Cause, Suspect
from builder.pages.verdict import Judgement, judge_build

ROOT = Path(__file__).parents[2]
BUILDS = {
    "the example": ROOT / "example_build" / "trailer.yaml",
    "the smallest": ROOT / "example_build" / "smallest" / "trailer.yaml",
}
CASES = 100 if settings.get_current_profile_name() == "ci" else 12


def judged(data: bytes) -> Judgement:
    verdict = judge_build(data, "trailer.yaml")
    assert verdict.judged is not None, verdict.problems
    return verdict.judged


def missed(build: Judgement) -> list[str]:
    """Return the faults that the guides do not end at, and say how many were tried."""
    made = guides(build.trailer, build.figures)
    wrong = []
    for fault, guide in faults_of(made):
        broken = Broken(build.trailer, fault, guide.things)
        dead = [thing for thing in guide.things if not broken.works(thing)]
        if set(dead) != set(guide.things):
            wrong.append(f"{fault} leaves some of {guide.id} alive")
            continue
        ends, steps = walk(broken, made, dead[0])
        if fault not in ends:
            wrong.append(f"{fault} of {guide.id} ended at {ends} after {steps} steps")
    return wrong


@pytest.mark.parametrize("name", BUILDS)
def test_every_break_in_a_build_is_found(name: str) -> None:
    build = judged(BUILDS[name].read_bytes())
    assert len(faults_of(guides(build.trailer, build.figures))) > 40
    assert missed(build) == []


@settings(
    max_examples=CASES,
    deadline=None,
    database=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.generate),
)
@given(build=builds())
def test_every_break_in_a_generated_build_is_found(build: GeneratedBuild) -> None:
    assert missed(judged(build.data)) == []


@pytest.mark.parametrize("name", BUILDS)
def test_every_bad_joint_is_found(name: str) -> None:
    """A joint that is bad loses its voltage wherever a break would: between the same two places."""
    build = judged(BUILDS[name].read_bytes())
    tried = faults_of(guides(build.trailer, build.figures), "dim")
    assert len(tried) > 30
    ends = [(fault, walk_alone(Broken(build.trailer, fault), guide), guide.id) for fault, guide in tried]
    assert [end for end in ends if end[0] not in end[1]] == []


def test_a_guide_that_names_the_wrong_end_is_noticed() -> None:
    build = judged(BUILDS["the smallest"].read_bytes())
    made = guides(build.trailer, build.figures)
    (lamp,) = {t for guide in made for t in guide.things if t.part == "reading lamp"}
    ends, _ = walk(Broken(build.trailer, Suspect(Cause.LOAD, "reading lamp")), made, lamp)
    assert ends == (Suspect(Cause.LOAD, "reading lamp"),)
    (load,) = loads_of(build.trailer, lamp)
    feed = next(wire for wire in build.trailer.wires if wire.end == load.plus)
    ends, _ = walk(Broken(build.trailer, Suspect(Cause.WIRE, wires=(feed.number,))), made, lamp)
    assert ends == (Suspect(Cause.WIRE, wires=(feed.number,)),)
