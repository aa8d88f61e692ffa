"""What road lamps take where the file is silent."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from builder.tables.table import Known, load_table

Technology = Literal["led", "filament"]


@dataclass(frozen=True, slots=True)
class LampDraw:
    """Current of one function of a road lamp at 12 V, in amperes, with its range and how it is known."""

    low_a: float
    usual_a: float
    high_a: float
    source: str
    known: Known


@cache
def road_functions() -> frozenset[str]:
    """Return every function of a road lamp whose draw is known."""
    return frozenset(row.cells["function"] for row in load_table("road_lamp_draws").rows)


def road_lamp_draw(function: str, technology: Technology) -> LampDraw:
    """Return what a lamp of this function takes; raises `NoRow` for an unknown function.

    Source: filament lamps by the estimating rule of the trailer trade (quoted), the rest common practice.
    """
    row = load_table("road_lamp_draws").find(
        f"a {technology} {function} lamp", function=function, technology=technology
    )
    return LampDraw(row.number("low_a"), row.number("usual_a"), row.number("high_a"), row.source, row.known)
