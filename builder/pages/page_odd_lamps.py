"""A road lamp behaves oddly: glowing along, glowing while off, dying with the hatch, coming and going."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from builder.electrics.ways_back import WayBack
from builder.guide.model import Cause, Symptom, Thing
from builder.guide.odd_lamps import Hinged, odd_lamps
from builder.pages.guide_data import address_of, contact_data, labels_data
from builder.pages.guide_names import thing_data, things_data
from builder.pages.guide_places import INDEX, WRONG
from builder.pages.page_fuses import wire_link
from builder.pages.page_stops import own_guide
from builder.pages.view import View
from builder.pages.wiring import known_where
from builder.trailer.model import TOW_PLUG


def odd_lamps_page(view: View) -> dict[str, Any]:
    """Return what the template of A road lamp behaves oddly is filled with."""
    odd = odd_lamps(view.trailer, view.figures)
    return {
        "wrong": f"{WRONG}.html" if WRONG in view.guide_pages else "",
        "grounds": [
            {
                "lost": labels_data(view, one.suspects),
                "things": things_data(view, one.things),
                "beside": things_data(view, one.beside),
                "led": one.led,
                "ways": [way_back_data(view, way) for way in one.ways],
            }
            for one in odd.grounds
        ],
        "led": [_led(view, number, things) for number, things in odd.led.items()],
        "house": view.trailer.battery is not None or bool(view.trailer.mains),
        "hinged": [_hinged(view, one) for one in odd.hinged],
        "crossed": any(s.cause is Cause.WAY for one in odd.hinged for s in (*one.feed, *one.ground)),
        "loose": [_hinged(view, one) for one in odd.loose],
        "beside": things_data(view, odd.beside),
        "beside_loose": things_data(view, odd.beside_loose),
        "joints": [
            {"name": name, "where": known_where(view.trailer, name), "things": things_data(view, things)}
            for name, things in odd.joints.items()
        ],
        "plugs": _plugs(view),
        "names": view.trailer.tow_plug.names if view.trailer.tow_plug else "",
        "dim": [_dim(view, thing) for thing in _lamp_things(view)],
    }


def way_back_data(view: View, way: WayBack) -> dict[str, Any]:
    """Return a second way back to the car: the wire it takes, that one's circuit, and the chargers between."""
    wire = view.wires.get(way.wire)
    return {
        "wire": wire_link(way.wire) if wire else "",
        "circuit": view.trailer.circuit(wire.circuit).name if wire else "",
        "through": ", ".join(way.through),
    }


def has_odd_lamps(view: View) -> bool:
    """Tell whether the trailer has road lamps; their plug at least can corrode."""
    return bool(view.trailer.road_lamps)


def _lamp_things(view: View) -> list[Thing]:
    return sorted(view.road_things, key=lambda thing: (thing.part.casefold(), thing.what, thing.circuit))


def _plugs(view: View) -> list[dict[str, Any]]:
    """Return each plug that road lamps hang on by their feed or by its ground, with these lamps and its place.

    Of a single plug ``mark`` is empty.
    """
    plug = view.trailer.tow_plug
    if plug is None:
        return []
    found: dict[str, tuple[str, list[Thing]]] = {}
    for thing in _lamp_things(view):
        contact = plug.pattern.contact(view.trailer.circuit(thing.circuit).start.pin)
        for one in dict.fromkeys((contact, plug.pattern.ground_of(contact))):
            things = found.setdefault(one.plug or one.first, (plug.half(one).where, []))[1]
            things += [] if thing in things else [thing]
    every = len(_lamp_things(view))
    return [
        {"mark": mark, "where": where, "things": things_data(view, things), "all": len(things) == every}
        for mark, (where, things) in sorted(found.items())
    ]


def _led(view: View, number: int, things: Sequence[Thing]) -> dict[str, Any]:
    """Return a contact that feeds LED lamps alone: what lights there, and what all of it takes."""
    circuit = view.trailer.circuit(number)
    pin = circuit.start.pin if circuit.start.part == TOW_PLUG else ""
    return {
        "contact": contact_data(view, pin),
        "things": things_data(view, things),
        "takes": view.fig(f"circuits/{number}/load_current_a", "A"),
    }


def _hinged(view: View, one: Hinged) -> dict[str, Any]:
    guide = own_guide(view, one.thing, Symptom.DEAD)
    return thing_data(view, one.thing) | {
        "address": address_of(view, guide, INDEX) if guide else "",
        "feed": labels_data(view, one.feed),
        "ground": labels_data(view, one.ground),
    }


def _dim(view: View, thing: Thing) -> dict[str, Any]:
    guide = own_guide(view, thing, Symptom.DIM)
    return thing_data(view, thing) | {"address": address_of(view, guide, INDEX) if guide else ""}
