"""Wires at the tow plug whose colour means ground here and plus in the cable, or the other way round."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from builder.pages.view import View
from builder.tables.tow_plugs import PlugContact
from builder.trailer.model import TOW_PLUG
from builder.trailer.parts import Terminal
from builder.trailer.plug_functions import functions_here


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


def _colours_at(view: View, contact: PlugContact) -> Iterator[str]:
    """Yield the colours of the wires that land on a contact; a tracer tells a wire from a plain one."""
    end = Terminal(TOW_PLUG, contact.pin)
    for wire in view.trailer.wires:
        if end in (wire.start, wire.end) and not wire.color.tracer:
            yield wire.color.base


def _usual(contact: PlugContact) -> set[str]:
    """Return the plain colours that a contact has in a ready-made cable, by the standard and by habit."""
    return {contact.other_base, contact.base if not contact.tracer else ""} - {""}
