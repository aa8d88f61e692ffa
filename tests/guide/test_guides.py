"""What every guide holds to: it names only what its circuit has, its paths end, and what feeds it is unplugged."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from example_numbers import numbers_of
from faults import Broken, walk_alone
from generated_builds import GeneratedBuild, builds
from guide_checks import METER, all_faults
from hypothesis import HealthCheck, Phase, given, settings

from builder.guide.making import guides
from builder.guide.model import Cause, Guide, Reads, StepKind, Suspect, Symptom
from builder.pages.manual import manual_source
from builder.pages.record_guide import guide_entries
from builder.pages.verdict import Judgement, judge_build

ROOT = Path(__file__).parents[2]
ROAD_ONLY = b"""\
format: 1
build: {name: Gravel Kite, number: 2, country: US}
tow plug: {pattern: 4-way flat, to front box: 6 ft}
wire: {on the shelf: [16 AWG, 14 AWG], sold as: pair, feed: red, return: white}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft}
  plate lamp: {shows: plate, wire: 15 ft}
"""
PENCIL = """\
format: 1
build: {name: Pencil Five, country: US}
battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 6 in, front box: 3 ft 6 in], size: 8 AWG, return: 4 ft}
front box: {fuse ways: 4, fuses: blade regular}
wire: {on the shelf: [16 AWG, 8 AWG], sold as: pair, feed: red, return: black}
parts:
  step switch: {kind: switch}
  step lamp: {kind: lamp, draws: 60 W}
  other lamp: {kind: lamp, draws: 3 W}
circuits:
  step light: {path: [step switch: 14 ft, step lamp: 6 ft], size: 16 AWG}
  other light: {path: [other lamp: 6 ft], size: 16 AWG}
"""
FUSES_IN_A_ROW = """\
format: 1
build: {name: Row of Fuses, country: US}
battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 5 in, post fuse: 1 ft, breaker: 1 ft, front box: 1 ft]}
front box: {fuse ways: 4, fuses: blade regular}
wire: {on the shelf: [16 AWG, 8 AWG], sold as: pair}
parts:
  post fuse: {kind: fuse}
  breaker: {kind: breaker}
  lamp: {kind: lamp, draws: 3 W}
  fan: {kind: fan, draws: 2 A}
circuits:
  light: {path: [near fuse: 1 ft, far fuse: 1 ft, lamp: 6 ft, fan: 2 ft]}
