"""The record's entry of the short ends from the battery to a fuse."""

from __future__ import annotations

from builder.electrics.figures import Figures
from builder.pages.json_entries import Json
from builder.rules.guarding import near_source, stubs_of_battery
from builder.trailer.model import Trailer


def stub_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return the stubs before a fuse and the most that one may measure; nothing where there is none."""
    stubs = stubs_of_battery(trailer, figures)
    if not stubs:
        return {}
    most_m, source, _ = near_source()
    wires = [{"wire": one.number, "length_m": one.length_m} for one in stubs]
    return {"stubs": {"wires": wires, "most_length_m": most_m, "source": source}}
