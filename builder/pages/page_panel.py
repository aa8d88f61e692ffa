"""What is behind a panel: a page each, for whoever wants to hang something on it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from builder.drawings.panel_face import panel_face
from builder.drawings.plan_seen import marks_of
from builder.pages.drawing_words import drawing_words
from builder.pages.escaping import unique_slugs
from builder.pages.page_fuses import wire_link
from builder.pages.view import View, joined, step
from builder.quantities.showing import System
from builder.routes.panels import Open, PanelView


def panel_pages(view: View) -> dict[str, PanelView]:
    """Return the panels by the addresses of their pages, without the ending."""
    slugs = unique_slugs([one.panel.name for one in view.figures.panels], "panel-")
    return {slugs[one.panel.name]: one for one in view.figures.panels}


def panel_picture(path: str) -> str:
    """Return the path of a panel's picture, by the address of its page."""
    return f"pictures/{path}.svg"


def panel_files(view: View) -> dict[str, str]:
    """Return the pictures of all panels by path; none of a panel that is not one flat piece."""
    words = drawing_words(view.language)
    units: System = "metric" if view.trailer.identity.units == "metric" else "feet"
    marks = marks_of(view.trailer, view.figures)
    made = {
        panel_picture(path): panel_face(one, path, words, units, marks)
        for path, one in panel_pages(view).items()
    }
    return {path: svg for path, svg in made.items() if svg}


def panel_page(view: View, path: str, one: PanelView) -> dict[str, Any]:
    """Return what the template of a panel is filled with."""
    at = f"panels/{step(one.panel.name)}"
    entry = view.value(at)
    return {
        "name": one.panel.name,
        "where": one.panel.where,
        "held_by": one.panel.held_by,
        "outside": bool(one.panel.outside),
        "whole": one.is_whole,
        "pieces": len(one.faces),
        "none_short": entry.get("screw_length_m") == 0,
        "screw": view.fig(f"{at}/screw_length_m") if "screw_length_m" in entry else "",
        "missing": [_missing(view, why.name, names) for why, names in one.missing],
        "behind": [_line(view, f"{at}/behind/{n}", line) for n, line in enumerate(entry["behind"])],
        "tape": view.fig("assumptions/error of a tape measure/value", "m"),
        "loose": bool(view.record.get("loose")),
        "mains_here": any(why is Open.MAINS_HERE for why, _ in one.missing),
        "also_nothing": one.panel.also_behind == "",
        "picture": panel_picture(path) if len(one.faces) == 1 else "",
    }


MOST_NAMED = 4
"""So many wires are named to an owner; of more, the workshop edition has the list."""


def _missing(view: View, why: str, names: Sequence[str]) -> tuple[str, list[Any], int]:
    """Return a reason with the names concerned, none of many wires for an owner, and how many there are."""
    of_wires = why in ("NO_RUN", "NO_FIT", "LEFT")
    listed = view.edition.reads() or not of_wires or len(names) <= MOST_NAMED
    linked = [wire_link(name) if why in ("NO_RUN", "NO_FIT") else name for name in names]
    return why, linked if listed else [], len(names)


def _line(view: View, at: str, line: dict[str, Any]) -> dict[str, Any]:
    def ends(which: str) -> list[dict[str, Any]]:
        return [
            edge | {"far": view.fig(f"{at}/{which}/{n}/far_length_m")} for n, edge in enumerate(line[which])
        ]

    return {
        "mark": line["mark"],
        "chase": line["chase"],
        "from": line["from"],
        "to": line["to"],
        "piece": line["piece"],
        "wires": joined([wire_link(number) for number in line["wires"]]),
        "start": ends("start"),
        "end": ends("end"),
        "depth": view.fig(f"{at}/depth_length_m"),
        "each_side": view.fig(f"{at}/each_side_length_m") if "each_side_length_m" in line else "",
        "screw": view.fig(f"{at}/screw_length_m") if line.get("screw_length_m") else "",
    }
