"""The versioned record: every figure and finding under the keys of its shape, ready for JSON.

A key that this version does not compute is left out; nothing is null and nothing is guessed.
"""

from __future__ import annotations

import json
from collections.abc import Sequence

from builder.electrics.charging import ChargingFigures
from builder.electrics.figures import (
    SHAPE_VERSION,
    CircuitFigures,
    EnergyFigures,
    Figures,
    FuseFigures,
    HeadroomFigures,
    KindFigures,
    LoadFigures,
    PlugContactFigures,
    SupplyFigures,
    SwitchFigures,
    WireFigures,
)
from builder.guide.making import guides
from builder.guide.model import Guide
from builder.lists.making import Lists, make_lists
from builder.pages.record_changes import change_entries
from builder.pages.record_closing import closing_entries
from builder.pages.record_covers import cover_entries
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
from builder.pages.record_places import geometry_entries, run_entry
from builder.routes.runs import Runs
from builder.rules.finding import Finding
from builder.trailer.model import FRONT_BOX, Assumption, Trailer
from builder.trailer.wires import Wire

Json = dict[str, object]


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
        "wires": [_wire(wire, figures.wires[wire.number], figures.runs) for wire in trailer.wires],
        "circuits": [_circuit(trailer, figures.circuits[c.number]) for c in trailer.circuits],
        "fuses": [_fuse(fuse) for fuse in figures.fuses],
        "switches": [_switch(one) for one in figures.switches],
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
        "spares": [_spare(wire, figures.runs) for wire in trailer.spares],
        "headroom": [_headroom(one) for one in figures.headroom],
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
    made |= change_entries(trailer, figures)
    made |= option_entries(trailer, figures)
    if figures.lamps_required is not None:
        made["lamps_required"] = lamps_required_entries(figures.lamps_required)
    if figures.brakes is not None:
        made["brakes"] = brakes_entry(figures.brakes)
    if figures.energy is not None:
        made["energy"] = _energy(figures.energy)
    return made


def _switch(one: SwitchFigures) -> Json:
    return {
        "name": one.name,
        "circuit": one.circuit,
        "load_a": one.load_a,
        "least_rating_a": one.least_rating_a,
    }


def _supply(one: SupplyFigures) -> Json:
    return {
        "name": one.name,
        "nominal_v": one.nominal_v,
        "lowest_v": one.lowest_v,
        "current_a": one.current_a,
    }


