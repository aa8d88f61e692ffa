"""The record's holes of boxes: those of the front box that the file has, and what enters a box without any."""

from __future__ import annotations

from builder.electrics.box_sides import BoxSide
from builder.electrics.entry_holes import HoleFill
from builder.electrics.figures import Figures
from builder.lists.grommets import BoxEntry, box_entries
from builder.pages.json_entries import Json
from builder.trailer.landing_points import EntryHole
from builder.trailer.model import Trailer


def entry_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return from which side wires come to the box, the holes with those through them, and what no hole takes."""
    made: Json = {"box_sides": [_side(one) for one in figures.box_sides]} if figures.box_sides else {}
    boxes = [_box_hole(one) for one in box_entries(trailer, figures)]
    made |= {"box_holes": boxes} if boxes else {}
    if not trailer.holes:
        return made
    filled = zip(trailer.holes, figures.entries.holes, strict=True)
    return made | {
        "entry_holes": [_hole(hole, one) for hole, one in filled],
        "without_entry_hole": list(figures.entries.without),
    }


def _box_hole(one: BoxEntry) -> Json:
    made: Json = {
        "box": one.box,
        "for": one.name,
        "wires": list(one.wires),
        "sides": [list(sides) for sides in one.sides],
    }
    return made | ({} if one.bore_m is None else {"least_hole_length_m": one.bore_m})


def _side(one: BoxSide) -> Json:
    made: Json = {"sides": list(one.sides), "chase": one.chase, "wires": list(one.wires)}
    return made | ({"hole": one.hole} if one.hole else {})


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
