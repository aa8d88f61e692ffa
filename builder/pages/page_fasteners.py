"""Fasteners and wires: how much is left under each skin, and whether the hinge loops reach."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from builder.pages.page_fuses import wire_link
from builder.pages.page_panel import panel_pages
from builder.pages.view import View, joined, step
from builder.routes.panels import PanelView
from builder.trailer.places import ChaseKind


def has_covers(view: View) -> bool:
    """Tell whether the build file says anything of skins or hinge loops."""
    return bool(view.trailer.geometry.skins or view.figures.hinges)


def fasteners_page(view: View) -> dict[str, Any]:
    """Return what the template of the fasteners is filled with."""
    record: Mapping[str, Any] = view.record
    return {
        "skins": [_skin(view, one) for one in record.get("skins", [])],
        "hinges": [_hinge(view, one) for one in record.get("hinges", [])],
        "lined": any(one["from"] == "inside" for one in record.get("skins", [])),
        "panels": [_panel(view, path, one) for path, one in panel_pages(view).items()],
        "tape": view.fig("assumptions/error of a tape measure/value", "m") if "skins" in record else "",
    }


def _panel(view: View, path: str, one: PanelView) -> dict[str, Any]:
    """Return what is told of the screws that hold a panel: their longest, and whether the record is whole."""
    at = f"panels/{step(one.panel.name)}"
    screw_m = view.value(at).get("screw_length_m")
    return {
        "name": one.panel.name,
        "path": path,
        "held_by": one.panel.held_by,
        "whole": one.is_whole,
        "none_short": screw_m == 0,
        "screw": view.fig(f"{at}/screw_length_m") if screw_m else "",
    }


def _skin(view: View, entry: dict[str, Any]) -> dict[str, Any]:
    at = f"skins/{step(entry['name'])}"
    lines = enumerate(entry.get("wires_behind", []))
    return {
        "name": entry["name"],
        "where": view.trailer.geometry.skins[entry["name"]].where,
        "go": view.fig(f"{at}/fasteners_length_m"),
        "inside": entry["from"] == "inside",
        "on": ", ".join(entry.get("on", [])),
        "unclear": entry.get("unclear", ""),
        "lines": [_line(view, f"{at}/wires_behind/{number}", line) for number, line in lines],
    }


def _line(view: View, at: str, line: dict[str, Any]) -> dict[str, Any]:
    return {
        "chase": line["chase"],
        "start": line["from"],
        "end": line["to"],
        "wires": joined([wire_link(number) for number in line["wires"]]),
        "begins": view.fig(f"{at}/begins_length_m"),
        "ends": view.fig(f"{at}/ends_length_m"),
        "depth": view.fig(f"{at}/depth_length_m"),
        "left": view.fig(f"{at}/left_length_m") if "left_length_m" in line else "",
        "unsure": view.fig(f"{at}/unsure_length_m"),
        "reached": line["reached"],
        "hole": view.fig(f"{at}/round_hole_length_m") if "round_hole_length_m" in line else "",
        "plate": "plate_length_m" in line,
        "hinge": view.trailer.geometry.chases[line["chase"]].kind is ChaseKind.HINGE,
    }


def _hinge(view: View, entry: dict[str, Any]) -> dict[str, Any]:
    keys = ("length_m", "shut_length_m", "apart_at_most_length_m", "bend_length_m", "least_bend_length_m")
    at = f"hinges/{step(entry['name'])}"
    figures = {
        key.removesuffix("_m").removesuffix("_length"): view.fig(f"{at}/{key}") if key in entry else ""
        for key in keys
    }
    return {"name": entry["name"], "empty": entry.get("empty", False), **figures}
