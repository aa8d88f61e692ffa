"""The record's places, chases and runs: what is there only where the file says where things are."""

from __future__ import annotations

from builder.electrics.figures import Figures
from builder.pages.json_entries import Json
from builder.pages.record_blocks import block_entries, landmark_entry, point_entry
from builder.pages.record_ways import loose_entries, way_entries
from builder.routes.fill import StretchFill
from builder.routes.landmarks import landmarks
from builder.routes.network import Stretch, lengths_of
from builder.routes.runs import Runs
from builder.trailer.model import Trailer
from builder.trailer.places import Chase


def geometry_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return the places and chases of a trailer under their keys; nothing where its file has no places."""
    geometry = trailer.geometry
    blocks = block_entries(trailer, figures)
    if not geometry:
        return blocks
    fills = {one.stretch: one for one in figures.fills}
    return (
        {
            "places": [
                {
                    "name": place.name,
                    "back_length_m": place.back_m,
                    "right_length_m": place.right_m,
                    "up_length_m": place.up_m,
                    "at": point_entry(place.point_m),
                    "seen": [landmark_entry(one) for one in landmarks(geometry, place)],
                    "line": place.origin.line,
                }
                for place in geometry.places.values()
            ],
            "chases": [_chase(trailer, figures, chase, fills) for chase in geometry.chases.values()],
            "ways": way_entries(trailer, figures),
            **loose_entries(trailer, figures),
        }
        | _stands(trailer)
        | blocks
    )


def _stands(trailer: Trailer) -> Json:
    """Return the parts whose wires end at a side of an opening, with the way there and their own leads."""
    found = [
        {"name": name, "opening": stand.opening, "side": stand.side, "lead_length_m": stand.lead_m}
        | ({"own_leads_length_m": leads_m} if (leads_m := trailer.parts[name].lead_length_m) else {})
        for name, stand in trailer.geometry.stands.items()
        if stand.side and name in trailer.parts
    ]
    return {"stands": found} if found else {}


def _chase(trailer: Trailer, figures: Figures, chase: Chase, fills: dict[Stretch, StretchFill]) -> Json:
    stretches = []
    for number, (start, end, length_m) in enumerate(lengths_of(trailer.geometry, chase)):
        stretch = Stretch(chase.name, number)
        entry: Json = {
            "from": start,
            "to": end,
            "length_m": length_m,
            "wires": list(figures.runs.inside.get(stretch, ())),
        }
        if twice := figures.runs.twice(stretch):
            entry["wires_twice"] = list(twice)
        stretches.append(entry | (_fill(fills[stretch]) if stretch in fills else {}))
    whole_m = sum(length_m for _, _, length_m in lengths_of(trailer.geometry, chase))
    made: Json = {
        "name": chase.name,
        "kind": chase.kind.value,
        "whole_length_m": whole_m,
        "stretches": stretches,
    }
    if chase.bore_m is not None:
        made["bore_length_m"] = chase.bore_m
    if chase.slack_m:
        made["slack_length_m"] = chase.slack_m
    if chase.where:
        made["where"] = chase.where
    return made | {"line": chase.origin.line}


def _fill(one: StretchFill) -> Json:
    made = {
        "fill_percent": one.fill_percent,
        "limit_percent": one.limit_percent,
        "limit_source": one.limit_source,
        "bore_over_diameter": one.ratio,
        "more_wires": one.more,
        "more_of": str(one.more_of) if one.more_of else None,
    }
    found: Json = {key: value for key, value in made.items() if value is not None}
    if one.room:
        found["room"] = [{"size": str(size), "more_wires": more} for size, more in one.room]
    if one.unsized:
        found["without_diameter"] = [str(size) for size in one.unsized]
    return found


def run_entry(runs: Runs, wire: str) -> Json | None:
    """Return where a wire runs and what its length is made of; None where that is not known."""
    run = runs.runs.get(wire)
    if run is None:
        return None
    return {
        "way_length_m": run.way_m,
        "rise_length_m": run.rise_m,
        "slack_length_m": run.slack_m,
        "loop_length_m": run.loop_m,
        "run_length_m": run.length_m,
        "tail_length_m": run.tail_m,
        "cut_length_m": run.cut_m,
        "steps": [
            {"chase": step.stretch.chase, "from": step.start, "to": step.end, "length_m": step.length_m}
            for step in run.steps
        ],
    }
