"""The versioned record: every figure and finding under the keys of its shape, ready for JSON.

A key that this version does not compute is left out; nothing is null and nothing is guessed.
"""

from __future__ import annotations

import json
from collections.abc import Sequence

from builder.electrics.figures import (
    SHAPE_VERSION,
    Figures,
    PlugContactFigures,
    SupplyFigures,
)
from builder.guide.making import guides
from builder.guide.model import Guide
from builder.lists.making import Lists, make_lists
from builder.pages.json_entries import Json, without_none
from builder.pages.record_changes import change_entries
from builder.pages.record_circuits import (
    circuit_entry,
    fuse_entry,
    headroom_entry,
    spare_entry,
    switch_entry,
    wire_entry,
)
from builder.pages.record_closing import closing_entries
from builder.pages.record_covers import cover_entries
from builder.pages.record_energy import energy_entry
from builder.pages.record_entries import entry_entries
from builder.pages.record_guide import guide_entries
from builder.pages.record_laid import laid_entries
from builder.pages.record_lamps import (
    brakes_entry,
    contact_key,
    lamps_required_entries,
    plug_feed_entries,
    plug_ground_entries,
    plug_state_entries,
    road_lamp_entries,
)
from builder.pages.record_lists import lists_record
from builder.pages.record_options import option_entries
from builder.pages.record_places import geometry_entries
from builder.pages.record_stubs import plug_entries, stub_entries
from builder.rules.finding import Finding
from builder.trailer.model import FRONT_BOX, Assumption, Trailer


def record(
    trailer: Trailer,
    figures: Figures,
    findings: Sequence[Finding],
    guide: Sequence[Guide] | None = None,
    lists: Lists | None = None,
) -> Json:
    """Return the record of a build; its keys end in their unit.

    ``guide`` and ``lists`` are its guides and the workshop's lists, made here where the caller has not got them.
    """
    made: Json = {
        "shape": SHAPE_VERSION,
        "build": _identity(trailer),
        "wires": [wire_entry(wire, figures.wires[wire.number], figures.runs) for wire in trailer.wires],
        "circuits": [circuit_entry(trailer, figures.circuits[c.number]) for c in trailer.circuits],
        "fuses": [fuse_entry(fuse) for fuse in figures.fuses],
        "switches": [switch_entry(one) for one in figures.switches],
        "kept_sizes": [
            {"number": one.number, "size": str(one.size), "today_size": str(one.today)}
            for one in figures.kept_sizes
        ],
        "carried": [{"part": one.part, "current_a": one.current_a} for one in figures.carried],
        "supplies": [_supply(one) for one in figures.supplies],
        "boxes": _boxes(trailer, figures),
        "plug": [_contact(one) for one in figures.plug],
        "plug_states": plug_state_entries(figures.plug_states),
        "plug_grounds": plug_ground_entries(figures.plug_grounds),
        "plug_feeds": plug_feed_entries(figures.plug_feeds),
        "road_lamps": road_lamp_entries(trailer),
        "spares": [spare_entry(wire, figures.runs) for wire in trailer.spares],
        "headroom": [headroom_entry(one) for one in figures.headroom],
        "new_fuses": [{"rating_a": one.rating_a, "size": str(one.size)} for one in figures.new_fuses],
        **lists_record(lists or make_lists(trailer, figures)),
        "assumptions": [_assumption(made) for made in figures.assumptions],
        "findings": findings_record(findings),
        "guide": guide_entries(guides(trailer, figures) if guide is None else guide),
    }
    if trailer.shelf.label_m is not None:
        made["label_length_m"] = trailer.shelf.label_m
    made |= geometry_entries(trailer, figures)
    made |= entry_entries(trailer, figures)
    made |= laid_entries(trailer, figures)
    made |= cover_entries(trailer, figures)
    made |= closing_entries(trailer, figures)
    made |= stub_entries(trailer, figures)
    made |= plug_entries(trailer, figures)
    made |= change_entries(trailer, figures)
    made |= option_entries(trailer, figures)
    if figures.lamps_required is not None:
        made["lamps_required"] = lamps_required_entries(figures.lamps_required)
    if figures.brakes is not None:
        made["brakes"] = brakes_entry(figures.brakes)
    if figures.energy is not None:
        made["energy"] = energy_entry(figures.energy)
    return made


def _supply(one: SupplyFigures) -> Json:
    return {
        "name": one.name,
        "nominal_v": one.nominal_v,
        "lowest_v": one.lowest_v,
        "current_a": one.current_a,
    }


def _contact(one: PlugContactFigures) -> Json:
    return without_none(
        {
            "contact": contact_key(one.pin),
            "function": one.function,
            "color": one.color,
            "current_a": one.current_a,
            "circuit": one.circuit,
            "known": one.known,
        }
    )


def findings_record(findings: Sequence[Finding]) -> list[Json]:
    """Return the findings as the record has them."""
    return [_finding(finding) for finding in findings]


def to_text(made: Json) -> str:
    """Return the record as JSON text: the same record gives the same bytes."""
    return json.dumps(made, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def _identity(trailer: Trailer) -> Json:
    one = trailer.identity
    return without_none(
        {
            "name": one.name,
            "number": one.number,
            "country": one.country,
            "stage": one.stage,
            "units": one.units,
            "paper": one.paper,
            "length_m": one.length_m,
            "width_m": one.width_m,
            "gross_mass_kg": one.gross_mass_kg,
            "width_over_fenders_m": one.width_over_fenders_m,
        }
    )


def _boxes(trailer: Trailer, figures: Figures) -> list[Json]:
    """Return every box and part with the wires that land on each of its terminals, the front box first."""
    names = list(dict.fromkeys(landing.part for landing in figures.landings))
    names.sort(key=lambda name: (name != FRONT_BOX, name))
    where = trailer.front_box.where if trailer.front_box else ""
    return [
        {
            "name": name,
            **({"where": where} if where and name == FRONT_BOX else {}),
            "terminals": [
                {"terminal": at.pin, "place": at.place, "wires": list(at.wires), "splice": at.splice}
                for at in figures.landings
                if at.part == name
            ],
        }
        for name in names
    ]


def _assumption(made: Assumption) -> Json:
    return {
        "id": made.id,
        "about": made.about,
        "value": made.value,
        "unit": made.unit,
        "low": made.low,
        "high": made.high,
        "reason": made.reason,
        "known": made.known,
        "replaced": made.replaced,
    }


def _finding(finding: Finding) -> Json:
    return without_none(
        {
            "level": finding.level.value,
            "rule": finding.rule,
            "line": finding.origin.line,
            "column": finding.origin.column,
            "length": finding.origin.length,
            "message": finding.message,
            "help": finding.help,
            "basis": finding.basis,
            "known": finding.known,
            "circuit": finding.circuit,
        }
    )
