"""A page for each circuit: its facts, what it feeds, the way of its current, its wires, how it was worked out."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from markupsafe import Markup

from builder.electrics.braking import fed_by_breakaway
from builder.electrics.figures import CircuitFigures, FuseFigures
from builder.lists.ends import is_core
from builder.pages.guide_data import stops_link
from builder.pages.leads_told import leads_told
from builder.pages.page_as_built import changes_of, measured_of
from builder.pages.page_fuses import circuit_anchor
from builder.pages.rounding import length, shown
from builder.pages.terminals import end_data
from builder.pages.view import View, joined, step
from builder.pages.wiring import is_ground_contact, of_brakes, part_of, switches_of
from builder.trailer.circuits import Circuit, CircuitKind, Stop
from builder.trailer.model import FRONT_BOX
from builder.trailer.parts import ISOLATOR, RELAY, SWITCHING, Form
from builder.trailer.plug_functions import shown_in
from builder.trailer.wires import Load, Role


def circuit_page(view: View, circuit: Circuit) -> dict[str, Any]:
    """Return what the template of a circuit's page is filled with."""
    trailer = view.trailer
    figures = view.figures.circuits[circuit.number]
    return {
        "circuit": circuit,
        "stops": stops_link(view, circuit),
        "us": trailer.identity.country == "US",
        "workshop": view.edition.reads(),
        "breakaway": _breakaway(view, circuit),
        "drafts": view.drafts([wire for wire in trailer.wires if wire.circuit == circuit.number]),
        "tow": circuit.kind is CircuitKind.TOW,
        "ground": is_ground_contact(trailer, circuit),
        "grounds": _grounds(view) if circuit.kind is CircuitKind.TOW else "",
        "fuse": fuse_data(view, figures.fuse),
        "start": end_data(trailer, circuit.start) if circuit.way is None else None,
        "feed_chips": _chips(view, circuit, (Role.FEED, Role.TRAVELLER)),
        "return_chips": _chips(view, circuit, (Role.RETURN,)),
        "switches": [switch for switch, works in switches_of(trailer, circuit) if works],
        "charges": _charging_load(figures) is not None,
        "takes": _takes(view, figures),
        "sum_rounded": _sum_rounded(view, figures),
        "parts": _parts(view, circuit, figures),
        "waiting": [
            s.part for s in circuit.stops if s.part in trailer.parts and trailer.parts[s.part].waiting
        ],
        "legs": _legs(view, circuit),
        "returns": _returns(view, circuit),
        "wires": wire_rows(view, circuit),
        "relay": any(
            trailer.parts[stop.part].kind == RELAY for stop in circuit.stops if stop.part in trailer.parts
        ),
        "size": size_data(view, circuit.number),
        "loads": load_data(view, circuit.number),
        "ratings": _ratings(view, circuit) if view.edition.reads() else [],
        "changes": changes_of(view, circuit.number),
        "measured": measured_of(view, circuit.number),
        "leads": leads_told(view, [stop.part for stop in circuit.stops]),
        "worked_link": f"worked.html#worked-{circuit.number}",
        "findings": [
            {
                "level": f.level.value,
                "message": f.message,
                "help": f.help,
                "basis": f.basis,
                "line": f.origin.line,
            }
            for f in view.findings
            if f.circuit == circuit.number
        ],
    }


def _breakaway(view: View, circuit: Circuit) -> dict[str, Any]:
    """Return the two circuits that feed the same brakes, and which of them this is; empty where there are no two."""
    brakes = view.figures.brakes
    if brakes is None or brakes.breakaway is None or not of_brakes(view.figures, circuit.number):
        return {}
    other = brakes.circuit if circuit.number == brakes.breakaway else brakes.breakaway
    return {
        "own": circuit.number == brakes.breakaway,
        "other": circuit_anchor(view, view.trailer.circuit(other)) if other is not None else "",
        "feeds": ", ".join(fed_by_breakaway(view.trailer)),
    }


def _grounds(view: View) -> Markup:
    """Return links to the pages of the plug's ground contacts, where the wires back from road lamps are listed."""
    found = [c for c in view.trailer.circuits if is_ground_contact(view.trailer, c)]
    return joined([Markup('<a href="{}">{}</a>').format(view.circuit_link(c), c.name) for c in found])


def _charging_load(figures: CircuitFigures) -> int | None:
    """Return the place of the load that is a battery being charged; None where the circuit charges nothing."""
    return next((n for n, load in enumerate(figures.loads) if load.load.charged_from), None)


