"""What is behind a panel: a page each, for whoever wants to hang something on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from markupsafe import Markup

from builder.drawings.panel_face import panel_face
from builder.drawings.plan_seen import marks_of, place_marks
from builder.pages.drawing_words import drawing_words
from builder.pages.escaping import slug, unique_slugs
from builder.pages.page_find import places_of
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
    marks = marks_of(view.trailer, view.figures), place_marks(view.trailer.geometry)
    made = {
        panel_picture(path): panel_face(one, path, words, units, marks)
        for path, one in panel_pages(view).items()
    }
    return {path: svg for path, svg in made.items() if svg}


def panel_page(view: View, path: str, one: PanelView) -> dict[str, Any]:
    """Return what the template of a panel is filled with."""
    at = f"panels/{step(one.panel.name)}"
    entry, marks = view.value(at), place_marks(view.trailer.geometry)
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
        "parts": [
            _part(view, marks, f"{at}/parts/{n}", part) for n, part in enumerate(entry.get("parts", ()))
        ],
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
    linked = [wire_link(name) if why in ("NO_RUN", "NO_FIT", "END") else name for name in names]
    return why, linked if listed else [], len(names)


def _ends(view: View, at: str, entry: dict[str, Any], which: str) -> list[dict[str, Any]]:
    """Return the distances from edges that an entry of the record has under a key."""
    return [edge | {"far": view.fig(f"{at}/{which}/{n}/far_length_m")} for n, edge in enumerate(entry[which])]


def _part(view: View, marks: Mapping[str, str], at: str, part: dict[str, Any]) -> dict[str, Any]:
    """Return one part that stands behind the panel: what it is, where, how deep, and how far its wires go on."""
    known = view.trailer.parts.get(part["name"])
    fixed = f"place-{slug(part['name'])}" if part["name"] in places_of(view.trailer) else ""
    place = view.part_ids[known.name] if known is not None else fixed
    return {
        "name": Markup('<a href="find.html#{}">{}</a>').format(place, part["name"])
        if place
        else part["name"],
        "number": marks[part["place"]],
        "kind": known.kind if known is not None else "",
        "waiting": bool(known is not None and known.waiting),
        "piece": part["piece"],
        "at": _ends(view, at, part, "at"),
        "depth": view.fig(f"{at}/depth_length_m"),
        "rise": view.fig(f"{at}/rise_length_m") if "rise_length_m" in part else "",
    }


def _line(view: View, at: str, line: dict[str, Any]) -> dict[str, Any]:
    return {
        "mark": line["mark"],
        "chase": line["chase"],
        "from": line["from"],
        "to": line["to"],
        "piece": line["piece"],
        "wires": joined([wire_link(number) for number in line["wires"]]),
        "start": _ends(view, at, line, "start"),
        "end": _ends(view, at, line, "end"),
        "depth": view.fig(f"{at}/depth_length_m"),
        "each_side": view.fig(f"{at}/each_side_length_m") if "each_side_length_m" in line else "",
        "screw": view.fig(f"{at}/screw_length_m") if line.get("screw_length_m") else "",
    }
