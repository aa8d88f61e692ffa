"""Options: judged as if they were there, and in no figure of today."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, assume, given, settings

from builder.buildfile.issuing import issue
from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumbersFile, numbered_build
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures, OptionFigures
from builder.numbers_beside import numbers_beside
from builder.pages.record import record
from builder.rules.registry import find
from builder.trailer.model import Trailer

EXAMPLE = Path(__file__).parents[2] / "example_build" / "trailer.yaml"
PLAN = """format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft, size: 8 AWG, fuse: 30 A}
front box: {fuse ways: 4}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG]}
parts:
  fan: {kind: fan, draws: 3 A}
  lamp: {kind: lamp, draws: 6 W}
  module: {kind: solar module, gives: 50 W}
  controller: {kind: charge controller}
  sun fuse: {kind: fuse, rating: 10 A}
circuits:
  fan: {path: [fan: 12 ft], size: 14 AWG}
  light: {path: [lamp: 8 ft], size: 16 AWG}
  sun: {from: module, path: [controller: 9 ft, sun fuse: 1 ft, battery: 6 in], size: 12 AWG}
spares:
  rear spare: {from: front box, to: rear wall, wire: 21 ft, size: 12 AWG}
"""
PUMP = "{kind: pump, draws: 4 A}"
PUMP_PATH = "{path: [pump: 11 ft], size: 14 AWG}"


def read(text: str, numbers: NumbersFile | None = None) -> Trailer:
    """Return the trailer of a build that has no problem."""
    reading = numbered_build(read_build(text.encode()), numbers)
    assert reading.trailer is not None, [(one.name, one.message) for one in reading.problems]
    return reading.trailer


def issued(text: str) -> NumbersFile:
    """Return the file of the numbers that a build was issued with."""
    return NumbersFile("trailer.numbers.csv", ledger_text(issue(read(text)).ledger).encode())


def option(text: str) -> OptionFigures:
    """Return the figures of the one option of a build."""
    (made,) = compute(read(text)).options
    return made


def told(trailer: Trailer, figures: Figures) -> str:
    """Return the record of a trailer, its options and what is said of them left out."""
    said = [finding for finding in find(trailer, figures) if finding.rule != "option not ready"]
    made = record(trailer, figures, said)
    made.pop("options", None)
    return json.dumps(made)


def test_the_figures_of_an_option_are_those_of_the_trailer_that_has_it() -> None:
    """With all sizes given, the trailer with a pump written in is a build file of its own."""
    later = option(
        PLAN + f"options:\n  pump: {{parts: {{pump: {PUMP}}}, circuits: {{water: {PUMP_PATH}}}}}\n"
    )
    whole = read(
        PLAN.replace("parts:\n", f"parts:\n  pump: {PUMP}\n").replace(
            "circuits:\n", f"circuits:\n  water: {PUMP_PATH}\n"
        )
    )
    figures = compute(whole)
    (circuit,) = later.circuits
    (same,) = (figures.circuits[c.number] for c in whole.circuits if c.name == "water")
    assert circuit.today is None
    assert circuit.made.load_current_a == pytest.approx(same.load_current_a, rel=1e-12)
    assert circuit.made.worst_drop_v == pytest.approx(same.worst_drop_v, rel=1e-12)
    assert circuit.made.fuse is not None
    assert same.fuse is not None
    assert (circuit.made.fuse.rating_a, circuit.way) == (same.fuse.rating_a, 3)
    assert later.figures.energy is not None
    assert figures.energy is not None
    assert later.figures.energy.nights == pytest.approx(figures.energy.nights, rel=1e-12)
    assert later.main is not None
    assert later.main.load_a == pytest.approx(3.0 + 0.5 + 4.0, rel=1e-12)
    assert (later.ways_free, later.ways_needed) == (2, 1)


def test_what_an_option_needs_is_listed_wire_by_wire() -> None:
    later = option(
        PLAN + f"options:\n  pump: {{parts: {{pump: {PUMP}}}, circuits: {{water: {PUMP_PATH}}}}}\n"
    )
    assert [(one.start, one.end, str(one.size), one.spare) for one in later.wires] == [
        ("front box", "pump", "14 AWG", ""),
        ("pump", "front box", "14 AWG", ""),
    ]
    assert [one.length_m for one in later.wires] == pytest.approx([11 * 0.3048] * 2)
    assert (later.gone, later.short) == ((), ())


def test_a_spare_wire_stands_for_the_longest_wire_that_it_reaches_in_its_own_size() -> None:
    text = PLAN + (
        "options:\n  pump: {parts: {switch: {kind: switch}, pump: " + PUMP + "}, "
        "circuits: {water: {path: [switch: 22 ft, pump: 8 ft]}}, spares: rear spare}\n"
    )
    later = option(text)
    assert [(round(one.length_m / 0.3048), one.spare) for one in later.wires] == [
        (22, ""),
        (21, "S1"),
        (30, ""),
    ]
    assert str(later.wires[1].size) == "12 AWG"
    assert [spare for spare, _ in later.elsewhere] == ["S1"]
    short = option(text.replace("pump: 8 ft", "pump: 21 ft 1 in"))
    assert short.short == ("S1",)


PLACES = """places:
  front box: {back: 10 in, up: 2 ft}
  corner: {back: 10 in, left: 2 ft, up: 2 ft}
  shelf: {back: 4 ft, left: 2 ft, up: 2 ft}
  low: {back: 4 ft, left: 2 ft, up: 6 in}
  rear: {back: 6 ft, left: 2 ft, up: 2 ft}
