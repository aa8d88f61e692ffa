"""Terminals as data for the sentences that name them: whose, which, and of what kind."""

from __future__ import annotations

import re
from typing import Any

from builder.trailer.model import BATTERY, FRONT_BOX, TOW_PLUG, Trailer
from builder.trailer.parts import Terminal
from builder.trailer.plug_functions import contact_mark, shown_in

_PLAIN = {"in", "out", "+", "feed", "supply"}
_WAY = re.compile(r"way (\d+)(?: in| out)?")
_NUMBERED = re.compile(r"(out|in|traveller) (.+)")


def end_data(trailer: Trailer, terminal: Terminal) -> dict[str, Any]:
    """Return a terminal for the template's ``end``: its kind, the part's own name and what is numbered on it."""
    if terminal.part == FRONT_BOX:
        return _in_the_box(terminal)
    if terminal.part == TOW_PLUG and trailer.tow_plug is not None:
        contact = trailer.tow_plug.pattern.contact(terminal.pin)
        return {
            "kind": "plug",
            "part": terminal.part,
            "n": contact.said,
            "label": contact_mark(trailer, contact),
        }
    if any(lamp.name == terminal.part for lamp in trailer.road_lamps) and terminal.pin not in ("+", "−"):
        terminal = Terminal(terminal.part, shown_in(trailer.identity.country, terminal.pin))
    return _on_a_part(terminal)


def _in_the_box(terminal: Terminal) -> dict[str, Any]:
    part, pin = terminal.part, terminal.pin
    way = _WAY.fullmatch(pin)
    if way:
        return {"kind": "way", "part": part, "n": way.group(1)}
    if pin.startswith("strip: "):
        return {"kind": "strip", "part": part, "n": pin.removeprefix("strip: ")}
    return {"kind": "ground bar" if pin == "ground bar" else "box", "part": part, "n": ""}


def _on_a_part(terminal: Terminal) -> dict[str, Any]:
    part, pin = terminal.part, terminal.pin
    way = _WAY.fullmatch(pin)
    if way:
        return {"kind": "connector", "part": part, "n": way.group(1)}
    if pin in ("+", "−"):
        return {"kind": "pole" if part == BATTERY or pin == "−" else "plain", "part": part, "n": pin}
    if pin in _PLAIN:
        return {"kind": "plain", "part": part, "n": ""}
    numbered = _NUMBERED.fullmatch(pin)
    if numbered:
        return {"kind": numbered.group(1), "part": part, "n": numbered.group(2)}
    return {"kind": "pin", "part": part, "n": pin}
