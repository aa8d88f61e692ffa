"""What is offered for slips that makers make: the likeliest first, and never more than the entry concerned."""

from __future__ import annotations

import pytest

from builder.buildfile.edits import Edit, apply_edits
from builder.buildfile.mending import edits_of
from builder.buildfile.problems import Problem
from builder.buildfile.resolving import read_build

HEAD = """\
format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
"""
PARTS = "parts:\n  fan: {kind: fan, draws: 3 A}\n"
CIRCUITS = "circuits:\n  fan: {path: [fan: 12 ft]}\n"
PLUG = "tow plug: {pattern: 4-way flat, to front box: 7 ft}\n"
REAR = "  rear lamp: {shows: [tail, stop, turn], side: both, wire: 17 ft}\n"


def offered(text: str) -> list[tuple[Problem, list[Edit]]]:
    data = text.encode()
    reading = read_build(data)
    return [
        (problem, list(edits))
        for problem, edits in zip(
            reading.problems, edits_of(data, reading.lines, reading.problems), strict=True
        )
    ]


def alone(text: str) -> tuple[Problem, list[Edit]]:
    """Return the only problem of a file, with its edits."""
    ((problem, edits),) = offered(text)
    return problem, edits


def after(text: str, edit: Edit) -> str:
    return apply_edits(text.encode(), [edit]).decode()


TWICE = (
    HEAD
    + """\
parts:
  vent fan: {kind: fan, draws: 3 A}
  vent fan: {kind: fan, draws: 2 A}
  lamp: {kind: lamp, draws: 1 A}

circuits:
  fan: {path: [vent fan 12 ft]}
  light: {path: [CEILING: 12 ft]}
"""
)


@pytest.mark.parametrize("lamp", ["lamp", "ceiling lamp"])
def test_a_name_written_twice_is_given_a_name_of_its_own_whatever_else_is_wrong(lamp: str) -> None:
    text = TWICE.replace("CEILING", lamp)
    found = {problem.name: edits for problem, edits in offered(text)}
    (edit,) = found["name written twice"]
    rows = text.splitlines()
    rows[6] = rows[6].replace("vent fan", "vent fan 2")
    assert after(text, edit).splitlines() == rows


@pytest.mark.parametrize("wrong", ["draws: 2 A, draws: 3 A", "draws: 2 A, zeppelin: 3", "draws: blue"])
def test_no_edit_reaches_beyond_its_entry(wrong: str) -> None:
    text = TWICE.replace("vent fan: {kind: fan, draws: 2 A}", f"roof fan: {{kind: fan, {wrong}}}")
    row = next(number for number, line in enumerate(text.splitlines(), start=1) if wrong in line)
    for problem, edits in offered(text):
        if problem.origin.line == row:
            assert edits
            assert {(edit.line, edit.end_line) for edit in edits} <= {(row, row), (row, row + 1)}
            assert all("lamp: {kind: lamp, draws: 1 A}" in after(text, edit) for edit in edits)


CHARGER = """\
  magnet: {kind: lamp, draws: 3 A}
  car fuse: {kind: fuse, rating: 20 A}
  dc charger: {kind: dc charger, gives: 10 A, gives at: 14.4 V}
"""
LINE = "path: [car fuse: 1 ft, dc charger: 7 ft, battery fuse: 4 ft, battery: 6 in]"


@pytest.mark.parametrize(
    "circuit",
    [
        "magnets: {from: tow plug brake, path: [magnet: 12 ft]}",
        f"charge line: {{from: tow plug battery, {LINE}}}",
    ],
)
def test_a_start_that_the_plug_lacks_is_never_taken_out(circuit: str) -> None:
    text = HEAD + PLUG + PARTS + CHARGER + CIRCUITS + f"  {circuit}\n"
    problem, edits = alone(text)
    assert (problem.name, bool(edits)) == ("no such contact", True)
    assert "7-way blade" in problem.help
    first, last = after(text, edits[0]), after(text, edits[-1])
    assert first == text.replace("4-way flat", "7-way blade")
    assert last == text.replace(f"  {circuit}", f"  # {circuit}")
    for edit in edits:
        assert "from: tow plug" in after(text, edit)


def test_a_lamp_without_a_contact_asks_for_another_plug_or_goes() -> None:
    lamp = "  backup lamp: {shows: reverse, side: both, wire: 17 ft}"
    text = HEAD + PLUG + "road lamps:\n" + REAR + lamp + "\n"
    problem, edits = alone(text)
    assert "side" not in problem.help
    assert "7-way blade" in problem.help
    assert "4-way flat" not in problem.help
    assert after(text, edits[0]) == text.replace("4-way flat", "7-way blade")
    assert after(text, edits[-1]) == text.replace(lamp, "  # " + lamp.strip())
    assert all(read_build(after(text, edit).encode()).problems == () for edit in edits)