chases:
  cross: {through: [front box, corner]}
  high way: {through: [corner, shelf, rear]}
  low way: {through: [corner, low, shelf]}
"""
SPARE_TO = "rear spare: {from: front box, to: PLACE, size: 12 AWG}"
BED = (
    "  bed: {parts: {bed lamp: {kind: lamp, draws: 3 W, place: PLACE}}, circuits: {bed: {path: [bed lamp]}}, "
    "spares: rear spare}\n"
)


def placed(spare: str, lamp: str, changes: str = "") -> str:
    """Return a build with a spare wire by its way from the box to a place, and an option with a lamp at a place."""
    text = PLAN.replace("rear spare: {from: front box, to: rear wall, wire: 21 ft, size: 12 AWG}", spare)
    return text + PLACES + changes + "options:\n" + BED.replace("PLACE", lamp)


def said_of(text: str, numbers: NumbersFile | None = None) -> list[str]:
    """Return what is said of the options of a build."""
    trailer = read(text, numbers)
    return [one.message for one in find(trailer, compute(trailer)) if one.rule == "option not ready"]


def test_a_spare_wire_that_ends_elsewhere_is_told_and_one_with_the_same_ends_is_not() -> None:
    """To the shelf and on to the rear: 2 ft more than the lamp at the shelf needs, and not there."""
    same = placed(SPARE_TO.replace("PLACE", "shelf"), "shelf")
    (later,) = compute(read(same)).options
    assert [(one.start, one.spare) for one in later.wires] == [("front box", "S1"), ("bed lamp", "")]
    assert (later.elsewhere, later.short, said_of(same)) == ((), (), [])
    beyond = placed(SPARE_TO.replace("PLACE", "rear"), "shelf")
    (later,) = compute(read(beyond)).options
    number = (
        later.trailer.wires[-1].number if later.trailer.wires[-1].number in dict(later.elsewhere) else None
    )
    assert number is None
    assert [one[0] for one in later.elsewhere] == ["S1"]
    assert said_of(beyond) == [
        "if you add “bed”: the spare wire S1 runs from “front box” to “rear”, and the wire that it stands for from "
        "“front box” to “bed lamp”"
    ]


def test_a_spare_wire_counts_in_its_own_length() -> None:
    """Written 9 ft longer than its way: the lamp's current goes through all of it, and the return has its way."""
    long = placed(SPARE_TO.replace("PLACE", "shelf, wire: 16 ft"), "shelf")
    (later,) = compute(read(long)).options
    feed, back = later.wires
    assert feed.length_m == pytest.approx(16 * 0.3048)
    assert back.length_m < 8 * 0.3048
    (whole,) = (one for one in later.trailer.wires if one.number == feed.number)
    assert whole.length_m == pytest.approx(16 * 0.3048)


