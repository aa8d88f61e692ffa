"""Changes: what was done otherwise counts in every figure, and the plan stays beside it."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.buildfile.issuing import issue
from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumberedReading, NumbersFile, numbered_build
from builder.buildfile.problems import Problem
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.conductors import resistance_ohm_per_m
from builder.electrics.figures import Figures
from builder.rules.registry import find
from builder.trailer.model import Trailer

PLAN = """format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft, size: 8 AWG}
front box: {fuse ways: 6}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG]}
parts:
  fan: {kind: fan, draws: 3 A}
  lamp: {kind: lamp}
  pump: {kind: pump, draws: 4 A}
  pump fuse: {kind: fuse, rating: 10 A}
circuits:
  fan: {path: [fan: 12 ft]}
  reading: {path: [lamp: 8 ft]}
  water: {from: main fuse, path: [pump fuse: 5 in, pump: 6 ft]}
spares:
  rear spare: {from: front box, to: rear wall, wire: 21 ft, size: 14 AWG}
"""


def numbers() -> NumbersFile:
    """Return the file of numbers that the plan was issued with."""
    trailer = read_build(PLAN.encode()).trailer
    assert trailer is not None
    return NumbersFile("trailer.numbers.csv", ledger_text(issue(trailer).ledger).encode())


def reading(changes: str, *, issued: bool = True) -> NumberedReading:
    """Return the plan read with some changes."""
    return numbered_build(read_build((PLAN + changes).encode()), numbers() if issued else None)


def built(changes: str, *, issued: bool = True) -> Trailer:
    """Return the trailer with some changes, which have no problem."""
    read = reading(changes, issued=issued)
    assert read.trailer is not None, [(one.name, one.message) for one in read.problems]
    return read.trailer


def problem(changes: str, *, issued: bool = True) -> Problem:
    """Return the one problem of some changes."""
    (one,) = reading(changes, issued=issued).problems
    return one


def test_a_build_without_changes_has_no_plan_beside_it() -> None:
    assert (built("").changes, built("").plan) == ((), None)
    assert compute(built("")).wire_changes == ()


def test_a_longer_wire_counts_and_the_plan_stays() -> None:
    trailer = built("changes: {1A: {length: 15 ft, note: round the wheel well, date: 3 May}}\n")
    (change,) = trailer.changes
    assert (change.about, change.kind, change.words, change.circuits) == ("1A", "wire", ("length",), (1,))
    assert (change.note, change.date) == ("round the wheel well", "3 May")
    figures = compute(trailer)
    made = figures.wires["1A"]
    assert made.resistance_ohm == pytest.approx(
        resistance_ohm_per_m(made.size, made.temperature_c).ohm_per_m * 15 * 0.3048
    )
    (wire,) = figures.wire_changes
    assert (wire.length_m, wire.planned_length_m) == (pytest.approx(15 * 0.3048), pytest.approx(12 * 0.3048))
    assert trailer.plan is not None
    assert trailer.plan.wires[0].length_m == pytest.approx(12 * 0.3048)
    (circuit,) = figures.circuit_changes
    # feed and return of one size: 27 ft of wire in place of 24 ft
    own = (
        figures.circuits[1].loads[0].circuit_drop_v
        / compute(trailer.plan).circuits[1].loads[0].circuit_drop_v
    )
    assert own == pytest.approx(27 / 24)
    assert circuit.drop_v > circuit.planned_drop_v


def test_no_wire_in_the_wall_gets_thicker_by_a_change() -> None:
    """A plan of 90 ft would have been given thicker wire; a wire that turned out so long has what was laid."""
    trailer = built("changes: {1A: {length: 90 ft}, 1B: {length: 90 ft}}\n")
    figures, planned = compute(trailer), compute(built(""))
    assert {n: w.size for n, w in figures.wires.items()} == {n: w.size for n, w in planned.wires.items()}
    longer = read_build(PLAN.replace("fan: 12 ft", "fan: 90 ft").encode()).trailer
    assert longer is not None
    assert compute(longer).wires["1A"].size != figures.wires["1A"].size
    assert "drop above advice" in {finding.rule for finding in find(trailer, figures)}


def test_size_and_colour_of_a_wire() -> None:
    trailer = built("changes: {1a: {size: 12 AWG, color: blue}}\n")
    figures = compute(trailer)
    assert str(figures.wires["1A"].size) == "12 AWG"
    assert str(figures.wires["1B"].size) == figures.wire_changes[0].planned_size
    assert (str(figures.wire_changes[0].color), str(figures.wire_changes[0].planned_color)) == ("blue", "red")


def test_a_circuit_in_another_size_with_another_fuse() -> None:
    trailer = built("changes: {Fan: {size: 12 AWG, fuse: 7.5 A}}\n", issued=False)
    figures = compute(trailer)
    assert {str(figures.wires[n].size) for n in ("1A", "1B")} == {"12 AWG"}
    fuse = figures.circuits[1].fuse
    assert fuse is not None
    assert fuse.rating_a == 7.5
    assert figures.circuit_changes[0].planned_fuse_a == 5.0


def test_the_fuse_of_a_circuit_in_a_holder() -> None:
    figures = compute(built("changes: {water: {fuse: 15 A}}\n", issued=False))
    assert [fuse.rating_a for fuse in figures.fuses if fuse.name == "pump fuse"] == [15.0]
    assert (figures.circuit_changes[0].planned_fuse_a, figures.circuit_changes[0].fuse_a) == (10.0, 15.0)


def test_another_part_draws_what_it_draws() -> None:
    """The lamp was assumed: with its own draw the assumption goes. A fuse stays what it was, and is judged."""
    trailer = built("changes: {lamp: {draws: 24 W}, pump: {draws: 9.6 A}}\n", issued=False)
    figures = compute(trailer)
    assert figures.circuits[2].load_current_a == pytest.approx(2.0)
    assert not [one for one in figures.assumptions if one.id == "draws of lamp"]
    assert (
        [one for one in compute(trailer.plan).assumptions if one.id == "draws of lamp"]
        if trailer.plan
        else False
    )
    assert "load above fuse" in {f.rule for f in find(trailer, figures)}


def test_one_name_may_be_a_circuit_and_a_part() -> None:
    trailer = built("changes: {fan: {fuse: 7.5 A, draws: 4 A}}\n", issued=False)
    figures = compute(trailer)
    assert (figures.circuits[1].load_current_a, figures.circuit_changes[0].fuse_a) == (
        pytest.approx(4.0),
        7.5,
    )


def test_a_spare_wire_may_be_changed() -> None:
    trailer = built("changes: {S1: {length: 22 ft}}\n")
    assert trailer.spares[0].length_m == pytest.approx(22 * 0.3048)


def test_what_was_chosen_for_the_plan_is_told_as_chosen_and_not_as_given() -> None:
    plan, figures = compute(built("")), compute(built("changes: {1A: {length: 15 ft}, fan: {fuse: 7.5 A}}\n"))
    for number, circuit in figures.circuits.items():
        assert circuit.size.reason == plan.circuits[number].size.reason
    for number, wire in figures.wires.items():
        assert wire.size_given == plan.wires[number].size_given
    reasons = {fuse.name: fuse.reason for fuse in plan.fuses}
    assert {fuse.name: fuse.reason for fuse in figures.fuses} == reasons | {"way 1": "given"}


def test_a_chosen_fuse_that_no_longer_fits_is_judged() -> None:
    trailer = built("changes: {lamp: {draws: 60 W}}\n", issued=False)
    figures = compute(trailer)
    (light,) = (fuse for fuse in figures.fuses if fuse.name == "way 2")
    assert (light.rating_a, light.load_a, light.given) == (3.0, 5.0, True)
    (found,) = (one for one in find(trailer, figures) if one.rule == "load above fuse")
    assert "more than its 3 A fuse carries" in found.message


def test_a_note_alone_changes_no_figure() -> None:
    trailer, plan = built("changes: {1A: {note: taped to the rib}}\n"), built("")
    assert compute(trailer).wires == compute(plan).wires
    assert compute(trailer).circuits == compute(plan).circuits
    assert compute(trailer).fuses == compute(plan).fuses


ROAD = """tow plug: {pattern: 7-way blade, to front box: 7 ft}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, draws: {tail: 0.1 A, stop: 0.4 A, turn: 0.3 A}, wire: 15 ft}
  plate lamp: {shows: plate, wire: 14 ft}