def test_a_stop_lamp_without_a_side_is_asked_for_its_side() -> None:
    text = (
        HEAD
        + PLUG.replace("4-way flat", "7-way blade")
        + "road lamps:\n  stop lamp: {shows: stop, wire: 17 ft}\n"
    )
    problem, edits = alone(text)
    assert problem.help.startswith("give it a side: left, right or both")
    assert "7-way blade" not in problem.help
    assert after(text, edits[0]) == text.replace("wire: 17 ft", "wire: 17 ft, side: both")


@pytest.mark.parametrize(
    ("written", "wanted"),
    [
        ("{shows: tail, stop, turn, side: both, wire: 17 ft}", "[tail, stop, turn]"),
        ("{side: both, wire: 17 ft, shows: tail, stop}", "[tail, stop]"),
        ("{shows: tail stop turn, side: both, wire: 17 ft}", "[tail, stop, turn]"),
        ("{shows: tail and stop, side: both, wire: 17 ft}", "[tail, stop]"),
        ("\n    shows: tail, stop, turn\n    side: both\n    wire: 17 ft", "[tail, stop, turn]"),
    ],
)
def test_functions_without_brackets_are_put_in_brackets(written: str, wanted: str) -> None:
    text = f"{HEAD}{PLUG}road lamps:\n  rear lamp: {written}\n"
    problem, edits = alone(text)
    assert "in brackets" in problem.help
    assert wanted in problem.help
    (edit,) = edits
    assert f"shows: {wanted}" in after(text, edit)
    assert read_build(after(text, edit).encode()).problems == ()
    assert "wire: 17 ft" in after(text, edit)
    assert "side: both" in after(text, edit)


@pytest.mark.parametrize("row", ["on the shelf: 16 AWG, 14 AWG", "fuses on the shelf: 3 A, 5 A"])
def test_other_lists_without_brackets_are_put_in_brackets(row: str) -> None:
    name, _, rest = row.partition(": ")
    box = "front box: {fuse ways: 6, fuses on the shelf: [3 A]}\n"
    wire = f"wire: {{{row}, feed: red}}\n" if name == "on the shelf" else ""
    front = f"front box: {{{row}, fuse ways: 6}}\n" if not wire else box
    text = HEAD.replace("front box: {fuse ways: 6}\n", front) + wire + PARTS + CIRCUITS
    problem, (edit,) = alone(text)
    assert f"{name}: [{rest}]" in problem.help
    assert after(text, edit) == text.replace(row, f"{name}: [{rest}]")


@pytest.mark.parametrize(
    "row", ["2,5 mm², 4 mm²", "4 mm², 2,5 mm²", "6 mm², zeppelin, 4 mm²", "6 mm², 4 mm², 2,5 mm²"]
)
def test_a_number_that_a_comma_tears_is_drawn_into_no_list(row: str) -> None:
    found = offered(f"{HEAD}wire: {{on the shelf: {row}, feed: red}}\n{PARTS}{CIRCUITS}")
    assert found
    told = [problem.help for problem, _ in found]
    told += [edit.text for _, edits in found for edit in edits if edit.text.startswith("[")]
    assert not any(", 5 mm²" in text for text in told)


def test_a_word_behind_the_brackets_is_still_told() -> None:
    text = f"{HEAD}{PLUG}road lamps:\n  rear lamp: {{shows: [tail], stop, side: both, wire: 17 ft}}\n"
    problem, _ = alone(text)
    assert (problem.name, "“stop”" in problem.message) == ("comma in a text", True)


def test_a_word_that_is_no_function_is_not_drawn_into_the_list() -> None:
    text = f"{HEAD}{PLUG}road lamps:\n  rear lamp: {{shows: tail, where, wire: 17 ft}}\n"
    problem, _ = alone(text)
    assert "brackets" not in problem.help


FACE = "front box face:\n  inside: {width: 14 in, height: 12 in}\n"


@pytest.mark.parametrize(
    ("country", "good", "bare", "first"),
    [
        ("US", "to main fuse: 5 in", "to main fuse: 6", ["6 in", "6 ft"]),
        ("US", "to front box: 4 ft", "to front box: 4", ["4 ft", "4 in"]),
        ("DE", "to main fuse: 5 in", "to main fuse: 20", ["20 cm", "20 m"]),
        ("DE", "to front box: 4 ft", "to front box: 2", ["2 m", "2 cm"]),
        ("US", "width: 14 in", "width: 12", ["12 in"]),
        ("DE", "width: 14 in", "width: 300", ["300 mm"]),
    ],
)
def test_a_bare_number_gets_the_units_of_the_file(
    country: str, good: str, bare: str, first: list[str]
) -> None:
    text = (HEAD + FACE + PARTS + CIRCUITS).replace("country: US", f"country: {country}")
    problem, edits = alone(text.replace(good, bare))
    assert [edit.text for edit in edits] == first
    assert problem.help == "write " + " or ".join(first)
    assert not any(edit.sure for edit in edits)


