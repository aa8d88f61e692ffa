"""Filament bulbs of road lamps: what each filament takes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from builder.tables.table import Known, NoRow, Row, load_table

BRIGHT = frozenset({"stop", "turn", "fog", "reverse"})
"""What the stronger of two filaments in a bulb is for (common practice)."""


@dataclass(frozen=True, slots=True)
class Bulb:
    """One filament of a bulb: ``volts`` at which its ``amps`` or its greatest ``watts`` are stated."""

    name: str
    filament: str
    volts: float
    amps: float | None
    watts: float | None
    source: str
    known: Known


@cache
def bulb_names() -> tuple[str, ...]:
    """Return the names of the bulbs that are known, in the order of the table."""
    return tuple(dict.fromkeys(row.cells["bulb"] for row in load_table("bulbs").rows))


@cache
def bulb(name: str, filament: str) -> Bulb:
    """Return one filament of a bulb: ``major``, ``minor`` or ``single``.

    Raises `NoRow` where there is no such filament. Source: SAE J573 (memory) for trade numbers, UN Regulation
    No. 37 (one sheet quoted, the rest memory) for categories; in the row.
    """
    return _bulb(load_table("bulbs").find(f"a {filament} filament of {name}", bulb=name, filament=filament))


@cache
def filaments_of(name: str) -> int:
    """Return how many filaments a bulb of the table has."""
    return sum(row.cells["bulb"] == name for row in load_table("bulbs").rows)


def filament_for(name: str, function: str) -> Bulb:
    """Return the filament of a bulb that shows a function: of two the stronger for stop, turn, fog and reverse.

    Raises `NoRow` for an unknown bulb.
    """
    for filament in ("single", "major" if function in BRIGHT else "minor"):
        try:
            return bulb(name, filament)
        except NoRow:
            continue
    raise NoRow(f"there is no bulb {name} in the table of bulbs")


def bulb_current_a(one: Bulb) -> float:
    """Return the current in amperes to design with: as the list states it, or power over the test voltage."""
    return one.amps if one.amps is not None else (one.watts or 0.0) / one.volts


def bulb_power_w(one: Bulb) -> float:
    """Return the power in watts of a filament: volts times amperes, or the greatest that its sheet allows."""
    return one.watts if one.watts is not None else one.volts * (one.amps or 0.0)


def _bulb(row: Row) -> Bulb:
    cells = row.cells
    return Bulb(
        cells["bulb"],
        cells["filament"],
        row.number("volts"),
        float(cells["amps"]) if cells["amps"] else None,
        float(cells["watts"]) if cells["watts"] else None,
        row.source,
        row.known,
    )
