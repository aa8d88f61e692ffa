"""What a number on the meter means: just inside and just outside of a limit, below zero, and against the battery."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pytest
from example_numbers import numbers_of
from faults import judged_by
from test_faults_are_found import CHANGE_OVER

from builder.guide.making import guides
from builder.guide.model import Cause, Guide, Leaf, Reads, Step, StepKind, Symptom
from builder.guide.shorts import without_guide
from builder.pages.manual import manual_source
from builder.pages.verdict import Judgement, judge_build

ROOT = Path(__file__).parents[2]
EXAMPLE = (ROOT / "example_build" / "trailer.yaml").read_bytes()
SMALLEST = (ROOT / "example_build" / "smallest" / "trailer.yaml").read_bytes()


@cache
def made_of(data: bytes) -> tuple[Judgement, dict[str, Guide]]:
    verdict = judge_build(data, "trailer.yaml", numbers_of(data))
    assert verdict.judged is not None, verdict.problems
    build = verdict.judged
    return build, {guide.id: guide for guide in guides(build.trailer, build.figures)}


@cache
def files_of(data: bytes) -> Mapping[str, object]:
    """The owner's manual of a build, by path."""
    return manual_source(made_of(data)[0], "2222-2222", "owner").files


def charging(data: bytes, source: str) -> Guide:
    _, made = made_of(data)
    (guide,) = (g for g in made.values() if g.symptom is Symptom.CHARGE and g.things[0].part == source)
    return guide


def end_of(guide: Guide, step: Step, reads: Reads) -> Step | Leaf:
    (to,) = (outcome.to for outcome in step.outcomes if outcome.reads is reads)
    return next(one for one in (*guide.steps, *guide.leaves) if one.id == to)


@pytest.mark.parametrize("data", [EXAMPLE, SMALLEST])
def test_a_limit_parts_what_is_just_inside_from_what_is_just_outside(data: bytes) -> None:
    """A meter with a digit for a hundredth of a volt: the reading on the limit is good, the next one is not."""
    _, made = made_of(data)
    steps = [step for guide in made.values() for step in guide.steps]
    read = (StepKind.VOLTS, StepKind.BATTERY)
    volts = [step for step in steps if step.kind in read and step.least_v is not None]
    drops = [step for step in steps if step.kind is StepKind.DROP and step.most_v is not None]
    assert volts
    assert drops
    for step in volts:
        least = step.least_v or 0.0
        assert judged_by(step, least, 0.0) is Reads.ENOUGH
        assert judged_by(step, least - 0.01, 0.0) is Reads.LESS
        assert judged_by(step, 0.0, 0.0) is Reads.LESS
    for step in drops:
        most = step.most_v or 0.0
        for sign in (1, -1):
            assert judged_by(step, sign * most, 0.0) is Reads.WITHIN
            assert judged_by(step, sign * (most + 0.01), 0.0) is Reads.ABOVE


@pytest.mark.parametrize("data", [EXAMPLE, SMALLEST])
def test_an_empty_battery_is_found_by_its_voltage(data: bytes) -> None:
    """A lead battery that shows 11.1 V at work is empty: 11.5 V is the least it is reckoned with (common practice)."""
    build, made = made_of(data)
    (low_v,) = (supply.lowest_v for supply in build.figures.supplies if supply.name == "battery")
    assert low_v == 11.5
    for name in ("dead-all", "dim-all"):
        guide = made[name]
        step = next(s for s in guide.steps if s.kind is StepKind.BATTERY)
        assert judged_by(step, low_v, 0.0) is Reads.ENOUGH
        for volts in (11.1, 11.4):
            assert judged_by(step, volts, 0.0) is Reads.LESS
        leaf = end_of(guide, step, Reads.LESS)
        assert isinstance(leaf, Leaf)
        assert [suspect.cause for suspect in leaf.suspects] == [Cause.BATTERY]


def test_a_module_is_judged_by_what_the_battery_shows() -> None:
    """A simple controller holds a module next to the battery's voltage, a weak sun gives less than the label says.

    Both are well. A module that gives nothing, or a broken wire to it, leaves next to nothing at the controller.
    """
    guide = charging(EXAMPLE, "solar")
    (step,) = (one for one in guide.steps if one.kind is StepKind.VOLTS)
    assert step.red is not None
    assert (step.red.terminal.part, step.red.terminal.pin) == ("charge controller", "in +")
    for battery_v, module_v in ((12.4, 12.9), (11.6, 11.7), (13.1, 15.5), (12.6, 18.5)):
        assert judged_by(step, module_v, battery_v) is Reads.ENOUGH
    for module_v in (0.0, 0.4, 6.0):
        assert judged_by(step, module_v, 12.4) is Reads.LESS
    leaf = end_of(guide, step, Reads.LESS)
    assert isinstance(leaf, Leaf)
    assert Cause.SUPPLY in {suspect.cause for suspect in leaf.suspects}


def test_a_car_at_the_low_end_is_not_condemned() -> None:
    """12 V is what the plug is reckoned with; a cheap meter may show 5 % less of it (common practice)."""
    guide = charging(EXAMPLE, "charge line")
    for step in guide.steps:
        if step.kind is StepKind.VOLTS:
            assert judged_by(step, 11.45, 0.0) is Reads.ENOUGH
            assert judged_by(step, 9.0, 0.0) is Reads.LESS


