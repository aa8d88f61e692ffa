"""The file of numbers: what is told of a damaged one, and what each edit of a build does to its numbers."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.buildfile.issuing import issue, renamed, taken_back
from builder.buildfile.ledger_changes import Changes, changed
from builder.buildfile.ledger_doubts import Doubt, doubts
from builder.buildfile.ledger_reading import MOST_TOLD, read_ledger
from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumberedReading, NumbersFile, numbered_build, numbers_name
from builder.buildfile.numbering import number_trailer
from builder.buildfile.resolving import read_build
from builder.trailer.ledger import IssuedCircuit, IssuedSpare, IssuedWire, Ledger
from builder.trailer.model import Trailer
from builder.trailer.parts import Terminal

BUILD = """\
format: 1
build: {name: Bean Row, number: 4, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6, fuses: blade}
tow plug: {pattern: 4-way flat, to front box: 7 ft}
parts:
  step switch: {kind: switch}
  step lamp: {kind: lamp, draws: 3 W}
  fan: {kind: fan, draws: 3 A, own switch: yes}
  hatch plug: {kind: connector, ways: 8}
  left lamp: {kind: lamp, draws: 1 W}
  right lamp: {kind: lamp, draws: 1 W}
circuits:
  step light: {path: [step switch: 14 ft, step lamp: 6 ft]}
  fan: {path: [fan: 12 ft]}
  hatch light:
    path: [hatch plug: 15 ft, left lamp: 3 ft]
    branches: [{from: fuse, path: [hatch plug: 15 ft, right lamp: 3 ft]}]
road lamps:
  plate lamp: {shows: plate, path: [hatch plug: 15 ft, plate lamp: 2 ft]}
spares:
  rear spare: {from: front box, to: rear wall, wire: 20 ft}
