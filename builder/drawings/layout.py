"""Rulers for the layout engine, and what it gives back: the x of every axis."""

from __future__ import annotations

import math
from itertools import pairwise

import graphviz

from builder.drawings.engine import Layout
from builder.drawings.graph import Leg
from builder.drawings.layers import Layers, Slot

_SNAP = 14.0
_LEAST_GAP = 5.0


def dot_source(filled: Layers) -> str:
    """Return the DOT text of a strip: a table of empty cells for each slot, a port under each axis.

    No text and no colour reaches the engine. One point of the engine is one CSS pixel.
    """
    dot = graphviz.Digraph("strip")
    dot.attr(
        "graph", rankdir="TB", ranksep="0.2", nodesep="0.14", splines="line", newrank="true", ordering="out"
    )
    dot.attr("node", shape="none", margin="0", width="0", height="0")
    dot.attr("edge", arrowhead="none")
    for slot in filled.slots.values():
        dot.node(slot.id, _ruler(slot, _ports(filled, slot.id)))
    for level in range(filled.depth):
        names = "; ".join(slot.id for slot in filled.on_level(level))
        dot.body.append(f"\t{{rank=same; {names};}}\n")
    for leg in filled.graph.legs:
        _edges(dot, filled, leg)
    return str(dot.source)


def _edges(dot: graphviz.Digraph, filled: Layers, leg: Leg) -> None:
    run = filled.runs[leg.id]
    for place, (above, below) in enumerate(pairwise(run)):
        start, end = "p0", "p0"
        weight = 20
        if place == 0:
            start = _port_name(filled, above, _start_x(filled, leg))
            weight = 8 if _count(filled, above, top=False) > 1 else 20
        if place == len(run) - 2:
            end = _port_name(filled, below, _end_x(filled, leg))
            many = _count(filled, below, top=True) > 1
            weight = min(weight, (1 if filled.graph.nodes[leg.end.node].bar else 2) if many else 20)
        dot.edge(f"{above}:{start}:s", f"{below}:{end}:n", weight=str(weight))


def _count(filled: Layers, slot: str, *, top: bool) -> int:
    ends = [filled.runs[leg.id][-1 if top else 0] for leg in filled.graph.legs]
    return ends.count(slot)


def _start_x(filled: Layers, leg: Leg) -> float:
    return filled.boxes[leg.start.node].port(leg.start.pin, top=False)


def _end_x(filled: Layers, leg: Leg) -> float:
    return filled.boxes[leg.end.node].port(leg.end.pin, top=True)


def _ports(filled: Layers, slot: str) -> tuple[float, ...]:
    key = next((key for key, name in filled.node_slots.items() if name == slot), None)
    if key is None:
        return (0.0,)
    room = filled.boxes[key]
    wired = [*room.symbol.tops[: max(1, len(room.tops))], *room.symbol.bottoms[: max(1, len(room.bottoms))]]
    return tuple(sorted({0.0, *wired}))


def _port_name(filled: Layers, slot: str, x: float) -> str:
    ports = _ports(filled, slot)
    return f"p{ports.index(x) if x in ports else 0}"


def _ruler(slot: Slot, ports: tuple[float, ...]) -> str:
    height = max(2, math.ceil(slot.above + slot.below))
    cells, at = [], -math.ceil(slot.left)
    for place, port in enumerate(ports):
        cells += [_cell(round(port) - 1 - at, height), _cell(2, height, f' PORT="p{place}"')]
        at = round(port) + 1
    cells.append(_cell(math.ceil(slot.right) - at, height))
    row = "".join(cells)
    return f'<<TABLE BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="0"><TR>{row}</TR></TABLE>>'


def _cell(width: int, height: int, port: str = "") -> str:
    return f'<TD FIXEDSIZE="TRUE" WIDTH="{width}" HEIGHT="{height}"{port}></TD>' if width > 0 else ""


def axes(filled: Layers, places: Layout) -> dict[str, float]:
    """Return the x of each slot's axis in CSS pixels, from the left edge of the leftmost slot, snapped.

    Raises KeyError where the engine left a slot out.
    """
    found = {}
    for slot in filled.slots.values():
        width = math.ceil(slot.left) + math.ceil(slot.right)
        found[slot.id] = round(places[slot.id][0] - width / 2 + math.ceil(slot.left), 1)
    _snap(filled, found)
    first = min(found[slot.id] - slot.left for slot in filled.slots.values())
    return {name: round(x - first, 1) for name, x in found.items()}


def _snap(filled: Layers, found: dict[str, float]) -> None:
    """Let an axis that stands almost below a line from above take its x, where its neighbours let it."""
    above: dict[str, list[tuple[str, float, float]]] = {}
    for leg in filled.graph.legs:
        run = filled.runs[leg.id]
        for place, (high, low) in enumerate(pairwise(run)):
            out = _start_x(filled, leg) if place == 0 else 0.0
            into = _end_x(filled, leg) if place == len(run) - 2 else 0.0
            above.setdefault(low, []).append((high, out, into))
    for level in range(filled.depth):
        for slot in filled.on_level(level):
            wanted = [found[high] + out - into for high, out, into in above.get(slot.id, ())]
            for x in sorted(wanted, key=lambda x: (abs(x - found[slot.id]), x))[:1]:
                distance = abs(x - found[slot.id])
                if distance <= _SNAP and _free(
                    filled, found, slot.id, x, _LEAST_GAP if distance > 3 else 1.0
                ):
                    found[slot.id] = x


def _free(filled: Layers, found: dict[str, float], name: str, x: float, gap: float) -> bool:
    slot = filled.slots[name]
    for other in filled.on_level(slot.level):
        if other.id == name:
            continue
        left, right = x - slot.left, x + slot.right
        if left < found[other.id] + other.right + gap and right > found[other.id] - other.left - gap:
            return False
    return True


def width_of(filled: Layers, found: dict[str, float]) -> float:
    """Return the width that the slots take, in CSS pixels."""
    return max(found[slot.id] + slot.right for slot in filled.slots.values())
