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
