"""Defaults that figures rest on where the build file gives nothing."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib import resources


@dataclass(frozen=True, slots=True)
class Default:
    """One default: its value and range in ``unit``, the reason, how it is known, and what it ``changes`` first.

    ``metric_value`` counts in a build whose lengths are metric: as round there as ``value`` is in feet and inches.
    """

    id: str
    about: str
    value: float
    unit: str
    low: float
    high: float
    known: str
    reason: str
    changes: str
    metric_value: float

    def at(self, *, metric: bool) -> float:
        """Return the value of a build whose lengths are metric, or in feet and inches."""
        return self.metric_value if metric else self.value


@cache
def defaults() -> dict[str, Default]:
    """Return every default by its id, in the order of the table."""
    text = (resources.files("builder.tables") / "data" / "assumptions.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {
        row["id"]: Default(
            id=row["id"],
            about=row["about"],
            value=float(row["value"]),
            unit=row["unit"],
            low=float(row["low"]),
            high=float(row["high"]),
            known=row["known"],
            reason=row["reason"],
            changes=row["changes"],
            metric_value=float(row["metric value"] or row["value"]),
        )
        for row in rows
    }
