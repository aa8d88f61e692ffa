"""Wires at the tow plug and the colours of a ready-made cable: what is of another colour, and what joins wrongly."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from markupsafe import Markup

from builder.lists.ends import is_core
from builder.pages.page_fuses import wire_link
from builder.pages.view import View
from builder.tables.tow_plugs import PlugContact
from builder.trailer.model import TOW_PLUG
from builder.trailer.parts import Terminal
from builder.trailer.plug_functions import functions_here
from builder.trailer.wires import Wire


def colour_clashes(view: View) -> list[dict[str, Any]]:
    """Return the contacts of one plug, grounds and a feed or the other way, that joining like colours would short.

    ``here`` are those that wires of this trailer land on, ``there`` the one that has the same colour by the
    plug's standard or by the habit of the trade: who joins a ready-made cable by its colours joins these two.
    Common practice; the colours and how they are known stand in the table of plugs.
    """
    plug = view.trailer.tow_plug
    if plug is None:
        return []
    met: dict[tuple[str, str, bool], tuple[list[PlugContact], PlugContact]] = {}
    for here in plug.pattern.contacts:
        for colour in dict.fromkeys(_colours_at(view, here)):
            for there in plug.pattern.contacts:
                if there.plug == here.plug and there.is_ground != here.is_ground and colour in _usual(there):
                    met.setdefault((colour, there.pin, here.is_ground), ([], there))[0].append(here)
    return [
        {
            "colour": colour,
            "here": ", ".join(one.said for one in here),
            "here_ground": ground,
            "here_functions": list(
                dict.fromkeys(what for one in here for what in functions_here(view.trailer, one)[0])
            ),
            "there": there.said,
            "there_functions": functions_here(view.trailer, there)[0],
        }
        for (colour, _, ground), (here, there) in met.items()
    ]


def other_cores(view: View) -> list[dict[str, Any]]:
    """Return the cores of this trailer that have another colour in a ready-made cable, in the order of the contacts.

    ``standard`` and ``habit`` are the colours there, empty where they are the same as here or not known.
    """
    found = []
    for contact, wire in _at_contacts(view):
        here = (wire.color.base, wire.color.tracer)
        standard = "" if here == (contact.base, contact.tracer) else _said(contact.base, contact.tracer)
        habit = "" if here == (contact.other_base, "") else contact.other_base
        if is_core(wire, view.trailer) and (standard or habit):
            chip = view.wire_chip(wire.color, str(view.figures.wires[wire.number].size))
            told = {"contact": contact.said, "wire": wire_link(wire.number), "chip": chip}
            found.append({**told, "standard": standard, "habit": habit})
    return found


def colour_swaps(view: View) -> list[tuple[str, list[Markup], PlugContact, PlugContact]]:
    """Return colour, wires, their contact here, and the contact that has this colour in a ready-made cable.

    By the standard or by the habit of the trade, as `by_standard` tells. Both contacts are feeds, or both are grounds:
    a ground and a feed are `colour_clashes`.
    """
    plug = view.trailer.tow_plug
    met: dict[tuple[str, str, str], tuple[list[Markup], PlugContact, PlugContact]] = {}
    for here, wire in _at_contacts(view):
        for there in plug.pattern.contacts if plug and not wire.color.tracer else ():
            colour = wire.color.base
            like = there.plug == here.plug and there.is_ground == here.is_ground and there.pin != here.pin
            if like and colour in _usual(there):
                met.setdefault((colour, here.pin, there.pin), ([], here, there))[0].append(
                    wire_link(wire.number)
                )
    return [(colour, *rest) for (colour, _, _), rest in met.items()]


def by_standard(colour: str, contact: PlugContact) -> bool:
    """Tell whether the standard of the plug gives a contact this plain colour; else the habit of the trade does."""
    return colour == contact.base and not contact.tracer


def _said(base: str, tracer: str) -> str:
    return f"{base}/{tracer}" if tracer else base


def _at_contacts(view: View) -> Iterator[tuple[PlugContact, Wire]]:
    """Yield the contacts of the plug with each wire that lands on them."""
    plug = view.trailer.tow_plug
    for contact in plug.pattern.contacts if plug else ():
        end = Terminal(TOW_PLUG, contact.pin)
        for wire in view.trailer.wires:
            if end in (wire.start, wire.end):
                yield contact, wire


def _colours_at(view: View, contact: PlugContact) -> Iterator[str]:
    """Yield the colours of the wires that land on a contact; a tracer tells a wire from a plain one."""
    end = Terminal(TOW_PLUG, contact.pin)
    for wire in view.trailer.wires:
        if end in (wire.start, wire.end) and not wire.color.tracer:
            yield wire.color.base


def _usual(contact: PlugContact) -> set[str]:
    """Return the plain colours that a contact has in a ready-made cable, by the standard and by habit."""
    return {contact.other_base, contact.base if not contact.tracer else ""} - {""}
