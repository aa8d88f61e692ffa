"""The folder of broken builds: what each is told is held against what was written at its head beforehand.

The head of a file is comments, one a line, which count as lines of the file:

* ``# expect: line 9, marks "fuze", message has "not a word", help has "fuse"`` names one problem. ``marks`` is the
  whole text under the mark; ``marks in`` allows any part of the text it names. Texts are JSON strings; capitals do
  not count in what a message or a help holds. There is no problem besides those named.
* ``# mend: line 9 -> text`` replaces a line; ``after`` and ``before`` in front of ``line`` insert one; ``line 9
  taken out`` removes it. All numbers are those of the file as it stands. Mended, it is read without a problem.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from builder.buildfile.problems import Problem, render_text
from builder.buildfile.resolving import BuildReading, read_build

BROKEN = sorted(Path(__file__).parents[1].joinpath("broken").glob("*.yaml"))

_PHRASE = re.compile(r'\s*,\s*(marks in|marks|message has|help has) ("(?:[^"\\]|\\.)*")')
_MEND = re.compile(rb"# mend: (before |after |)line (\d+)(?: -> (.*)| taken out)")


@dataclass(frozen=True)
class Expected:
    """One problem as the head of a file names it."""

    line: int
    phrases: tuple[tuple[str, str], ...]

    def failures(self, problem: Problem, lines: tuple[str, ...]) -> list[str]:
        """Tell which phrases do not hold for a problem."""
        marked = text_under_mark(problem, lines)
        holds = {
            "marks": lambda text: marked == text,
            "marks in": lambda text: marked.strip() != "" and marked in text,
            "message has": lambda text: text.casefold() in problem.message.casefold(),
            "help has": lambda text: text.casefold() in problem.help.casefold(),
        }
        return [f"{what} {text!r}" for what, text in self.phrases if not holds[what](text)]


def text_under_mark(problem: Problem, lines: tuple[str, ...]) -> str:
    start = problem.origin.column - 1
    return lines[problem.origin.line - 1][start : start + problem.origin.length]


def expectations(data: bytes) -> list[Expected]:
    lines = data.decode(errors="replace").split("\n")
    return [_expected(line.removeprefix("# expect: ")) for line in lines if line.startswith("# expect: ")]


def _expected(text: str) -> Expected:
    head = re.match(r"line (\d+)", text)
    assert head, f"an expectation begins with a line: {text}"
    place, phrases = head.end(), []
    while place < len(text.rstrip()):
        phrase = _PHRASE.match(text, place)
        assert phrase, f"this part of an expectation is not understood: {text[place:]}"
        phrases.append((phrase[1], json.loads(phrase[2])))
        place = phrase.end()
    return Expected(int(head[1]), tuple(phrases))


def mended(data: bytes) -> bytes | None:
    """Return the file with its mends applied; None where it names none."""
    lines = data.split(b"\n")
    changes = [hit.groups() for hit in map(_MEND.fullmatch, lines) if hit]
    for place, number, text in sorted(changes, key=lambda change: int(change[1]), reverse=True):
        index = int(number) - 1
        first = index + 1 if place == b"after " else index
        last = index if place == b"before " else index + 1
        lines[first:last] = [] if text is None else [text]
    return b"\n".join(lines) if changes else None


def shown(reading: BuildReading, path: Path) -> str:
    return "\n" + render_text(reading.problems, path.name, reading.lines)


def test_there_are_broken_builds() -> None:
    assert len(BROKEN) >= 60


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_broken_build_is_told_as_its_head_says(path: Path) -> None:
    data = path.read_bytes()
    expected = expectations(data)
    assert expected, "the first line of a broken build says what is expected"
    assert data.startswith(b"# expect: ")
    reading = read_build(data)
    assert reading.trailer is None
    at_lines = [problem.origin.line for problem in reading.problems]
    assert at_lines == sorted(one.line for one in expected), shown(reading, path)
    for one, problem in zip(sorted(expected, key=lambda each: each.line), reading.problems, strict=True):
        assert one.failures(problem, reading.lines) == [], shown(reading, path)


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_broken_build_is_read_once_it_is_mended(path: Path) -> None:
    whole = mended(path.read_bytes())
    if whole is None:
        pytest.skip("no mend is named")
    reading = read_build(whole)
    assert reading.problems == (), shown(reading, path)
    assert reading.trailer is not None


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_broken_build_is_told_in_plain_words(path: Path) -> None:
    """Every problem has a sentence and a way out, and no word of the libraries underneath."""
    for problem in read_build(path.read_bytes()).problems:
        said = f"{problem.message} {problem.help}".casefold()
        assert problem.message.strip()
        assert problem.help.strip()
        foreign = (
            "pydantic",
            "traceback",
            "nonetype",
            "mapping",
            "scalar",
            "token",
            "sequence",
            "validation",
        )
        assert [word for word in foreign if word in said] == []
