"""The supply that stands for the car while the road lamps are tested contact by contact."""

from __future__ import annotations

from collections.abc import Iterable

from builder.electrics.protection import fuse_min_rating, next_standard_rating
from builder.lists.testing import Kind, Line, PlugSupply
from builder.tables.table import NoRow
from builder.trailer.assumed import assumption
from builder.trailer.model import Trailer

_SERIES = "blade regular"
"""Fuses of it and holders for one are sold everywhere."""


def plug_supply(trailer: Trailer, lines: Iterable[Line]) -> PlugSupply | None:
    """Return what the supply must bear by the tests of the contacts: one contact at a time, with all its lamps on.

    The fuse carries that for hours and is no smaller than those that are easy to find, as all fuses are chosen here
    (common practice).
    """
    most_a = max((line.about for line in lines if line.kind is Kind.LAMPS and line.about), default=0.0)
    if not most_a:
        return None
    loading = assumption(trailer, "fuse loading").value / 100.0
    least_a = max(fuse_min_rating(most_a, loading), assumption(trailer, "smallest fuse").value)
    try:
        return PlugSupply(most_a, next_standard_rating(least_a, _SERIES))
    except NoRow:
        return None
