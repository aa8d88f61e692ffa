"""The record's entries of ends that are cut to a length of their own: before a fuse, and at the tow plug."""

from __future__ import annotations

from builder.electrics.figures import Figures
from builder.lists.free_ends import hanging
from builder.pages.json_entries import Json
from builder.rules.guarding import near_source, stubs_of_battery
from builder.trailer.already_in import already_in
from builder.trailer.model import Trailer


def stub_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return the stubs before a fuse and the most that one may measure; nothing where there is none."""
    stubs = stubs_of_battery(trailer, figures)
    if not stubs:
        return {}
    most_m, source, _ = near_source()
    wires = [{"wire": one.number, "length_m": one.length_m} for one in stubs]
    return {"stubs": {"wires": wires, "most_length_m": most_m, "source": source}}


def plug_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return what the plan leaves free at the tow plug, of the wires that are not in; nothing where there is none."""
    known = already_in(trailer)
    found = [one for one in hanging(trailer, figures.runs.runs) if one.wire not in known]
    return {"free_at_plug": [{"wire": one.wire, "length_m": one.length_m} for one in found]} if found else {}
