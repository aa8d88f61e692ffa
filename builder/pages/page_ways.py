"""Where the wires run, for whoever wants to drill: wall by wall, by distances from edges that can be seen."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from builder.pages.page_fuses import wire_link
from builder.pages.page_panel import panel_pages
from builder.pages.record_ways import BETWEEN, EVERYWHERE, TONGUE
from builder.pages.view import View, joined, step
from builder.trailer.body import Wall
from builder.trailer.left import left_wires
from builder.trailer.places import ChaseKind

AREAS = (Wall.LEFT, Wall.RIGHT, Wall.ROOF, Wall.FRONT, Wall.REAR, Wall.FLOOR, BETWEEN, TONGUE)
"""The parts of a trailer in the order of its page; a wall stands there even where no wire is recorded behind it."""


def has_ways(view: View) -> bool:
    """Tell whether the build file has any chase."""
    return bool(view.trailer.geometry.chases)


def ways_page(view: View) -> dict[str, Any]:
    """Return what the template of the ways is filled with; `has_ways` tells whether there are any."""
    geometry = view.trailer.geometry
    ways: list[dict[str, Any]] = view.value("ways")
    found: dict[str, list[dict[str, Any]]] = {}
    for number, entry in enumerate(ways):
        for place, area in enumerate(entry["areas"]):
            found.setdefault(area["area"], []).append(_way(view, entry, (number, place)))
    areas = [str(area) for area in AREAS] if geometry.body is not None else [EVERYWHERE]
    return {
        "areas": [
            {"name": area, "ways": found.get(area, [])}
            for area in areas
            if found.get(area) or area not in (BETWEEN, TONGUE)
        ],
        "body": geometry.body is not None,
        "lined": any("linings" in way for way in ways),
        "hinged": any(chase.kind is ChaseKind.HINGE for chase in geometry.chases.values()),
        "tape": view.fig("assumptions/error of a tape measure/value", "m"),
        "loose": _loose(view),
        "blocks": _blocks(view),
        "wires": _wires(view),
        "unknown": joined([wire_link(number) for number in view.figures.runs.unknown]),
        "left": [wire.number for wire in left_wires(view.trailer)],
        "panels": [(f"{path}.html", one.panel.name) for path, one in panel_pages(view).items()],
        "mains": view.trailer.mains.what if view.trailer.mains is not None else "",
        "mains_in": [entry["mark"] for entry in ways if geometry.chases[entry["chase"]].holds_mains],
        "also": [
            (one.panel.name, one.panel.also_behind) for one in view.figures.panels if one.panel.also_behind
        ],
    }


def _way(view: View, entry: dict[str, Any], at: tuple[int, int]) -> dict[str, Any]:
    number, place = at
    chase = view.trailer.geometry.chases[entry["chase"]]
    spares = [wire for wire in entry["wires"] if wire in entry["spares"]]
    return {
        "mark": entry["mark"],
        "first": place == 0,
        "chase": entry["chase"],
        "kind": chase.kind.value,
        "where": chase.where,
        "places": [_place(view, name) for name in entry["places"]],
        "wires": joined([wire_link(wire) for wire in entry["wires"]]),
        "spares": ", ".join(spares),
        "mains": chase.holds_mains,
        "string": chase.fittings.pull_string,
        "keep": view.fig(f"ways/{number}/clear_length_m") if "clear_length_m" in entry else "",
        "depth": (
            view.fig(f"ways/{number}/areas/{place}/depth_length_m")
            if "depth_length_m" in entry["areas"][place]
            else ""
        ),
        "linings": [
            (one["skin"], view.fig(f"ways/{number}/linings/{n}/depth_length_m"))
            for n, one in enumerate(entry.get("linings", ()))
        ],
    }


def _place(view: View, name: str) -> dict[str, Any]:
    return {"name": name, "seen": _seen(view, f"places/{step(name)}")}


def _seen(view: View, at: str) -> list[dict[str, Any]]:
    """Return the distances from edges that can be seen of what the record has at a path."""
    return [
        {"of": "", **one, "far": view.fig(f"{at}/seen/{n}/far_length_m") if one["side"] != "at" else ""}
        for n, one in enumerate(view.value(at)["seen"])
    ]


def _blocks(view: View) -> list[dict[str, Any]]:
    """Return the backing blocks, those that lie in a body whose outline is known."""
    entries: list[dict[str, Any]] = view.value("blocks") if "blocks" in view.record else []
    return [_block(view, number) for number, entry in enumerate(entries) if "seen" in entry]


def _block(view: View, number: int) -> dict[str, Any]:
    path = f"blocks/{number}"
    entry = view.value(path)
    other = "long" if "long_length_m" in entry else "high"
    return {
        "name": entry["name"],
        "wall": entry["wall"],
        "holds": entry.get("holds", ""),
        "seen": _seen(view, path),
        "size": view.fig(f"{path}/width_length_m") + " × " + view.fig(f"{path}/{other}_length_m"),
        "thick": view.fig(f"{path}/thick_length_m") if "thick_length_m" in entry else "",
        "passed": "passed_by" in entry,
    }


def _loose(view: View) -> list[dict[str, Any]]:
    """Return the places round which wires lie off their ways, with the parts there and how far to keep off."""
    entries: list[dict[str, Any]] = view.value("loose") if "loose" in view.record else []
    return [
        {
            "place": _place(view, entry["place"]),
            "parts": [name for name in entry["parts"] if name != entry["place"]],
            "keep": view.fig(f"loose/{number}/clear_length_m"),
        }
        for number, entry in enumerate(entries)
    ]


def _wires(view: View) -> list[dict[str, Any]]:
    """Return every wire with the letters of the ways that it runs through, from its supply on."""
    marks = {
        (entry["chase"], frozenset(ends)): entry["mark"]
        for entry in view.value("ways")
        for ends in pairwise(entry["places"])
    }
    found = []
    for wire in (*view.trailer.wires, *view.trailer.spares):
        run = view.figures.runs.runs.get(wire.number)
        steps = run.steps if run is not None else ()
        letters = [marks[one.stretch.chase, frozenset((one.start, one.end))] for one in steps]
        found.append(
            {
                "number": wire_link(wire.number),
                "start": wire.start.part,
                "end": wire.end.part,
                "letters": [mark for n, mark in enumerate(letters) if n == 0 or letters[n - 1] != mark],
                "known": run is not None,
                "waiting": [
                    (end, view.trailer.parts[end].waiting)
                    for end in dict.fromkeys((wire.start.part, wire.end.part))
                    if wire in view.trailer.wires
                    and end in view.trailer.parts
                    and view.trailer.parts[end].waiting
                ],
            }
        )
    return found