@pytest.mark.parametrize("source", ["charge line", "solar", "shore charging"])
def test_a_broken_wire_behind_a_silent_charger_is_more_than_any_limit(source: str) -> None:
    """From its plus to the battery's the meter then shows the battery the other way round: −12.6 V."""
    guide = charging(EXAMPLE, source)
    steps = [step for step in guide.steps if step.kind is StepKind.DROP]
    assert steps
    for step in steps:
        assert judged_by(step, -12.6, 0.0) is Reads.ABOVE
        end = end_of(guide, step, Reads.ABOVE)
        suspects = end.suspects if isinstance(end, Leaf) else ()
        assert not {Cause.CONVERTER, Cause.SUPPLY} & {suspect.cause for suspect in suspects}


def test_the_pages_say_that_a_minus_sign_does_not_make_a_number_small() -> None:
    files = files_of(EXAMPLE)
    (page,) = (str(text) for path, text in files.items() if path.startswith("stops-15"))
    assert page.count("V</span> or less, with or without a minus sign") >= 8
    assert "More, with or without a minus sign" in page
    assert "as much as across the battery, or more" in page
    assert "The sun must be on it." in page


def test_a_rest_contact_is_a_suspect_of_its_own() -> None:
    _, made = made_of(CHANGE_OVER)
    alone = {g.things[0].part: g for g in made.values() if g.symptom is Symptom.DEAD and len(g.things) == 1}
    day, night = alone["day lamp"], alone["night lamp"]
    contacts = {
        name: [s.pin for s in guide.suspects if s.cause is Cause.RELAY_CONTACT]
        for name, guide in (("day", day), ("night", night))
    }
    assert contacts == {"day": ["contact rest"], "night": [""]}
    assert day.steps[1].kind is StepKind.SWITCH
    assert (day.steps[1].parts, day.steps[1].off) == ((), ("night switch",))
    assert day.off == ("night switch",)
    assert night.off == ()
    assert StepKind.CLICK not in {step.kind for step in day.steps}
    page = next(str(t) for p, t in files_of(CHANGE_OVER).items() if "stops-01" in p)
    assert "The relay must be at rest. Turn this off: night switch." in page
    assert "night relay, its rest contact" in page


def test_both_sides_of_a_change_over_are_not_dead_together_with_all() -> None:
    _, made = made_of(CHANGE_OVER)
    for name in ("dead-all", "dim-all"):
        assert {thing.part for thing in made[name].things} == {"night lamp", "other lamp"}


def test_every_fuse_has_a_guide_or_is_named_as_one_to_leave_out() -> None:
    build, made = made_of(EXAMPLE)
    shorts = [guide for guide in made.values() if guide.symptom is Symptom.FUSE]
    out = without_guide(build.figures, made.values())
    assert {guide.fuse for guide in shorts} - {""} | set(out) == {fuse.name for fuse in build.figures.fuses}
    assert set(out) == {"main fuse", "car-side fuse", "battery fuse", "solar fuse", "converter fuse"}
    files = files_of(EXAMPLE)
    first = str(next(text for path, text in files.items() if path == "stops.md"))
    told = next(line for line in first.splitlines() if "If one of these opens again, leave it out" in line)
    assert [name for name in out if name not in told] == []


def test_a_breaker_has_a_guide_of_its_own_and_leads_to_it() -> None:
    _, made = made_of(EXAMPLE)
    (guide,) = (one for one in made.values() if one.fuse == "cool box breaker")
    # what lies before it does not make it jump: 10A and 10B lead to it, and the kitchen socket hangs on 10D
    assert {number for suspect in guide.suspects for number in suspect.wires} == {"10C"}
    red = guide.steps[1].red
    assert red is not None
    assert (red.terminal.part, red.terminal.pin) == ("cool box breaker", "out")
    files = files_of(EXAMPLE)
    page = str(next(text for path, text in files.items() if path.startswith("stops-10")))
    assert f'<a href="#{guide.id}">The breaker jumps out again</a>' in page
    assert "The breaker jumps out again: cool box breaker" in page
    solar = str(next(text for path, text in files.items() if path.startswith("stops-15")))
    assert "If the new fuse opens too, leave it out" in solar


ROAD = """\
format: 1
build: {name: Test Kite, country: DE}
battery: {chemistry: agm, capacity: 80 Ah, path: [main fuse: 0.2 m, front box: 1 m], return: 1.2 m, frame bond: 10 mm2}
front box: {fuse ways: 6}
wire: {on the shelf: [1.5 mm2, 2.5 mm2, 4 mm2, 6 mm2, 10 mm2], sold as: single}
tow plug: {pattern: 13-pin, to front box: 2 m}
parts:
  lamp: {kind: lamp, draws: 3 W}
circuits:
  light: {path: [lamp: 3 m]}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 4 m}
"""


def test_a_ground_that_hangs_on_the_plug_alone_leaves_the_frame_to_be_measured() -> None:
    """The grounds of a 13-pin plug are not joined in the trailer; a 7-way's goes to the ground bar and the frame."""
    _, made = made_of(ROAD.encode())
    blacks = [
        [(step.black.terminal.pin, step.black.beyond) for step in guide.steps if step.black]
        for guide in made.values()
        if guide.symptom is Symptom.FUSE and guide.unplug[0].kind == "tow plug"
    ]
    assert blacks
    assert all(points == [("3", ""), ("", "frame")] for points in blacks)
    page = next(str(t) for p, t in files_of(ROAD.encode()).items() if "stops-06" in p)
    assert "bare metal of the trailer" in page
    _, example = made_of(EXAMPLE)
    beyond = {
        s.black.beyond for g in example.values() for s in g.steps if s.black and s.kind is StepKind.OHMS
    }
    assert beyond == {""}