LAMP = f"{PLUG}road lamps:\n{REAR}"
SUGGESTED = {
    "a drum in inches": ("brakes: {kind: electric, drum: 10 inch, magnets: 2}\n", "10 inch", "10 in"),
    "a plug by its everyday name": (LAMP.replace("4-way flat", "7 way RV"), "7 way RV", "7-way blade"),
    "a part that waits": (PARTS.replace("fan:", "fridge:") + "waiting: {frigde: soon}\n", "frigde", "fridge"),
    "a part by a longer name": (
        PARTS.replace("fan:", "charger:") + CIRCUITS.replace("[fan", "[dcdc charger"),
        "dcdc charger",
        "charger",
    ),
    "a brake light": (LAMP.replace("stop", "brake light"), "brake light", "stop"),
}


@pytest.mark.parametrize("slip", SUGGESTED)
def test_the_word_that_is_meant_is_offered_first(slip: str) -> None:
    rest, written, meant = SUGGESTED[slip]
    problem, edits = alone(HEAD + rest)
    assert problem.help.startswith(f"did you mean “{meant}”?")
    assert after(HEAD + rest, edits[0]) == HEAD + rest.replace(written, meant)


def test_no_word_is_suggested_that_stands_there_already() -> None:
    problem, edits = alone(HEAD + LAMP.replace("to front box: 7 ft", "to front box: 7 ft, cable: 7 ft"))
    assert "did you mean" not in problem.help
    assert all("to front box" not in edit.text for edit in edits)


def test_an_led_lamp_is_told_to_have_no_bulb() -> None:
    text = HEAD + LAMP.replace("wire: 17 ft", "wire: 17 ft, bulb: LED")
    problem, edits = alone(text)
    assert problem.help.startswith("LED lamps have no bulb")
    assert "lamps: led" in problem.help
    assert "draws" in problem.help
    assert after(text, edits[0]) == HEAD + LAMP


def problems(text: str) -> list[str]:
    return [problem.name for problem in read_build(text.encode()).problems]


TRAILER = "trailer: {length: 12 ft, width: 6 ft, width over fenders: 7 ft}\n"


@pytest.mark.parametrize(
    ("measure", "told"),
    [
        ("in from the side: 42 in", []),
        ("in from the side: 43 in", ["outside the trailer"]),
        ("back from the front: 144 in", []),
        ("back from the front: 145 in", ["outside the trailer"]),
    ],
)
def test_a_lamp_is_within_length_and_half_the_widest_place(measure: str, told: list[str]) -> None:
    text = HEAD + TRAILER + LAMP.replace("wire: 17 ft", f"wire: 17 ft, {measure}")
    assert problems(text) == told
    assert problems(text.replace(TRAILER, "")) == []


def test_fenders_are_no_narrower_than_the_body() -> None:
    assert problems(HEAD + TRAILER + LAMP) == []
    assert problems(HEAD + TRAILER.replace("7 ft", "72 in") + LAMP) == []
    problem, (edit,) = alone(HEAD + TRAILER.replace("7 ft", "71 in") + LAMP)
    assert problem.name == "narrower than the body"
    assert after(HEAD + TRAILER.replace("7 ft", "71 in"), edit) == HEAD + TRAILER.replace(
        ", width over fenders: 7 ft", ""
    )


@pytest.mark.parametrize(
    ("plug", "bulb", "told"),
    [
        ("4-way flat", "1157", []),
        ("4-way flat", "1156", ["too few filaments"]),
        ("13-pin", "P21/5W", ["too few filaments"]),
        ("13-pin", "{tail: R5W, stop: P21W, turn: PY21W}", []),
        ("13-pin", "{all: P21/5W, turn: PY21W}", []),
        ("13-pin", "{all: P21/5W, tail: R5W}", ["too few filaments"]),
    ],
)
def test_each_contact_needs_a_filament_and_stop_and_turn_a_bright_one(
    plug: str, bulb: str, told: list[str]
) -> None:
    text = HEAD + LAMP.replace("4-way flat", plug).replace("wire: 17 ft", f"wire: 17 ft, bulb: {bulb}")
    assert problems(text) == told


@pytest.mark.parametrize(
    ("plug", "start", "shows", "told"),
    [
        ("5-way flat", "tow plug brake", "reverse", ["one contact for two"]),
        ("5-way flat", "tow plug brake", "plate", []),
        ("5-way flat", "tow plug reverse", "reverse", []),
        ("7-way blade", "tow plug brake", "reverse", []),
    ],
)
def test_one_contact_is_for_brakes_or_for_reversing(
    plug: str, start: str, shows: str, told: list[str]
) -> None:
    more = f"  one more lamp: {{shows: {shows}, wire: 17 ft}}\n"
    circuits = f"circuits:\n  fan: {{from: {start}, path: [fan: 12 ft]}}\n"
    assert problems(HEAD + PARTS + circuits + LAMP.replace("4-way flat", plug) + more) == told
