"""The kinds of parts and what is assumed of each where the file is silent."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib import resources


@dataclass(frozen=True, slots=True)
class PartKind:
    """One row of the table of kinds.

    ``draw`` is low, usual and high in ``draw_unit`` (W or A at 12.0 V), None where the kind draws nothing
    by itself; ``idle_a`` amperes; ``start_factor`` starting over running current; ``works_from_v`` volts;
    ``advice_percent`` the drop that is advised at most; ``hours`` low, usual and high a day of camping.
    """

    word: str
    form: str
    law: str
    draw_unit: str
    draw: tuple[float, float, float] | None
    idle_a: float
    start_factor: float
    works_from_v: float | None
    advice_percent: float | None
    hours: tuple[float, float, float] | None
    source: str


def _number(text: str) -> float | None:
    return float(text) if text else None


def _three(row: dict[str, str], stem: str) -> tuple[float, float, float] | None:
    if not row[f"{stem}_usual"]:
        return None
    return float(row[f"{stem}_low"]), float(row[f"{stem}_usual"]), float(row[f"{stem}_high"])


@cache
def part_kinds() -> dict[str, PartKind]:
    """Return all kinds by their word, in the order of the table."""
    text = (resources.files("builder.tables") / "data" / "part_kinds.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {
        row["kind"]: PartKind(
            word=row["kind"],
            form=row["form"],
            law=row["law"],
            draw_unit=row["draw_unit"],
            draw=_three(row, "draw"),
            idle_a=float(row["idle_a"]),
            start_factor=float(row["start_factor"]),
            works_from_v=_number(row["works_from_v"]),
            advice_percent=_number(row["advice_percent"]),
            hours=_three(row, "hours"),
            source=row["source"],
        )
        for row in rows
    }