def _takes(view: View, figures: CircuitFigures) -> Markup:
    """Return what a circuit takes with everything on, or what it charges the battery with."""
    path, place = f"circuits/{figures.number}", _charging_load(figures)
    return view.fig(f"{path}/load_current_a" if place is None else f"{path}/loads/{place}/current_a", "A")


def _sum_rounded(view: View, figures: CircuitFigures) -> bool:
    """Tell whether what the parts take, as it is printed for each, does not add up to what is printed for all."""
    if len(figures.loads) < 2 or _charging_load(figures) is not None:
        return False
    printed = sum(Decimal(shown(load.current_a, view.edition.reader)) for load in figures.loads)
    return printed != Decimal(shown(figures.load_current_a, view.edition.reader))


def fuse_data(view: View, fuse: FuseFigures | None) -> dict[str, Any] | None:
    """Return what is said of a fuse; None when the trailer has none here."""
    if fuse is None:
        return None
    path = f"fuses/{step(fuse.name)}"
    return {
        "name": fuse.name,
        "chip": view.fuse_words(fuse.name),
        "reason": fuse.reason,
        "load": view.fig(f"{path}/load_a", "A"),
        "start": view.fig(f"{path}/starting_a", "A"),
        "needed": view.fig(f"{path}/needed_a", "A"),
        "ceiling": view.fig(f"{path}/ceiling_a", "A"),
        "thinnest": f"{fuse.thinnest_wire} ({fuse.thinnest})",
        "source": fuse.ceiling_source,
        "above_bearing": _above_bearing(view, fuse),
    }


def _above_bearing(view: View, fuse: FuseFigures) -> bool:
    """Tell whether a fuse is larger than what a wire of its circuit bears where it lies, as the fuse's table allows."""
    wires = (view.figures.wires[one.number] for one in view.trailer.wires if one.circuit == fuse.circuit)
    return fuse.rating_a is not None and any(fuse.rating_a > wire.ampacity_a for wire in wires)


def size_data(view: View, circuit: int) -> dict[str, Any]:
    """Return what is said of how a circuit's size was chosen."""
    choice = view.figures.circuits[circuit].size
    path = f"circuits/{circuit}/size"
    return {
        "chosen": str(choice.chosen),
        "smallest": str(choice.smallest),
        "reason": choice.reason,
        "smaller": str(choice.next_smaller or ""),
        "smaller_drop": view.fig(f"{path}/next_smaller_drop_v", "V") if choice.next_smaller else "",
        "aim": view.fig(f"{path}/aim_v", "V"),
        "cores": _other_sizes(view, circuit, str(choice.chosen), cores=True),
        "others": _other_sizes(view, circuit, str(choice.chosen), cores=False),
    }


def _other_sizes(view: View, circuit: int, chosen: str, *, cores: bool) -> str:
    """Return the wires of a circuit that are of another size than the one chosen for it, each with its own.

    ``cores`` asks for those that are cores of the plug's cable, whose size the file does not give; else for the others.
    """
    found = (
        (wire.number, str(view.figures.wires[wire.number].size))
        for wire in view.trailer.wires
        if wire.circuit == circuit and is_core(wire, view.trailer) is cores
    )
    return ", ".join(f"{number} {size}" for number, size in found if size != chosen)


def load_data(view: View, circuit: int) -> list[dict[str, Any]]:
    """Return the drop at each load of a circuit."""
    nominal = {supply.name: supply.nominal_v for supply in view.figures.supplies}
    found = []
    for place, load in enumerate(view.figures.circuits[circuit].loads):
        if load.load.what == "idle":
            continue
        path = f"circuits/{circuit}/loads/{place}"
        found.append(
            {
                "part": load_name(view, load.load),
                "drop": view.fig(f"{path}/drop_v", "V"),
                "percent": view.fig(f"{path}/drop_percent", "%"),
                "twelve": nominal[load.load.section] == 12.0,
                "place": place,
            }
        )
    return found


def load_name(view: View, load: Load) -> str:
    """Return the name of a load: its part, and which of its loads where it has several."""
    what = shown_in(view.trailer.identity.country, load.what)
    return f"{load.part} ({what})" if what else load.part


def _chips(view: View, circuit: Circuit, roles: tuple[Role, ...]) -> list[dict[str, str]]:
    colors = dict.fromkeys(
        w.color for w in view.trailer.wires if w.circuit == circuit.number and w.role in roles
    )
    return [view.wire_chip(color) for color in colors]