def test_a_spare_wire_stands_for_the_wire_with_its_own_ends_before_a_longer_one() -> None:
    """The lamp's feed goes on from the switch at the shelf to the rear; the spare ends at the shelf."""
    text = placed(SPARE_TO.replace("PLACE", "shelf"), "rear").replace(
        "path: [bed lamp]", "path: [bed switch, bed lamp]"
    )
    text = text.replace("{bed lamp: {", "{bed switch: {kind: switch, place: shelf}, bed lamp: {")
    (later,) = compute(read(text)).options
    assert [(one.start, one.end, one.spare) for one in later.wires] == [
        ("front box", "bed switch", "S1"),
        ("bed switch", "bed lamp", ""),
        ("bed lamp", "front box", ""),
    ]
    assert said_of(text) == []


def test_a_spare_wire_with_the_right_ends_that_is_too_short_stands_for_no_other_wire() -> None:
    text = placed(SPARE_TO.replace("PLACE", "shelf"), "shelf").replace(
        "path: [bed lamp]", "path: [bed lamp: 20 ft]"
    )
    text = text.replace("bed: {path", "bed: {return: {to: frame, length: 1 ft}, path")
    (later,) = compute(read(text)).options
    assert later.short == ("S1",)
    assert [one.spare for one in later.wires] == ["", ""]


def test_where_the_way_of_a_spare_wire_is_another_its_wire_lies_in_that() -> None:
    """The spare was led by the low way: that is where it lies once the option uses it."""
    text = placed(SPARE_TO.replace("PLACE", "shelf, through: low way"), "shelf")
    (later,) = compute(read(text)).options
    spare, back = (
        {step.stretch.chase for step in later.figures.runs.runs[wire.number].steps}
        for wire in later.trailer.wires
        if wire.circuit == later.circuits[0].made.number
    )
    assert spare == {"cross", "low way"}
    assert back == {"cross", "high way"}


def test_an_option_takes_its_spare_wire_as_it_was_built() -> None:
    """Laid 2 ft shorter and in another size than planned: the option counts what is in the wall."""
    plan = placed(SPARE_TO.replace("PLACE", "shelf, wire: 9 ft"), "shelf")
    numbers = issued(plan)
    built = placed(
        SPARE_TO.replace("PLACE", "shelf, wire: 9 ft"),
        "shelf",
        "changes: {S1: {length: 8 ft, size: 14 AWG}}\n",
    )
    (later,) = compute(read(built, numbers)).options
    assert later.wires[0].spare == "S1"
    assert later.wires[0].length_m == pytest.approx(8 * 0.3048)
    assert str(later.wires[0].size) == "14 AWG"
    short = built.replace("length: 8 ft", "length: 4 ft")
    assert any("S1 is shorter than each wire" in one for one in said_of(short, numbers))


def helps_of(text: str, numbers: NumbersFile | None = None) -> list[str]:
    """Return the ways out of what is said of the options of a build."""
    trailer = read(text, numbers)
    return [one.help for one in find(trailer, compute(trailer)) if one.rule == "option not ready"]


def test_once_walls_are_closed_a_part_of_an_option_is_not_to_be_written_under_changes() -> None:
    """An oven on the spare's 12 AWG, and another version of a lamp whose wires are in the walls."""
    oven = placed(SPARE_TO.replace("PLACE", "shelf"), "shelf").replace(
        "kind: lamp, draws: 3 W, place", "kind: heater, draws: 25 A, place"
    )
    closed = oven.replace("country: US}", "country: US, stage: walls closed}")
    ways = [one for one in helps_of(closed) if "“bed lamp” so that it takes less" in one]
    assert ways
    assert not [one for one in ways if "write it under changes" in one]
    there = closed.replace("options:\n", "options:\n  fan: {parts: {lamp: {kind: lamp, draws: 90 W}}}\n")
    assert all(
        "“lamp” so that it takes less" not in one or "under changes" not in one for one in helps_of(there)
    )


BODY = (
    "body: {width: 5 ft, profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, "
    "{back: 0 in, up: 4 ft}]}\n"
)


