"""A number without a unit: of the units it may have, those that the rest of the file is written in."""

from __future__ import annotations

from dataclasses import replace

from builder.buildfile.problems import Problem
from builder.buildfile.values import NO_UNIT

_METRIC, _FEET = ("m", "cm", "mm"), ("ft", "in")


def in_file_units(problem: Problem, metric: bool) -> Problem:
    """Return a problem whose edits write a bare length in the file's own units only, where there are such."""
    if not problem.message.endswith(NO_UNIT):
        return problem
    units = [mend.text.strip('"').rpartition(" ")[2] for mend in problem.mends]
    ours = _METRIC if metric else _FEET
    if not units or not {*units} <= {*_METRIC, *_FEET} or not {*units} & {*ours}:
        return problem
    kept = [(mend, unit) for mend, unit in zip(problem.mends, units, strict=True) if unit in ours]
    help_ = "write " + " or ".join(mend.text.strip('"') for mend, _ in kept)
    return replace(problem, help=help_, mends=tuple(mend for mend, _ in kept))
