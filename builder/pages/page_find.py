"""Find it: every part in alphabet, with circuit, fuse and way, switch and place."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.pages.catalogue import catalogue
from builder.pages.escaping import slug
from builder.pages.page_fuses import circuit_anchor
from builder.pages.view import View, joined
from builder.pages.wiring import (
    cable_core,
    cable_end,
    circuits_by_part,
    fuses_before,
    is_ground_contact,
    known_where,
    switches_by_part,
)
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import BATTERY, FRONT_BOX, TOW_PLUG, Trailer

GROUND_BAR = "ground bar"


def find_page(view: View) -> dict[str, Any]:
    """Return what the template of Find it is filled with."""
    on, works = circuits_by_part(view.trailer), switches_by_part(view.trailer)
    rows = [_row(view, name, on.get(name, ()), works.get(name, ())) for name in view.trailer.parts]
    rows += _fixed(view)
    if view.trailer.front_box is not None:
        rows.append(_ground_bar(view.trailer))
    for row in rows:
        row["said"] = said(view, row["name"])
    parts = sorted(rows, key=lambda row: (row["said"].casefold(), row["said"]))
    first = {row["said"][0].upper(): row["id"] for row in reversed(parts) if row["said"][0].isalnum()}
    return {"parts": parts, "letters": [(letter, f"#{first[letter]}") for letter in sorted(first)]}


def said(view: View, name: str) -> str:
    """Return what a part is called on the page: the ground bar by the word of the place where the trailer runs."""
    return catalogue(view.language).gettext(name) if name == GROUND_BAR else name


def places_of(trailer: Trailer) -> tuple[str, ...]:
    """Return which of battery, front box and tow plug a trailer has: each has a row of its own.

    A trailer without fuses of its own has a front box as well, where the cores of the plug's cable end.
    """
    box = trailer.front_box is not None or cable_core(trailer) is not None
    things = (
        (trailer.battery is not None, BATTERY),
        (box, FRONT_BOX),
        (trailer.tow_plug is not None, TOW_PLUG),
    )
    return tuple(name for there, name in things if there)


def _fixed(view: View) -> list[dict[str, Any]]:
    """Return the rows of the battery, the front box and the tow plug, which no entry of the parts list names."""
    trailer = view.trailer
    line = [c for c in trailer.circuits if c.kind is CircuitKind.BATTERY]
    tow = [c for c in trailer.circuits if c.kind is CircuitKind.TOW]
    on = circuits_by_part(trailer)
    tow += [c for c in on.get(TOW_PLUG, ()) if c.kind is not CircuitKind.TOW and c.start.part == TOW_PLUG]
    passing = {
        BATTERY: [*line, *(c for c in on.get(BATTERY, ()) if c not in line)],
        FRONT_BOX: line if trailer.front_box is not None else tow,
        TOW_PLUG: tow,
    }
    return [
        {
            "name": name,
            "id": f"place-{slug(name)}",
            "circuits": joined([circuit_anchor(view, circuit) for circuit in circuits], "; ") or "–",
            "fuses": [fuse for circuit in circuits for fuse in _fuse(view, circuit, name)],
            "in_car": name == TOW_PLUG or (name == FRONT_BOX and trailer.front_box is None),
            "in_box": False,
            "switch": "",
            "own": False,
            "where": known_where(trailer, name),
            "cable": cable_end(view) if name == FRONT_BOX else "",
            "waiting": "",
            "note": "",
            "leads": "",
        }
        for name, circuits in ((name, passing[name]) for name in places_of(trailer))
    ]


def _ground_bar(trailer: Trailer) -> dict[str, Any]:
    """Return the row of the ground bar: it serves every circuit, has no fuse, and stands in the front box."""
    where = known_where(trailer, FRONT_BOX)
    nothing: dict[str, Any] = {
        "switch": "",
        "own": False,
        "cable": "",
        "waiting": "",
        "note": "",
        "leads": "",
        "fuses": [],
    }
    named = {"name": GROUND_BAR, "id": f"place-{slug(GROUND_BAR)}", "circuits": "–"}
    return {**nothing, **named, "in_car": False, "in_box": True, "where": where}


def _row(view: View, name: str, on: tuple[Circuit, ...], switches: tuple[str, ...]) -> dict[str, Any]:
    circuits = [c for c in on if not is_ground_contact(view.trailer, c)]
    if view.trailer.parts[name].kind in ("fuse", "breaker"):
        # what starts at a fuse has a fuse of its own
        circuits = [c for c in circuits if any(stop.part == name for stop in c.stops)]
    own = view.trailer.parts[name].own_switch
    return {
        "name": name,
        "id": view.part_ids[name],
        "circuits": joined([circuit_anchor(view, circuit) for circuit in circuits], "; ") or "–",
        "fuses": [fuse for circuit in circuits for fuse in _fuse(view, circuit, name)],
        "in_car": any(circuit.kind is CircuitKind.TOW for circuit in circuits),
        "in_box": False,
        "switch": "" if own else ", ".join(switches),
        "own": own,
        "where": view.trailer.parts[name].where,
        "cable": "",
        "waiting": view.trailer.parts[name].waiting,
        "note": view.trailer.parts[name].note,
        "leads": view.trailer.parts[name].leads_come_out,
    }


def _fuse(view: View, circuit: Circuit, part: str) -> list[dict[str, Any]]:
    """Return the fuses that a part hangs on, nearest first, each with its way; nothing where it is in the car."""
    names = fuses_before(view.trailer, circuit, part) or (circuit.fuse_part,)
    fuses = [fuse for name in names for fuse in view.figures.fuses if fuse.name == name]
    return [
        {
            "chip": view.fuse_words(fuse.name),
            "way": fuse.way,
            "name": fuse.name,
            "link": Markup("fuses.html")
            if fuse.way is None
            else Markup("fuses.html#way-{}").format(fuse.way),
        }
        for fuse in fuses
    ]
