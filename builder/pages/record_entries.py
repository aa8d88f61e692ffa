"""The record's holes of the front box: what is there only where the file has some."""

from __future__ import annotations

from builder.electrics.entry_holes import HoleFill
from builder.electrics.figures import Figures
from builder.trailer.landing_points import EntryHole
from builder.trailer.model import Trailer

Json = dict[str, object]


def entry_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return the holes with the wires through them, and the wires that no hole takes."""
    if not trailer.holes:
        return {}
    filled = zip(trailer.holes, figures.entries.holes, strict=True)
    return {
        "entry_holes": [_hole(hole, one) for hole, one in filled],
        "without_entry_hole": list(figures.entries.without),
    }


def _hole(hole: EntryHole, one: HoleFill) -> Json:
    made: Json = {"name": hole.name, "bore_length_m": hole.bore_m, "wires": list(one.wires)}
    told = {
        "wall": hole.wall,
        "left_length_m": hole.left_m,
        "top_length_m": hole.top_m,
        "fill_percent": one.fill_percent,
        "more": one.more,
        "more_of": str(one.more_of) if one.more_of else None,
    }
    made |= {key: value for key, value in told.items() if value is not None}
    made |= {"limit_percent": one.limit_percent, "limit_source": one.limit_source, "line": hole.origin.line}
    return made | ({"unsized": [str(size) for size in one.unsized]} if one.unsized else {})
