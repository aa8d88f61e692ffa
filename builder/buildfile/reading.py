"""The build file as text first: from bytes to a tree of texts with their places, and all problems at once.

A file that is YAML is read in one go. After a syntax error each heading in column 1 is read by itself with
its true line numbers, so that one mistake hides neither the others nor the headings that are well.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from builder.buildfile.nodes import Items, Pair, Pairs
from builder.buildfile.problems import Mend, Problem, sort_and_merge
from builder.buildfile.reading_characters import (
    FILLER,
    character_problems,
    clean_line,
    decode,
    without_refused,
)
from builder.buildfile.reading_compose import Budget, CannotGoOnError, Composed, compose
from builder.buildfile.reading_faults import NOT_YAML, Fault, fault_of, indent_of
from builder.buildfile.reading_headings import Heading, first_document, headings, is_blank
from builder.buildfile.reading_layout import no_colon
from builder.buildfile.reading_names import different_names, mixed_alphabets
from builder.buildfile.reading_syntax import explain
from builder.trailer.origin import Origin

_HIDDEN = {"invisible character", "control character", "line separator"}
_SIGNS = {"sign at the start", "tag", "anchor"}
_SMALLEST = "`wiring-manual begin FOLDER` writes the smallest build file, to be changed to your own trailer"


@dataclass(frozen=True, slots=True)
class Reading:
    """What a build file says, as text.

    Attributes:
        root: the headings that could be read; None if there are none.
        problems: sorted by place.
        lines: the lines of the file without their ends, at least one.
        unread: headings that stand in the file but could not be read, so that nobody calls them missing.

    """

    root: Pairs | None
    problems: tuple[Problem, ...]
    lines: tuple[str, ...]
    unread: tuple[str, ...] = ()


@dataclass(slots=True)
class _Found:
    """What the headings gave."""

    pairs: list[Pair]
    problems: list[Problem]
    unread: list[str]
    in_headings: bool = False


def read_build_text(data: bytes) -> Reading:
    """Read a build file.

    Args:
        data: any bytes.

    Returns:
        Names and texts with their places, and every problem that can be told without knowing what the
        names mean. Never raises for what the bytes hold.

    Limits: 2 MB, 20,000 entries, 40 levels, names of 120 and values of 2,000 characters.

    """
    decoded = decode(data)
    lines = decoded.lines
    if decoded.problem:
        return Reading(None, (_inside(decoded.problem, lines),), lines)
    problems = list(character_problems(lines))
    document, told = first_document([clean_line(line) for line in lines])
    problems += told
    if all(map(is_blank, document)):
        problems += [] if problems else [_empty(lines)]
        return Reading(None, _all_told(problems, lines), lines)
    found = _read_document(document, problems)
    pairs, told = different_names(found.pairs)
    root = Pairs(pairs, pairs[0].key.origin) if pairs else None
    told += found.problems
    told += mixed_alphabets(root, told) if root else []
    told = [problem for problem in told if not _follows(problem, problems)]
    if root is None and not told and not problems:
        told = [_empty(lines)]
    return Reading(root, _all_told([*problems, *told], lines), lines, _spoken(found.unread))


def _read_document(lines: Sequence[str], character: Sequence[Problem]) -> _Found:
    found = _Found([], [], [])
    try:
        _take(compose(lines, 1, Budget()), Heading(1, tuple(lines)), found)
    except CannotGoOnError as stop:
        if stop.whole_file:
            found.problems.append(stop.problem)
            return found
    except NOT_YAML as error:
        _read_headings(lines, character, found)
        if not found.problems and not character:
            found.problems.append(explain(fault_of(error, lines, 1)))
        return found
    else:
        return found
    _read_headings(lines, character, found)
    return found


def _read_headings(lines: Sequence[str], character: Sequence[Problem], found: _Found) -> None:
    budget = Budget()
    for number, heading in enumerate(headings(lines)):
        found.in_headings = number > 0 or heading.first_line + len(heading.lines) <= len(lines)
        _set_in(heading, found)
        try:
            _take(compose(heading.lines, heading.first_line, budget), heading, found)
        except CannotGoOnError as stop:
            found.problems.append(stop.problem)
            found.unread.append(heading.name)
            if stop.whole_file:
                return
        except NOT_YAML as error:
            fault = fault_of(error, heading.lines, heading.first_line)
            found.problems += [] if _known(fault, character) else [explain(fault)]
            found.unread.append(heading.name)


def _take(composed: Composed, heading: Heading, found: _Found) -> None:
    """Keep what was composed, or say that it is no mapping."""
    found.problems += composed.problems
    if isinstance(composed.root, Pairs):
        # A repaired ``format:1`` has no pairs of a mapping at the top.
        found.pairs += composed.top_pairs or composed.root.pairs
    elif composed.root is not None:
        found.problems.append(
            _not_a_mapping(composed.root.origin, isinstance(composed.root, Items), heading, found)
        )
        found.unread.append(heading.name)


def _not_a_mapping(origin: Origin, is_list: bool, heading: Heading, found: _Found) -> Problem:
    if is_list:
        message = "a list stands where a heading such as `parts:` is wanted"
        return Problem(origin, "list at the top", message, f"begin with headings in column 1; {_SMALLEST}")
    if heading.first_line > 1 or found.in_headings:
        fault = Fault("", "", (0, 0), (0, 0), heading.lines, heading.first_line, ())
        return no_colon(fault, 0, indent_of(heading.lines[0]))
    message = "a text stands where a heading such as `parts:` is wanted"
    return Problem(origin, "text at the top", message, f"begin with headings in column 1; {_SMALLEST}")


def _set_in(heading: Heading, found: _Found) -> None:
    """Lines before the first heading that do not begin in column 1."""
    indent = indent_of(heading.lines[0])
    if indent:
        message = (
            f"this line is set in by {indent} space{'' if indent == 1 else 's'}; headings begin in column 1"
        )
        origin = Origin(heading.first_line, indent + 1, len(heading.lines[0].split()[0]))
        help_ = "take the spaces before it out"
        mends = (Mend("", "indent"),)
        found.problems.append(Problem(origin, "line set in wrongly", message, help_, mends=mends))


def _follows(problem: Problem, causes: Iterable[Problem]) -> bool:
    """Whether a tab or a hidden character on the same line is the cause of a problem."""
    return any(
        cause.origin.line == problem.origin.line
        and (cause.name in _HIDDEN or (cause.name == "tab" and problem.name == "line set in wrongly"))
        for cause in causes
    )


def _known(fault: Fault, character: Sequence[Problem]) -> bool:
    """Whether a tab or a hidden character on the line, or a tab above it, explains the fault."""
    first, last = fault.first_line, fault.number(fault.place[0])
    near = fault.lines[max(0, fault.place[0] - 1) : fault.place[0] + 1]
    above = fault.lines[: fault.place[0]]
    hidden = any(FILLER in line for line in near) or any(line.lstrip()[:1] == FILLER for line in above)
    return hidden or any(
        first <= problem.origin.line <= last and (problem.name == "tab" or problem.origin.line >= last - 1)
        for problem in character
    )


def _spoken(names: Iterable[str]) -> tuple[str, ...]:
    spoken = (unicodedata.normalize("NFC", without_refused(" ".join(name.split()))) for name in names)
    return tuple(filter(None, spoken))


def _empty(lines: Sequence[str]) -> Problem:
    comments = any(line.strip() for line in lines)
    message = "this file holds only comments" if comments else "this file is empty"
    return Problem(Origin(1, 1), "empty file", message, _SMALLEST)


def _all_told(problems: Iterable[Problem], lines: Sequence[str]) -> tuple[Problem, ...]:
    inside = [_inside(problem, lines) for problem in problems]
    # A sign that YAML keeps for itself spoils what follows it, so that it alone is told.
    signs = {problem.origin.line: problem.origin.column for problem in inside if problem.name in _SIGNS}
    return sort_and_merge(
        problem
        for problem in inside
        if problem.name in _SIGNS or signs.get(problem.origin.line) != problem.origin.column
    )


def _inside(problem: Problem, lines: Sequence[str]) -> Problem:
    """Return the problem with a place that lies in the file, whatever the YAML library said."""
    origin = _clamped(problem.origin, lines)
    also = _clamped(problem.also, lines) if problem.also else None
    return (
        problem
        if (origin, also) == (problem.origin, problem.also)
        else replace(problem, origin=origin, also=also)
    )


def _clamped(origin: Origin, lines: Sequence[str]) -> Origin:
    line = min(max(1, origin.line), len(lines))
    width = len(lines[line - 1])
    column = min(max(1, origin.column), width + 1)
    return Origin(line, column, min(max(1, origin.length), max(1, width + 1 - column)))
