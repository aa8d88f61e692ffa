"""Wire colours and numbers: the legend, every wire by number, the tow plug, the spare wires."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from builder.pages.page_circuit import wire_rows
from builder.pages.page_fuses import wire_link
from builder.pages.page_runs import has_places
from builder.pages.page_ways import has_ways
from builder.pages.view import View, standard_code
from builder.trailer.circuits import CircuitKind
from builder.trailer.color import Color
from builder.trailer.left import left_wires
from builder.trailer.model import TOW_PLUG
from builder.trailer.parts import Terminal
from builder.trailer.wires import Role


def wires_page(view: View) -> dict[str, Any]:
    """Return what the template of the wires page is filled with."""
    plug = view.trailer.tow_plug
    return {
        "workshop": view.edition.reads(),
        "drafts": view.drafts(),
        "ways": has_ways(view),
        "runs": view.edition.reads() and has_places(view),
        "sample": _sample(view),
        "firsts": _firsts(view),
        "legend": _legend(view),
        "tracers": any(wire.color.tracer for wire in (*view.trailer.wires, *view.trailer.spares)),
        "awg": any(str(wire.size).endswith("AWG") for wire in view.figures.wires.values()),
        "tables": [table for table in (_table(view, tow=False), _table(view, tow=True)) if table["wires"]],
        "plug": _plug(view),
        "pattern": plug.pattern.name if plug else "",
        "spares": spare_rows(view),
        "left": [
            {"number": wire.number, "start": wire.start.part, "end": wire.end.part}
            for wire in left_wires(view.trailer)
        ],
    }


def _sample(view: View) -> dict[str, Any]:
    """Return a wire of this trailer that shows how its number is read: the second one of a circuit, if there is one."""
    wires = view.trailer.wires
    seconds = (wire for one, wire in pairwise(wires) if one.circuit == wire.circuit)
    wire = next(seconds, wires[0] if wires else None)
    if wire is None:
        return {}
    letter = wire.number.lstrip("0123456789")
    name = view.trailer.circuit(wire.circuit).name
    return {"wire": wire.number, "letter": letter, "n": wire.circuit, "name": name}


def _firsts(view: View) -> list[tuple[str, str]]:
    """Return every circuit that has wires, by number and name, with the address of its first one's row."""
    found: dict[int, str] = {}
    for wire in view.trailer.wires:
        found.setdefault(wire.circuit, f"#wire-{wire.number.lower()}")
    return [(f"{n} {view.trailer.circuit(n).name}", found[n]) for n in sorted(found)]


def _legend(view: View) -> list[dict[str, Any]]:
    """Return every colour in use with the circuits whose feeds and whose returns have it."""
    feeds: dict[Color, dict[str, None]] = {}
    returns: dict[Color, dict[str, None]] = {}
    for wire in view.trailer.wires:
        side = returns if wire.role in (Role.RETURN, Role.BOND) else feeds
        name = view.trailer.circuit(wire.circuit).name
        side.setdefault(wire.color, {})[name] = None
    colors = dict.fromkeys(wire.color for wire in view.trailer.wires)
    return [
        {
            "chip": view.wire_chip(color),
            "standard": standard_code(color),
            "feeds": ", ".join(feeds.get(color, ())),
            "returns": ", ".join(returns.get(color, ())),
        }
        for color in colors
    ]


def _table(view: View, *, tow: bool) -> dict[str, Any]:
    circuits = [c for c in view.trailer.circuits if (c.kind is CircuitKind.TOW) == tow]
    return {"house": not tow, "wires": [row for circuit in circuits for row in wire_rows(view, circuit)]}


def _plug(view: View) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = []
    plug = view.trailer.tow_plug
    if plug is None:
        return rows
    for contact in view.figures.plug:
        here = Terminal(TOW_PLUG, contact.pin)
        wires = [wire for wire in view.trailer.wires if here in (wire.start, wire.end)]
        rows.append(
            {
                "number": plug.said(contact.pin),
                "function": contact.function,
                "color": contact.color,
                "wires": [{"link": wire_link(w.number), "chip": view.wire_chip(w.color)} for w in wires],
                "current": view.fig(f"plug/{contact.pin}/current_a", "A")
                if contact.circuit is not None
                else "",
            }
        )
    return rows


def spare_rows(view: View, *, anchors: bool = True) -> list[dict[str, Any]]:
    """Return the spare wires as rows of a table; with ``anchors`` each row can be linked to."""
    return [
        {
            "number": wire.number,
            "name": wire.start.pin,
            "draft": view.is_draft(wire),
            "id": f"wire-{wire.number.lower()}" if anchors else "",
            "link": wire_link(wire.number),
            "chip": view.wire_chip(wire.color, str(wire.size)),
            "start": wire.start.part,
            "end": wire.end.part,
            "where": wire.where,
            "length": view.fig(f"spares/{wire.number}/length_m"),
        }
        for wire in view.trailer.spares
    ]
