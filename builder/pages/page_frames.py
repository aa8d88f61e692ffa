"""Frame by frame: one sheet for each frame or stud that a chase passes, with every hole in it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Any

from builder.drawings.frame_cut import FrameCut
from builder.pages.page_building_in import bored_told, least_hole
from builder.pages.page_fuses import wire_link
from builder.pages.view import View, joined, step
from builder.routes.framing import FramePassed


def has_frames(view: View) -> bool:
    """Tell whether any chase passes a frame."""
    return bool(view.figures.laid.frames)


def frames_page(view: View) -> dict[str, Any]:
    """Return what the template of the sheets of frames is filled with; `has_frames` tells whether there are any."""
    counted: Counter[str] = Counter()
    paths: dict[FramePassed, str] = {}
    for one in view.figures.laid.frames:
        paths[one] = f"laid/{step(one.chase)}/frames/{counted[one.chase]}"
        counted[one.chase] += 1
    return {
        "frames": [_sheet(view, cut, paths, n) for n, cut in enumerate(view.frame_cuts, start=1)],
        "edge": view.fig("laid_limits/edge_length_m"),
    }


def frame_files(view: View) -> dict[str, str]:
    """Return the cuts at frames by their paths."""
    return {_picture(n): cut.svg for n, cut in enumerate(view.frame_cuts, start=1)}


def _picture(place: int) -> str:
    return f"pictures/frame-{place}.svg"


def _sheet(view: View, cut: FrameCut, paths: Mapping[FramePassed, str], place: int) -> dict[str, Any]:
    held = cut.holes
    body = view.trailer.geometry.body
    frame = next(one for one in body.frames if one.name == held.name) if body is not None else None
    chases = list(view.trailer.geometry.chases)
    order = view.figures.laid.frames.index
    first = min(held.holes, key=lambda one: (chases.index(one.chase), order(one)))  # as the record has them
    return {
        "name": held.name,
        "upright": held.upright,
        "far": view.fig(f"{paths[first]}/{'back' if held.upright else 'up'}_length_m"),
        "walls": [wall.value for wall in frame.walls] if frame is not None else [],
        "holes": [_hole(view, one, paths[one], upright=held.upright) for one in held.holes],
        "picture": _picture(place),
    }


def _hole(view: View, one: FramePassed, path: str, *, upright: bool) -> dict[str, Any]:
    at = f"{path}/at"
    across = view.value(at)
    return {
        **bored_told(view, one.chases),
        "far": view.fig(f"{at}/{'up' if upright else 'back'}_length_m"),
        "side": across["side"],
        "from_middle": view.fig(f"{at}/from_middle_length_m") if "from_middle_length_m" in across else "",
        "wires": joined([wire_link(wire) for wire in one.wires]),
        "twice": joined([wire_link(wire) for wire in dict.fromkeys(one.twice)]),
        "count": len(one.wires) + len(one.twice),
        "least": least_hole(view, path),
    }
