"""What pages tell of bends and turns, and of mains beside the wires."""

from __future__ import annotations

from typing import Any

from builder.pages.page_fuses import wire_link
from builder.pages.view import View, joined, step
from builder.routes.apart import BesideMains
from builder.routes.bends import Bends, Turn
from builder.trailer.fittings import Carries
from builder.trailer.mains import has_mains
from builder.trailer.places import Chase, ChaseKind


def length_told(view: View, chase: Chase, word: str) -> Any:
    """Return a length of how a chase is built in, by its word; empty where the file has none."""
    path = f"laid/{step(chase.name)}/{word}_length_m"
    return view.fig(path) if f"{word}_length_m" in view.value(f"laid/{step(chase.name)}") else ""


def turn_told(view: View, turn: Turn, number: int) -> dict[str, Any]:
    """Return where wires turn, by how much, and how tightly at most."""
    return {
        "place": turn.place,
        "between": " · ".join(dict.fromkeys(stretch.chase for stretch in turn.stretches)),
        "angle": view.fig(f"turns/{number}/angle_deg"),
        "count": len(turn.wires) + len(turn.twice),
        "least": view.fig(f"turns/{number}/least_bend_length_m") if turn.least_m is not None else "",
    }


def bend_told(view: View, bends: Bends) -> dict[str, Any]:
    """Return how much a chase turns from end to end, its bends' radius, and the least one for its wires."""
    path = f"laid/{step(bends.chase.name)}"
    conduit = bends.chase.kind is ChaseKind.CONDUIT
    return {
        "name": bends.chase.name,
        "turned": view.fig(f"{path}/turned_deg"),
        "open": view.fig(f"{path}/open_deg") if conduit and bends.open_deg else "",
        "bent": view.fig(f"{path}/bent_deg") if conduit and bends.open_deg and bends.bent_deg else "",
        "straight": conduit and not bends.bent_deg,
        "radius": length_told(view, bends.chase, "bend_radius"),
        "least": view.fig(f"{path}/least_bend_length_m") if bends.least_m is not None else "",
    }


def mains_told(view: View) -> dict[str, Any]:
    """Return what is said of mains: where it lies, what lies beside it, and how far it is kept apart."""
    chases = view.trailer.geometry.chases.values()
    return {
        "mains": has_mains(view.trailer),
        "mains_chases": [
            (chase.name, chase.fittings.carries is Carries.BOTH) for chase in chases if chase.holds_mains
        ],
        "beside": [_beside(view, one, n) for n, one in enumerate(view.figures.laid.beside_mains)],
        "gap": view.fig("laid_limits/mains_gap_length_m") if view.trailer.geometry.chases else "",
    }


def _beside(view: View, one: BesideMains, place: int) -> dict[str, Any]:
    return {
        "mains": one.mains.name,
        "chase": one.chase.name,
        "shared": one.shared,
        "wires": joined([wire_link(wire) for wire in one.wires]),
        "gap": view.fig(f"beside_mains/{place}/gap_length_m") if one.gap_m is not None else "",
        "divided": one.divided,
    }
