"""Which wires run as a pair in one jacket, where wire is sold so, and which run by themselves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.electrics.figures import WireFigures
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import Trailer
from builder.trailer.size import Size
from builder.trailer.wires import Role, Wire


def pair_sides(trailer: Trailer, circuit: int, wires: Sequence[Wire]) -> tuple[list[Wire], list[Wire]]:
    """Return the wires of one circuit and size that pair cable can be: feeds, and the returns beside them.

    They have the build's two colours; without both sides there is no pair. The battery's own line is never one: its
    cables part at the fuse, the switch and the posts (common practice).
    """
    shelf = trailer.shelf
    pairs = shelf.sold_as == "pair" and shelf.feed != shelf.ground
    if not pairs or circuit == 0 or trailer.circuit(circuit).kind is CircuitKind.BATTERY:
        return [], []
    feeds = [w for w in wires if w.role in (Role.FEED, Role.TRAVELLER) and w.color == shelf.feed]
    returns = [w for w in wires if w.role is Role.RETURN and w.color == shelf.ground]
    return (feeds, returns) if feeds and returns else ([], [])


def paired(trailer: Trailer, figures: Mapping[str, WireFigures]) -> frozenset[str]:
    """Return the numbers of the wires that run as a pair; a side that is longer than the other counts as one."""
    groups: dict[tuple[int, Size], list[Wire]] = {}
    for wire in trailer.wires:
        if wire.number in figures:
            groups.setdefault((wire.circuit, figures[wire.number].size), []).append(wire)
    sides = (pair_sides(trailer, circuit, wires) for (circuit, _), wires in groups.items())
    return frozenset(wire.number for both in sides for side in both for wire in side)
