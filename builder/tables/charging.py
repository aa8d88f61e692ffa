"""How much charging current a battery takes, over its capacity."""

from __future__ import annotations

from typing import Literal

from builder.tables.table import Fact, load_table


def charge_limit(chemistry: Literal["lead", "lithium"], case: Literal["advised", "most"]) -> Fact:
    """Return the charging current in percent of the capacity: 30 A for 100 Ah is 30 percent.

    ``advised`` is what a charger is sized to, ``most`` what a maker's sheet allows. Raises `NoRow` for another
    case. Source: makers' sheets, read; the advice for lead batteries quoted.
    """
    row = load_table("charge_limits").find(f"{chemistry}, {case}", chemistry=chemistry, case=case)
    return row.fact("percent", "percent")
