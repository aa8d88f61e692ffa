"""What the record has of changes: each as it was written, and what is built beside what was planned."""

from __future__ import annotations

from typing import Any

from builder.electrics.figures import Figures
from builder.trailer.model import Trailer

Json = dict[str, Any]


def change_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return the entries of changes; empty where nothing was done otherwise than planned."""
    if not trailer.changes:
        return {}
    return {
        "changes": [
            {
                "about": one.about,
                "kind": one.kind,
                "words": list(one.words),
                "circuits": list(one.circuits),
                "date": one.date,
                "note": one.note,
                "line": one.origin.line,
            }
            for one in trailer.changes
        ],
        "wire_changes": [
            {
                "number": one.number,
                "length_m": one.length_m,
                "planned_length_m": one.planned_length_m,
                "size": one.size,
                "planned_size": one.planned_size,
                "color": str(one.color),
                "planned_color": str(one.planned_color),
            }
            | ({"way": list(one.way)} if one.way else {})
            | ({"planned_way": list(one.planned_way)} if one.planned_way else {})
            for one in figures.wire_changes
        ],
        "lamp_changes": [
            {
                "lamp": one.lamp,
                "shows": one.shows,
                "current_a": one.current_a,
                "planned_current_a": one.planned_current_a,
            }
            for one in figures.lamp_changes
        ],
        "circuit_changes": [
            {
                "number": one.number,
                "current_a": one.current_a,
                "planned_current_a": one.planned_current_a,
                "drop_v": one.drop_v,
                "planned_drop_v": one.planned_drop_v,
            }
            | ({} if one.fuse_a is None else {"fuse_a": one.fuse_a})
            | ({} if one.planned_fuse_a is None else {"planned_fuse_a": one.planned_fuse_a})
            for one in figures.circuit_changes
        ],
    }
