"""Wires, circuits, fuses and what may be added, as entries of the record."""

from __future__ import annotations

from builder.electrics.figures import (
    CircuitFigures,
    FuseFigures,
    HeadroomFigures,
    LoadFigures,
    SwitchFigures,
    WireFigures,
)
from builder.pages.json_entries import Json, terminal_entry, without_none
from builder.pages.record_places import run_entry
from builder.routes.runs import Runs
from builder.trailer.model import Trailer
from builder.trailer.wires import Wire


def wire_entry(wire: Wire, figures: WireFigures, runs: Runs) -> Json:
    """Return a wire with its figures and its way."""
    return without_none(
        {
            "number": wire.number,
            "draft": wire.draft,
            "circuit": wire.circuit,
            "role": wire.role.value,
            "from": terminal_entry(wire.start),
            "to": terminal_entry(wire.end),
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


def circuit_entry(trailer: Trailer, figures: CircuitFigures) -> Json:
    """Return a circuit with its loads and how its size was chosen."""
    circuit = trailer.circuit(figures.number)
    choice = figures.size
    pencil = choice.pencil
    return without_none(
        {
            "number": circuit.number,
            "draft": circuit.draft,
            "name": circuit.name,
            "kind": circuit.kind.value,
            "way": circuit.way,
            "contact": circuit.contact if circuit.start.pin.isdigit() else circuit.start.pin,
            "load_current_a": figures.load_current_a,
            "starting_current_a": figures.starting_current_a,
            "size": without_none(
                {
                    "chosen": str(choice.chosen),
                    "smallest_that_fits": str(choice.smallest),
                    "reason": choice.reason,
                    "fits": choice.fits,
                    "aim_v": choice.aim_v,
                    "worst_drop_v": choice.worst_drop_v,
                    "next_smaller": str(choice.next_smaller) if choice.next_smaller else None,
                    "next_smaller_drop_v": choice.next_smaller_drop_v,
                    "hand_formula": without_none(
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
    return without_none(
        {
            "part": load.load.part,
            "what": load.load.what,
            "supply": load.load.section,
            "law": load.load.draw.law.value if load.load.draw else "",
            "plus": terminal_entry(load.load.plus),
            "minus": terminal_entry(load.load.minus),
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


def fuse_entry(fuse: FuseFigures) -> Json:
    """Return a fuse or breaker with its choice."""
    return without_none(
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


def switch_entry(one: SwitchFigures) -> Json:
    """Return a switch with what it carries."""
    return {
        "name": one.name,
        "circuit": one.circuit,
        "load_a": one.load_a,
        "least_rating_a": one.least_rating_a,
    }


def headroom_entry(one: HeadroomFigures) -> Json:
    """Return what may still be added to a circuit."""
    return without_none(
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


def spare_entry(wire: Wire, runs: Runs) -> Json:
    """Return a spare wire with its way."""
    return without_none(
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
