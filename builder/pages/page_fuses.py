"""Fuses and the front box: every way, what goes dead with it, spares, and what lands on every terminal."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from markupsafe import Markup

from builder.electrics.figures import Landing
from builder.electrics.landings import strip_groups
from builder.guide.supplies import supplies_of
from builder.lists.parts_needed import supply_link
from builder.pages.faces import SCALED, box_faces, scaled_faces
from builder.pages.terminals import end_data
from builder.pages.view import View, joined
from builder.pages.wiring import cable_end, clamp_comes_off, feeds, known_where, lands_in_box, supplies_data
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import BATTERY, FRONT_BOX
from builder.trailer.parts import Form, Part, Terminal
from builder.trailer.spare_ends import in_front_box
from builder.trailer.wires import Role

MANY = 2
"""A part with more terminals in use than a plus and a minus has a table of its own."""


def fuses_page(view: View) -> dict[str, Any]:
    """Return what the template of the fuses page is filled with."""
    box = view.trailer.front_box
    in_ways = tuple(way.circuit for way in view.figures.ways if way.circuit is not None)
    return {
        "box": box is not None,
        "box_where": box.where if box else "",
        "cable": "" if box else cable_end(view),
        "box_ways": box.fuse_ways if box else 0,
        "ways": _ways(view),
        "off": supplies_data(view.trailer, supplies_of(view.trailer, in_ways)),
        "others": _others(view),
        "breakers": [fuse.name for fuse in view.figures.fuses if fuse.device == "breaker"],
        "spares": _spares(view),
        "spare_ends": spare_ends(view),
        "landings": landing_tables(view),
        "link": str(supply_link(view.figures) or "") if view.edition.reads() else "",
        "workshop": view.edition.reads(),
        "faces": list(box_faces(view)),
        "scaled": _scaled(view),
    }


def _scaled(view: View) -> dict[str, Any]:
    """Return the pictures of the box to scale, and which pieces are not in them as they are; empty for none."""
    made = scaled_faces(view)
    if not made:
        return {}
    face = made["narrow"]
    pictures = {form: SCALED[form] for form in made}
    return {"pictures": pictures, "loose": face.loose, "unmeasured": face.unmeasured}


def circuit_anchor(view: View, circuit: Circuit) -> Markup:
    """Return a circuit's name as a link to its page."""
    return Markup('<a href="{}">{}</a>').format(view.circuit_link(circuit), circuit.name)


def _ways(view: View) -> list[dict[str, Any]]:
    rows = []
    fuses = {fuse.way: fuse for fuse in view.figures.fuses if fuse.way is not None}
    for way in view.figures.ways:
        row: dict[str, Any] = {"number": way.way, "chip": None, "link": "", "dead": "", "to_come": ""}
        if way.circuit is not None:
            circuit = view.trailer.circuit(way.circuit)
            row["link"] = circuit_anchor(view, circuit)
            there, to_come = _in_and_to_come(view, feeds(view.trailer, circuit))
            row |= {"dead": ", ".join(there), "to_come": ", ".join(to_come)}
            if way.way in fuses:
                row["chip"] = view.fuse_words(fuses[way.way].name)
        rows.append(row)
    return rows


def _in_and_to_come(view: View, names: Iterable[str]) -> tuple[list[str], list[str]]:
    """Return the parts that are built in, and those that are waited for: nothing of theirs can go dead."""
    there: list[str] = []
    to_come: list[str] = []
    for name in names:
        part = view.trailer.parts.get(name)
        (to_come if part and part.waiting else there).append(name)
    return there, to_come


def _others(view: View) -> list[dict[str, Any]]:
    return [
        {
            "name": fuse.name,
            "chip": view.fuse_words(fuse.name),
            "link": circuit_anchor(view, view.trailer.circuit(fuse.circuit)),
            "dead": _hangs_on(view, fuse.name),
            "where": known_where(view.trailer, fuse.name),
            "clamp": clamp_comes_off(view.trailer, fuse.name),
        }
        for fuse in view.figures.fuses
        if fuse.way is None
    ]


def _hangs_on(view: View, fuse: str) -> dict[str, Any]:
    """Return what stops without a fuse in a path: the parts fed through it, and which circuits stop charging.

    Of the main fuse ``all`` tells that the front box hangs on it, and ``unless`` what feeds the box besides.
    """
    trailer = view.trailer
    main = any(c.kind is CircuitKind.BATTERY and c.fuse_part == fuse for c in trailer.circuits)
    behind = {
        wire.number for wire in trailer.wires if wire.start.part == fuse and wire.role is not Role.RETURN
    }
    loads = [load for circuit in view.figures.circuits.values() for load in circuit.loads]
    hit = [load.load for load in loads if behind.intersection(step.wire for step in load.steps)]
    if main:
        hit = [load for load in hit if trailer.circuit(load.circuit).way is None]
    charging = dict.fromkeys(trailer.circuit(load.circuit).name for load in hit if load.charged_from)
    names = dict.fromkeys(load.part for load in hit if not load.charged_from and load.what != "idle")
    there, to_come = _in_and_to_come(view, names)
    return {
        "all": main,
        "unless": ", ".join(c.name for c in lands_in_box(trailer)) if main else "",
        "parts": ", ".join(there),
        "to_come": ", ".join(to_come),
        "charging": "" if main else ", ".join(charging),
    }


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
    boxes = [FRONT_BOX, *([BATTERY] if view.edition.reads() else [])]
    boxes += [p.name for p in view.trailer.parts.values() if _has_a_table(view, p)]
    tables = []
    for name in boxes:
        rows = [_landing(view, at) for at in view.figures.landings if at.part == name]
        if rows:
            box = name == FRONT_BOX
            tables.append({"name": name, "box": box, "rows": rows, "bridges": bridged(view) if box else []})
    return tables


def _has_a_table(view: View, part: Part) -> bool:
    """Connectors, splices and bars for everyone; in the workshop all that has more than a plus and a minus."""
    if part.form in (Form.THROUGH, Form.JOINT):
        return True
    return view.edition.reads() and sum(at.part == part.name for at in view.figures.landings) > MANY


def bridged(view: View) -> list[dict[str, Any]]:
    """Return the runs of strip positions of the front box that must be bridged."""
    groups = strip_groups(view.figures.landings)
    return [{"first": first, "last": last, "what": what} for first, last, what in groups]


def spare_ends(view: View) -> list[dict[str, Any]]:
    """Return the spare wires that end in the front box, with where their other end is."""
    found = []
    for wire in view.trailer.spares:
        here, there = wire.start.part, wire.end.part
        if not in_front_box(here):
            here, there = there, here
        if in_front_box(here):
            found.append({"link": wire_link(wire.number), "end": there})
    return found


def _landing(view: View, at: Landing) -> dict[str, Any]:
    kind, _, n = at.place.partition(" ")
    kinds = {"supply": "supply", "way": "way", "strip": "strip", "screw": "screw"}
    ends = [_other_end(view, number, Terminal(at.part, at.pin)) for number in at.wires]
    stud = at.place.removeprefix(at.pin).strip() if at.part != FRONT_BOX else ""
    return {
        "kind": kinds.get(kind, "") if at.part == FRONT_BOX else "pin",
        "n": n,
        "pin": at.pin,
        "stud": stud,
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
