"""What ``check`` answers: the problems of a build file, or its findings; as text, in brief, as JSON.

It loads neither templates nor the publisher, so that the answer is there at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.buildfile.numbered import NumbersFile, numbered_build
from builder.buildfile.problems import Problem, render_brief, render_text, to_json, visible
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.pages.record import findings_record
from builder.rules.finding import Finding, Level
from builder.rules.registry import find
from builder.trailer.model import Trailer

CHECK_SHAPE = 1
"""Version of the shape of ``answer_record``."""

NOTHING_WRONG, MUST_FIX, PROBLEM = 0, 1, 2
"""Exit codes: read and nothing must be fixed; read and something must; not read."""


@dataclass(frozen=True, slots=True)
class Judgement:
    """A build that was read, with its figures and findings."""

    trailer: Trailer
    figures: Figures
    findings: tuple[Finding, ...]

    @property
    def must_fix(self) -> tuple[Finding, ...]:
        """The findings that must be fixed."""
        return tuple(finding for finding in self.findings if finding.level is Level.MUST)

    @property
    def exit_code(self) -> int:
        """What a command that has done its work exits with."""
        return MUST_FIX if self.must_fix else NOTHING_WRONG


@dataclass(frozen=True, slots=True)
class Verdict:
    """A build file's name as the user wrote it, its lines and bytes, and its problems or its judgement.

    Where the file of its numbers has problems, ``name`` and ``lines`` are that file's. ``data`` is empty where the two
    files do not go together: no edit of the build file alone mends that.
    """

    name: str
    lines: tuple[str, ...]
    problems: tuple[Problem, ...]
    judged: Judgement | None
    data: bytes = b""

    @property
    def exit_code(self) -> int:
        """The exit code of ``check``."""
        return self.judged.exit_code if self.judged else PROBLEM


def judge_build(data: bytes, name: str, numbers: NumbersFile | None = None) -> Verdict:
    """Read a build file's bytes, and compute and judge it where it has no problem.

    ``numbers`` is the file of the numbers that were issued for it, None where there is none.
    """
    read = read_build(data)
    reading = numbered_build(read, numbers)
    if read.trailer is not None and reading.trailer is None:
        whose = numbers.name if numbers is not None and reading.of_numbers else name
        return Verdict(whose, reading.lines, reading.problems, None)
    judged = None
    if reading.trailer is not None:
        figures = compute(reading.trailer)
        judged = Judgement(reading.trailer, figures, find(reading.trailer, figures))
    return Verdict(name, reading.lines, reading.problems, judged, data)


def answer_text(verdict: Verdict, limit: int | None = None) -> str:
    """Every problem or finding with its line, a mark under the very word, and what to do.

    Returns text that ends in a line end, or nothing; ``limit`` is how many are shown, None shows all.
    """
    if verdict.judged is None:
        problems = verdict.problems[:limit]
        blocks = [render_text([problem], verdict.name, verdict.lines) for problem in problems]
        names = [problem.name for problem in problems]
    else:
        findings = verdict.judged.findings[:limit]
        blocks = [_block(finding, verdict) for finding in findings]
        names = [finding.rule for finding in findings]
    more = "".join(f"  wiring-manual explain {name}\n" for name in dict.fromkeys(names))
    return "\n".join([*blocks, f"To read more:\n{more}"] if blocks else [])


def answer_brief(verdict: Verdict, limit: int | None = None) -> str:
    """One line for each problem or finding: ``file:line:column: message``."""
    findings = verdict.judged.findings if verdict.judged else ()
    return findings_brief(findings[:limit], verdict.name) or render_brief(
        verdict.problems[:limit], verdict.name
    )


def findings_brief(findings: Sequence[Finding], name: str) -> str:
    """One line for each finding: ``file:line:column: must fix: message``."""
    return render_brief([_as_problem(finding) for finding in findings], name)


def counted(verdict: Verdict, limit: int | None = None) -> str:
    """Say in one sentence how much was found, and whether the limit hides some of it."""
    if verdict.judged is None:
        count = len(verdict.problems)
        return f"{_many(count, 'problem')}{_cut(count, limit)}."
    judged = verdict.judged
    counts = {level: sum(finding.level is level for finding in judged.findings) for level in Level}
    said = ", ".join(f"{count} {level.value}" for level, count in counts.items() if count)
    circuits, wires = len(judged.trailer.circuits), len(judged.trailer.wires)
    drafts = ", their numbers drafts" if wires and judged.trailer.ledger is None else ""
    size = f"{_many(circuits, 'circuit')} and {_many(wires, 'wire')} read{drafts}"
    return f"{visible(verdict.name)}: {size}; {said or 'nothing to fix'}{_cut(len(judged.findings), limit)}."


def answer_record(verdict: Verdict) -> dict[str, object]:
    """Return everything for other programs; findings have the shape that ``figures`` gives them."""
    judged = verdict.judged
    return {
        "shape": CHECK_SHAPE,
        "file": verdict.name,
        "problems": _problems_record(verdict),
        "findings": findings_record(judged.findings) if judged else [],
        "exit": verdict.exit_code,
    }


def _problems_record(verdict: Verdict) -> list[dict[str, object]]:
    from builder.buildfile.mending import edits_of  # noqa: PLC0415 - only JSON tells of edits

    told = to_json(verdict.problems, verdict.name)
    every = edits_of(verdict.data, verdict.lines, verdict.problems) if verdict.data else [()] * len(told)
    return [
        problem
        | {
            "edits": [
                {
                    "line": edit.line,
                    "column": edit.column,
                    "end_line": edit.end_line,
                    "end_column": edit.end_column,
                    "text": edit.text,
                    "what": edit.what,
                    "sure": edit.sure,
                }
                for edit in edits
            ]
        }
        for problem, edits in zip(told, every, strict=True)
    ]


def _block(finding: Finding, verdict: Verdict) -> str:
    margin = " " * max(4, len(str(finding.origin.line)))
    text = render_text([_as_problem(finding)], verdict.name, verdict.lines)
    return f"{text}{margin} based on: {visible(finding.basis)}\n"


def _as_problem(finding: Finding) -> Problem:
    return Problem(finding.origin, finding.rule, f"{finding.level.value}: {finding.message}", finding.help)


def _many(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


def _cut(count: int, limit: int | None) -> str:
    return f", the first {limit} shown (--all shows every one)" if limit is not None and count > limit else ""
