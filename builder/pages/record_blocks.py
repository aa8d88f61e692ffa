"""The record's entries of backing blocks: where they are, how large, and which wires pass them."""

from __future__ import annotations

from builder.electrics.figures import Figures
from builder.pages.json_entries import Json
from builder.routes.framing import middle_of
from builder.routes.landmarks import Landmark, landmarks
from builder.routes.vectors import Vector
from builder.trailer.body import ENDS, FLATS, SIDES, Block
from builder.trailer.model import Trailer

MIDDLE_M = 0.005
"""What is no further from the middle of the body is in the middle, for whoever measures with a tape."""
FINE_M = 5e-4
"""What is no further from where a tape begins is at it."""
_AXES = {
    **dict.fromkeys(SIDES, ("along", "up")),
    **dict.fromkeys(ENDS, ("across", "up")),
    **dict.fromkeys(FLATS, ("along", "across")),
}
"""By the wall: in which directions a block in it is measured."""


def block_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return the backing blocks of a trailer under their key; nothing where its file has none."""
    blocks = trailer.geometry.blocks.values()
    return {"blocks": [_block(trailer, figures, block) for block in blocks]} if blocks else {}


def landmark_entry(one: Landmark) -> Json:
    """Return one distance from an edge that can be seen."""
    made: Json = {"axis": one.axis, "side": one.side, "edge": one.edge}
    return made | ({"of": one.of} if one.of else {}) | {"far_length_m": one.far_m}


def across_entry(right_m: float) -> Json:
    """Return how far something is from the middle of the body, and at which side of it."""
    if abs(right_m) < MIDDLE_M:
        return {"side": "middle"}
    return {"side": "right" if right_m > 0 else "left", "from_middle_length_m": abs(right_m)}


def point_entry(point_m: Vector) -> Json:
    """Return a place as a tape finds it: each measure above zero, under the side of the body's zero that it lies at."""
    back_m, right_m, up_m = point_m
    along = {"ahead_length_m": -back_m} if back_m < -FINE_M else {"back_length_m": max(0.0, back_m)}
    high = {"below_length_m": -up_m} if up_m < -FINE_M else {"up_length_m": max(0.0, up_m)}
    return {**along, **across_entry(right_m), **high}


def _block(trailer: Trailer, figures: Figures, block: Block) -> Json:
    along_m, across_m = block.middle_m
    made: Json = {"name": block.name, "wall": block.wall.value}
    if block.wall in SIDES:
        made |= {"back_length_m": along_m, "up_length_m": across_m}
    elif block.wall in ENDS:
        made |= {**across_entry(along_m), "up_length_m": across_m}
    else:
        made |= {"back_length_m": along_m, **across_entry(across_m)}
    wide_m, other_m = (block.high_m, block.wide_m) if block.wall in FLATS else (block.wide_m, block.high_m)
    made |= {"width_length_m": wide_m, "long_length_m" if block.wall in FLATS else "high_length_m": other_m}
    if block.thick_m is not None:
        made["thick_length_m"] = block.thick_m
    if block.holds:
        made["holds"] = block.holds
    middle = middle_of(trailer.geometry.body, block)
    if middle is not None:
        axes = _AXES[block.wall]
        made["seen"] = [
            landmark_entry(one) for one in landmarks(trailer.geometry, middle) if one.axis in axes
        ]
    passed = [one for one in figures.laid.blocks if one.block is block]
    if passed:
        made["passed_by"] = [{"chase": one.chase, "wires": list(one.wires)} for one in passed]
    return made | {"line": block.origin.line}
