"""On which screw or stud each wire lands: what must hold whatever is added or taken out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from builder.buildfile.issuing import issue
from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumbersFile, numbered_build
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.landings import stud_loads
from builder.electrics.seats import seated
from builder.trailer.ledger import IssuedWire, Ledger
from builder.trailer.model import FRONT_BOX, GROUND_BAR, Trailer
from builder.trailer.parts import Terminal

FAR = Terminal("lamp", "−")
NUMBERS = st.lists(
    st.tuples(st.integers(1, 12), st.sampled_from("ABCDEFGH")).map(lambda one: f"{one[0]}{one[1]}"),
    unique=True,
    max_size=14,
)


def bare(issued: Sequence[str] = (), retired: Sequence[str] = ()) -> Trailer:
    """A trailer of which nothing counts but its ledger, all of it issued at one time."""
    return in_order(sorted((*issued, *retired), key=by_number), retired)


def in_order(issued: Sequence[str], retired: Sequence[str]) -> Trailer:
    """A trailer of which nothing counts but its ledger, in the order in which its wires were issued."""
    trailer = read_build(b"format: 1\nbuild: {name: A}\nparts: {lamp: {kind: lamp, draws: 1 W}}\n").trailer
    assert trailer is not None
    wires = [IssuedWire(n, "return", FAR, GROUND_BAR, retired=n in retired) for n in issued]
    return replace(trailer, ledger=Ledger("A", "", wires=tuple(wires)))


def by_number(number: str) -> tuple[int, int, str]:
    digits = number.rstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    return int(digits), len(number) - len(digits), number


@given(NUMBERS, NUMBERS, st.integers(1, 20) | st.none(), st.integers(1, 4))
def test_every_wire_lands_once_and_no_stud_takes_too_many_without_it_showing(
    numbers: list[str], gone: list[str], count: int | None, most: int
) -> None:
    retired = [number for number in gone if number not in numbers]
    found = seated(bare(numbers, retired), GROUND_BAR, numbers, count, most)
    assert sorted(wire for wires in found.values() for wire in wires) == sorted(numbers)
    assert list(found) == sorted(found)
    if count is None or len(numbers) <= count:
        assert all(len(wires) == 1 for wires in found.values())
    elif len(numbers) <= count * most:
        assert max(found) <= count
        assert max(map(len, found.values())) <= most
    else:  # too many: a stud beyond the last, or more wires on one than it takes
        assert max(found) > count or max(map(len, found.values())) > most


@given(NUMBERS, st.data())
def test_a_wire_that_is_taken_out_moves_no_other_once_numbers_are_issued(
    numbers: list[str], data: st.DataObject
) -> None:
    numbers = sorted(numbers, key=by_number)
    count = max(1, len(numbers))
    before = seated(bare(numbers), GROUND_BAR, numbers, count, 1)
    out = data.draw(st.sampled_from(numbers)) if numbers else ""
    rest = [number for number in numbers if number != out]
    after = seated(bare(rest, [out] if out else []), GROUND_BAR, rest, count, 1)
    assert after == {stud: wires for stud, wires in before.items() if wires != (out,)}


@given(NUMBERS, NUMBERS, NUMBERS, st.integers(0, 9), st.integers(1, 3), st.data())
def test_a_wire_more_moves_no_other_once_numbers_are_issued_while_free_ones_are_left(
    numbers: list[str], gone: list[str], new: list[str], spare: int, most: int, data: st.DataObject
) -> None:
    """By any order of issue, with screws that were left; and again once the new one is issued too."""
    issued = data.draw(st.permutations(list(dict.fromkeys([*numbers, *gone]))))
    retired = [number for number in gone if number not in numbers]
    new = [number for number in new if number not in issued]
    count = len(numbers) + spare
    there = list(numbers)
    before = seated(in_order(issued, retired), GROUND_BAR, there, count or None, most)
    for number in new[:spare]:
        there.append(number)
        after = seated(in_order(issued, retired), GROUND_BAR, data.draw(st.permutations(there)), count, most)
        assert {stud: wires for stud, wires in after.items() if number not in wires} == before
        issued = [*issued, number]
        before = seated(in_order(issued, retired), GROUND_BAR, there, count, most)
        assert before == after


@given(NUMBERS, st.integers(1, 12), st.sampled_from("ABCDEFGH"))
def test_before_numbers_are_issued_a_wire_more_moves_only_those_behind_it(
    numbers: list[str], circuit: int, letter: str
) -> None:
    new = f"{circuit}{letter}"
    numbers = sorted((number for number in numbers if number != new), key=by_number)
    before = seated(bare(), GROUND_BAR, numbers, None, 1)
    after = seated(bare(), GROUND_BAR, [*numbers, new], None, 1)
    stud_of = {wire: stud for stud, wires in after.items() for wire in wires}
    for stud, (wire,) in before.items():
        assert stud_of[wire] == stud + (by_number(new) < by_number(wire))


def test_the_next_wire_takes_a_screw_that_was_left_where_there_is_no_other() -> None:
    trailer = bare(["1B", "3B"], ["2B"])
    assert seated(trailer, GROUND_BAR, ["1B", "3B", "4B"], 4, 1) == {1: ("1B",), 3: ("3B",), 4: ("4B",)}
    assert seated(trailer, GROUND_BAR, ["1B", "3B", "4B"], 3, 1) == {1: ("1B",), 2: ("4B",), 3: ("3B",)}


def test_wires_go_one_on_each_stud_before_a_second_goes_on_the_first() -> None:
    numbers = ["1B", "2B", "10B", "1AA", "1Z"]
    found = seated(bare(), GROUND_BAR, numbers, 2, 4)
    assert found == {1: ("1B", "1AA", "10B"), 2: ("1Z", "2B")}


BUILD = """\
format: 1
build: {{name: Reed, country: US}}
battery: {{chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}}
front box: {{fuse ways: 12, ground bar: 12}}
parts: {{{parts}}}
circuits: {{{circuits}}}
"""


def ground_bar(names: Sequence[str], numbers: NumbersFile | None = None) -> tuple[Trailer, dict[str, str]]:
    """Return a build of lamps, and where each of their returns lands by the lamp."""
    parts = ", ".join(f"{name}: {{kind: lamp, draws: 3 W}}" for name in names)
    circuits = ", ".join(f"{name} light: {{path: [{name}: 6 ft]}}" for name in names)
    text = BUILD.format(parts=parts, circuits=circuits)
    reading = numbered_build(read_build(text.encode()), numbers)
    trailer = reading.trailer
    assert trailer is not None
    lands = {
        wire: at.place for at in compute(trailer).landings if at.pin == GROUND_BAR.pin for wire in at.wires
    }
    return trailer, {w.start.part: lands[w.number] for w in trailer.wires if w.end == GROUND_BAR}


def test_a_circuit_taken_out_of_a_numbered_build_and_a_new_one_move_no_other_line() -> None:
    trailer, before = ground_bar(["ash", "birch", "cedar", "elm"])
    numbers = NumbersFile("reed.numbers.csv", ledger_text(issue(trailer).ledger).encode())
    _, after = ground_bar(["ash", "cedar", "elm", "fir"], numbers)
    assert before == {"ash": "screw 1", "birch": "screw 2", "cedar": "screw 3", "elm": "screw 4"}
    assert {name: after[name] for name in ("ash", "cedar", "elm")} == {
        name: before[name] for name in ("ash", "cedar", "elm")
    }
    assert after["fir"] not in before.values()


def test_studs_that_the_file_counts_share_the_wires_of_a_bar() -> None:
    text = BUILD.format(
        parts="bar: {kind: bar}, ash: {kind: lamp, draws: 3 W}, elm: {kind: lamp, draws: 3 W}",
        circuits="rear: {path: [bar: 6 ft, ash: 2 ft], branches: [{from: bar, path: [elm: 2 ft]}]}",
    )
    text += "terminal studs: {bar: {count: 2, most on each: 2}}\n"
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    figures = compute(trailer)
    bar = {at.place: at.wires for at in figures.landings if at.part == "bar"}
    assert bar == {"feed 1": ("1A", "1C"), "feed 2": ("1B",), "return 1": ("1D", "1F"), "return 2": ("1E",)}
    loads = {(load.terminal.pin, load.count, load.most) for load in stud_loads(trailer, figures.landings)}
    assert loads >= {("feed", 2, 2), ("return", 2, 2)}
    assert all(at.wires for at in figures.landings if at.part == FRONT_BOX and at.place.startswith("way "))


TOWED = """\
format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4, ground bar: 12, strip: 8}
tow plug: {pattern: 4-way flat, to front box: 7 ft}
parts: {lamp: {kind: lamp, draws: 24 W}}
circuits: {light: {path: [lamp: 1 ft]}}
road lamps:
"""
REAR = "  rear lamp: {shows: [SHOWN], side: both, wire: 10 ft}\n"


def places(text: str, numbers: NumbersFile | None, kind: str) -> tuple[dict[str, str], NumbersFile]:
    """Return on which screw or position of the box each wire lands, and the numbers once all are issued."""
    trailer = numbered_build(read_build(text.encode()), numbers).trailer
    assert trailer is not None
    found = {w: at.place for at in compute(trailer).landings if at.place.startswith(kind) for w in at.wires}
    return found, NumbersFile("weir.numbers.csv", ledger_text(issue(trailer).ledger).encode())


def test_a_lamp_more_moves_no_screw_of_a_numbered_build_and_issuing_its_numbers_neither() -> None:
    """Its return has a number between others: by number it would take their screw."""
    text = TOWED + REAR.replace("SHOWN", "tail, stop, turn")
    before, numbers = places(text, None, "screw ")
    text += "  marker: {shows: marker, side: left, wire: 4 ft, own wires: no}\n"
    after, more = places(text, numbers, "screw ")
    issued, _ = places(text, more, "screw ")
    assert after.items() > before.items()
    assert issued == after
    assert by_number(max(before, key=by_number)) > by_number(next(iter(after.keys() - before.keys())))


def test_a_contact_that_comes_into_use_moves_no_position_of_the_strip() -> None:
    text = TOWED + REAR.replace("SHOWN", "stop, turn")
    before, numbers = places(text, None, "strip ")
    text += "  marker: {shows: [tail, marker], side: both, wire: 4 ft}\n"
    after, more = places(text, numbers, "strip ")
    assert len(after) > len(before) > 0
    assert after.items() > before.items()
    assert places(text, more, "strip ")[0] == after
