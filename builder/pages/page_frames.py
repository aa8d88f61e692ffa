"""Frame by frame: one sheet for each frame or stud that a chase passes, with every hole in it."""

from __future__ import annotations

from typing import Any

from builder.pages.page_fuses import wire_link
from builder.pages.view import View, joined, step
from builder.routes.framing import FramePassed


def has_frames(view: View) -> bool:
    """Tell whether any chase passes a frame."""
    return bool(view.figures.laid.frames)


def frames_page(view: View) -> dict[str, Any]:
    """Return what the template of the sheets of frames is filled with; `has_frames` tells whether there are any."""
    body = view.trailer.geometry.body
    numbered: dict[tuple[str, float | None, float | None], list[tuple[FramePassed, str]]] = {}
    counted: dict[str, int] = {}
    for one in view.figures.laid.frames:
        place = counted[one.chase] = counted.get(one.chase, -1) + 1
        path = f"laid/{step(one.chase)}/frames/{place}"
        numbered.setdefault((one.frame, one.back_m, one.up_m), []).append((one, path))
    order = {frame.name: n for n, frame in enumerate(body.frames)} if body is not None else {}
    sheets = sorted(
        numbered.items(), key=lambda held: (order[held[0][0]], held[0][1] or 0.0, held[0][2] or 0.0)
    )
    return {
        "frames": [_sheet(view, key, held) for key, held in sheets],
        "edge": view.fig("laid_limits/edge_length_m"),
    }


def _sheet(
    view: View, key: tuple[str, float | None, float | None], held: list[tuple[FramePassed, str]]
) -> dict[str, Any]:
    name, _, up_m = key
    body = view.trailer.geometry.body
    frame = next(one for one in body.frames if one.name == name) if body is not None else None
    path = held[0][1]
    upright = up_m is None
    holes = sorted(held, key=lambda one: (-one[0].point_m[2], one[0].point_m[1]))
    return {
        "name": name,
        "upright": upright,
        "far": view.fig(f"{path}/{'back' if upright else 'up'}_length_m"),
        "walls": [wall.value for wall in frame.walls] if frame is not None else [],
        "holes": [_hole(view, one, path, upright=upright) for one, path in holes],
    }


def _hole(view: View, one: FramePassed, path: str, *, upright: bool) -> dict[str, Any]:
    chase = view.trailer.geometry.chases[one.chase]
    at = f"{path}/at"
    across = view.value(at)
    laid = view.value(f"laid/{step(one.chase)}")

    def told(key: str) -> Any:
        return view.fig(f"laid/{step(one.chase)}/{key}") if key in laid else ""

    return {
        "chase": one.chase,
        "kind": chase.kind.value,
        "far": view.fig(f"{at}/{'up' if upright else 'back'}_length_m"),
        "side": across["side"],
        "from_middle": view.fig(f"{at}/from_middle_length_m") if "from_middle_length_m" in across else "",
        "wires": joined([wire_link(wire) for wire in one.wires]),
        "count": len(one.wires),
        "hole": told("hole_length_m"),
        "edge": told("from_the_edge_length_m"),
        "plated": chase.plate_m is not None,
    }
