"""The shopping list: what to buy by section, and where each number comes from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from builder.lists.built_in import to_count, to_measure
from builder.lists.ends import Fit
from builder.lists.parts_needed import SUPPLY_LINK
from builder.lists.pieces import shared_terminals
from builder.lists.shopping import Item, SharedTerminal, WireItem
from builder.lists.ways_needed import WayItem
from builder.pages.page_fuses import wire_link
from builder.pages.rounding import price
from builder.pages.terminals import end_data
from builder.pages.view import View, joined, step
from builder.trailer.model import FRAME
from builder.trailer.parts import Terminal
from builder.trailer.places import ChaseKind
from builder.trailer.prices import STRAP
from builder.trailer.stock import STRIP_KINDS

COUNTED = (
    "terminals",
    "splices",
    "connectors",
    "bridges",
    "grommets",
    "supports",
    "plates",
    "blocks",
    "fuses",
    "bulbs",
    "reflectors",
    "labels",
)
"""The sections of things that are counted, in the order of the page."""


def shopping_page(view: View) -> dict[str, Any]:
    """Return what the template of the shopping list is filled with."""
    shopping = view.lists.shopping
    ids = [
        *(one.id for one in shopping.wire),
        *(one.id for one in shopping.ways),
        *(i.id for i in (*shopping.items, *shopping.open_ends)),
    ]
    places = {id_: place for place, id_ in enumerate(ids, start=1)}
    sections = {name: [_item(view, item, places) for item in shopping.section(name)] for name in COUNTED}
    return {
        "feet": view.trailer.identity.units == "feet",
        "pair": any(item.other for item in shopping.wire),
        "rings_there": any(item.kind == "ring" and item.stock for item in shopping.items)
        and any(one.kind == "ring" and one.stud is None for one in view.trailer.stock.terminals),
        "strip_there": [
            f"{one.count} × {one.kind} {one.size}"
            for one in view.trailer.stock.terminals
            if one.kind in STRIP_KINDS
        ],
        "studs": any(item.stud for item in shopping.items),
        "plug": view.trailer.tow_plug is not None,
        "battery": view.trailer.battery is not None,
        "stock": _has_stock(view),
        "tail": _assumed(view, "tail at each end", "m"),
        "more_wire": _assumed(view, "wire to spare", "%"),
        "more_terminals": _assumed(view, "terminals to spare", "%"),
        "wire": [_wire(view, item, places) for item in shopping.wire],
        "costs": _costs(view),
        "ways": [_way(view, item, places) for item in shopping.ways if item.section == "conduit"],
        "lengths": [_way(view, item, places) for item in shopping.ways if item.section == "by length"],
        "to_measure": list(to_measure(view.trailer, view.figures)),
        "to_count": list(to_count(view.trailer, view.figures)),
        "sections": sections,
        "open_ends": [_item(view, item, places) for item in shopping.open_ends],
        "shared": _meeting(view, shopping.shared),
        "meeting": _meeting(view, shared_terminals(view.trailer, view.figures, Fit.OWN)),
        "bonded": any(FRAME in (wire.start.part, wire.end.part) for wire in view.trailer.wires),
        "clips_there": any(item.stock for item in shopping.section("supports")),
        "straps": any(item.kind == STRAP for item in shopping.section("supports")),
        "boxes": [_item(view, item, places) for item in shopping.section("box")],
        "parts": [_item(view, item, places) for item in shopping.section("parts")],
        "stretches": [line for item in shopping.wire for line in _stretches(view, item, places)],
    }


def _meeting(view: View, terminals: Sequence[SharedTerminal]) -> list[dict[str, Any]]:
    """Return terminals that more than one wire comes to, each with its wires."""
    return [
        {
            "end": end_data(view.trailer, Terminal(at.part, at.pin)),
            "wires": joined([wire_link(number) for number in at.wires]),
        }
        for at in terminals
    ]


def _has_stock(view: View) -> bool:
    stock = view.trailer.stock
    return bool(
        stock.wire
        or stock.fuses
        or stock.bulbs
        or stock.terminals
        or stock.labels
        or stock.parts
        or stock.conduit
        or stock.clips
        or stock.grommets
    )


def _assumed(view: View, id_: str, unit: str) -> Markup:
    there = any(one.id == id_ for one in view.figures.assumptions)
    return view.fig(f"assumptions/{step(id_)}/value", unit) if there else Markup("")


def _chips(view: View, item: WireItem) -> list[dict[str, str]]:
    colors = [item.color, *([item.other] if item.other else [])]
    return [view.wire_chip(color, str(item.size)) for color in colors]


def _wire(view: View, item: WireItem, places: dict[str, int]) -> dict[str, Any]:
    path = f"shopping/{step(item.id)}"
    return {
        "chips": _chips(view, item),
        "pair": item.other is not None,
        "size": str(item.size),
        "anchor": f"from-{places[item.id]}",
        "buy": view.fig(f"{path}/buy_length_m"),
        "bought": item.buy_m > 0,
        "needed": view.fig(f"{path}/needed_length_m"),
        "stock": view.fig(f"{path}/from_stock_length_m") if item.stock_m > 0 else "",
        "wired": view.fig(f"{path}/wired_length_m"),
        "tails": view.fig(f"{path}/tails_length_m"),
        "more": view.fig(f"{path}/to_spare_length_m"),
        "already": view.fig(f"{path}/in_already_length_m") if item.in_m else "",
    }


def _costs(view: View) -> dict[str, Any] | None:
    """Return what it costs, each amount with two figures behind the point; None where the file has no price."""
    found = view.lists.costs
    if not found.currency:
        return None
    return {
        "currency": found.currency,
        "rows": [
            {
                "name": line.price.name,
                "buy": view.fig(f"costs/lines/{n}/{'buy' if line.length_m is None else 'buy_length_m'}"),
                "price": price(line.price.amount.value),
                "per": line.price.amount.per,
                "sum": f"{line.sum:.2f}",
            }
            for n, line in enumerate(found.lines)
        ],
        "total": f"{found.total:.2f}",
        "open": found.open_lines,
        "unused": list(found.unused),
    }


def _way(view: View, item: WayItem, places: dict[str, int]) -> dict[str, Any]:
    path = f"shopping/{step(item.id)}"
    return {
        "kind": item.kind,
        "bore": view.fig(f"{path}/bore_length_m") if item.bore_m is not None else "",
        "size": item.size,
        "wide": view.fig(f"{path}/wide_length_m") if item.wide_m is not None else "",
        "deep": view.fig(f"{path}/deep_length_m") if item.deep_m is not None else "",
        "anchor": f"from-{places[item.id]}",
        "buy": view.fig(f"{path}/buy_length_m"),
        "bought": item.buy_m > 0,
        "used": view.fig(f"{path}/built_in_length_m"),
        "stock": view.fig(f"{path}/from_stock_length_m") if item.stock_m > 0 else "",
        "names": list(item.names),
        "chases": [
            (name, view.fig(f"chases/{step(name)}/whole_length_m"))
            for name in item.names
            if item.kind == ChaseKind.CHANNEL.value
        ],
    }


def _stretches(view: View, item: WireItem, places: dict[str, int]) -> list[dict[str, Any]]:
    """Return what each circuit adds to a kind of wire; the first line carries the anchor."""
    path = f"shopping/{step(item.id)}/from"
    return [
        {
            "id": f"from-{places[item.id]}" if place == 0 else "",
            "chips": _chips(view, item),
            "pair": item.other is not None,
            "size": str(item.size),
            "link": _circuit(view, stretch.circuit),
            "wires": joined([wire_link(number) for number in stretch.wires]),
            "length": view.fig(f"{path}/{place}/length_m"),
            "tails": view.fig(f"{path}/{place}/tails_length_m") if stretch.tails_m > 0 else "",
        }
        for place, stretch in enumerate(item.stretches)
    ]


def _circuit(view: View, number: int) -> Markup:
    """Return a circuit as a link to its page; empty for the spare wires."""
    if number == 0:
        return Markup("")
    circuit = view.trailer.circuit(number)
    return Markup('<a href="{}">{}</a>').format(view.circuit_link(circuit), circuit.name)


_UNITS = {"_a": "A", "_w": "W", "_v": "V", "ah": "Ah"}


def _item(view: View, item: Item, places: dict[str, int]) -> dict[str, Any]:
    path = f"shopping/{step(item.id)}"
    amounts = (
        "ways",
        "ways_used",
        "conductors",
        "rating_a",
        "least_rating_a",
        "takes_a",
        "gives_a",
        "gives_w",
        "gives_v",
        "gives_least_a",
        "for_v",
        "module_w",
        "capacity_ah",
    )
    there = [key for key in amounts if getattr(item, key) is not None]
    numbers = {key: view.fig(f"{path}/{key}", _UNITS.get(key[-2:], "")) for key in there}
    counts = ("used",) if item.section == "open ends" else ("used", "to_spare", "needed", "buy", "from_stock")
    return {
        "section": item.section,
        "kind": item.kind,
        "size": item.size,
        "place": item.place,
        "stud": item.stud,
        "series": item.series,
        "color": item.color,
        "anchor": f"from-{places[item.id]}",
        "bought": item.buy > 0,
        "stocked": item.stock > 0,
        "wires": joined([wire_link(number) for number in item.wires]),
        "alone": joined([wire_link(number) for number in item.alone]),
        "names": list(item.names),
        "with_link": item.kind == Fit.RING and SUPPLY_LINK in item.names,
        "name": item.names[0] if item.names else "",
        "part": _part(view, item),
        "waiting": item.waits,
        "reflector": item.reflector,
        "shows": _shows(view, item),
        "capacity": _capacity(view, item),
        **{
            word: view.fig(f"{path}/{word}_length_m") if getattr(item, f"{word}_m") is not None else ""
            for word in ("bore", "loop", "across", "wide", "high", "thick")
        },
        **{key: view.fig(f"{path}/{key}") for key in counts},
        **dict.fromkeys(amounts, ""),
        **numbers,
    }


def _part(view: View, item: Item) -> Markup:
    """Return a part's name as a link to its row on Find it; empty for what is no part."""
    name = item.names[0] if item.names else ""
    if item.section not in ("parts", "connectors") or name not in view.part_ids:
        return Markup("")
    return Markup('<a href="find.html#{}">{}</a>').format(view.part_ids[name], name)


def _shows(view: View, item: Item) -> str:
    """Return what a road lamp shows and in which colours, by the words of the build file; empty for any other part."""
    for lamp in view.trailer.road_lamps:
        if item.section == "parts" and lamp.name in item.names:
            colors = tuple(dict.fromkeys(lamp.shines[word] for word in lamp.shows if word in lamp.shines))
            return "; ".join(", ".join(words) for words in (lamp.shows, colors) if words)
    return ""


def _capacity(view: View, item: Item) -> Markup:
    battery = item.section == "box" and item.kind == "battery" and view.figures.energy is not None
    return view.fig("energy/capacity_ah", "Ah") if battery else Markup("")
