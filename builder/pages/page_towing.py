"""Towing and road lamps: the plug contact by contact, which lamp shows what, and the check before each drive."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from markupsafe import Markup

from builder.drawings.lamp_views import not_drawn, signs_shown
from builder.electrics.adapters import other_sockets
from builder.electrics.figures import LoadFigures
from builder.lists.ends import is_core
from builder.pages.brakes_here import brakes_here
from builder.pages.colour_clashes import by_standard, colour_clashes, colour_swaps, other_cores
from builder.pages.faces import PLUG_FACE, lamp_views
from builder.pages.lamp_check import lamp_check
from builder.pages.page_fuses import circuit_anchor, wire_link
from builder.pages.plug_doubts import doubts_told
from builder.pages.plug_fuses import plug_fuses, too_large
from builder.pages.plug_wires import contact_ways
from builder.pages.view import View, joined, step
from builder.pages.wiring import cable_end, feeds, known_where
from builder.tables.tow_plugs import PRACTICE, PlugContact, PlugPattern
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import FRONT_BOX, TOW_PLUG, RoadLamp, Trailer
from builder.trailer.parts import Terminal
from builder.trailer.plug_functions import functions_here
from builder.trailer.wires import Wire

TURNED = "13-pin"
"""The plug that is turned as it goes in; from memory."""


def has_tow_plug(view: View) -> bool:
    """Tell whether there is anything to tow by: the page is left out of a manual without a plug."""
    return view.trailer.tow_plug is not None


def towing_page(view: View) -> dict[str, Any]:
    """Return what the template of Towing and road lamps is filled with; the trailer has a tow plug."""
    trailer = view.trailer
    plug = trailer.tow_plug
    if plug is None:
        raise ValueError("a trailer without a tow plug has no page about towing")
    contacts = plug.pattern.contacts
    fuses = plug_fuses(view)
    return {
        "clashes": colour_clashes(view),
        "other_cores": other_cores(view),
        "swaps": swaps_told(view),
        "own_wires": [wire_link(wire.number) for wire in _at_plug(trailer) if not is_core(wire, trailer)],
        "joined": any(at.splice for at in view.figures.landings if at.part == TOW_PLUG),
        "cores": any(is_core(wire, trailer) for wire in _at_plug(trailer)),
        "us": trailer.identity.country == "US",
        "box_where": known_where(trailer, FRONT_BOX),
        "box_cable": cable_end(view),
        "sockets": bool(other_sockets(view.trailer)),
        "doubts": doubts_told(view),
        "parts_lamps": any(one.converter in ("apart", "together") for one in other_sockets(view.trailer)),
        "pattern": plug.pattern.name,
        "standard": plug.pattern.standard,
        "practice": plug.pattern.standard == PRACTICE,
        "face": PLUG_FACE,
        **numbering(plug.pattern),
        "count": len(contacts),
        "turned": plug.pattern.name == TURNED,
        "where": plug.kept,
        "plugs": plug.names,
        "lamps_on_both": len(
            {plug.pattern.contact(at).plug for lamp in trailer.road_lamps for _, at in lamp.contacts}
        )
        > 1,
        "second": plug.second.pattern.name if plug.second else "",
        "contacts": [_contact(view, contact) for contact in contacts],
        "fuses": {contact.said: fuses.get(contact.pin) for contact in contacts},
        "too_large": too_large(view),
        "has_habit": any(contact.other_base for contact in contacts),
        "lamps": [_lamp(view, lamp) for lamp in trailer.road_lamps],
        "views": list(lamp_views(view)),
        "not_drawn": not_drawn(trailer) if lamp_views(view) else (),
        "on_hatch": [_lamp_link(view, lamp.name) for lamp in trailer.road_lamps if lamp.on_hatch],
        "plate_on_hatch": any(lamp.on_hatch and "plate" in lamp.shows for lamp in trailer.road_lamps),
        "signs": {sign.value for sign in signs_shown(trailer)},
        "checks": lamp_check(trailer),
        "supplies": supplies_told(view),
        "separate": any("stop" in contact.functions for contact in contacts),
        "here": brakes_here(view),
        "brakes": trailer.brakes is not None,
        "electric_brakes": trailer.brakes is not None and trailer.brakes.kind == "electric",
        "charges": any(
            "battery" in contact.functions for contact in contacts if _feeds_a_circuit(trailer, contact)
        ),
    }


def numbering(pattern: PlugPattern) -> dict[str, Any]:
    """Return how the numbers of contacts are found on a plug: the shape of its face, and whether it has no numbers."""
    return {"shape": pattern.face.shape if pattern.face else "", "unmarked": pattern.unmarked}


def mark_of(contact: PlugContact) -> str:
    """Return the mark beside a contact's number, such as GD or 58R; empty where its label is a word."""
    return contact.label if contact.label.isupper() or contact.label[0].isdigit() else ""


def marked(contact: PlugContact) -> str:
    """Return a contact's number with its mark, as in ``3 (TM)``: some plugs have the one moulded on, some the other."""
    return f"{contact.said} ({mark_of(contact)})" if mark_of(contact) else contact.said


def swaps_told(view: View) -> list[dict[str, Any]]:
    """Return a row for each colour that here is on one contact and in a ready-made cable on another."""
    return [
        {
            "colour": colour,
            "by_standard": by_standard(colour, there),
            "wires": wires,
            "here": _contact(view, here),
            "there": _contact(view, there),
        }
        for colour, wires, here, there in colour_swaps(view)
    ]


def _at_plug(trailer: Trailer) -> list[Wire]:
    """Return the wires that land on the tow plug."""
    return [wire for wire in trailer.wires if TOW_PLUG in (wire.start.part, wire.end.part)]


