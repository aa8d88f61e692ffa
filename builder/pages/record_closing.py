"""The record's entries of what is closed: each bay with what lies in it, and what the maker says of it."""

from __future__ import annotations

from builder.electrics.figures import Figures
from builder.pages.json_entries import Json
from builder.pages.record_covers import keep_clear_m
from builder.routes.bays_held import BayHeld, InBay
from builder.routes.unrecorded import Unrecorded
from builder.trailer.bays import UP, closed_bay, photo_name
from builder.trailer.model import Trailer


def closing_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return the bays that hold something, and which circuits are pulled; nothing of what the file does not have."""
    bays = [_bay(trailer, held) for held in figures.bays if held.holds]
    pulled = [{"name": one.name, "when": one.when} for one in trailer.pulled]
    return ({"bays": bays} if bays else {}) | ({"pulled": pulled} if pulled else {})


def _bay(trailer: Trailer, held: BayHeld) -> Json:
    bay = held.bay
    made: Json = {"name": bay.name, "photo_expected": photo_name(bay.name)}
    if bay.wall is not None:
        edges = (
            ("from_up_length_m", "to_up_length_m")
            if bay.axis == UP
            else ("from_back_length_m", "to_back_length_m")
        )
        made |= {"wall": str(bay.wall), edges[0]: bay.from_m, edges[1]: bay.to_m}
    made |= {key: name for key, name in (("from_frame", bay.from_frame), ("to_frame", bay.to_frame)) if name}
    made["inside"] = [
        {
            "chase": one.stretch.chase,
            "stretch": one.stretch.number,
            "wires": list(one.wires),
            "depth_length_m": one.depth_m,
        }
        | _left(trailer, one)
        for one in held.inside
    ]
    if held.mains:
        made["mains"] = [{"chase": one.chase, "stretch": one.number} for one in held.mains]
    if held.unseen:
        made["not_recorded"] = [_unseen(one) for one in held.unseen]
    if held.ends:
        made["waiting_ends"] = [
            {"name": end.name, "place": end.place, "wires": list(end.wires)} for end in held.ends
        ]
    closed = closed_bay(trailer.closed_bays, bay.name)
    if closed is not None:
        said = {
            "photo": closed.photo,
            "without_photo": closed.without_photo or None,
            "date": closed.date,
            "note": closed.note,
            "ends_insulated": closed.insulated,
        }
        made["closed"] = {key: value for key, value in said.items() if value not in ("", None)}
    return made


def _unseen(one: Unrecorded) -> Json:
    made: Json = {"panel" if one.panel else "part": one.name, "licensed": one.licensed}
    return made | ({"what": one.what} if one.what else {})


def _left(trailer: Trailer, one: InBay) -> Json:
    """Return what is left to the fasteners; that they get in among the wires where nothing is.

    Where the stretch goes out through the skin, how far they keep from its hole.
    """
    if one.hole_m is not None:
        return {"round_hole_length_m": keep_clear_m(one.hole_m, trailer.identity.units)}
    if one.left_m is None:
        return {}
    return {"left_length_m": one.left_m} if one.left_m > 0 else {"fasteners_reach": True}