def _parts(view: View, circuit: Circuit, figures: CircuitFigures) -> list[dict[str, Any]]:
    """Return the parts along the path, each with its place and what it takes."""
    takes: dict[str, Markup] = {}
    for place, load in enumerate(figures.loads):
        if load.load.what in ("", "coil", "own draw", "input") or circuit.kind is CircuitKind.TOW:
            taken = view.fig(f"circuits/{circuit.number}/loads/{place}/current_a", "A")
            takes[load.load.part] = (
                takes[load.load.part] + Markup(" + ") + taken if load.load.part in takes else taken
            )
    fuses = {fuse.name for fuse in view.figures.fuses if fuse.way is None}
    names = list(dict.fromkeys(stop.part for stop in circuit.stops if stop.part in view.trailer.parts))
    return [
        {
            "link": Markup('<a href="find.html#{}">{}</a>').format(view.part_ids[name], name),
            "where": view.trailer.parts[name].where,
            "note": view.trailer.parts[name].note,
            "takes": takes.get(name, ""),
            "fuse": view.fuse_words(name) if name in fuses else None,
            "id": view.part_ids[name],
        }
        for name in names
    ]


def _legs(view: View, circuit: Circuit) -> list[dict[str, Any]]:
    """Return the way of the current item by item; a road lamp's begins with the plug's own cable to the box."""
    units = view.trailer.identity.units
    start = end_data(view.trailer, circuit.start)
    legs: list[dict[str, Any]] = []
    cable = next(
        (w for w in view.trailer.wires if w.start == circuit.start and w.end.part == FRONT_BOX), None
    )
    if circuit.kind is CircuitKind.TOW and cable is not None:
        legs.append(_leg(start, FRONT_BOX, length(cable.length_m, units)))
        start = end_data(view.trailer, cable.end)
    for place, stop in enumerate(circuit.stops):
        legs.append(
            _leg(
                circuit.stops[stop.parent].part if stop.parent >= 0 else start,
                stop.part,
                length(stop.length_m, units) if stop.length_m else "–",
                branch=place > 0 and stop.parent != place - 1,
                coil=stop.as_coil,
                does=_does(view, stop),
            )
        )
    return legs


def _leg(start: Any, part: str, length_: str, **more: Any) -> dict[str, Any]:
    plain = {"branch": False, "coil": False, "does": ""}
    return plain | {"start": start, "part": part, "length": length_} | more


def _ratings(view: View, circuit: Circuit) -> list[dict[str, Any]]:
    """Return what each switch of a circuit carries and the rating it needs at least."""
    return [
        {
            "name": switch.name,
            "load": view.fig(f"switches/{step(switch.name)}/load_a", "A"),
            "least": view.fig(f"switches/{step(switch.name)}/least_rating_a", "A"),
        }
        for switch in view.figures.switches
        if switch.circuit == circuit.number
    ]


def _returns(view: View, circuit: Circuit) -> list[dict[str, Any]]:
    """Return the returns of a circuit, each with its two ends; the plug's own cable and bonds left out."""
    return [
        {
            "start": end_data(view.trailer, wire.start),
            "end": end_data(view.trailer, wire.end),
            "length": view.fig(f"wires/{wire.number}/length_m"),
        }
        for wire in view.trailer.wires
        if wire.circuit == circuit.number and wire.role is Role.RETURN
    ]


def _does(view: View, stop: Stop) -> str:
    part = part_of(view.trailer, stop)
    if part is None or stop.as_coil:
        return ""
    if part.kind in ("fuse", "breaker"):
        return "fuse"
    if part.form is Form.THROUGH:
        return "through"
    if part.form is Form.SECTION:
        return "section"
    return "switch" if part.kind in (*SWITCHING, ISOLATOR) else ""


def wire_rows(view: View, circuit: Circuit) -> list[dict[str, Any]]:
    """Return the wires of a circuit as rows of a table."""
    return [
        {
            "number": wire.number,
            "draft": view.is_draft(wire),
            "id": f"wire-{wire.number.lower()}",
            "chip": view.wire_chip(wire.color, str(view.figures.wires[wire.number].size)),
            "start": end_data(view.trailer, wire.start),
            "end": end_data(view.trailer, wire.end),
            "length": view.fig(f"wires/{wire.number}/length_m"),
            "current": view.fig(f"wires/{wire.number}/current_a", "A"),
            "ampacity": view.fig(f"wires/{wire.number}/ampacity_a", "A"),
            "drop": view.fig(f"wires/{wire.number}/drop_v", "V"),
            "through": ", ".join(wire.through),
            "link": Markup('<a href="{}">{}</a>').format(view.circuit_link(circuit), circuit.name),
        }
        for wire in view.trailer.wires
        if wire.circuit == circuit.number
    ]
