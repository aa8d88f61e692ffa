"""Where the wires run: each chase with its wires and how full it is, each wire with its way and its length."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.pages.leads_told import leads_told
from builder.pages.page_fasteners import has_covers
from builder.pages.page_fuses import wire_link
from builder.pages.view import View, joined, step
from builder.routes.fill import StretchFill
from builder.routes.network import Stretch
from builder.routes.runs import NoRun, Run
from builder.trailer.model import TOW_PLUG
from builder.trailer.places import Chase
from builder.trailer.wires import Wire

PARTS = ("way", "rise", "slack", "loop")
"""What the length of a wire is made of, in the order in which it is added up."""


def has_places(view: View) -> bool:
    """Tell whether the build file says where things are."""
    return bool(view.trailer.geometry)


def runs_page(view: View) -> dict[str, Any]:
    """Return what the template of the runs is filled with: chases with their stretches, wires, and what is unknown."""
    wires = [*view.trailer.wires, *view.trailer.spares]
    known = [wire for wire in wires if wire.number in view.figures.runs.runs]
    return {
        "drafts": view.drafts(),
        "fasteners": has_covers(view),
        "chases": [_chase(view, chase) for chase in view.trailer.geometry.chases.values()],
        "wires": [_wire(view, wire) for wire in known],
        "unknown": [_unknown(view, wire) for wire in wires if wire.number in view.figures.runs.unknown],
        "leads": leads_told(view, view.trailer.geometry.stands),
        "slack": any(view.figures.runs.runs[wire.number].slack_m > 0 for wire in known),
        "rise": any(view.figures.runs.runs[wire.number].rise_m > 0 for wire in known),
    }


def _chase(view: View, chase: Chase) -> dict[str, Any]:
    path = f"chases/{step(chase.name)}"
    fills = {one.stretch: one for one in view.figures.fills}
    return {
        "name": chase.name,
        "kind": chase.kind.value,
        "where": chase.where,
        "bore": view.fig(f"{path}/bore_length_m") if chase.bore_m is not None else "",
        "slack": view.fig(f"{path}/slack_length_m") if chase.slack_m else "",
        "cable": _holds_cable(view, chase),
        "string": chase.fittings.pull_string,
        "mains": chase.fittings.carries.value if chase.holds_mains else "",
        "stretches": [
            _stretch(view, Stretch(chase.name, number), f"{path}/stretches/{number}", fills)
            for number in range(len(chase.through) - 1)
        ],
    }


def _holds_cable(view: View, chase: Chase) -> bool:
    """Tell whether wires that begin at the tow plug lie in a chase: they may come in one cable with a jacket."""
    at_plug = {wire.number for wire in view.trailer.wires if TOW_PLUG in (wire.start.part, wire.end.part)}
    return any(
        not at_plug.isdisjoint(view.figures.runs.inside.get(Stretch(chase.name, number), ()))
        for number in range(len(chase.through) - 1)
    )


def _stretch(view: View, stretch: Stretch, path: str, fills: dict[Stretch, StretchFill]) -> dict[str, Any]:
    through = view.trailer.geometry.chases[stretch.chase].through
    wires = view.figures.runs.inside.get(stretch, ())
    made = fills.get(stretch)
    full = made is not None and made.fill_percent is not None
    return {
        "start": through[stretch.number],
        "end": through[stretch.number + 1],
        "length": view.fig(f"{path}/length_m"),
        "wires": joined([wire_link(number) for number in wires]),
        "twice": joined([wire_link(number) for number in view.figures.runs.twice(stretch)]),
        "count": len(view.figures.runs.laid(stretch)),
        "fill": view.fig(f"{path}/fill_percent", "%") if full else "",
        "limit": view.fig(f"{path}/limit_percent", "%") if full else "",
        "room": _room(view, path, made),
        "unsized": ", ".join(str(size) for size in made.unsized) if made is not None else "",
    }


def _room(view: View, path: str, made: StretchFill | None) -> list[tuple[Markup, str]]:
    """Return of each size of the shelf how many more go in: only those that do, the smallest first."""
    room = made.room if made is not None else ()
    return [
        (view.fig(f"{path}/room/{n}/more_wires"), str(size)) for n, (size, more) in enumerate(room) if more
    ]


def _wire(view: View, wire: Wire) -> dict[str, Any]:
    run: Run = view.figures.runs.runs[wire.number]
    path = f"{'spares' if wire in view.trailer.spares else 'wires'}/{step(wire.number)}/run"
    lengths = {"way": run.way_m, "rise": run.rise_m, "slack": run.slack_m, "loop": run.loop_m}
    names = [one.stretch.chase for one in run.steps]
    return {
        "number": wire_link(wire.number),
        "start": wire.start.part,
        "end": wire.end.part,
        "chases": [name for place, name in enumerate(names) if place == 0 or names[place - 1] != name],
        **{part: view.fig(f"{path}/{part}_length_m") if lengths[part] > 0 else Markup("–") for part in PARTS},
        "length": view.fig(f"{path}/run_length_m"),
        "written": (
            view.fig(path.removesuffix("run") + "length_m") if wire.length_source != "worked out" else ""
        ),
        "tail": view.fig(f"{path}/tail_length_m"),
        "cut": view.fig(f"{path}/cut_length_m"),
    }


def _unknown(view: View, wire: Wire) -> dict[str, Any]:
    missing: NoRun = view.figures.runs.unknown[wire.number]
    return {
        "number": wire_link(wire.number),
        "start": wire.start.part,
        "end": wire.end.part,
        "unplaced": missing.unplaced,
        "no_way": missing.no_way,
    }
