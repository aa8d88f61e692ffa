"""Every problem carries edits; applying each removes that problem, and leaves all else byte for byte.

``edits.txt`` holds the edits that each broken build is offered. After changing one on purpose, write it anew with
``python tests/buildfile/test_edits.py`` and read the difference.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
from slips_of_makers import SLIPS_OF_SIGNS, build_with

from builder.buildfile import mending
from builder.buildfile.edits import Edit, apply_edits
from builder.buildfile.mending import MOST_OFFERED, NO_EDIT, UNREADABLE, edits_of
from builder.buildfile.problems import Problem
from builder.buildfile.resolving import read_build

BROKEN = sorted(Path(__file__).parents[1].joinpath("broken").glob("*.yaml"))
OFFERED = Path(__file__).parent / "edits.txt"
WITHOUT_EDITS = 9
"""Problems that no edit can mend; each has its reason beside it in the reader. This number may only fall."""


@cache
def offered(data: bytes) -> tuple[tuple[Problem, tuple[Edit, ...]], ...]:
    reading = read_build(data)
    return tuple(zip(reading.problems, edits_of(data, reading.lines, reading.problems), strict=True))


def sentence(problem: Problem) -> tuple[str, str]:
    """A problem as it is told, without the numbers of lines and columns, which an edit may shift."""
    return problem.name, re.sub(r"\d+", "", problem.message) if "line" in problem.message else problem.message


def told(data: bytes) -> Counter[tuple[str, str]]:
    return Counter(map(sentence, read_build(data).problems))


def replaced(data: bytes, edit: Edit) -> bytes:
    """Apply an edit by splitting the bytes at its places: an oracle that knows UTF-8 and one kind of line end."""
    rows = data.decode("utf-8", "surrogateescape").split("\n")

    def offset(line: int, column: int) -> int:
        before = sum(len(row) + 1 for row in rows[: line - 1])
        return min(before + column - 1, sum(len(row) + 1 for row in rows) - 1)

    text = "\n".join(rows)
    start, end = offset(edit.line, edit.column), offset(edit.end_line, edit.end_column)
    return (text[:start] + edit.text + text[end:]).encode("utf-8", "surrogateescape")


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_each_edit_of_each_problem_of_a_broken_build_removes_it(path: Path) -> None:
    data = path.read_bytes()
    before = told(data)
    for problem, edits in offered(path.read_bytes()):
        assert 1 <= len(edits) <= MOST_OFFERED, problem
        for edit in edits:
            changed = replaced(data, edit)
            assert changed == apply_edits(data, [edit])
            after = told(changed)
            assert after[sentence(problem)] < before[sentence(problem)], (problem, edit)
            unreadable = {kind for kind in after - before if kind[0] in UNREADABLE}
            assert unreadable == set(), (problem, edit)


CASES = {path.stem: path.read_bytes() for path in BROKEN} | {
    f"slip: {slip}": build_with(slip) for slip in SLIPS_OF_SIGNS
}


def rows(case: str) -> list[str]:
    """Return the edits of a broken build as rows: what each does, from where to where, and what it writes."""
    found = [case]
    for problem, edits in offered(CASES[case]):
        found.append(f"  {problem.name} at {problem.origin.line}:{problem.origin.column}")
        for edit in edits:
            extent = f"{edit.line}:{edit.column} to {edit.end_line}:{edit.end_column}"
            text = f"{edit.text[:200]!a}{'…' if len(edit.text) > 200 else ''}"
            found.append(f"    {edit.what}{', surely' if edit.sure else ''}: {extent} becomes {text}")
    return found


@cache
def in_file() -> dict[str, list[str]]:
    """Return the file's paragraphs by their first line."""
    paragraphs = OFFERED.read_text(encoding="utf-8").rstrip("\n").split("\n\n")
    return {paragraph.partition("\n")[0]: paragraph.splitlines() for paragraph in paragraphs}


@pytest.mark.parametrize("case", CASES)
def test_a_broken_build_is_offered_these_edits(case: str) -> None:
    assert rows(case) == in_file()[case]


def test_no_edit_stands_in_the_file_for_nothing() -> None:
    assert list(in_file()) == list(CASES)


def test_what_no_edit_can_mend_is_listed_with_its_reason() -> None:
    assert len(NO_EDIT) == WITHOUT_EDITS
    assert all(NO_EDIT.values())


def test_nearly_all_edits_leave_no_problem_behind_but_blanks() -> None:
    """Of builds with a single problem: by its first edit they are read, or ask for a blank to be filled in."""
    alone = [(path, offered(path.read_bytes())[0]) for path in BROKEN if len(offered(path.read_bytes())) == 1]
    rest = {
        path.stem: told(apply_edits(path.read_bytes(), [edits[0]])).keys() - {("still blank", BLANK_LEFT)}
        for path, (_, edits) in alone
    }
    left = {name: problems for name, problems in rest.items() if problems}
    assert len(alone) > 190
    assert len(left) <= 8, left


