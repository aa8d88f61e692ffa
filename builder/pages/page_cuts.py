"""The cut list: spool by spool what to cut, how long, and what is left."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.lists.cut_list import OwnAllowance, Spool
from builder.lists.cut_pieces import Piece, Sort
from builder.pages.csv_files import csv_text
from builder.pages.page_fuses import wire_link
from builder.pages.page_pulls import has_pulls
from builder.pages.page_runs import has_places
from builder.pages.rounding import length, rest
from builder.pages.stubs_told import free_at_plug, stubs_told
from builder.pages.view import View, joined, step


def cuts_page(view: View) -> dict[str, Any]:
    """Return what the template of the cut list is filled with."""
    cuts = view.lists.cuts
    there = {one.id for one in view.figures.assumptions}
    return {
        "spools": [_spool(view, spool) for spool in cuts.spools if spool.pieces],
        "short": [_spool(view, spool) for spool in cuts.spools if spool.too_short],
        "unused": [_spool(view, spool) for spool in cuts.spools if not spool.needed],
        "stubs": stubs_told(view),
        "free_at_plug": free_at_plug(view),
        "pair": any(spool.sort.other for spool in cuts.spools if spool.pieces),
        "stock": any(not spool.bought for spool in cuts.spools),
        "runs": has_places(view),
        "pull_plan": has_pulls(view),
        "already": [_already(view, piece, n) | {"why": why} for n, (piece, why) in enumerate(cuts.already)],
        "no_loop": joined([wire_link(number) for number in cuts.no_loop]),
        "added": any(wire.length_source == "added up" for wire in view.trailer.wires),
        "own": _own(view, cuts.own) if cuts.own else None,
        **{
            name: view.fig(f"assumptions/{step(id_)}/value", unit) if id_ in there else ""
            for name, id_, unit in (
                ("tail", "tail at each end", "m"),
                ("more", "wire to spare", "%"),
            )
        },
    }


def _own(view: View, own: OwnAllowance) -> dict[str, Any]:
    return {
        "enough": own.enough,
        "longer": own.median_percent > 0,
        "count": view.fig("own_allowance/count"),
        "least": view.fig("own_allowance/enough_wires"),
        "median": view.fig("own_allowance/median_percent", "%"),
        "most": view.fig("own_allowance/most_percent", "%"),
        "counted": view.fig("own_allowance/counted_percent", "%"),
        "more": own.median_percent > own.counted_percent,
        "wires": joined([wire_link(number) for number in own.wires]),
    }


def _spool(view: View, spool: Spool) -> dict[str, Any]:
    path = f"cuts/{step(spool.id)}"
    return _sort(view, spool.sort) | {
        "bought": spool.bought,
        "number": spool.number,
        "length": view.fig(f"{path}/spool_length_m"),
        "rest": view.fig(f"{path}/rest_length_m"),
        "rows": [_row(view, piece, f"{path}/pieces/{place}") for place, piece in enumerate(spool.pieces)],
    }


def _sort(view: View, sort: Sort) -> dict[str, Any]:
    colors = [sort.color, *([sort.other] if sort.other else [])]
    return {
        "chips": [view.wire_chip(color, str(sort.size)) for color in colors],
        "words": sort.words,
        "pair": sort.other is not None,
    }


def _row(view: View, piece: Piece, path: str) -> dict[str, Any]:
    return _piece(view, piece) | {
        "way": view.fig(f"{path}/length_m"),
        "cut": view.fig(f"{path}/cut_length_m"),
        "left": view.fig(f"{path}/left_length_m"),
    }


def _already(view: View, piece: Piece, place: int) -> dict[str, Any]:
    return _piece(view, piece) | _sort(view, piece.sort) | {"way": view.fig(f"in_already/{place}/length_m")}


def _piece(view: View, piece: Piece) -> dict[str, Any]:
    return {
        "wires": joined([wire_link(number) for number in piece.wires]),
        "circuit": _circuit(view, piece.circuit),
        "start": piece.start,
        "end": piece.end,
    }


def _circuit(view: View, number: int) -> Markup:
    """Return a circuit as a link to its page; empty for a spare wire."""
    if number == 0:
        return Markup("")
    circuit = view.trailer.circuit(number)
    return Markup('<a href="{}">{}</a>').format(view.circuit_link(circuit), circuit.name)


def cuts_csv(view: View) -> str:
    """Return the cut list as a table in the order of the page; lengths are printed in the build's units."""
    head = (
        "wire", "spool", "on it", "cut", "wires", "circuit", "from", "to", "way", "length to cut", "left", "already in",
    )  # fmt: skip
    units = view.trailer.identity.units
    rows = [
        (
            spool.sort.words,
            "to buy" if spool.bought else f"in stock {spool.number}",
            length(spool.length_m, units),
            place,
            *_cells(view, piece),
            rest(left_m, units),
            "",
        )
        for spool in view.lists.cuts.spools
        for place, (piece, left_m) in enumerate(zip(spool.pieces, spool.left_m, strict=True), start=1)
    ]
    already = [
        (piece.sort.words, "", "", "", *_cells(view, piece), "", why)
        for piece, why in view.lists.cuts.already
    ]
    return csv_text([head, *rows, *already])


def _cells(view: View, piece: Piece) -> tuple[str, ...]:
    units = view.trailer.identity.units
    return (
        " ".join(piece.wires),
        view.trailer.circuit(piece.circuit).name if piece.circuit else "spare",
        piece.start,
        piece.end,
        length(piece.length_m, units),
        length(piece.cut_m, units),
    )