def _contact(view: View, contact: PlugContact) -> dict[str, Any]:
    """Return the row of a contact: what it does, our wire on it, what it works, and the usual colours."""
    here = Terminal(TOW_PLUG, contact.pin)
    wires = [wire for wire in view.trailer.wires if here in (wire.start, wire.end)]
    return {
        "number": contact.said,
        "label": mark_of(contact),
        "functions": functions_here(view.trailer, contact)[0],
        "also": functions_here(view.trailer, contact)[1],
        "ground": contact.is_ground,
        "serves": _serves(view, contact),
        "wires": [
            {
                "link": wire_link(wire.number),
                "chip": view.wire_chip(wire.color, str(view.figures.wires[wire.number].size)),
            }
            for wire in wires
        ],
        "works": joined(_works(view, contact)),
        "ways": contact_ways(view, contact),
        "base": contact.base,
        "tracer": contact.tracer,
        "habit": contact.other_base,
    }


def _serves(view: View, contact: PlugContact) -> str:
    """Return the numbers of the contacts that a ground contact is the way back for; empty where it is for all."""
    plug = view.trailer.tow_plug
    if plug is None or not contact.is_ground or sum(one.is_ground for one in plug.pattern.contacts) < 2:
        return ""
    served = (one for one in plug.pattern.contacts if not one.is_ground and "reserved" not in one.functions)
    return ", ".join(one.said for one in served if plug.pattern.ground_of(one) == contact)


def _works(view: View, contact: PlugContact) -> list[Markup]:
    """Return links to what a contact works: road lamps, or the circuits that start at it."""
    number = contact.pin
    lamps = [lamp.name for lamp in view.trailer.road_lamps if any(number == at for _, at in lamp.contacts)]
    circuits = [c for c in _from_plug(view.trailer) if c.start.pin == number]
    return [_lamp_link(view, name) for name in lamps] + [circuit_anchor(view, c) for c in circuits]


def _lamp_link(view: View, name: str) -> Markup:
    return Markup('<a href="find.html#{}">{}</a>').format(view.part_ids[name], name)


def _from_plug(trailer: Trailer) -> list[Circuit]:
    """Return the circuits that the car feeds and that are not road lamps."""
    return [c for c in trailer.circuits if c.kind is CircuitKind.FROM and c.start.part == TOW_PLUG]


def _feeds_a_circuit(trailer: Trailer, contact: PlugContact) -> bool:
    return any(circuit.start.pin == contact.pin for circuit in _from_plug(trailer))


def _lamp(view: View, lamp: RoadLamp) -> dict[str, Any]:
    """Return a row: what a lamp shows, where it is, and what the file says of its colour, height and bulb.

    A colour that the words for its place have already is not said again.
    """
    where = known_where(view.trailer, lamp.name)
    shines = [lamp.shines[what] for what in lamp.shows if what in lamp.shines]
    said = re.findall(r"\w+", where.casefold())
    return {
        "name": _lamp_link(view, lamp.name),
        "side": lamp.side,
        "shows": lamp.shows,
        "where": where,
        "at": lamp.at,
        "colors": tuple(color for color in dict.fromkeys(shines) if color not in said),
        "height": view.fig(f"road_lamps/{step(lamp.name)}/height_length_m")
        if lamp.height_m is not None
        else "",
        "bulbs": ", ".join(lamp.bulbs),
    }


def _by_charger(view: View, loads: Iterable[LoadFigures]) -> bool:
    """Tell whether what is charged hangs behind a charger, which takes another current than it gives."""
    return any(load.load.charged_from in view.trailer.parts for load in loads)


def supplies_told(view: View) -> list[dict[str, Any]]:
    """Return what the car feeds beside road lamps, a line each."""
    return [_supply(view, circuit) for circuit in _from_plug(view.trailer)]


def _supply(view: View, circuit: Circuit) -> dict[str, Any]:
    """Return what a circuit from the plug brings into the trailer, with its contact and the fuses along it."""
    plug = view.trailer.tow_plug
    loads = view.figures.circuits[circuit.number].loads
    charging = next((n for n, load in enumerate(loads) if load.load.charged_from), None)
    does = set(functions_here(view.trailer, plug.pattern.contact(circuit.start.pin))[0]) if plug else set()
    path = f"circuits/{circuit.number}"
    fed = [n for n, load in enumerate(loads) if load.load.section.startswith(f"{TOW_PLUG} ") and load.drop_v]
    farthest = max(fed, key=lambda n: loads[n].drop_v, default=None)
    return {
        "link": circuit_anchor(view, circuit),
        "contact": plug.said(circuit.start.pin) if plug else circuit.start.pin,
        "live": bool(does.intersection(("battery", "switched supply"))),
        "brakes": "brake" in does,
        "charges": charging is not None,
        "takes": view.fig(f"plug_states/{circuit.start.pin}/everything_a", "A")
        if _by_charger(view, loads)
        else "",
        "current": view.fig(f"{path}/loads/{charging}/current_a", "A") if charging is not None else "",
        "drop": view.fig(f"{path}/loads/{farthest}/drop_v", "V") if farthest is not None else "",
        "own": any(wire.circuit == circuit.number for wire in _at_plug(view.trailer)),
        "feeds": ", ".join(feeds(view.trailer, circuit)),
        "fuses": [
            {
                "name": fuse.name,
                "chip": view.fuse_words(fuse.name),
                "where": known_where(view.trailer, fuse.name),
            }
            for fuse in view.figures.fuses
            if fuse.circuit == circuit.number
        ],
    }