def _contact(one: PlugContactFigures) -> Json:
    return _without_none(
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


def _without_none(items: Json) -> Json:
    return {key: value for key, value in items.items() if value is not None and value != ""}


def _identity(trailer: Trailer) -> Json:
    one = trailer.identity
    return _without_none(
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


def _wire(wire: Wire, figures: WireFigures, runs: Runs) -> Json:
    return _without_none(
        {
            "number": wire.number,
            "draft": wire.draft,
            "circuit": wire.circuit,
            "role": wire.role.value,
            "from": {"part": wire.start.part, "terminal": wire.start.pin},
            "to": {"part": wire.end.part, "terminal": wire.end.pin},
            "color": wire.color.base,
            "tracer": wire.color.tracer,
            "size": str(figures.size),
            "size_given": figures.size_given,
            "area_mm2": figures.area_mm2,
            "length_m": wire.length_m,
            "length_source": wire.length_source,
            "resistance_ohm": figures.resistance_ohm,
            "temperature_c": figures.temperature_c,
            "resistance_source": figures.resistance_source,
            "current_a": figures.current_a,
            "ampacity_a": figures.ampacity_a,
            "ampacity_source": figures.ampacity_source,
            "drop_v": figures.drop_v,
            "bundle": figures.bundle,
            "run": run_entry(runs, wire.number),
            "line": wire.origin.line,
        }
    )


def _circuit(trailer: Trailer, figures: CircuitFigures) -> Json:
    circuit = trailer.circuit(figures.number)
    choice = figures.size
    pencil = choice.pencil
    return _without_none(
        {
            "number": circuit.number,
            "draft": circuit.draft,
            "name": circuit.name,
            "kind": circuit.kind.value,
            "way": circuit.way,
            "contact": circuit.contact if circuit.start.pin.isdigit() else circuit.start.pin,
            "load_current_a": figures.load_current_a,
            "starting_current_a": figures.starting_current_a,
            "size": _without_none(
                {
                    "chosen": str(choice.chosen),
                    "smallest_that_fits": str(choice.smallest),
                    "reason": choice.reason,
                    "fits": choice.fits,
                    "aim_v": choice.aim_v,
                    "worst_drop_v": choice.worst_drop_v,
                    "next_smaller": str(choice.next_smaller) if choice.next_smaller else None,
                    "next_smaller_drop_v": choice.next_smaller_drop_v,
                    "hand_formula": _without_none(
                        {
                            "formula": pencil.formula,
                            "constant": pencil.constant,
                            "current_a": pencil.current_a,
                            "length": pencil.length,
                            "length_unit": pencil.length_unit,
                            "area": pencil.area,
                            "area_unit": pencil.area_unit,
                            "size": str(pencil.size) if pencil.size else None,
                        }
                    ),
                    "hand_formula_differs": choice.pencil_differs,
                }
            ),
            "fuse": figures.fuse.name if figures.fuse else None,
            "fuse_a": figures.fuse.rating_a if figures.fuse else None,
            "fuse_reason": figures.fuse.reason if figures.fuse else None,
            "drop_v": figures.worst_drop_v,
            "drop_percent": figures.worst_drop_percent,
            "loads": [_load(load) for load in figures.loads],
            "line": circuit.origin.line,
        }
    )


def _load(load: LoadFigures) -> Json:
    return _without_none(
        {
            "part": load.load.part,
            "what": load.load.what,
            "supply": load.load.section,
            "law": load.load.draw.law.value if load.load.draw else "",
            "plus": {"part": load.load.plus.part, "terminal": load.load.plus.pin},
            "minus": {"part": load.load.minus.part, "terminal": load.load.minus.pin},
            "current_a": load.current_a,
            "starting_current_a": load.starting_a,
            "drop_v": load.drop_v,
            "circuit_drop_v": load.circuit_drop_v,
            "drop_percent": load.drop_percent,
            "advice_percent": load.advice_percent,
            "lowest_supply_v": load.lowest_v,
            "left_v": load.left_v,
            "works_from_v": load.works_from_v,
            "steps": [
                {
                    "wire": step.wire,
                    "resistance_ohm": step.resistance_ohm,
                    "current_a": step.current_a,
                    "drop_v": step.drop_v,
                }
                for step in load.steps
            ],
        }
    )


def _fuse(fuse: FuseFigures) -> Json:
    return _without_none(
        {
            "name": fuse.name,
            "circuit": fuse.circuit,
            "way": fuse.way,
            "device": fuse.device,
            "series": fuse.series,
            "rating_a": fuse.rating_a,
            "given": fuse.given,
            "reason": fuse.reason,
            "color": fuse.color,
            "load_a": fuse.load_a,
            "starting_a": fuse.starting_a,
            "needed_a": fuse.needed_a,
            "thinnest_wire": fuse.thinnest_wire,
            "thinnest_size": str(fuse.thinnest),
            "ceiling_a": fuse.ceiling_a,
            "ceiling_source": fuse.ceiling_source,
            "ceiling_known": fuse.ceiling_known,
            "choice_ceiling_a": fuse.choice_ceiling_a,
            "choice_source": fuse.choice_source,
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


def _headroom(one: HeadroomFigures) -> Json:
    return _without_none(
        {
            "circuit": one.circuit,
            "part": one.part,
            "fuse_w": one.fuse_w,
            "wire_w": one.wire_w,
            "drop_w": one.drop_w,
            "switch_w": one.switch_w,
            "left_w": one.left_w,
            "limit": one.limit,
            "fuse": one.fuse,
            "wire": one.wire,
            "switch": one.switch or None,
        }
    )


def _spare(wire: Wire, runs: Runs) -> Json:
    return _without_none(
        {
            "number": wire.number,
            "draft": wire.draft,
            "name": wire.start.pin,
            "from": wire.start.part,
            "to": wire.end.part,
            "where": wire.where or None,
            "length_m": wire.length_m,
            "length_source": wire.length_source,
            "size": str(wire.size),
            "color": str(wire.color),
            "run": run_entry(runs, wire.number),
            "line": wire.origin.line,
        }
    )


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
    return _without_none(
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


def _energy(energy: EnergyFigures) -> Json:
    return {
        "capacity_ah": energy.capacity_ah,
        "usable_ah": energy.usable_ah,
        "idle_a": energy.idle_a,
        "idle_range_a": list(energy.idle_range_a),
        "idle_parts": list(energy.idle_parts),
        "off_a": energy.off_a,
        "off_range_a": list(energy.off_range_a),
        "off_parts": list(energy.off_parts),
        "weeks_to_half": list(energy.weeks_to_half),
        "weeks_to_half_off": list(energy.weeks_to_half_off),
        "day_ah": list(energy.day_ah),
        "nights": list(energy.nights),
        "waiting": list(energy.waiting),
        "day": [
            {
                "part": day.part,
                "current_a": day.current_a,
                "hours": list(day.hours),
                "use_ah": list(day.use_ah),
            }
            for day in energy.days
        ],
        "drains": [
            {"part": one.part, "circuit": one.circuit, "current_a": one.current_a, "stays": one.stays}
            for one in energy.drains
        ],
        "charging": [_charging(one) for one in energy.charging],
        "kind": _kind(energy.kind),
    }


def _charging(one: ChargingFigures) -> Json:
    return _without_none(
        {
            "circuit": one.circuit,
            "supply": one.supply,
            "source": one.source,
            "charger": one.charger,
            "into_box": one.into_box,
            "current_a": list(one.current_a),
            "hours_h": list(one.hours) if one.hours else None,
            "sun_day_ah": list(one.day_ah) if one.day_ah else None,
            "days": list(one.days) if one.days else None,
        }
    )


def _kind(kind: KindFigures) -> Json:
    return _without_none(
        {
            "rest": [{"percent": percent, "rest_v": volts} for percent, volts in kind.rest],
            "unsure_percent": kind.unsure_percent,
            "cold_percent": kind.cold_percent,
            "freezing": [{"percent": percent, "temperature_c": c} for percent, c in kind.freezes],
            "charge_from_temperature_c": list(kind.charge_from_c) if kind.charge_from_c else None,
            "charger_a": list(kind.charger_a) if kind.charger_a else None,
            "store_months": kind.store_months,
        }
    )
