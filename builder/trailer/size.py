"""The size of a conductor."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from builder.tables.gauges import awg_area_mm2


@dataclass(frozen=True, slots=True)
class Size:
    """A conductor's size: an AWG gauge (``16``, ``2/0``) or an area in mm² (``2.5``), as ``kind`` says."""

    kind: Literal["AWG", "mm2"]
    value: str

    def __str__(self) -> str:
        """Return the size as the trade writes it: ``16 AWG``, ``2.5 mm²``."""
        return f"{self.value} AWG" if self.kind == "AWG" else f"{self.value} mm²"

    @property
    def area_mm2(self) -> float:
        """The area in mm²: of an AWG size by the formula of ASTM B258, of a metric one its own number.

        Raises NoRow for a gauge outside the AWG series.
        """
        return awg_area_mm2(self.value) if self.kind == "AWG" else float(self.value)


def by_area(size: Size) -> float:
    """Return the area in mm², as the key to sort sizes by."""
    return size.area_mm2