"""
PLACED = """places:
  front box: {back: 1 ft, up: 1 ft}
  fan: {back: 5 ft, up: 1 ft}
  low corner: {back: 1 ft, up: 0 in}
  rear corner: {back: 5 ft, up: 0 in}
chases:
  beam: {through: [front box, fan]}
  floor: {through: [front box, low corner, rear corner, fan]}
"""


def taken(trailer: Trailer) -> dict[tuple[str, str], float]:
    """Return what each load of the road lamps takes, in amperes."""
    return {(load.part, load.what): load.draw.value for load in trailer.loads if load.draw and load.what}


def test_a_road_lamp_takes_what_was_fitted_for_each_function() -> None:
    trailer = built(
        ROAD + "changes: {rear lamp left: {draws: {tail: 0.2 A}}, plate lamp: {draws: {plate: 12 W}}}\n"
    )
    assert taken(trailer)["rear lamp left", "tail"] == 0.2
    assert taken(trailer)["rear lamp right", "tail"] == 0.1
    figures = compute(trailer)
    (left,) = (one for one in figures.lamp_changes if one.lamp == "rear lamp left")
    assert left.shows == "tail"
    assert (left.planned_current_a, left.current_a) == pytest.approx((0.1, 0.2))
    (plate,) = (one for one in figures.lamp_changes if one.lamp == "plate lamp")
    assert plate.current_a == pytest.approx(1.0)
    assert [one.lamps for one in trailer.changes] == [("rear lamp left",), ("plate lamp",)]
    assert not [one for one in trailer.assumed if one.id == "draws of plate lamps"]


def test_the_name_of_a_pair_is_both_of_its_lamps() -> None:
    trailer = built(ROAD + "changes: {rear lamp: {draws: {tail: 0.2 A}}}\n")
    assert [taken(trailer)[f"rear lamp {side}", "tail"] for side in ("left", "right")] == [0.2, 0.2]
    tail = next(c.number for c in trailer.circuits if "tail" in c.name)
    assert trailer.changes[0].circuits == (tail,)


@pytest.mark.parametrize(
    ("draws", "both"),
    [
        ("stop: 0.5 A", 0.5),
        ("stop: 0.2 A", 0.4),
        ("stop: 0.2 A, turn: 0.25 A", 0.25),
        ("stop: 6 W, turn: 0.1 A", 6.0),
    ],
)
def test_stop_and_turn_of_one_lead_are_as_large_as_the_larger(draws: str, both: float) -> None:
    trailer = built(ROAD + f"changes: {{rear lamp: {{draws: {{{draws}}}}}}}\n")
    assert taken(trailer)["rear lamp left", "stop and turn"] == both


def test_the_line_of_the_battery_goes_by_its_heading_and_keeps_its_bond() -> None:
    plan = PLAN.replace("size: 8 AWG}", "size: 8 AWG, frame bond: 8 AWG}")
    for name in ("battery", "battery line", "Battery"):
        reading = numbered_build(
            read_build((plan + f"changes: {{{name}: {{fuse: 30 A, size: 6 AWG}}}}\n").encode()), None
        )
        assert reading.trailer is not None
        figures = compute(reading.trailer)
        (line,) = (c for c in reading.trailer.circuits if c.name == "battery line")
        fuse = figures.circuits[line.number].fuse
        assert fuse is not None
        assert fuse.rating_a == 30.0
        sizes = {
            w.role.value: str(figures.wires[w.number].size)
            for w in reading.trailer.wires
            if w.circuit == line.number
        }
        assert sizes == {"feed": "6 AWG", "return": "6 AWG", "bond": "8 AWG"}


def test_a_wire_of_the_battery_has_the_length_it_was_cut_to() -> None:
    line = next(w for w in built("").wires if w.start.part == "battery")
    trailer = built(f"changes: {{{line.number}: {{length: 11 in}}}}\n")
    assert next(w.length_m for w in trailer.wires if w.number == line.number) == pytest.approx(0.2794)


def test_a_wire_runs_where_it_was_really_laid_and_is_as_long_as_that_way() -> None:
    def wire(changes: str) -> tuple[Trailer, Figures]:
        text = PLAN + PLACED + changes
        trailer = numbered_build(read_build(text.encode()), numbers()).trailer
        assert trailer is not None
        return trailer, compute(trailer)

    plan, planned = wire("")
    trailer, figures = wire("changes: {1A: {through: [Floor, low corner]}}\n")
    (made,) = figures.wire_changes
    assert (made.planned_way, made.way) == (("beam",), ("floor",))
    # 4 ft straight, or 1 ft down, 4 ft along and 1 ft up
    assert planned.runs.runs["1A"].way_m == pytest.approx(4 * 0.3048)
    assert figures.runs.runs["1A"].way_m == pytest.approx(6 * 0.3048)
    assert made.length_m == pytest.approx(figures.runs.runs["1A"].length_m)
    assert next(w.length_source for w in trailer.wires if w.number == "1A") == "worked out"
    assert figures.runs.runs["1B"] == planned.runs.runs["1B"]
    _, measured = wire("changes: {1A: {through: floor, length: 9 ft}}\n")
    assert measured.wire_changes[0].length_m == pytest.approx(9 * 0.3048)
    assert plan.plan is None


def test_without_a_place_the_length_of_a_moved_wire_stays() -> None:
    text = PLAN + PLACED.replace(
        "  fan: {back: 5 ft, up: 1 ft}\n", "  end: {back: 5 ft, up: 1 ft}\n"
    ).replace("fan]", "end]")
    trailer = numbered_build(
        read_build((text + "changes: {1A: {through: floor}}\n").encode()), numbers()
    ).trailer
    assert trailer is not None
    assert next(w.length_m for w in trailer.wires if w.number == "1A") == pytest.approx(12 * 0.3048)


@pytest.mark.parametrize(
    ("changes", "name", "word", "helps"),
    [
        (
            ROAD + "changes: {rear lamp: {draws: 2 A}}\n",
            "change that does not fit",
            "2 A",
            "stop, tail, turn",
        ),
        (
            ROAD + "changes: {rear lamp: {draws: {fog: 2 A}}}\n",
            "change that does not fit",
            "fog",
            "stop, tail, turn",
        ),
        (ROAD + "changes: {rear lamp: {fuse: 2 A}}\n", "change that does not fit", "2 A", "name that has it"),
        ("changes: {lamp: {draws: {tail: 2 A}}}\n", "change that does not fit", "tail", "draws: 2 A"),
        ("changes: {fan: {through: beam}}\n", "change that does not fit", "beam", "its number"),
        (PLACED + "changes: {1A: {through: [flor]}}\n", "unknown place", "flor", "“floor”"),
    ],
)
def test_what_does_not_fit_a_lamp_or_a_way_is_told(changes: str, name: str, word: str, helps: str) -> None:
    one = problem(changes)
    assert (one.name, helps in one.help) == (name, True)
    line = (PLAN + changes).splitlines()[one.origin.line - 1]
    assert line[one.origin.column - 1 :].startswith(word)


@pytest.mark.parametrize(
    ("changes", "name", "word", "helps"),
    [
        ("changes: {fam: {draws: 2 A}}\n", "change of nothing", "fam", "“fan”"),
        ("changes: {1Z: {length: 2 ft}}\n", "change of an unknown wire", "1Z", "1A"),
        ("changes: {pump: {length: 2 ft}}\n", "change that does not fit", "2 ft", "its number"),
        ("changes: {1A: {fuse: 5 A}}\n", "change that does not fit", "5 A", "a wire has a length"),
        ("changes: {reading: {draws: 2 A}}\n", "change that does not fit", "2 A", "the name that has it"),
    ],
)
def test_what_cannot_be_changed_is_told(changes: str, name: str, word: str, helps: str) -> None:
    one = problem(changes)
    assert one.name == name
    line = (PLAN + changes).splitlines()[one.origin.line - 1]
    assert line[one.origin.column - 1 :].startswith(word)
    assert helps in one.help


def test_a_name_that_looks_like_a_number_is_a_name() -> None:
    text = (PLAN + "changes: {5v: {draws: 4 A}}\n").replace("fan:", "5v:")
    trailer = numbered_build(read_build(text.encode()), None).trailer
    assert trailer is not None
    assert compute(trailer).circuits[1].load_current_a == pytest.approx(4.0)


def test_a_change_of_a_draft_is_told() -> None:
    one = problem("changes: {1A: {length: 15 ft}}\n", issued=False)
    assert one.name == "change of a draft"
    assert "wiring-manual number" in one.help


def test_a_change_of_a_retired_number_is_told() -> None:
    gone = (
        (PLAN + "changes: {3A: {length: 2 ft}}\n")
        .replace("  water: {from: main fuse, path: [pump fuse: 5 in, pump: 6 ft]}\n", "")
        .replace("  pump: {kind: pump, draws: 4 A}\n  pump fuse: {kind: fuse, rating: 10 A}\n", "")
    )
    (one,) = numbered_build(read_build(gone.encode()), numbers()).problems
    assert (one.name, "was retired" in one.message) == ("change of an unknown wire", True)


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.integers(1, 40), st.integers(1, 40), st.booleans())
def test_a_change_of_all_lengths_is_the_plan_with_those_lengths(feet: int, back: int, twice: bool) -> None:
    """Sizes given, changes and a plan written with the same lengths give the same figures."""
    sized = PLAN.replace("{path: [fan", "{size: 12 AWG, fuse: 5 A, path: [fan")
    text = sized + f"changes: {{1A: {{length: {feet} ft}}, 1B: {{length: {back} ft}}}}\n"
    read = numbered_build(read_build(text.encode()), numbers()).trailer
    other = read_build(sized.replace("[fan: 12 ft]", f"[fan: {feet} ft], return: {back} ft").encode()).trailer
    assert read is not None
    assert other is not None
    changed, written = compute(read).circuits[1], compute(other).circuits[1]
    assert changed.worst_drop_v == pytest.approx(written.worst_drop_v)
    assert changed.load_current_a == pytest.approx(written.load_current_a)
    if twice:
        again = numbered_build(read_build(text.encode()), numbers()).trailer
        assert again == read
