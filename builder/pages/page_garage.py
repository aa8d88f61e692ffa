"""A page for the garage: the plug, what its contacts carry, and what whoever works on car or plug has to know."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from builder.electrics.adapters import other_sockets
from builder.electrics.plug_grounds import PlugGround
from builder.electrics.plug_states import ContactState
from builder.electrics.ways_back import grounds_met
from builder.pages.colour_clashes import colour_clashes, other_cores
from builder.pages.page_fuses import circuit_anchor, wire_link
from builder.pages.page_towing import mark_of, marked, numbering, supplies_told, swaps_told
from builder.pages.plug_doubts import doubts_told
from builder.pages.plug_fuses import plug_fuses, too_large
from builder.pages.view import View
from builder.tables.brakes import brake_rules
from builder.tables.tow_plugs import PRACTICE, PlugContact
from builder.trailer.model import TOW_PLUG, TowPlug
from builder.trailer.parts import Terminal
from builder.trailer.plug_functions import functions_here

MEASURED = ("battery", "switched supply", "brake", "reverse")
"""Contacts that a meter is put on in the car's socket, and that nobody feeds, where no road lamp hangs on them."""


def garage_page(view: View) -> dict[str, Any]:
    """Return what the template of the page for a garage is filled with."""
    plug = view.trailer.tow_plug
    if plug is None:
        raise ValueError("without a tow plug there is no such page")
    states = {state.pin: state for state in view.figures.plug_states}
    met = grounds_met(view.trailer)
    fuses = plug_fuses(view)
    return {
        "pattern": plug.pattern.name,
        "standard": plug.pattern.standard,
        "practice": plug.pattern.standard == PRACTICE,
        **numbering(plug.pattern),
        "where": plug.kept,
        "second": plug.second.pattern.name if plug.second else "",
        "contacts": [_for_garage(view, one, states.get(one.pin)) for one in plug.pattern.contacts],
        "clashes": colour_clashes(view),
        "charger": _has_charger(view),
        "grounds": [_ground(view, plug, one) for one in view.figures.plug_grounds],
        "has_habit": any(one.other_base for one in plug.pattern.contacts),
        "no_fuses": _no_fuses(plug),
        "apart": sum(one.is_ground for one in plug.pattern.contacts) > 1,
        "met": [f"{plug.said(one)}, {plug.said(other)}" for one, other, through in met if not through],
        "inside": [
            {"one": plug.said(one), "other": plug.said(other), "charger": ", ".join(through)}
            for one, other, through in met
            if through
        ],
        "fuses": {one.said: fuses.get(one.pin) for one in plug.pattern.contacts},
        "too_large": too_large(view),
        "other_cores": other_cores(view),
        "swaps": swaps_told(view),
        "supplies": supplies_told(view),
        "doubts": doubts_told(view),
        "measured": [
            _measured(view, one) for one in plug.pattern.contacts if _is_measured(view, one, states)
        ],
        "sockets": other_sockets(view.trailer),
        "brakes": _brakes(view),
        "surge": view.trailer.brakes is not None and view.trailer.brakes.kind == "surge",
        "weight": _weight(view),
        "brake_rules": brake_rules(view.trailer.identity.country),
    }


def _is_measured(view: View, contact: PlugContact, states: Mapping[str, ContactState]) -> bool:
    """Tell whether a contact in use is read by itself: it feeds no road lamp, or cars have different things there."""
    if contact.pin not in states:
        return False
    here = set(functions_here(view.trailer, contact)[0])
    lamps = any(at == contact.pin for lamp in view.trailer.road_lamps for _, at in lamp.contacts)
    return bool(here.intersection(MEASURED)) and (not lamps or bool(_instead(view, contact)))


def _instead(view: View, contact: PlugContact) -> tuple[str, ...]:
    """Return what else some cars have on a contact; nothing where it is for the same in every car."""
    told = (one["instead"] for one in doubts_told(view) if one["number"] == contact.said)
    return next(told, ())


