"""What a joint must hold."""

from __future__ import annotations

from builder.tables.gauges import awg_area_mm2
from builder.tables.table import Fact, NoRow, load_table


def crimp_pull(area_mm2: float) -> Fact:
    """Return the force in lbf that the crimp on a wire must hold for a minute.

    A wire between two gauges is held to the thinner one. Raises `NoRow` for one thinner than 18 AWG. Source: ABYC E-11
    Table XVI, quoted; 8, 6, 1/0 AWG and thicker from memory.
    """
    held = None
    for row in load_table("crimp_pulls").rows:
        if awg_area_mm2(row.cells["awg"]) <= area_mm2 + 1e-9:
            held = row
    if held is None:
        raise NoRow(f"no force is known that a crimp on {area_mm2:g} mm² must hold")
    return held.fact("lbf", "lbf")
