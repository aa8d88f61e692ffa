"""The fuses in the car before the tow plug's contacts: the usual one beside the largest that the wires bear."""

from __future__ import annotations

from typing import Any

from builder.electrics.plug_feeds import PlugFeed
from builder.pages.page_fuses import wire_link
from builder.pages.view import View
from builder.trailer.plug_functions import functions_here


def plug_fuses(view: View) -> dict[str, dict[str, Any]]:
    """Return for each contact that feeds something, by its pin, what is said of the fuse before it in the car."""
    return {one.pin: _told(view, one) for one in view.figures.plug_feeds}


def too_large(view: View) -> list[dict[str, Any]]:
    """Return those of them before which a usual fuse can be larger than the wires bear, in contact order."""
    return [_told(view, one) for one in view.figures.plug_feeds if one.may_be_too_large]


def _told(view: View, one: PlugFeed) -> dict[str, Any]:
    plug, path = view.trailer.tow_plug, f"plug_feeds/{one.pin}"
    return {
        "number": plug.said(one.pin) if plug else one.pin,
        "usual": one.usual_fuse_a,
        "largest": view.fig(f"{path}/largest_fuse_a", "A"),
        "wire": wire_link(one.wire),
        "size": str(one.size),
        "wires": view.fig(f"{path}/wires_fuse_a", "A"),
        "core_unknown": one.line and one.core is None,
        "core": str(one.core) if one.core is not None else "",
        "core_fuse": view.fig(f"{path}/core_fuse_a", "A") if one.core is not None else "",
        "takes": view.fig(f"plug_states/{one.pin}/everything_a", "A"),
        "starves": one.starves,
        "fits": (one.fitting_fuse_a, one.fitting_fuse_a) if one.fitting_fuse_a is not None else None,
        "brake": plug is not None
        and "brake" in functions_here(view.trailer, plug.pattern.contact(one.pin))[0],
        "core_decides": one.core_fuse_a is not None and one.core_fuse_a < one.wires_fuse_a,
    }