@pytest.mark.parametrize(("spares", "told_of"), [(", spares: rear spare", False), ("", True)])
def test_a_spare_wire_that_is_pulled_is_in_its_closed_bay_already(spares: str, told_of: bool) -> None:
    """All wire of the option in the left wall is the spare, where it takes that; its return goes to the frame."""
    text = placed(SPARE_TO.replace("PLACE", "shelf"), "shelf").replace("left: 2 ft,", "left: 2 ft 4 in,")
    text = text.replace("path: [bed lamp]", "return: {to: frame, length: 1 ft}, path: [bed lamp]")
    done = (
        "pulled: {rear spare: 2 May, light: 2 May}\n"
        "closed bays: {left wall: {photo: a.jpg, ends insulated: yes}}\n"
    )
    text = text.replace(", spares: rear spare", spares).replace("options:\n", done + BODY + "options:\n")
    said = [one for one in said_of(text) if "not all wires in it are pulled" in one]
    assert bool(said) == told_of


def test_another_version_of_a_part_keeps_the_wires_and_may_need_another_fuse() -> None:
    later = option(PLAN + "options:\n  brighter lamp: {parts: {lamp: {kind: lamp, draws: 60 W}}}\n")
    (circuit,) = later.circuits
    assert circuit.today is not None
    assert (circuit.today.load_current_a, circuit.made.load_current_a) == (0.5, 5.0)
    assert circuit.made.fuse is not None
    assert circuit.today.fuse is not None
    assert (circuit.today.fuse.rating_a, circuit.made.fuse.rating_a) == (3.0, 7.5)
    assert (later.wires, later.gone, later.ways_needed) == ((), (), 0)


def test_a_wire_that_is_there_gets_no_thicker_because_of_an_option() -> None:
    text = (
        PLAN.replace(", size: 14 AWG}", "}")
        + "options:\n  larger fan: {parts: {fan: {kind: fan, draws: 12 A}}}\n"
    )
    trailer = read(text)
    figures = compute(trailer)
    (later,) = figures.options
    for number, wire in figures.wires.items():
        assert later.figures.wires[number].size == wire.size
    said = [one for one in find(trailer, figures) if one.rule == "option not ready"]
    assert [one.level.value for one in said] == ["worth knowing"] * len(said)
    assert any("no fuse fits “fan”: it needs 20 A, and its wire 1A (14 AWG)" in one.message for one in said)


def test_another_version_of_a_circuit_leaves_wires_out_of_use() -> None:
    later = option(
        PLAN + "options:\n  switched light:\n    circuits: {light: {path: [switch: 3 ft, lamp: 2 ft]}}\n"
        "    parts: {switch: {kind: switch}}\n"
    )
    there = {wire.number for wire in read(PLAN).wires}
    assert {one.number for one in later.wires} & there == set()
    assert set(later.gone) <= there


def test_numbers_of_today_are_the_same_in_an_option_issued_or_not() -> None:
    text = PLAN + f"options:\n  pump: {{parts: {{pump: {PUMP}}}, circuits: {{water: {PUMP_PATH}}}}}\n"
    for numbers in (None, issued(PLAN)):
        trailer = read(text, numbers)
        (later,) = trailer.options
        today = {(wire.number, wire.start, wire.end, wire.length_m) for wire in trailer.wires}
        assert today <= {(wire.number, wire.start, wire.end, wire.length_m) for wire in later.trailer.wires}
        assert trailer.draft_numbers == (
            () if numbers else tuple(w.number for w in (*trailer.wires, *trailer.spares))
        )


def test_what_was_changed_counts_in_an_option_too_unless_it_writes_that_itself() -> None:
    changes = (
        "changes: {1A: {length: 40 ft}, lamp: {draws: 12 W}}\n"
        "options:\n  pump: {parts: {PARTS}, circuits: {water: WATER}}\n"
    )
    changes = changes.replace("WATER", PUMP_PATH)
    (later,) = compute(read(PLAN + changes.replace("PARTS", f"pump: {PUMP}"), issued(PLAN))).options
    wires = {wire.number: wire.length_m for wire in later.trailer.wires}
    assert wires["1A"] == pytest.approx(40 * 0.3048)
    assert later.figures.circuits[2].load_current_a == pytest.approx(1.0)
    own = f"pump: {PUMP}, lamp: {{kind: lamp, draws: 3 W}}"
    (later,) = compute(read(PLAN + changes.replace("PARTS", own), issued(PLAN))).options
    assert later.figures.circuits[2].load_current_a == pytest.approx(0.25)


