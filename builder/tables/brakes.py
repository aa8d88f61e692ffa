"""Electric trailer brakes: their magnets, how long they must hold after a breakaway, and when brakes are asked for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from builder.tables.table import Fact, Known, load_table


@dataclass(frozen=True, slots=True)
class BrakeMagnet:
    """The magnet of one brake: its resistance in ohm, and what a meter shows in ampere."""

    drum: str
    ohm_low: float
    ohm_high: float
    typical_a: float
    source: str
    known: Known


@cache
def drums() -> tuple[str, ...]:
    """Return the sizes of drums whose magnets are known."""
    return tuple(row.cells["drum"] for row in load_table("brake_magnets").rows)


@cache
def brake_magnet(drum: str) -> BrakeMagnet:
    """Return the magnet of a drum; raises `NoRow` for an unknown size. Source: in the row, quoted."""
    row = load_table("brake_magnets").find(f"brakes of {drum}", drum=drum)
    return BrakeMagnet(
        drum,
        row.number("ohm_low"),
        row.number("ohm_high"),
        row.number("typical_a"),
        row.source,
        row.known,
    )


BREAKAWAY_HOLD = Fact(
    15.0, "min", "49 CFR 393.43(d) as a motor club's digest of Maryland law has it", "quoted"
)
"""How long brakes must hold by themselves after the trailer has broken away."""


@dataclass(frozen=True, slots=True)
class BrakeRule:
    """When one place asks a trailer for brakes: an example, and a question to the authority there."""

    place: str
    rule: str
    source: str
    known: Known


@cache
def brake_rules(country: str) -> tuple[BrakeRule, ...]:
    """Return examples of when a country's places ask for brakes; none where none is known here."""
    return tuple(
        BrakeRule(row.cells["place"], row.cells["rule"], row.source, row.known)
        for row in load_table("brake_rules").rows
        if country in row.cells["countries"].split()
    )
