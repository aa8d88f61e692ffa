"""The record's skins, panels and hinge loops: distances to wires, and how long a screw may be."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil, floor

from builder.drawings.plan_seen import marks_of
from builder.electrics.figures import Figures
from builder.pages.json_entries import Json
from builder.routes.edges import FromEdge, edge_names, from_edges
from builder.routes.hinges import HingeLoop
from builder.routes.network import Stretch
from builder.routes.panels import Behind, PanelView, printed_screw_m
from builder.routes.skins import Clearance
from builder.routes.standing import Standing
from builder.trailer.model import Trailer
from builder.trailer.places import Skin

TAPE_STEPS_M = {"feet": (0.3048, 0.003175, 0.0127), "metric": (1.0, 0.001, 0.01)}
"""How finely a length is printed: up to a first length in the first step, in metres, then in the second."""


def cover_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return skins, panels and hinge loops under their keys; each only where the file has any."""
    made: Json = {}
    if trailer.geometry.skins:
        made["skins"] = [_skin(trailer, figures, skin) for skin in trailer.geometry.skins.values()]
    if figures.panels:
        marks = marks_of(trailer, figures)
        made["panels"] = [_panel(trailer, view, marks) for view in figures.panels]
    if figures.hinges:
        made["hinges"] = [_hinge(loop) for loop in figures.hinges]
    return made


def keep_clear_m(metres: float, units: str) -> float:
    """Return what is kept clear of wires, rounded up to what a tape measure is read to, in metres."""
    step_m = _tape_step_m(metres, units)
    return ceil(metres / step_m - 1e-9) * step_m


def at_least_m(metres: float, units: str) -> float:
    """Return a depth that is told as the least one, rounded down to what a tape measure is read to, in metres."""
    step_m = _tape_step_m(metres, units)
    return max(floor(metres / step_m + 1e-9), 0) * step_m


def _tape_step_m(metres: float, units: str) -> float:
    long_m, fine_m, coarse_m = TAPE_STEPS_M["feet" if units == "feet" else "metric"]
    return fine_m if metres < long_m - fine_m else coarse_m


def _skin(trailer: Trailer, figures: Figures, skin: Skin) -> Json:
    unclear = dict(figures.clearances.unclear).get(skin.name)
    made: Json = {
        "name": skin.name,
        "fasteners_length_m": skin.fasteners_m,
        "from": "outside" if skin.outside else "inside",
        "line": skin.origin.line,
    }
    if skin.on:
        made["on"] = [wall.value for wall in skin.on]
    if unclear is not None:
        return made | {"unclear": unclear.value}
    return made | {
        "wires_behind": [
            _clearance(trailer, one) for one in figures.clearances.found if one.skin == skin.name
        ]
    }


def _clearance(trailer: Trailer, one: Clearance) -> Json:
    through = trailer.geometry.chases[one.tube.stretch.chase].through
    number = one.tube.stretch.number
    made: Json = {
        "chase": one.tube.stretch.chase,
        "from": through[number],
        "to": through[number + 1],
        "wires": list(one.tube.wires),
        "begins_length_m": one.begins_m,
        "ends_length_m": one.ends_m,
        "depth_length_m": max(one.depth_m, 0.0),
        "unsure_length_m": one.unsure_m,
        "reached": one.reaches,
    }
    if one.left_m is not None:
        made["left_length_m"] = max(one.left_m, 0.0)
    if one.through_m is not None:
        made["round_hole_length_m"] = keep_clear_m(one.through_m, trailer.identity.units)
    plate_m = trailer.geometry.chases[one.tube.stretch.chase].plate_along_m
    if plate_m is not None:
        made["plate_length_m"] = plate_m
    return made


def _panel(trailer: Trailer, view: PanelView, marks: Mapping[Stretch, str]) -> Json:
    units = trailer.identity.units
    made: Json = {
        "name": view.panel.name,
        "whole": view.is_whole,
        "missing": [{"why": why.value, "names": list(names)} for why, names in view.missing],
        "from": "outside" if view.panel.outside else "inside",
        "pieces": len(view.faces),
        "behind": [{"mark": marks[one.tube.stretch], **_behind(trailer, view, one)} for one in view.behind],
        "line": view.panel.origin.line,
    }
    if view.panel.held_by:
        made["held_by"] = view.panel.held_by
    if view.parts:
        made["parts"] = [_standing(view, one, units) for one in view.parts]
    if view.screw_m is not None:
        made["screw_length_m"] = printed_screw_m(view.screw_m, units)
    return made


def _standing(view: PanelView, one: Standing, units: str) -> Json:
    at, _ = from_edges(view.faces[one.face], (one.at, one.at))
    made: Json = {
        "name": one.name,
        "place": one.place,
        "piece": one.face + 1,
        "at": [_edge(view, one.face, far) for far in at],
        "depth_length_m": at_least_m(one.depth_m, units),
    }
    return made | ({"rise_length_m": one.rise_m} if one.rise_m else {})


def _behind(trailer: Trailer, view: PanelView, one: Behind) -> Json:
    through = trailer.geometry.chases[one.tube.stretch.chase].through
    face, units = view.faces[one.face], trailer.identity.units
    ends = from_edges(face, (one.part.start[:2], one.part.end[:2]))
    made: Json = {
        "chase": one.tube.stretch.chase,
        "from": through[one.tube.stretch.number],
        "to": through[one.tube.stretch.number + 1],
        "wires": list(one.tube.wires),
        "piece": one.face + 1,
        "start": [_edge(view, one.face, far) for far in ends[0]],
        "end": [_edge(view, one.face, far) for far in ends[1]],
        "depth_length_m": at_least_m(one.part.depth_m, units),
    }
    if one.tube.radius_m is not None:
        made["each_side_length_m"] = keep_clear_m(one.tube.radius_m + one.unsure_m, units)
    if view.is_whole and one.screw_m is not None:
        made["screw_length_m"] = printed_screw_m(one.screw_m, units)
    return made


def _edge(view: PanelView, face: int, far: FromEdge) -> Json:
    corners = view.panel.corners
    made: Json = {"edge": edge_names(view.faces[face])[far.edge], "far_length_m": far.far_m}
    if len(view.faces) == 1:
        made["corners"] = [corners[far.edge], corners[(far.edge + 1) % len(corners)]]
    return made


def _hinge(loop: HingeLoop) -> Json:
    made = {
        "length_m": loop.length_m,
        "shut_length_m": loop.shut_m,
        "apart_at_least_length_m": loop.least_m,
        "apart_at_most_length_m": loop.most_m,
        "bend_length_m": loop.bend_m,
        "least_bend_length_m": loop.allowed_m,
    }
    found: Json = {"name": loop.chase.name} | ({"empty": True} if loop.empty else {})
    return found | {key: value for key, value in made.items() if value is not None}
