"""General assumptions of one trailer: the default, or what its build file puts in its place."""

from __future__ import annotations

from builder.tables.assumptions import defaults
from builder.trailer.model import Assumption, Trailer


def assumption(trailer: Trailer, id_: str) -> Assumption:
    """Return the assumption of this id as it holds for a trailer; raises KeyError for an unknown id."""
    row = defaults()[id_]
    if id_ in trailer.assume:
        value, origin = trailer.assume[id_]
        reason = "the maker gives it"
        return Assumption(
            row.id,
            row.about,
            value,
            row.unit,
            row.low,
            row.high,
            reason,
            "file",
            replaced=True,
            origin=origin,
        )
    value = row.at(metric=trailer.identity.units == "metric")
    return Assumption(row.id, row.about, value, row.unit, row.low, row.high, row.reason, row.known)
