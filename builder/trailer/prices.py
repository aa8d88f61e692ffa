"""What things cost, as the maker wrote it: one currency for all."""

from __future__ import annotations

from dataclasses import dataclass

from builder.trailer.origin import Origin

PER_M = {"": 1.0, "m": 1.0, "ft": 0.3048}
"""Metres of what a price is for, by its unit of length."""

PULL_STRING, FLAT_STEEL = "pull string", "flat steel"
"""What the shopping list calls string and steel plate that is bought by length."""

CLIP, STRAP = "clip", "flat strap"
"""What holds wires in a round bundle, and what holds those that lie side by side in a groove or a channel."""

FUSE_HOLDER = "fuse holder"
"""What a part of the kind fuse is among prices: the fuse in it is bought by its rating."""


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount of money: ``currency`` in three letters, ``per`` a unit of length (ft or m), empty for a piece."""

    value: float
    currency: str
    per: str = ""


@dataclass(frozen=True, slots=True)
class Price:
    """The price of what goes by ``name``; ``keys`` are the names of it that lines of the shopping list go by."""

    name: str
    amount: Amount
    origin: Origin
    keys: tuple[str, ...]


def in_mm(length_m: float) -> str:
    """Return a bore or a thickness in metres as prices go by it: in tenths of a millimetre."""
    return f"{length_m * 1000:.1f} mm"