def _measured(view: View, contact: PlugContact) -> dict[str, Any]:
    """Return a row: what is measured at the car's socket on a contact by itself, against its ground."""
    plug = view.trailer.tow_plug
    return {
        "contact": marked(contact),
        "functions": functions_here(view.trailer, contact)[0],
        "instead": _instead(view, contact),
        "ground": marked(plug.pattern.ground_of(contact)) if plug else "",
    }


def _no_fuses(plug: TowPlug) -> str:
    """Return the plug of which no usual fuse in a car is known: ``all`` where it is the only one, else its name."""
    halves: dict[str, list[PlugContact]] = {}
    for one in plug.pattern.contacts:
        if not one.is_ground:
            halves.setdefault(one.plug or one.first, []).append(one)
    without = [name for name, contacts in halves.items() if not any(one.car_fuse_a for one in contacts)]
    return "" if not without else "all" if len(without) == len(halves) else ", ".join(without)


def _has_charger(view: View) -> bool:
    """Tell whether the car feeds a charger, whose plug side and battery side have currents of their own."""
    return any(
        load.load.charged_from in view.trailer.parts
        for circuit in view.trailer.circuits
        if circuit.start.part == TOW_PLUG
        for load in view.figures.circuits[circuit.number].loads
    )


def _ground(view: View, plug: TowPlug, one: PlugGround) -> dict[str, Any]:
    """Return a row: what comes back to a ground contact in each state of the car, and what its conductor loses."""
    path = f"plug_grounds/{one.pin}"
    states = [state.replace(" ", "_") for state in one.amps]
    return {
        "number": plug.said(one.pin),
        "serves": ", ".join(plug.said(pin) for pin in one.serves),
        "amps": [view.fig(f"{path}/{state}_a", "A") for state in states],
        "drops": [view.fig(f"{path}/{state}_v", "V") for state in states] if one.size else [],
        "size": str(one.size) if one.size else "",
        "bears": view.fig(f"{path}/bears_a", "A") if one.size else "",
        "fuse": view.fig(f"{path}/largest_fuse_a", "A") if one.largest_fuse_a is not None else "",
    }


def _weight(view: View) -> Any:
    """Return what the trailer may weigh in pounds or kilograms, by the build's units; empty where no file says."""
    return view.fig("build/gross_mass_kg", "kg") if view.trailer.identity.gross_mass_kg is not None else ""


def _for_garage(view: View, contact: PlugContact, state: ContactState | None) -> dict[str, Any]:
    here = Terminal(TOW_PLUG, contact.pin)
    wires = [wire for wire in view.trailer.wires if here in (wire.start, wire.end)]
    path = f"plug_states/{contact.pin}"
    return {
        "number": contact.said,
        "label": mark_of(contact),
        "functions": functions_here(view.trailer, contact)[0],
        "also": functions_here(view.trailer, contact)[1],
        "ground": contact.is_ground,
        "wires": [
            (wire_link(wire.number), view.wire_chip(wire.color, str(view.figures.wires[wire.number].size)))
            for wire in wires
        ],
        "lights": view.fig(f"{path}/lights_a", "A") if state else "",
        "braking": view.fig(f"{path}/brake_and_left_turn_a", "A") if state else "",
        "everything": view.fig(f"{path}/everything_a", "A") if state else "",
        "fuse": contact.car_fuse_a,
        "base": contact.base,
        "tracer": contact.tracer,
        "habit": contact.other_base,
    }


def _brakes(view: View) -> dict[str, Any]:
    brakes, found = view.trailer.brakes, view.figures.brakes
    if brakes is None or found is None:
        return {}
    return {
        "drum": brakes.drum,
        "magnets": brakes.magnets,
        "current": view.fig("brakes/current_a", "A"),
        "typical": view.fig("brakes/typical_a", "A"),
        "needed": view.fig("brakes/needed_ah", "Ah"),
        "hold": view.fig("brakes/hold_min", "min"),
        "given": view.fig("brakes/given_ah", "Ah") if found.given_ah is not None else "",
        "where": brakes.where,
        "done_by": brakes.done_by,
        "contact": found.contact,
        "breakaway": circuit_anchor(view, view.trailer.circuit(found.breakaway)) if found.breakaway else "",
    }