"""
BUILDS = {
    "the example": (ROOT / "example_build" / "trailer.yaml").read_bytes(),
    "the smallest": (ROOT / "example_build" / "smallest" / "trailer.yaml").read_bytes(),
    "road lamps only": ROAD_ONLY,
    "a pencil's": PENCIL.encode(),
    "fuses in a row": FUSES_IN_A_ROW.encode(),
}
CASES = 120 if settings.get_current_profile_name() == "ci" else 25


def judged(data: bytes) -> Judgement:
    verdict = judge_build(data, "trailer.yaml", numbers_of(data))
    assert verdict.judged is not None, verdict.problems
    return verdict.judged


@cache
def made_of(data: bytes) -> tuple[Judgement, tuple[Guide, ...]]:
    build = judged(data)
    return build, guides(build.trailer, build.figures)


@pytest.mark.parametrize("name", BUILDS)
def test_a_guide_names_only_what_its_circuit_has(name: str) -> None:
    build, made = made_of(BUILDS[name])
    assert len(made) > 3
    assert all_faults(build, made) == []


@settings(
    max_examples=CASES,
    deadline=None,
    database=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.generate),
)
@given(build=builds())
def test_so_it_is_in_every_generated_build(build: GeneratedBuild) -> None:
    done = judged(build.data)
    assert all_faults(done, guides(done.trailer, done.figures)) == []


@pytest.mark.parametrize("name", BUILDS)
def test_everything_that_can_be_dead_has_a_guide_of_its_own(name: str) -> None:
    build, made = made_of(BUILDS[name])
    alone = {guide.things for guide in made if guide.symptom is Symptom.DEAD}
    loads = {
        (load.part, load.circuit)
        for load in build.trailer.loads
        if load.what not in ("idle", "own draw", "input", "coil")
        and not load.charged_from
        and not build.trailer.parts[load.part].waiting
    }
    assert loads == {(t.part, t.circuit) for things in alone if len(things) == 1 for t in things}


def entry(made: Iterable[Guide], name: str) -> Mapping[str, Any]:
    (found,) = (one for one in guide_entries(tuple(made)) if one["id"] == name)
    return found


def test_the_limits_agree_with_a_pencil() -> None:
    """60 W at 12 V are 5 A. NEC Chapter 9 Table 8 (quoted): 16 AWG 4.99, 8 AWG 0.778 ohm per 1000 ft at 75 °C.

    14 ft of 16 AWG lose 5 × 0.06986 = 0.349 V, 6 ft 0.150 V, the 20 ft back 0.499 V. The battery's line carries
    5.25 A, as the other lamp is on: 4 ft of 8 AWG lose 0.0163 V, forth and back the same. A stretch with a switch in
    it may lose 0.3 V more, a wire 0.2 V, a return 0.1 V (a training page and makers' manuals, quoted).
    """
    _, made = made_of(PENCIL.encode())
    dead = [step for guide in made if [t.part for t in guide.things] == ["step lamp"] for step in guide.steps]

    def limit(red: tuple[str, str], black: tuple[str, str]) -> set[float]:
        return {
            step.least_v or step.most_v or 0.0
            for step in dead
            if step.red
            and step.black
            and (step.red.terminal.part, step.red.terminal.pin) == red
            and (step.black.terminal.part, step.black.terminal.pin) == black
            and step.kind is not StepKind.OHMS
        }

    ground = ("front box", "ground bar")
    # 11.5 V when the battery is low: less 0.998 V on the circuit and 0.033 V on the line are 10.47 V, told as 10.4 V
    assert limit(("step lamp", "+"), ("step lamp", "−")) == {10.4}
    # 11.5 - 0.016 - 0.499 = 10.98 V at the plus of the lamp, and 0.016 V less for what the line loses on its way back
    assert limit(("step lamp", "+"), ground) == {10.9}
    assert limit(("front box", "way 1"), ground) == {11.4}
    assert limit(("step lamp", "−"), ground) == {0.6}  # 0.499 + 0.1
    # from the supply bar through fuse, switch and both wires: 0.349 + 0.150 + 0.3
    assert limit(("front box", "supply"), ("step lamp", "+")) == {0.8}
    assert limit(("front box", "supply"), ("front box", "way 1")) == {0.3}
    # 0.349 + 0.3: the fuse's holder is on this stretch
    assert limit(("front box", "supply"), ("step switch", "in")) == {0.65}


def test_without_its_switch_no_step_speaks_of_one() -> None:
    with_it = PENCIL.encode()
    without = (
        PENCIL.replace("  step switch: {kind: switch}\n", "").replace(
            "step switch: 14 ft, step lamp: 6 ft", "step lamp: 20 ft"
        )
    ).encode()
    assert "step switch" in str(made_of(with_it)[1])
    found = made_of(without)[1]
    assert "step switch" not in str(found)
    assert not [step for guide in found for step in guide.steps if step.kind is StepKind.SWITCH]


def test_road_lamps_alone_know_no_battery() -> None:
    _, made = made_of(ROAD_ONLY)
    assert not re.search("battery|main fuse|isolating", str(guide_entries(made)))
    assert {supply.name for guide in made for supply in guide.unplug} == {"tow plug"}
    assert Symptom.WRONG in {guide.symptom for guide in made}


def test_the_pages_of_road_lamps_alone_know_no_battery() -> None:
    files = manual_source(made_of(ROAD_ONLY)[0], "2222-2222", "owner").files
    pages = {path: str(text) for path, text in files.items() if path.startswith("stops")}
    assert len(pages) == 6
    for path, text in pages.items():
        assert not re.search("battery|main fuse|isolating|shore|lithium", text, re.IGNORECASE), path


def test_a_charger_is_unplugged_before_a_lamp_is_measured() -> None:
    _, made = made_of(BUILDS["the example"])
    lamp = entry(made, "fuse-1")
    # the shore converter feeds the front box; sun and car meet the battery before the switch that parts it
    assert [s["name"] for s in lamp["unplug"]] == ["shore converter", "isolating switch"]
    meter = entry(made, "fuse-13")  # on the battery's post itself
    assert meter["unplug"][-1] == {"kind": "battery", "name": "battery", "how": "minus post"}
    rear = entry(made, "fuse-19")
    assert [s["name"] for s in rear["unplug"]] == ["tow plug"]


def test_ohms_are_measured_only_behind_the_step_that_unplugs() -> None:
    for data in BUILDS.values():
        for guide in made_of(data)[1]:
            kinds = [step.kind for step in guide.steps]
            if StepKind.OHMS in kinds:
                assert kinds[0] is StepKind.UNPLUG
                assert all(step.unplug == guide.unplug for step in guide.steps)
                assert {outcome.to for outcome in guide.steps[0].outcomes} == {guide.steps[1].id}


@pytest.mark.parametrize(
    ("number", "switches", "beyond"),
    [
        (1, ["", "left step switch", "right step switch"], set()),
        (4, [""], {"4B", "cabin lamp"}),  # a dimmer without a supply lets nothing through
        (6, ["", "pump switch"], {"6B", "water pump"}),  # nor does a relay
    ],
)
def test_ohms_tell_nothing_of_what_needs_a_supply_to_let_current_through(
    number: int, switches: list[str], beyond: set[str]
) -> None:
    _, made = made_of(BUILDS["the example"])
    (guide,) = (one for one in made if one.id == f"fuse-{number}")
    assert [(*step.parts, "")[0] for step in guide.steps[1:]] == switches
    leaves = {leaf.id: leaf.suspects for leaf in guide.leaves}
    ends = {o.reads: o.to for o in guide.steps[-1].outcomes}
    last = {name for s in leaves[ends[Reads.NOTHING]] for name in (*s.wires, s.part)}
    assert beyond <= last
    measured = {s for leaf, suspects in leaves.items() if leaf != ends[Reads.NOTHING] for s in suspects}
    assert not beyond & {name for s in measured for name in (*s.wires, s.part)}


def test_a_wire_before_its_fuse_is_not_what_opens_it() -> None:
    _, made = made_of(BUILDS["the example"])
    (guide,) = (one for one in made if one.id == "fuse-13")
    assert {wire for s in guide.suspects for wire in s.wires} == {"13B"}  # 13A comes from the battery's post


def test_looking_comes_before_measuring() -> None:
    for guide in made_of(BUILDS["the example"])[1]:
        if guide.symptom is Symptom.DEAD and guide.steps:
            steps = {step.id: step for step in guide.steps}
            for step in guide.steps:
                later = [steps[o.to].kind for o in step.outcomes if o.to in steps]
                if step.kind in METER and step.kind is not StepKind.BATTERY:
                    assert all(kind in METER for kind in later), (guide.id, step.id)


def test_fuses_are_looked_at_in_the_order_of_the_current() -> None:
    _, made = made_of(FUSES_IN_A_ROW.encode())
    (guide,) = (one for one in made if one.id == "dead-all")
    looked_at = [step.fuse for step in guide.steps if step.kind in (StepKind.FUSE, StepKind.BREAKER)]
    assert looked_at == ["main fuse", "post fuse", "breaker", "way 1", "near fuse", "far fuse"]


@pytest.mark.parametrize("data", [*BUILDS.values(), ROAD_ONLY])
def test_all_that_the_battery_feeds_is_asked_for_a_low_battery_before_a_fuse_is_pulled(data: bytes) -> None:
    """A battery that is low works one thing and not another: its guide must end there, whatever else works."""
    build, made = made_of(data)
    low = Broken(build.trailer, Suspect(Cause.BATTERY, "battery"))
    asked = []
    for guide in made:
        if guide.symptom not in (Symptom.DEAD, Symptom.DIM):
            continue
        hangs = not any(low.works(thing) for thing in guide.things)
        steps = [step.kind for step in guide.steps]
        assert (StepKind.BATTERY in steps) == (hangs and build.trailer.battery is not None), guide.id
        if hangs and build.trailer.battery is not None:
            asked.append(guide)
            assert walk_alone(low, guide) == (low.fault,)
            before = steps[: steps.index(StepKind.BATTERY)]
            assert not {StepKind.FUSE, StepKind.BREAKER, StepKind.PUSH, *METER} & set(before), guide.id
    assert len(asked) > 30 or build.trailer.identity.name != "Plum Ladder"


@pytest.mark.parametrize("data", [ROAD_ONLY, (ROOT / "example_build" / "trailer.yaml").read_bytes()])
def test_lamps_that_are_all_dead_lead_to_the_car_by_its_socket(data: bytes) -> None:
    """A fuse or a converter in the car darkens them all; one contact's own fuse does not."""
    _, made = made_of(data)
    car = Suspect(Cause.CAR)
    mine = [guide for guide in made if car in guide.suspects]
    (guide,) = (one for one in mine if one.symptom is Symptom.DEAD)
    assert guide.circuit is None
    (leaf,) = (one for one in guide.leaves if car in one.suspects)
    assert leaf.suspects == (car,)
    asked = [one for one in guide.steps if leaf.id in [outcome.to for outcome in one.outcomes]]
    assert [one.red.beyond for one in asked if one.red] == ["socket"]


def test_a_fuse_that_feeds_a_coil_and_its_contact_is_told_what_both_take() -> None:
    """6A feeds the relay's coil and 6C its contact, both from way 6: the fuse carries the sum."""
    build, made = made_of((ROOT / "example_build" / "trailer.yaml").read_bytes())
    both = {
        step.wire: step.current_a
        for circuit in build.figures.circuits.values()
        for load in circuit.loads
        for step in load.steps
        if step.wire in ("6A", "6C")
    }
    told = [
        step.load_a
        for guide in made
        if guide.circuit == 6
        for step in guide.steps
        if step.black is not None and step.black.terminal.pin == "way 6" and step.load_a
    ]
    assert told
    assert told == [pytest.approx(sum(both.values()))] * len(told)
