"""Wire sizes: the AWG series by its formula, SAE minimum areas and metric standard areas by table."""

from __future__ import annotations

import re

from builder.tables.table import Fact, NoRow, load_table, number_text

TRADE_GAUGES = (
    "22", "20", "18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0",
)  # fmt: skip
"""The AWG sizes that the tables of this room name, smallest first."""

MM2_PER_CIRCULAR_MIL = 0.0254**2 * 3.141592653589793 / 4
"""Area of a circle of one thousandth of an inch, in mm²: 5.067e-4 (NEETS module 4, p. 1-25, read)."""

_AUGHTS = re.compile(r"([1-4])/0")


def awg_number(gauge: str) -> int:
    """Return the place of an AWG size in its series: 14 for ``14``, 0 for ``1/0``, −3 for ``4/0``.

    Raises `NoRow` where the text is no AWG size from 40 to 4/0. Source: ASTM B258.
    """
    aught = _AUGHTS.fullmatch(gauge)
    if aught:
        return 1 - int(aught[1])
    if gauge.isascii() and gauge.isdecimal() and 1 <= int(gauge) <= 40:
        return int(gauge)
    raise NoRow(f"the AWG series has no size {gauge}; it runs from 40 to 1, then 1/0 to 4/0")


def awg_diameter_in(gauge: str) -> float:
    """Return the diameter of the solid conductor of an AWG size, in inches.

    ``0.005 in × 92^((36 − n)/39)``. Raises `NoRow` for a size outside the series. Source: ASTM B258,
    formula quoted.
    """
    return float(0.005 * 92 ** ((36 - awg_number(gauge)) / 39))


def circular_mils(diameter_in: float) -> float:
    """Return the area of a round wire in circular mils from its diameter in inches.

    The square of the diameter in thousandths of an inch. Source: NEETS module 4 (NAVEDTRA 14176),
    p. 1-25, read.
    """
    return (1000 * diameter_in) ** 2


def awg_area_circular_mils(gauge: str) -> float:
    """Return the area of an AWG size in circular mils.

    Raises `NoRow` for a size outside the series. Source: ASTM B258, formula quoted.
    """
    return circular_mils(awg_diameter_in(gauge))


def awg_area_mm2(gauge: str) -> float:
    """Return the area of an AWG size in mm².

    Raises `NoRow` for a size outside the series. Source: ASTM B258, formula quoted.
    """
    return awg_area_circular_mils(gauge) * MM2_PER_CIRCULAR_MIL


def sae_minimum_area(gauge: str) -> Fact:
    """Return the least copper of SAE-gauge primary wire of this number, in circular mils.

    SAE wire may hold 3 to 11 percent less copper than AWG of the same number. Raises `NoRow` outside 18
    to 4/0 and for 3. Source: SAE J1128 as reprinted in trade tables; three rows from memory.
    """
    return load_table("sae_minimum_areas").find(f"size {gauge}", gauge=gauge).fact("area_cmil", "cmil")


def sae_gauges() -> tuple[str, ...]:
    """Return the sizes that have an SAE minimum area, smallest first."""
    return tuple(row.cells["gauge"] for row in load_table("sae_minimum_areas").rows)


def metric_areas_mm2() -> tuple[float, ...]:
    """Return the standard areas of flexible metric conductors in mm², smallest first.

    Source: IEC 60228 class 5, quoted, 0.5 to 70 mm².
    """
    return tuple(row.number("area_mm2") for row in load_table("metric_resistance").rows)


def next_metric_area_mm2(least_mm2: float) -> float:
    """Return the smallest standard metric area of at least this many mm².

    Raises `NoRow` above the largest. Source: IEC 60228 class 5, quoted.
    """
    for area_mm2 in metric_areas_mm2():
        if area_mm2 >= least_mm2 * (1 - 1e-9):  # a hair below is the noise of the arithmetic
            return area_mm2
    largest = number_text(metric_areas_mm2()[-1])
    raise NoRow(f"no standard area of IEC 60228 up to {largest} mm² reaches {number_text(least_mm2)} mm²")
