"""Adding something: what is free, what each circuit has left, what is never joined to, what a new circuit needs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from markupsafe import Markup

from builder.electrics.figures import HeadroomFigures
from builder.electrics.headroom import NEVER_SHARED
from builder.lists.landing_sheet import box_piece
from builder.pages.page_fuses import circuit_anchor
from builder.pages.page_options import option_rows
from builder.pages.page_panel import panel_pages
from builder.pages.page_wires import spare_rows
from builder.pages.view import View, joined
from builder.pages.wiring import main_fuse, stays_live, switches_of
from builder.trailer.box_face import PieceName
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.mains import has_mains
from builder.trailer.model import Trailer
from builder.trailer.parts import Form, Part

LEAST_USE_W = 1.0
"""Less than this is of no use to anyone."""


def adding_page(view: View) -> dict[str, Any]:
    """Return what the template of Adding something is filled with."""
    trailer = view.trailer
    names: tuple[PieceName, ...] = ("fuse block", "ground bar", "strip")
    fuse_block, ground_bar, strip = (box_piece(view.lists.landings, name) for name in names)
    return {
        "workshop": view.edition.reads(),
        "us": trailer.identity.country == "US",
        "box": trailer.front_box is not None,
        "has_battery": trailer.battery is not None,
        "to_scale": bool(trailer.geometry),
        "ways_told": bool(trailer.geometry.chases),
        "panels": [(one.panel.name, f"{path}.html") for path, one in panel_pages(view).items()],
        "has_plug": trailer.tow_plug is not None,
        "free_ways": list(fuse_block.free_places) if fuse_block else [],
        "free_screws": ground_bar.free if ground_bar else None,
        "free_positions": strip.free if strip else None,
        "connectors": _connectors(view),
        "spares": spare_rows(view, anchors=False),
        "strings": _strings(view),
        "waiting": _waiting(view),
        "options": option_rows(view),
        "rooms": [_room(view, one) for one in view.figures.headroom],
        "coils": any(_works_a_coil(view, one.circuit) for one in view.figures.headroom),
        "share": view.fig("assumptions/fuse loading/value", "%"),
        "aim": view.fig("assumptions/drop aimed at/value", "%"),
        "never": _never(view),
        "main_fuse": main_fuse(trailer) is not None,
        "sizes": _sizes(view),
    }


def _strings(view: View) -> list[dict[str, str]]:
    """Return the chases in which a pull string lies, with their two ends."""
    return [
        {"name": chase.name, "start": chase.through[0], "end": chase.through[-1], "where": chase.where}
        for chase in view.trailer.geometry.chases.values()
        if chase.fittings.pull_string and chase.takes_wires
    ]


def _connectors(view: View) -> list[dict[str, Any]]:
    """Return the connectors that have ways free, each with their numbers."""
    found = []
    for part in view.trailer.parts.values():
        free = free_ways_of(view, part)
        if free:
            found.append({"name": _part_link(view, part.name), "ways": ", ".join(map(str, free))})
    return found


def free_ways_of(view: View, part: Part) -> list[int]:
    """Return the ways of a connector on which no wire lands."""
    if part.form is not Form.THROUGH or part.ways is None:
        return []
    taken = {at.pin.split()[1] for at in view.figures.landings if at.part == part.name}
    return [way for way in range(1, part.ways + 1) if str(way) not in taken]


def _waiting(view: View) -> list[dict[str, Any]]:
    """Return the parts that are not there yet while their wire is."""
    on: dict[str, list[Circuit]] = {}
    for circuit in view.trailer.circuits:
        for name in dict.fromkeys(stop.part for stop in circuit.stops):
            on.setdefault(name, []).append(circuit)
    return [
        {
            "name": _part_link(view, part.name),
            "circuits": joined([circuit_anchor(view, circuit) for circuit in on[part.name]]),
            "note": part.waiting,
        }
        for part in view.trailer.parts.values()
        if part.waiting and part.name in on
    ]


def _part_link(view: View, name: str) -> Markup:
    return Markup('<a href="find.html#{}">{}</a>').format(view.part_ids[name], name)


def _works_a_coil(view: View, circuit: int) -> bool:
    """Tell whether a circuit holds the coil of a relay, whose own wires no room is counted for."""
    return any(one.load.what == "coil" for one in view.figures.circuits[circuit].loads)


def _room(view: View, one: HeadroomFigures) -> dict[str, Any]:
    """Return the row of a circuit: what is left on it and what sets that limit."""
    circuit = view.trailer.circuit(one.circuit)
    unrated = [
        name
        for name, works in switches_of(view.trailer, circuit)
        if works and _is_unrated(view.trailer, name)
    ]
    path = f"headroom/{one.circuit}"
    return {
        "circuit": circuit_anchor(view, circuit),
        "way": circuit.way,
        "before": _converters(view.trailer, circuit),
        "left": view.fig(f"{path}/left_w", "W"),
        "none": one.left_w < LEAST_USE_W,
        "limit": one.limit,
        "connector": one.limit == "switch" and _is_connector(view.trailer, one.switch),
        "part": one.part,
        "switch": one.switch,
        "fuse": "" if one.fuse == f"way {circuit.way}" else one.fuse,
        "wire": one.wire,
        "switches": ", ".join(unrated),
        "fuse_w": view.fig(f"{path}/fuse_w", "W"),
        "wire_w": view.fig(f"{path}/wire_w", "W"),
        "drop_w": view.fig(f"{path}/drop_w", "W"),
        "switch_w": view.fig(f"{path}/switch_w", "W") if one.switch_w is not None else "–",
    }


def _converters(trailer: Trailer, circuit: Circuit) -> str:
    """Return the converters on a circuit: what is joined behind one gets another voltage."""
    kinds = {stop.part: trailer.parts[stop.part].kind for stop in circuit.stops if stop.part in trailer.parts}
    return ", ".join(name for name, kind in kinds.items() if kind == "converter")


def _is_connector(trailer: Trailer, name: str) -> bool:
    return name in trailer.parts and trailer.parts[name].form is Form.THROUGH


def _is_unrated(trailer: Trailer, name: str) -> bool:
    """Tell whether a switch that stands by itself has no rating in the file; one built into a part knows its load."""
    part = trailer.parts[name]
    return part.rating_a is None and not part.own_switch and part.kind != "receiver"


def _never(view: View) -> list[dict[str, Any]]:
    """Return what nothing is ever joined to, one line a kind, with the circuits or parts it is about."""
    trailer = view.trailer
    alarms = [c for c in trailer.circuits if _feeds_alarm(trailer, c)]
    live = [c for c in stays_live(trailer) if c not in alarms]
    elsewhere = [c for c in trailer.circuits if c.kind is CircuitKind.FROM and c not in (*alarms, *live)]
    figured = {one.circuit for one in view.figures.headroom}
    silent = [
        c for c in trailer.circuits if c.way is not None and c.number not in figured and c not in alarms
    ]
    lines: list[tuple[str, Iterable[Any]]] = [
        ("road lamps", [""] if trailer.tow_plug is not None else []),
        ("elsewhere", _links(view, elsewhere)),
        ("alarm", _links(view, alarms)),
        ("battery", [""] if trailer.battery is not None else []),
        ("live", _links(view, live)),
        ("behind", [name for name in trailer.parts if trailer.parts[name].kind == "converter"]),
        ("no figure", _links(view, silent)),
        ("taken way", [""] if trailer.front_box is not None else []),
        ("mains", [""] if has_mains(trailer) else []),
    ]
    return [{"kind": kind, "names": joined(list(names))} for kind, names in lines if names]


def _links(view: View, circuits: Iterable[Circuit]) -> list[Markup]:
    return [circuit_anchor(view, circuit) for circuit in circuits]


def _feeds_alarm(trailer: Trailer, circuit: Circuit) -> bool:
    return any(
        stop.part in trailer.parts and trailer.parts[stop.part].kind in NEVER_SHARED for stop in circuit.stops
    )


def _sizes(view: View) -> list[dict[str, Any]]:
    """Return each fuse that a new circuit may have, with the thinnest wire at hand that it protects."""
    return [
        {"rating": view.fig(f"new_fuses/{place}/rating_a", "A"), "size": str(one.size)}
        for place, one in enumerate(view.figures.new_fuses)
    ]