BLANK_LEFT = "a blank is left here, and the build cannot be worked out without it"
SOUND = """\
# a comment at the top   \r
format: 1\r
build: {name: Bean Row, country: US}   # the name \r
\r
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}\r
front box: {fuse ways: 6}\r
parts:\r
  fan:   {kind: fan,  draws: 3 A}  # it hums: "50 % é \u6f22"\r
circuits:\r
  fan: {path: [fan: 12 ft]}\r
"""


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-32"])
@pytest.mark.parametrize("newline", ["\r\n", "\n", "\r"])
def test_all_but_the_edit_stays_byte_for_byte(encoding: str, newline: str) -> None:
    text = SOUND.replace("\r\n", newline)
    bad = text.replace("draws", "drawss").encode(encoding)
    reading = read_build(bad)
    ((edit,),) = edits_of(bad, reading.lines, reading.problems)
    assert apply_edits(bad, [edit]) == text.encode(encoding)


def test_a_line_that_is_added_ends_as_the_file_s_lines_do() -> None:
    bad = SOUND.replace("  fan: {path: [fan: 12 ft]}", "  fan: {path: [mat: 12 ft]}").encode()
    reading = read_build(bad)
    (edits,) = edits_of(bad, reading.lines, reading.problems)
    assert apply_edits(bad, [edits[0]]) == bad.replace(
        '漢"\r\n'.encode(), '漢"\r\n  mat: {kind: ___}\r\n'.encode()
    )


def test_two_edits_of_one_text_are_refused() -> None:
    edits = [Edit(1, 1, 1, 4, "x", ""), Edit(1, 3, 1, 5, "y", "")]
    with pytest.raises(ValueError, match="two edits"):
        apply_edits(b"format: 1\n", edits)
    assert (
        apply_edits(b"format: 1\n", [Edit(1, 9, 1, 10, "2", ""), Edit(1, 1, 1, 3, "F", "")]) == b"Frmat: 2\n"
    )


def test_spelling_alone_is_sure_and_numbers_never_are() -> None:
    sure = {
        (path.stem, edit.text)
        for path in BROKEN
        for _, edits in offered(path.read_bytes())
        for edit in edits
        if edit.sure
    }
    assert {("word_fuze", "fuse"), ("choice_kind_lmap", "lamp"), ("space_missing_in_a_path", " ")} <= sure
    digits = {
        text for name, text in sure if re.search(r"\d", text) and not name.startswith(("line_", "tab_"))
    }
    assert digits <= {"lamp: 3 ft"}, "only digits that stand in the file already"


def test_what_a_maker_must_measure_is_left_blank_and_asked_for() -> None:
    path = next(path for path in BROKEN if path.stem == "missing_length")
    ((_, (edit,)),) = offered(path.read_bytes())
    changed = apply_edits(path.read_bytes(), [edit])
    (problem,) = read_build(changed).problems
    assert (problem.name, problem.message) == ("still blank", BLANK_LEFT)
    assert edits_of(changed, read_build(changed).lines, [problem]) == [()]
    filled = changed.replace(b"fan: ___", b"fan: 12 ft")
    assert read_build(filled).problems == ()


@pytest.mark.parametrize("blank", ["__", "___", "________"])
def test_a_blank_is_told_once_wherever_it_stands(blank: str) -> None:
    for sound in ("Bean Row", "agm", "35 Ah", "6}", "3 A", "12 ft", "[fan: 12 ft]"):
        text = SOUND.replace(sound, blank + sound[2:] if sound == "6}" else blank, 1)
        text = text.replace(f"fuse ways: {blank}", f"fuse ways: {blank}}}") if sound == "6}" else text
        assert [problem.message for problem in read_build(text.encode()).problems] == [BLANK_LEFT], sound


def test_half_a_character_in_two_byte_letters_is_told_with_an_edit() -> None:
    sound = SOUND.encode("utf-16")
    bad = sound.replace("Bean".encode("utf-16-le"), "Be".encode("utf-16-le") + b"\x00\xd8", 1)
    told = read_build(bad)
    ((edit, *_),) = edits_of(bad, told.lines, told.problems)
    assert [problem.name for problem in told.problems] == ["unreadable bytes"]
    assert "unreadable bytes" not in [one.name for one in read_build(apply_edits(bad, [edit])).problems]


def test_a_large_file_is_answered_without_trying_edits(monkeypatch: pytest.MonkeyPatch) -> None:
    data = SOUND.replace("kind: fan", "kind: fann").encode()
    reading = read_build(data)
    assert [len(edits) for edits in edits_of(data, reading.lines, reading.problems)] == [1]
    monkeypatch.setattr(mending, "TRIED_BYTES", len(data) - 1)
    assert edits_of(data, reading.lines, reading.problems) == [()]


if __name__ == "__main__":
    OFFERED.write_text("\n\n".join("\n".join(rows(case)) for case in CASES) + "\n", encoding="utf-8")
