"""Sizes of studs and screws that ring terminals go on, and how many wires one of them takes."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from builder.tables.table import Fact, load_table

MOST_WIRES = Fact(4.0, "wires", "common practice; ABYC E-11 says the same (from memory)", "practice")
"""How many wires one stud takes at most where its maker does not say."""


@cache
def stud_sizes() -> Mapping[str, tuple[int, float]]:
    """Return every size that is known: its ring, and its nominal diameter in mm.

    Sizes of one ring take the same ring terminals, as they are sold for both (common practice); a higher number is a
    wider hole. Source: ASME B1.1 and ISO 261, from memory.
    """
    rows = load_table("stud_sizes").rows
    return MappingProxyType({r.cells["size"]: (int(r.number("ring")), r.number("diameter_mm")) for r in rows})