"""


def trailer_of(text: str) -> Trailer:
    reading = read_build(text.encode())
    assert reading.trailer is not None, reading.problems
    return reading.trailer


def issued(text: str, before: Ledger | None = None) -> Ledger:
    """Return the ledger after the command on a build."""
    trailer = trailer_of(text)
    return issue(number_trailer(trailer, before).trailer if before else trailer).ledger


def numbered(text: str, ledger: Ledger) -> NumberedReading:
    """Return a build as it is read with the file of a ledger beside it."""
    return numbered_build(
        read_build(text.encode()), NumbersFile("trailer.numbers.csv", ledger_text(ledger).encode())
    )


def ends(text: str, ledger: Ledger) -> dict[str, str]:
    """Return every wire of a build by its number, as ``from > to``, drafts with a star."""
    trailer = numbered(text, ledger).trailer
    assert trailer is not None
    return {
        wire.number + "*" * wire.draft: f"{wire.start} > {wire.end}"
        for wire in (*trailer.wires, *trailer.spares)
    }


LEDGER = issued(BUILD)
TEXT = ledger_text(LEDGER)
BEFORE = ends(BUILD, LEDGER)


def edit(*changes: tuple[str, str]) -> str:
    text = BUILD
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return text


def test_the_name_of_the_file_follows_the_build_file() -> None:
    assert [numbers_name(name) for name in ("trailer.yaml", "my.old.yml", "trailer", ".yaml")] == [
        "trailer.numbers.csv",
        "my.old.numbers.csv",
        "trailer.numbers.csv",
        ".yaml.numbers.csv",
    ]


def test_a_build_without_a_file_of_numbers_has_drafts() -> None:
    trailer = numbered_build(read_build(BUILD.encode()), None).trailer
    assert trailer == trailer_of(BUILD)
    assert len(trailer.draft_numbers) == len(trailer.wires) + 1
    assert all(circuit.draft for circuit in trailer.circuits)


def test_with_it_the_same_wires_have_the_same_numbers_and_are_no_drafts() -> None:
    assert [number.rstrip("*") for number in BEFORE] == list(trailer_of(BUILD).draft_numbers)
    assert not any(number.endswith("*") for number in BEFORE)


# ------------------------------------------------------------------ what an edit does


FAN = ("{path: [fan: 12 ft]}", "{path: [fan switch: 10 ft, fan: 2 ft]}")
PLUG = ("{path: [fan: 12 ft]}", "{path: [roof plug: 10 ft, fan: 2 ft]}")
HATCH_PATH = "path: [hatch plug: 15 ft, left lamp: 3 ft]"
HATCH_BRANCH = "    branches: [{from: fuse, path: [hatch plug: 15 ft, right lamp: 3 ft]}]\n"
SPARE = "  rear spare: {from: front box, to: rear wall, wire: 20 ft}\n"


def declared(part: str) -> tuple[str, str]:
    """Return the change that writes one more part."""
    return "  fan: {kind", f"  {part}\n  fan: {{kind"


def test_a_circuit_before_the_others_gets_a_new_number_and_the_first_free_way() -> None:
    more = edit(
        ("  fan: {kind", "  porch lamp: {kind: lamp, draws: 1 W}\n  fan: {kind"),
        ("circuits:\n", "circuits:\n  porch: {path: [porch lamp: 3 ft]}\n"),
    )
    after = ends(more, LEDGER)
    last = max(circuit.number for circuit in LEDGER.circuits)
    assert {number: way for number, way in after.items() if "*" in number} == {
        f"{last + 1}A*": "front box: way 4 > porch lamp: +",
        f"{last + 1}B*": "porch lamp: − > front box: ground bar",
    }
    assert {number: way for number, way in after.items() if "*" not in number} == BEFORE


def test_a_switch_in_the_middle_leaves_the_number_at_the_fuse() -> None:
    cut = edit(FAN, declared("fan switch: {kind: switch}"))
    after = ends(cut, LEDGER)
    assert after["2A"] == "front box: way 2 > fan switch: in"
    assert after["2C*"] == "fan switch: out > fan: +"
    assert after["2B"] == "fan: − > front box: ground bar"


def test_a_plug_in_the_middle_leaves_both_numbers_at_the_box() -> None:
    cut = edit(PLUG, declared("roof plug: {kind: connector, ways: 4}"))
    after = ends(cut, LEDGER)
    assert after["2A"] == "front box: way 2 > roof plug: way 1 in"
    assert after["2B"] == "roof plug: way 2 in > front box: ground bar"
    assert {number for number in after if number.startswith("2")} == {"2A", "2B", "2C*", "2D*"}


def test_of_two_wires_to_one_plug_the_one_that_is_left_keeps_its_own_number() -> None:
    one = edit((HATCH_BRANCH, ""), (HATCH_PATH, HATCH_PATH.replace("left", "right")))
    (feed,) = (number for number, way in BEFORE.items() if way == "front box: way 3 > hatch plug: way 3 in")
    assert feed == "3C"
    after = ends(one, LEDGER)
    assert [number for number, way in after.items() if way.startswith("front box: way 3 > hatch plug")] == [
        feed
    ]


def test_a_number_taken_out_is_retired_and_never_comes_back_by_itself() -> None:
    without = edit(("step lamp: 6 ft", ""), ("step switch: 14 ft, ", "step switch: 14 ft"))
    ledger = issued(without, LEDGER)
    assert {one.number for one in ledger.wires if one.retired} == {"1B", "1C"}
    again = ends(BUILD, ledger)
    assert {"1A", "1D*", "1E*"} == {number for number in again if number.startswith("1")}
    last = issued(BUILD, ledger)
    assert {one.number: one.retired for one in last.wires if one.number[0] == "1"} == {
        "1A": False, "1B": True, "1C": True, "1D": False, "1E": False,
    }  # fmt: skip


def test_a_circuit_taken_out_leaves_its_number_and_frees_its_way() -> None:
    other = edit(("  fan: {path: [fan: 12 ft]}", "  vent: {path: [fan: 11 ft]}"))
    ledger = issued(other, LEDGER)
    trailer = number_trailer(trailer_of(other), ledger).trailer
    vent = next(circuit for circuit in trailer.circuits if circuit.name == "vent")
    assert (vent.number, vent.way) == (max(c.number for c in LEDGER.circuits) + 1, 2)
    assert next(one for one in ledger.circuits if one.number == 2).retired


def test_capitals_and_double_blanks_make_no_other_name() -> None:
    same = edit(
        ("  step light: {path", "  Step  Light: {path"), ("  fan: {path: [fan:", "  fan: {path: [FAN:")
    )
    assert not any("*" in number for number in ends(same, LEDGER))


def test_another_plug_keeps_the_wires_behind_the_box() -> None:
    other = edit(("4-way flat", "7-way blade"))
    after = ends(other, LEDGER)
    assert {number: way for number, way in BEFORE.items() if "plate lamp" in way} == {
        number: way for number, way in after.items() if "plate lamp" in way
    }


def test_a_circuit_that_asks_for_another_way_moves_and_is_told_of_by_its_own_word_alone() -> None:
    moved = edit(("{path: [fan: 12 ft]}", "{path: [fan: 12 ft], way: 5}"))
    trailer = numbered(moved, LEDGER).trailer
    assert trailer is not None
    fan = next(circuit for circuit in trailer.circuits if circuit.name == "fan")
    assert (fan.number, fan.way, fan.issued_way) == (2, 5, 2)
    assert next(one for one in issued(moved, LEDGER).circuits if one.number == 2).way == 5


def test_a_way_that_was_issued_to_another_circuit_is_a_problem() -> None:
    asks = edit(
        ("  fan: {kind", "  porch lamp: {kind: lamp, draws: 1 W}\n  fan: {kind"),
        ("circuits:\n", "circuits:\n  porch: {path: [porch lamp: 3 ft], way: 2}\n"),
    )
    reading = numbered(asks, LEDGER)
    (problem,) = reading.problems
    assert reading.trailer is None
    assert not reading.of_numbers
    assert problem.name == "way taken"
    assert "fuse way 2 was issued to “fan”" in problem.message
    line = reading.lines[problem.origin.line - 1]
    assert line[problem.origin.column - 1 :].startswith("2}")


# ------------------------------------------------------------------ names and numbers that the maker speaks for


def test_a_renamed_part_is_asked_about_and_keeps_its_numbers_when_that_is_said() -> None:
    other = edit(("  step lamp: {kind", "  door lamp: {kind"), ("step lamp: 6 ft", "door lamp: 6 ft"))
    trailer = numbered(other, LEDGER).trailer
    assert trailer is not None
    assert doubts(trailer) == (Doubt("part", "step lamp", "door lamp"),)
    assert trailer.gone == ("1B", "1C")
    ledger, unknown = renamed(LEDGER, [("Step Lamp", "door lamp")])
    assert unknown == ()
    after = numbered(other, ledger).trailer
    assert after is not None
    assert (after.gone, after.draft_numbers, doubts(after)) == ((), (), ())
    assert renamed(LEDGER, [("no such lamp", "door lamp")]) == (LEDGER, ("no such lamp",))


def test_two_parts_can_change_names() -> None:
    swapped = edit(
        ("[hatch plug: 15 ft, left lamp", "[hatch plug: 15 ft, RIGHT LAMP"),
        ("15 ft, right lamp", "15 ft, left lamp"),
    )
    ledger, _ = renamed(LEDGER, [("left lamp", "right lamp"), ("right lamp", "left lamp")])
    after = ends(swapped, ledger)
    left = {number: way for number, way in BEFORE.items() if "left lamp" in way}
    assert {number: after[number].replace("right", "left") for number in left} == left


def test_a_renamed_circuit_and_a_renamed_spare_wire_are_asked_about() -> None:
    other = edit(("  fan: {path", "  vent: {path"), ("  rear spare:", "  tail spare:"))
    trailer = numbered(other, LEDGER).trailer
    assert trailer is not None
    assert set(doubts(trailer)) == {
        Doubt("circuit", "fan", "vent"),
        Doubt("spare wire", "rear spare", "tail spare"),
    }


def test_the_only_circuit_that_is_gone_may_be_the_only_new_one_even_where_nothing_in_it_is_the_same() -> None:
    other = edit(
        ("  fan: {path: [fan: 12 ft]}", "  air: {path: [vent: 12 ft]}"),
        ("  fan: {kind: fan", "  vent: {kind: fan"),
    )
    trailer = numbered(other, LEDGER).trailer
    assert trailer is not None
    assert doubts(trailer) == (Doubt("circuit", "fan", "air"),)


def test_what_is_really_new_is_not_asked_about() -> None:
    new = edit(
        ("  fan: {kind", "  porch lamp: {kind: lamp, draws: 1 W}\n  fan: {kind"),
        ("circuits:\n", "circuits:\n  porch: {path: [porch lamp: 3 ft]}\n"),
        ("step switch: 14 ft, step lamp: 6 ft", "step switch: 14 ft"),
    )
    trailer = numbered(new, LEDGER).trailer
    assert trailer is not None
    assert doubts(trailer) == ()


def test_a_retired_number_comes_back_when_that_is_said_and_only_then() -> None:
    without = edit(("  fan: {path: [fan: 12 ft]}\n", ""), (SPARE, "  x: {from: a, to: b, wire: 2 ft}\n"))
    gone = issued(without, LEDGER)
    trailer = numbered(BUILD, gone).trailer
    assert trailer is not None
    assert {(doubt.what, doubt.old) for doubt in doubts(trailer)} >= {("number", "2"), ("number", "S1")}
    ledger, unknown = taken_back(gone, ["2", "s1"])
    assert unknown == ()
    assert [number for number in ends(BUILD, ledger) if "*" in number] == []
    assert taken_back(LEDGER, ["2A", "77C"])[1] == ("2A", "77C")


def test_a_load_has_the_number_of_its_circuit() -> None:
    more = edit(
        ("  fan: {kind", "  porch lamp: {kind: lamp, draws: 1 W}\n  fan: {kind"),
        ("circuits:\n", "circuits:\n  porch: {path: [porch lamp: 3 ft]}\n"),
    )
    trailer = numbered(more, LEDGER).trailer
    assert trailer is not None
    names = {load.part: trailer.circuit(load.circuit).name for load in trailer.loads}
    assert (names["porch lamp"], names["step lamp"], names["fan"]) == ("porch", "step light", "fan")


def test_a_retired_wire_that_is_there_again_is_asked_about_by_its_number() -> None:
    without = edit(("step switch: 14 ft, step lamp: 6 ft", "step switch: 14 ft"))
    trailer = numbered(BUILD, issued(without, LEDGER)).trailer
    assert trailer is not None
    back = {doubt.old: doubt.new for doubt in doubts(trailer) if doubt.what == "number"}
    assert back == {"1B": "1D", "1C": "1E"}


def test_a_renamed_switch_is_asked_about_at_the_start_of_its_wire_too() -> None:
    other = edit(
        ("  step switch: {kind", "  door switch: {kind"), ("[step switch: 14 ft", "[door switch: 14 ft")
    )
    alone = replace(LEDGER, wires=tuple(one for one in LEDGER.wires if one.number != "1A"))
    trailer = number_trailer(trailer_of(other), alone).trailer
    assert Doubt("part", "step switch", "door switch") in doubts(trailer)


def test_the_ledger_can_be_given_to_the_trailer_under_its_new_name() -> None:
    identity = trailer_of(edit(("Bean Row, number: 4", "Pea  Row, number: 5"))).identity
    made = changed(LEDGER, Changes(same_trailer=True), identity)
    assert (made.ledger.name, made.ledger.number) == ("Pea Row", "5")
    assert made.ledger.wires == LEDGER.wires
    assert changed(LEDGER, Changes(), identity).ledger == LEDGER


def test_a_name_that_begins_like_a_comment_stands_in_quotes() -> None:
    text = ledger_text(Ledger("Bean Row", "4", (IssuedCircuit(1, "circuits", "# 1"),), (), ()))
    assert '"# 1"' in text
    ledger = read_ledger(text.encode()).ledger
    assert ledger is not None
    assert [one.name for one in ledger.circuits] == ["# 1"]


# ------------------------------------------------------------------ a file that does not hold


def without_line(start: str) -> str:
    return "".join(line for line in TEXT.splitlines(keepends=True) if not line.startswith(start))


DAMAGED = {
    "empty": ("", 1, "this is no file of wire numbers"),
    "another file": ("hello\n", 1, "no line of a numbers file"),
    "newer form": (TEXT.replace("form,2", "form,3"), 4, "form `3`"),
    "line lost": (without_line("2B"), len(TEXT.splitlines()) - 1, "wires"),
    "broken off": (TEXT[: TEXT.index("\n2A")], len(TEXT[: TEXT.index("\n2A")].splitlines()), "breaks off"),
    "torn line": (TEXT.replace("1B,issued,,feed,step switch", "1B,issued"), None, "cells"),
    "no such state": (TEXT.replace("1B,issued", "1B,lost"), None, "`lost`"),
    "no such size": (TEXT.replace("1B,issued,", "1B,issued,thick"), None, "`thick`"),
    "a state of wires": (TEXT.replace("1,issued,circuits", "1,left in the wall,circuits", 1), None, "state"),
    "no such use": (TEXT.replace("1B,issued,,feed", "1B,issued,,plus"), None, "`plus`"),
    "letter of no wire": (TEXT.replace("1B,issued", "1I,issued"), None, "`1I`"),
    "zero": (TEXT.replace("1B,issued", "01B,issued"), None, "`01B`"),
    "circuit of none": (TEXT.replace("1B,issued", "99B,issued"), None, "circuit 99"),
    "retired circuit": (TEXT.replace("1,issued,circuits", "1,retired,circuits", 1), None, "is retired"),
    "no way": (TEXT.replace("circuits,1,step light", "circuits,x,step light"), None, "`x`"),
    "one way twice": (TEXT.replace("circuits,1,step light", "circuits,2,step light"), None, "fuse way 2"),
    "quote": (TEXT.replace("1B,issued", '"1B,issued'), None, "quote"),
    "empty cell": (TEXT.replace("1B,issued,,feed,step switch", "1B,issued,,feed,"), None, "empty"),
    "two versions": (TEXT.replace("1B,issued", "<<<<<<< mine\n1B,issued"), None, "two versions"),
    "end of two versions": (TEXT.replace("1B,issued", ">>>>>>> theirs\n1B,issued"), None, "two versions"),
    "no trailer's name": (
        TEXT.replace("trailer,Bean Row,4", "trailer"),
        None,
        "one line “trailer” is wanted",
    ),
    "form without its number": (TEXT.replace("form,2", "form"), 4, "form `` of a numbers file"),
    "only a form": ("form,1\n", 1, "names neither its form nor a trailer"),
    "only a trailer": ("trailer,Bean Row,4\n", 1, "names neither its form nor a trailer"),
    "behind the end": (TEXT + "9A,issued\n", None, "behind the line"),
}


@pytest.mark.parametrize("name", DAMAGED)
def test_a_damaged_file_is_told_with_its_line_and_nothing_is_numbered(name: str) -> None:
    text, line, says = DAMAGED[name]
    assert text != TEXT
    reading = numbered_build(read_build(BUILD.encode()), NumbersFile("x", text.encode()))
    assert reading.trailer is None
    assert reading.of_numbers
    assert {problem.name for problem in reading.problems} == {"numbers file damaged"}
    first = reading.problems[0]
    assert says in first.message
    assert first.help
    pairs = zip(text.split("\n"), [*TEXT.split("\n"), "", ""], strict=False)
    changed = next((number for number, (now, then) in enumerate(pairs, 1) if now != then), 1)
    if line is not None:
        assert first.origin.line == line
    elif name not in ("retired circuit", "one way twice"):
        assert first.origin.line == changed
    assert 1 <= first.origin.column <= len(text.split("\n")[first.origin.line - 1]) + 1


def test_a_number_that_stands_twice_is_told_with_both_places() -> None:
    text = TEXT.replace("1B,issued", "1A,issued")
    (problem,) = read_ledger(text.encode()).problems
    assert problem.name == "number issued twice"
    assert problem.also is not None
    lines = text.split("\n")
    assert [lines[place.line - 1][:3] for place in (problem.also, problem.origin)] == ["1A,", "1A,"]
    assert problem.also.line < problem.origin.line


def test_bytes_that_are_no_text_and_files_that_cannot_be_read_are_told() -> None:
    reading = read_ledger(TEXT.encode().replace(b"fan", b"f\xf6n", 1))
    (problem,) = reading.problems
    assert reading.lines[problem.origin.line - 1].startswith("2,issued")
    told = numbered_build(read_build(BUILD.encode()), NumbersFile("x", trouble="Is a directory"))
    assert told.trailer is None
    assert "Is a directory" in told.problems[0].message


@pytest.mark.parametrize(
    ("old", "new"), [("Bean Row", "Pea Row"), ("number: 4", "number: 5"), (", number: 4", "")]
)
def test_numbers_of_another_trailer_are_refused(old: str, new: str) -> None:
    reading = numbered(edit((old, new)), LEDGER)
    (problem,) = reading.problems
    assert (reading.trailer, problem.name) == (None, "numbers of another trailer")
    assert reading.lines[problem.origin.line - 1] == "trailer,Bean Row,4"
    assert "--same-trailer" in problem.help


def test_a_lost_file_is_told_where_the_build_says_that_numbers_are_issued() -> None:
    said = edit(("country: US", "country: US, numbers: issued"))
    reading = numbered_build(read_build(said.encode()), None)
    (problem,) = reading.problems
    assert (reading.trailer, problem.name) == (None, "numbers file missing")
    assert reading.lines[problem.origin.line - 1][problem.origin.column - 1 :].startswith("issued}")
    assert numbered(said, LEDGER).trailer is not None
    assert numbered_build(read_build(said.replace("issued", "draft").encode()), None).trailer is not None


def test_other_line_ends_and_a_mark_at_the_start_change_nothing() -> None:
    there = read_ledger(TEXT.encode()).ledger
    assert read_ledger(TEXT.replace("\n", "\r\n").encode()).ledger == there
    assert read_ledger(b"\xef\xbb\xbf" + TEXT.encode()).ledger == there
    assert there == replace(LEDGER, origin=there.origin) if there else False


NAMES = st.text(
    st.characters(exclude_categories=("Cs", "Cc", "Zl", "Zp", "Zs")) | st.sampled_from(' ,"#=+-\''), min_size=1
).map(lambda text: " ".join(text.split())).filter(bool)  # fmt: skip
TERMINALS = st.builds(Terminal, NAMES, NAMES)


@given(st.data())
def test_every_ledger_is_read_as_it_was_written(data: st.DataObject) -> None:
    circuits = data.draw(
        st.lists(
            st.builds(
                IssuedCircuit,
                st.integers(1, 999_999),
                st.sampled_from(["circuits", "tow plug", "battery"]),
                NAMES,
                st.none(),
                st.just(False),
            ),
            unique_by=lambda one: one.number,
            max_size=3,
        )
    )
    wires = [
        IssuedWire(
            f"{circuit.number}{letters}",
            data.draw(st.sampled_from(["feed", "return", "bond"])),
            data.draw(TERMINALS),
            data.draw(TERMINALS),
            tuple(data.draw(st.lists(NAMES, max_size=2))),
            data.draw(st.booleans()),
        )
        for circuit in sorted(circuits, key=lambda one: one.number)
        for letters in ("A", "Z", "AA")
    ]
    spares = data.draw(
        st.lists(
            st.builds(IssuedSpare, st.integers(1, 99).map("S{}".format), NAMES, st.booleans()),
            unique_by=lambda one: one.number,
            max_size=2,
        )
    )
    ledger = Ledger(
        data.draw(NAMES), data.draw(NAMES | st.just("")), tuple(circuits), tuple(wires), tuple(spares)
    )
    text = ledger_text(ledger)
    reading = read_ledger(text.encode())
    assert reading.problems == ()
    assert reading.ledger is not None
    assert ledger_text(reading.ledger) == text
    assert reading.ledger.wires == tuple(wires)
    assert {one.number: one for one in reading.ledger.circuits} == {one.number: one for one in circuits}
    assert (reading.ledger.name, reading.ledger.number) == (ledger.name, ledger.number)


@given(
    st.binary(max_size=200) | st.text(alphabet='0123456789AB,"\n#issuedretd', max_size=200).map(str.encode)
)
def test_any_bytes_are_read_or_told(data: bytes) -> None:
    for whole in (data, TEXT.encode()[:300] + data + TEXT.encode()[300:]):
        reading = read_ledger(whole)
        assert (reading.ledger is None) == bool(reading.problems)
        assert len(reading.problems) <= MOST_TOLD + 1
        for problem in reading.problems:
            assert 1 <= problem.origin.line <= len(reading.lines)
            assert 1 <= problem.origin.column <= len(reading.lines[problem.origin.line - 1]) + 1


def test_no_cell_is_run_as_a_formula_by_a_spreadsheet() -> None:
    ledger = Ledger("=1+1", "@x", (IssuedCircuit(1, "circuits", "-2"),), (), ())
    text = ledger_text(ledger)
    assert not re.search(r'(^|,)"?[=+@-].', "\n".join(text.split("\n")[3:]), re.MULTILINE)
    assert read_ledger(text.encode()).ledger == replace(
        ledger, origin=read_ledger(text.encode()).ledger.origin
    )  # type: ignore[union-attr]