def test_a_fuse_way_that_is_in_use_is_told() -> None:
    text = (
        PLAN
        + f"options:\n  pump: {{parts: {{pump: {PUMP}}}, circuits: {{water: {{path: [pump: 2 ft], way: 2}}}}}}\n"
    )
    (problem,) = numbered_build(read_build(text.encode()), None).problems
    assert (problem.name, "“light”" in problem.message) == ("way taken", True)


def test_no_free_fuse_way_is_told_of_an_option() -> None:
    text = PLAN.replace("fuse ways: 4", "fuse ways: 2")
    trailer = read(
        text + f"options:\n  pump: {{parts: {{pump: {PUMP}}}, circuits: {{water: {PUMP_PATH}}}}}\n"
    )
    figures = compute(trailer)
    assert (figures.options[0].ways_free, figures.options[0].ways_needed) == (0, 1)
    assert [one.rule for one in find(trailer, figures) if "if you add “pump”" in one.message] == [
        "option not ready"
    ]


OPTIONS = """
options:
  second fan: {parts: {wished fan: {kind: fan, draws: 4 A}}, circuits: {wished fan: {path: [wished fan: 9 ft]}}}
  heater: {parts: {wished heater: {kind: heater, draws: 30 A}}, circuits: {wished heat: {path: [wished heater: 9 ft]}}}
"""


def test_todays_figures_of_the_example_do_not_change_by_a_byte() -> None:
    data, numbers = EXAMPLE.read_text(encoding="utf-8"), numbers_beside(EXAMPLE)
    bare = data.partition("\noptions:\n")[0] if "\noptions:\n" in data else data
    today = numbered_build(read_build(bare.encode()), numbers).trailer
    later = numbered_build(read_build((bare + OPTIONS).encode()), numbers).trailer
    assert today is not None
    assert later is not None
    assert len(later.options) == 2
    assert told(later, compute(later)) == told(today, compute(today))


@given(builds())
@settings(max_examples=15, derandomize=True, deadline=None, suppress_health_check=list(HealthCheck))
def test_todays_figures_of_no_build_change_by_an_option(build: GeneratedBuild) -> None:
    today = read_build(build.text.encode()).trailer
    assert today is not None
    assume(today.battery is not None and today.front_box is not None)
    later = read_build((build.text + OPTIONS).encode()).trailer
    assume(later is not None)
    assert later is not None
    assert len(later.options) == 2
    assert replace(later, options=()) == today
    assert told(later, compute(later)) == told(today, compute(today))


def test_a_spare_wire_that_is_pulled_or_has_its_hole_may_be_put_to_use() -> None:
    later = f"options: {{rain: {{parts: {{pump: {PUMP}}}, circuits: {{rain: {PUMP_PATH}}}, spares: [rear spare]}}}}\n"
    said = "pulled: {rear spare: 3 May}\nentry holes: {one: {bore: 1 in, takes: rear spare}}\n"
    assert [wire.start.pin for wire in read(PLAN + later + said).options[0].spares] == ["rear spare"]


def test_what_an_option_makes_graver_is_told_though_today_has_it_already() -> None:
    """One hole at 89 % today, over twice its room with the option: then it must be put right before it is built."""
    hole = (
        "entry holes: {rest: {bore: 4.5 mm}, thick: {bore: 1 in, takes: [battery, sun, light, rear spare]}}\n"
    )
    fan = "parts: {bed fan: {kind: fan, draws: 1 A}}, circuits: {bed fan: {path: [bed fan: 6 ft]}}"
    later = f"options: {{second: {{{fan}}}}}\n"
    text = (PLAN + hole + later).replace(
        "path: [fan: 12 ft], size: 14 AWG", "path: [fan: 12 ft], size: 16 AWG"
    )
    trailer = read(text)
    found = find(trailer, compute(trailer))
    assert [one.level for one in found if one.rule == "entry hole full"] == ["should fix"]
    assert any(one.rule == "option not ready" and "“rest”" in one.message for one in found)
