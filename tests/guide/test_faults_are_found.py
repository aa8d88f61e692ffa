"""One break at a time: an owner who follows the guides ends where it is."""

from __future__ import annotations

from pathlib import Path

import pytest
from example_numbers import numbers_of
from faults import Broken, faults_of, loads_of, starts_of, walk, walk_alone
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, Phase, given, settings

from builder.guide.making import guides
from builder.guide.model import Cause, Suspect
from builder.pages.verdict import Judgement, judge_build
from builder.trailer.model import FRONT_BOX
from builder.trailer.wires import Link

ROOT = Path(__file__).parents[2]
BUILDS = {
    "the example": ROOT / "example_build" / "trailer.yaml",
    "the smallest": ROOT / "example_build" / "smallest" / "trailer.yaml",
}
CASES = 60 if settings.get_current_profile_name() == "ci" else 12


def judged(data: bytes) -> Judgement:
    verdict = judge_build(data, "trailer.yaml", numbers_of(data))
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


CHANGE_OVER = b"""\
format: 1
build: {name: Rest Two, country: US}
battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 6 in, front box: 3 ft 6 in], size: 8 AWG, return: 4 ft}
front box: {fuse ways: 4, fuses: blade regular}
wire: {on the shelf: [16 AWG, 14 AWG, 8 AWG], sold as: pair, feed: red, return: black}
parts:
  night switch: {kind: switch}
  night relay: {kind: relay, draws: 0.15 A}
  day lamp: {kind: lamp, draws: 3 W}
  night lamp: {kind: lamp, draws: 3 W}
  other lamp: {kind: lamp, draws: 3 W}
circuits:
  change lights:
    path: [night relay: 3 ft, night lamp: 6 ft]
    branches:
      - {from: night relay, output: rest, path: [day lamp: 5 ft]}
      - {from: fuse, path: [night switch: 4 ft, night relay: {length: 4 ft, as: coil}]}
  other light: {path: [other lamp: 6 ft], size: 16 AWG}
"""


def missed_wires(build: Judgement) -> tuple[list[str], int]:
    """Return the wires whose break kills something and is not where the guides end; and how many killed something."""
    made = guides(build.trailer, build.figures)
    wrong, tried = [], 0
    for wire in build.trailer.wires:
        broken = Broken(build.trailer, Suspect(Cause.WIRE, wires=(wire.number,)))
        dead = starts_of(broken, made)
        tried += bool(dead)
        for thing in dead:
            ends, _ = walk(broken, made, thing)
            if not any(wire.number in suspect.wires for suspect in ends):
                wrong.append(f"{wire.number}, from {thing.part}: {ends}")
    return wrong, tried


def missed_links(build: Judgement) -> tuple[list[str], int]:
    """Return the joins inside parts whose break kills something and is not where the guides end; and how many did."""
    made = guides(build.trailer, build.figures)
    wrong, tried = [], 0
    for link in build.trailer.links:
        part = link.a.part
        names = {link.a.pin, link.b.pin} if part == FRONT_BOX else {part}
        broken = Broken(build.trailer, Suspect(Cause.ELSE), cut=_with_it(build, link))
        dead = starts_of(broken, made)
        tried += bool(dead)
        for thing in dead:
            ends, _ = walk(broken, made, thing)
            if not any({suspect.pin if part == FRONT_BOX else suspect.part} & names for suspect in ends):
                wrong.append(f"{link}, from {thing.part}: {ends}")
    return wrong, tried


def _with_it(build: Judgement, link: Link) -> tuple[Link, ...]:
    """A switch worked by hand that lets nothing through does so in all of its positions."""
    part = build.trailer.parts.get(link.a.part)
    if part is None or part.kind not in ("two-way switch", "four-way switch"):
        return (link,)
    return tuple(one for one in build.trailer.links if one.a.part == part.name)


@pytest.mark.parametrize("data", [*(path.read_bytes() for path in BUILDS.values()), CHANGE_OVER])
def test_every_wire_and_every_join_of_the_trailer_itself_is_found(data: bytes) -> None:
    """What can break is taken from the wiring, not from the guides: a suspect that they forget is missed here."""
    build = judged(data)
    wires, links = missed_wires(build), missed_links(build)
    assert wires[0] == []
    assert links[0] == []
    assert wires[1] >= 10
    assert links[1] >= 4


@settings(
    max_examples=CASES,
    deadline=None,
    database=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.generate),
)
@given(build=builds())
def test_so_they_are_in_a_generated_build(build: GeneratedBuild) -> None:
    made = judged(build.data)
    assert missed_wires(made)[0] == []
    assert missed_links(made)[0] == []


IN_BOX = b"""\
format: 1
build: {name: Charge Two, country: US}
battery: {chemistry: agm, capacity: 70 Ah, path: [main breaker: 6 in, isolating switch: 1 ft, front box: 3 ft]}
front box: {fuse ways: 4, fuses: blade regular}
parts:
  main breaker: {kind: breaker, rating: 40 A}
  charge switch: {kind: switch}
  lamp: {kind: lamp, draws: 3 W}
  converter fuse: {kind: fuse, rating: 20 A}
  shore converter: {kind: shore converter, gives: 10 A}
circuits:
  light: {path: [lamp: 6 ft]}
  shore: {from: shore converter, path: [charge switch: 1 ft, converter fuse: 1 ft, front box: 2 ft]}
"""


@pytest.mark.parametrize("data", [BUILDS["the example"].read_bytes(), IN_BOX])
def test_what_keeps_a_charge_from_the_battery_is_found_beyond_the_front_box_too(data: bytes) -> None:
    """The house is fed and works: with the isolating switch off or the main fuse open the battery gets nothing."""
    build = judged(data)
    line = build.trailer.battery_line
    assert line is not None
    stops = {stop.part for stop in line.stops}
    made = [guide for guide in guides(build.trailer, build.figures) if guide.symptom.value == "charge"]
    tried, wrong = 0, []
    for load in (one for one in build.trailer.loads if one.charged_from):
        (guide,) = (g for g in made if g.circuit == load.circuit)
        assert Broken(build.trailer, Suspect(Cause.ELSE), charging=True).charges(load)
        breaks = [
            (
                Broken(build.trailer, Suspect(Cause.WIRE, wires=(w.number,)), charging=True),
                {w.number},
                w.circuit,
            )
            for w in build.trailer.wires
        ] + [
            (Broken(build.trailer, Suspect(Cause.ELSE), cut=(link,), charging=True), {link.a.part}, 0)
            for link in build.trailer.links
            if link.a.part in stops and link.a.part != FRONT_BOX
        ]
        for broken, names, circuit in breaks:
            # a charger beside the box shares with the house what kills all of it: another guide is for that
            shared = load.plus.part != FRONT_BOX and circuit in (0, line.number)
            if broken.charges(load) or shared:
                continue
            tried += 1
            ends = walk_alone(broken, guide)
            if not any(names & {suspect.part, *suspect.wires} for suspect in ends):
                wrong.append(f"{names} of {guide.id}: {ends}")
        if load.plus.part == FRONT_BOX:
            off = Broken(build.trailer, Suspect(Cause.OFF), charging=True)
            assert walk_alone(off, guide) == (off.fault,)
            assert any("isolating switch" in step.parts for step in guide.steps)
    assert wrong == []
    assert tried >= 7


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
