"""Short builds for the tests of rules, and what the rules find in them."""

from __future__ import annotations

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.rules.finding import Finding
from builder.rules.registry import find
from builder.trailer.model import Trailer

BATTERY = "battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}"
FRONT_BOX = "front box: {fuse ways: 4}"


def build(
    rest: str, *, battery: str = BATTERY, box: str = FRONT_BOX, shelf: str = "16 AWG", more: str = "country: US"
) -> str:
    """Return a whole build file: the usual head with the given lines in place, then ``rest``."""
    wire = f"wire: {{on the shelf: [{shelf}]}}" if shelf else ""
    head = ["format: 1", f"build: {{name: Example, {more}}}", battery, box, wire]
    return "\n".join(line for line in head if line) + "\n" + rest


def read(text: str) -> tuple[Trailer, Figures]:
    """Return the trailer of a build that has no problem, with its figures."""
    reading = read_build(text.encode())
    assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
    return reading.trailer, compute(reading.trailer)


def findings(text: str, rule: str = "") -> tuple[Finding, ...]:
    """Return what all rules, or one, find in a build that has no problem."""
    return tuple(finding for finding in find(*read(text)) if rule in ("", finding.rule))


def marked(text: str, finding: Finding) -> tuple[int, str]:
    """Return the line of a finding, from 1, and the word it marks there."""
    line = text.splitlines()[finding.origin.line - 1]
    start = finding.origin.column - 1
    return finding.origin.line, line[start : start + finding.origin.length]


def line_of(text: str, start: str) -> int:
    """Return the number of the first line that begins with these words, blanks aside."""
    return next(n for n, line in enumerate(text.splitlines(), start=1) if line.strip().startswith(start))
