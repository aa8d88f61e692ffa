"""What lands where: the box terminal by terminal in the order of its face, to tick off; and the holes in its walls."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from builder.guide.supplies import supplies_of
from builder.lists.landing_sheet import BoxPiece, Place
from builder.lists.parts_needed import supply_link
from builder.pages.csv_files import csv_text, number_state
from builder.pages.faces import SCALED, scaled_faces
from builder.pages.page_fuses import bridged, spare_ends, wire_link
from builder.pages.stubs_told import stubs_told
from builder.pages.terminals import end_data
from builder.pages.view import View, joined
from builder.pages.wiring import supplies_data
from builder.trailer.model import FRONT_BOX
from builder.trailer.parts import Form, Terminal


def has_landings(view: View) -> bool:
    """Tell whether any wire lands on what the page is about."""
    return any(piece.taken for piece in view.lists.landings)


def landings_page(view: View) -> dict[str, Any]:
    """Return what the template of the page is filled with."""
    pieces = view.lists.landings
    walls = {hole.name: hole.wall for hole in view.trailer.holes}
    every = tuple(circuit.number for circuit in view.trailer.circuits)
    return {
        "drafts": view.drafts(),
        "off": supplies_data(view.trailer, supplies_of(view.trailer, every)),
        "battery": view.trailer.battery is not None,
        "box": view.trailer.front_box is not None,
        "box_where": view.trailer.front_box.where if view.trailer.front_box else "",
        "pieces": [_piece(view, n, piece) for n, piece in enumerate(pieces)],
        "stacked": any(
            len(place.ends) > 1 and place.ends[0].fit == "ring" for p in pieces for place in p.places
        ),
        "bridges": bridged(view),
        "pulls": [
            (str(pull.size), view.fig(f"crimp_pulls/{n}/hung_mass_kg", "kg"))
            for n, pull in enumerate(view.lists.crimp_pulls)
        ],
        "link": str(supply_link(view.figures) or ""),
        "stubs": stubs_told(view),
        "spare_ends": spare_ends(view),
        "faces": {form: SCALED[form] for form in scaled_faces(view)},
        "holes": [_hole(view, n) for n in range(len(view.trailer.holes))],
        "sides": [
            {
                "sides": list(one.sides),
                "chase": one.chase,
                "wires": joined([wire_link(wire) for wire in one.wires]),
                "hole": one.hole,
                "wall": walls.get(one.hole) or "",
            }
            for one in view.figures.box_sides
        ],
        "without": joined([wire_link(wire) for wire in view.figures.entries.without]),
    }


def _piece(view: View, number: int, piece: BoxPiece) -> dict[str, Any]:
    at = f"landing_sheet/{number}"
    return {
        "name": piece.name,
        "in_box": piece.in_box,
        "taken": view.fig(f"{at}/taken"),
        "count": view.fig(f"{at}/count") if piece.count is not None else "",
        "free": view.fig(f"{at}/free") if piece.free is not None else "",
        "free_places": list(piece.free_places),
        "beyond": list(piece.beyond),
        "shared": any(end.shared for place in piece.places for end in place.ends),
        "rows": [row for place in piece.places for row in _rows(view, piece, place)],
    }


def _rows(view: View, piece: BoxPiece, place: Place) -> Iterator[dict[str, Any]]:
    """Yield a row for each wire end of a place, and one for a place without any."""
    stud = str(place.stud) if place.stud else ""
    said = {"place": place.place, "pin": place.terminal.pin, "stud": stud, "in_box": piece.in_box}
    if not place.ends:
        yield said | {"free": True}
    for nth, end in enumerate(place.ends):
        wire = view.wires[end.wire]
        yield said | {
            "free": False,
            "again": nth > 0,
            "number": wire_link(end.wire),
            "draft": view.is_draft(wire),
            "chip": view.wire_chip(wire.color, str(end.size)),
            "fit": {"kind": end.fit.value},
            "far": end_data(view.trailer, end.far),
            "spliced": place.spliced,
            "at_contact": _is_contact(view, place),
            "shared": end.shared,
        }


def _is_contact(view: View, place: Place) -> bool:
    """Tell whether a place is a way of a connector: where wires meet, a short piece leads to its contact."""
    part = view.trailer.parts.get(place.terminal.part)
    return part is not None and part.form is Form.THROUGH


def _hole(view: View, number: int) -> dict[str, Any]:
    hole, filled = view.trailer.holes[number], view.figures.entries.holes[number]
    at = f"entry_holes/{number}"
    return {
        "name": hole.name,
        "wall": hole.wall or "",
        "left": view.fig(f"{at}/left_length_m") if hole.left_m is not None else "",
        "top": view.fig(f"{at}/top_length_m") if hole.top_m is not None else "",
        "bore": view.fig(f"{at}/bore_length_m"),
        "wires": joined([wire_link(wire) for wire in filled.wires]),
        "fill": view.fig(f"{at}/fill_percent", "%") if filled.fill_percent is not None else "",
        "limit": view.fig(f"{at}/limit_percent", "%"),
        "more": view.fig(f"{at}/more") if filled.more is not None else "",
        "more_of": str(filled.more_of or ""),
        "unsized": ", ".join(map(str, filled.unsized)),
    }


def landings_csv(view: View) -> str:
    """Return what lands where in the order of the page: a line for each wire end, and one for each free place."""
    head = (
        "on", "terminal", "place", "stud", "wire", "size", "color", "tracer", "crimp", "far end", "far terminal",
        "entry hole", "number is",
    )  # fmt: skip
    holes = {wire: one.name for one in view.figures.entries.holes for wire in one.wires}
    rows: list[tuple[object, ...]] = []
    for piece in view.lists.landings:
        for place in piece.places:
            where = (piece.name, place.terminal.pin, place.place or "", place.stud or "")
            if not place.ends:
                rows.append((*where, "", "", "", "", "", "", "", "", ""))
            for end in place.ends:
                wire = view.wires[end.wire]
                rows.append(
                    (
                        *where,
                        end.wire,
                        end.size,
                        wire.color.base,
                        wire.color.tracer,
                        end.fit.value,
                        end.far.part,
                        end.far.pin,
                        _through(holes, end.wire, place.terminal),
                        number_state(wire.draft),
                    )
                )
    return csv_text([head, *rows])


def _through(holes: dict[str, str], wire: str, at: Terminal) -> str:
    """Return the hole by which a wire comes to a terminal in the box; empty elsewhere."""
    return holes.get(wire, "") if at.part == FRONT_BOX else ""
