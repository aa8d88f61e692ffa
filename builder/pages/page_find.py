"""Find it: every part in alphabet, with circuit, fuse and way, switch and place."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.pages.page_fuses import circuit_anchor
from builder.pages.view import View, joined
from builder.pages.wiring import circuits_of, fuse_before, switches_for
from builder.trailer.circuits import Circuit, CircuitKind


def find_page(view: View) -> dict[str, Any]:
    """Return what the template of Find it is filled with."""
    names = sorted(view.trailer.parts, key=lambda name: (name.casefold(), name))
    return {"parts": [_row(view, name) for name in names]}


def _row(view: View, name: str) -> dict[str, Any]:
    circuits = [c for c in circuits_of(view.trailer, name) if not _only_ground(view, c)]
    own = view.trailer.parts[name].own_switch
    return {
        "name": name,
        "id": view.part_ids[name],
        "circuits": joined([circuit_anchor(view, circuit) for circuit in circuits]) or "–",
        "fuses": [fuse for circuit in circuits for fuse in _fuse(view, circuit, name)],
        "in_car": any(circuit.kind is CircuitKind.TOW for circuit in circuits),
        "switch": "" if own else ", ".join(switches_for(view.trailer, name)),
        "own": own,
        "where": view.trailer.parts[name].where,
        "waiting": view.trailer.parts[name].waiting,
    }


def _only_ground(view: View, circuit: Circuit) -> bool:
    """Tell whether a circuit is a ground contact of the tow plug: nobody looks for its fuse."""
    plug = view.trailer.tow_plug
    return (
        circuit.contact is not None and plug is not None and plug.pattern.contact(circuit.contact).is_ground
    )


def _fuse(view: View, circuit: Circuit, part: str) -> list[dict[str, Any]]:
    """Return the fuse that a part hangs on, with its way; nothing where it is in the car."""
    name = fuse_before(view.trailer, circuit, part) or circuit.fuse_part
    fuse = next((fuse for fuse in view.figures.fuses if fuse.name == name), None)
    if fuse is None:
        return []
    link = Markup("fuses.html#way-{}").format(fuse.way) if fuse.way is not None else Markup("fuses.html")
    return [{"chip": view.fuse_words(fuse.name), "way": fuse.way, "name": fuse.name, "link": link}]
