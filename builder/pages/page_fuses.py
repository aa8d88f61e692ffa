"""Fuses and the front box: every way, what goes dead with it, spares, and what lands on every terminal."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.electrics.figures import Landing
from builder.pages.terminals import end_data
from builder.pages.view import View, joined
from builder.pages.wiring import feeds, known_where
from builder.trailer.circuits import Circuit
from builder.trailer.model import FRONT_BOX
from builder.trailer.parts import Form, Terminal


def fuses_page(view: View) -> dict[str, Any]:
    """Return what the template of the fuses page is filled with."""
    box = view.trailer.front_box
    return {
        "box": box is not None,
        "box_where": box.where if box else "",
        "box_ways": box.fuse_ways if box else 0,
        "ways": _ways(view),
        "others": _others(view),
        "spares": _spares(view),
        "landings": landing_tables(view),
    }


def circuit_anchor(view: View, circuit: Circuit) -> Markup:
    """Return a circuit's name as a link to its page."""
    return Markup('<a href="{}">{}</a>').format(view.circuit_link(circuit), circuit.name)


def _ways(view: View) -> list[dict[str, Any]]:
    rows = []
    fuses = {fuse.way: fuse for fuse in view.figures.fuses if fuse.way is not None}
    for way in view.figures.ways:
        row: dict[str, Any] = {"number": way.way, "chip": None, "link": "", "dead": ""}
        if way.circuit is not None:
            circuit = view.trailer.circuit(way.circuit)
            row["link"] = circuit_anchor(view, circuit)
            row["dead"] = ", ".join(feeds(view.trailer, circuit))
            if way.way in fuses:
                row["chip"] = view.fuse_words(fuses[way.way].name)
        rows.append(row)
    return rows


def _others(view: View) -> list[dict[str, Any]]:
    return [
        {
            "name": fuse.name,
            "chip": view.fuse_words(fuse.name),
            "link": circuit_anchor(view, view.trailer.circuit(fuse.circuit)),
            "where": known_where(view.trailer, fuse.name),
        }
        for fuse in view.figures.fuses
        if fuse.way is None
    ]


def _spares(view: View) -> list[dict[str, Any]]:
    """Return the ratings in use, each once, with how many of them there are: what to carry."""
    counted: dict[tuple[str, float], list[str]] = {}
    for fuse in view.figures.fuses:
        if fuse.rating_a is not None and fuse.device == "fuse":
            counted.setdefault((fuse.series, fuse.rating_a), []).append(fuse.name)
    return [
        {"chip": view.fuse_words(names[0]), "series": series, "count": len(names)}
        for (series, _), names in sorted(counted.items())
    ]


def landing_tables(view: View) -> list[dict[str, Any]]:
    """Return what lands on the front box, then on every connector, splice and bar, a table each."""
    boxes = [FRONT_BOX] if any(at.part == FRONT_BOX for at in view.figures.landings) else []
    boxes += [p.name for p in view.trailer.parts.values() if p.form in (Form.THROUGH, Form.JOINT)]
    tables = []
    for name in boxes:
        rows = [_landing(view, at) for at in view.figures.landings if at.part == name]
        if rows:
            tables.append({"name": name, "box": name == FRONT_BOX, "rows": rows})
    return tables


def _landing(view: View, at: Landing) -> dict[str, Any]:
    kind, _, n = at.place.partition(" ")
    kinds = {"supply": "supply", "way": "way", "strip": "strip", "screw": "screw"}
    ends = [_other_end(view, number, Terminal(at.part, at.pin)) for number in at.wires]
    return {
        "kind": kinds.get(kind, "") if at.part == FRONT_BOX else "pin",
        "n": n,
        "pin": at.pin,
        "wires": joined([wire_link(number) for number in at.wires]),
        "goes": ends,
        "splice": at.splice,
    }


def wire_link(number: str) -> Markup:
    """Return a wire's number as a link to its row on the page of all wires."""
    return Markup('<a href="wires.html#wire-{}">{}</a>').format(number.lower(), number)


def _other_end(view: View, number: str, here: Terminal) -> dict[str, Any]:
    wire = view.wires[number]
    return end_data(view.trailer, wire.end if wire.start == here else wire.start)
