"""Which edits of a build file are made: those that its maker chooses, or those that are a matter of spelling alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from builder.buildfile.edits import Edit, apply_edits
from builder.buildfile.mending import NO_EDIT, edits_of, kind_of
from builder.buildfile.problems import Problem, render_brief, render_text, visible
from builder.buildfile.resolving import read_build

MOST_ROUNDS = 1_000
_ROWS_SHOWN = 6

Ask = Callable[[str], str | None]
"""Asks a question and gives the answer, or None where nobody answers any more."""
Tell = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Chosen:
    """The bytes of a file with the chosen edits made, and how many these are."""

    data: bytes
    count: int


def choose(data: bytes, name: str, ask: Ask, tell: Tell) -> Chosen | None:
    """Go through the problems of a file one by one and let its maker choose; None where nobody answers.

    Nothing is written here. What an edit brings to light is asked for as well.
    """
    left: Counter[tuple[str, str]] = Counter()
    count = 0
    for _ in range(MOST_ROUNDS):
        reading = read_build(data)
        problem = _first_new(reading.problems, left)
        if problem is None:
            break
        tell(render_text([problem], name, reading.lines))
        (edits,) = edits_of(data, reading.lines, reading.problems, [problem])
        if not edits:
            tell(f"     no edit is known: {NO_EDIT.get(problem.name, 'it is left to you')}\n\n")
            left[kind_of(problem)] += 1
            continue
        tell(
            "".join(f"  {number}  {shown(edit, reading.lines)}" for number, edit in enumerate(edits, start=1))
        )
        answer = _answer(ask, len(edits))
        if answer is None:
            return None
        if answer == "q":
            break
        if answer == "n":
            left[kind_of(problem)] += 1
        else:
            data = apply_edits(data, [edits[int(answer) - 1]])
            count += 1
    return Chosen(data, count)


def choose_sure(data: bytes, name: str, tell: Tell) -> Chosen:
    """Make every edit that is a matter of spelling alone, and tell of each in a line."""
    count = 0
    for _ in range(MOST_ROUNDS):
        reading = read_build(data)
        sure = [
            (problem, edits[0])
            for problem, edits in zip(
                reading.problems, edits_of(data, reading.lines, reading.problems), strict=True
            )
            if len(edits) == 1 and edits[0].sure
        ]
        apart = _apart(sure)
        if not apart:
            break
        for problem, edit in apart:
            tell(f"{render_brief([problem], name).rstrip()}: {edit.what}\n")
        data = apply_edits(data, [edit for _, edit in apart])
        count += len(apart)
    return Chosen(data, count)


def offers(data: bytes, name: str) -> str:
    """Return every problem with its edits as text, for who cannot be asked."""
    reading = read_build(data)
    blocks = []
    every = edits_of(data, reading.lines, reading.problems)
    for problem, edits in zip(reading.problems, every, strict=True):
        rows = "".join(
            f"  {number}  {shown(edit, reading.lines)}" for number, edit in enumerate(edits, start=1)
        )
        none = f"     no edit is known: {NO_EDIT.get(problem.name, 'it is left to you')}\n"
        blocks.append(render_brief([problem], name) + (rows or none))
    return "\n".join(blocks)


def shown(edit: Edit, lines: Sequence[str]) -> str:
    """Return what an edit does, and the lines as they are after it."""
    before = lines[edit.line - 1][: edit.column - 1]
    after = lines[edit.end_line - 1][edit.end_column - 1 :] if edit.end_line <= len(lines) else None
    text = before + edit.text + (after or "")
    rows = text.split("\n") if after is not None or text else []
    numbered = [f"   {edit.line + at:>4} > {visible(row)}".rstrip() for at, row in enumerate(rows)]
    if len(numbered) > _ROWS_SHOWN:
        numbered[_ROWS_SHOWN - 1 :] = [f"        … and {len(numbered) - _ROWS_SHOWN + 1} more lines"]
    return "\n".join([visible(edit.what), *numbered]) + "\n"


def _first_new(problems: Sequence[Problem], left: Counter[tuple[str, str]]) -> Problem | None:
    """Return the first problem that was not left as it is already."""
    seen: Counter[tuple[str, str]] = Counter()
    for problem in problems:
        seen[kind_of(problem)] += 1
        if seen[kind_of(problem)] > left[kind_of(problem)]:
            return problem
    return None


def _answer(ask: Ask, most: int) -> str | None:
    """Ask until the answer is a number of an edit, n or q; None where nobody answers."""
    numbers = [str(number) for number in range(1, most + 1)]
    named = numbers[0] if most == 1 else f"1 to {most}"
    while True:
        said = ask(f"Make which change? {named}, n for none, q to end here: ")
        if said is None:
            return None
        word = said.strip().casefold()
        if word in (*numbers, "n", "q"):
            return word


def _apart(found: Sequence[tuple[Problem, Edit]]) -> list[tuple[Problem, Edit]]:
    """Return edits that touch no line of one another; the others come in the next round."""
    apart: list[tuple[Problem, Edit]] = []
    last = 0
    for problem, edit in sorted(found, key=lambda each: each[1]):
        if edit.line > last:
            apart.append((problem, edit))
            last = max(edit.end_line, edit.line)
    return apart
