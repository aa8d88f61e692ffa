"""The wires of the tow plug for the page about towing: contact by contact, through what, and to which lamp."""

from __future__ import annotations

from typing import Any

from builder.lists.ends import is_core
from builder.pages.page_fuses import wire_link
from builder.pages.terminals import end_data
from builder.pages.view import View
from builder.routes.plug_ways import Leg, Way, plug_ways
from builder.tables.tow_plugs import PlugContact
from builder.trailer.model import FRONT_BOX, Trailer
from builder.trailer.parts import Form, Terminal


def contact_ways(view: View, contact: PlugContact) -> list[dict[str, Any]]:
    """Return the ways of the wires on a contact in the order of reading; none where no wire lands on it."""
    return [_way(view, way) for way in plug_ways(view.trailer, contact.pin)]


def _way(view: View, way: Way) -> dict[str, Any]:
    return {
        "legs": [_leg(view, leg) for leg in way.legs],
        "onward": [_way(view, one) for one in way.onward],
    }


def _leg(view: View, leg: Leg) -> dict[str, Any]:
    wire = view.wires[leg.wire]
    return {
        "wire": wire_link(leg.wire),
        "chip": view.wire_chip(wire.color, str(view.figures.wires[leg.wire].size)),
        "core": is_core(wire, view.trailer),
        "to": stop_data(view.trailer, leg.to),
        "place": _place(view, leg),
    }


def _place(view: View, leg: Leg) -> dict[str, str]:
    """Return the numbered place of the strip or ground bar that a wire leads to; empty where it leads elsewhere."""
    for at in view.figures.landings if leg.to.part == FRONT_BOX else ():
        if at.pin == leg.to.pin and leg.wire in at.wires:
            kind, _, number = at.place.partition(" ")
            return {"kind": kind, "n": number}
    return {}


def stop_data(trailer: Trailer, at: Terminal) -> dict[str, Any]:
    """Return a terminal on a way: of a connector its way, of a road lamp the functions that this wire is for."""
    part = trailer.parts.get(at.part)
    if at.part == FRONT_BOX or part is None or part.form is Form.THROUGH:
        return end_data(trailer, at)
    lamp = any(lamp.name == at.part for lamp in trailer.road_lamps)
    functions = at.pin.split(", ") if lamp and at.pin not in ("+", "−") else []
    return {"kind": "part", "part": at.part, "functions": functions}
