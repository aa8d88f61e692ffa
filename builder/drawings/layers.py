"""The levels of a strip filled: nodes, tags, and lanes for wires that pass; and how wide they will be."""

from __future__ import annotations

import math
from dataclasses import dataclass

from builder.drawings.graph import Graph
from builder.drawings.levels import levels
from builder.drawings.measure import GAP, LANE, TAG_LEFT, Box, Flag, Style, box_of, flag_of


@dataclass(frozen=True, slots=True)
class Slot:
    """One place on a level: a node (``n``), a tag (``t``) or a lane (``l``); measures around its axis."""

    id: str
    level: int
    left: float
    right: float
    above: float
    below: float


@dataclass(frozen=True, slots=True)
class Layers:
    """A strip ready for the layout engine; ``runs`` lists for each leg the slots from its start to its end."""

    graph: Graph
    boxes: dict[str, Box]
    flags: dict[str, Flag]
    slots: dict[str, Slot]
    runs: dict[str, tuple[str, ...]]
    node_slots: dict[str, str]

    @property
    def depth(self) -> int:
        """The number of levels."""
        return 1 + max((slot.level for slot in self.slots.values()), default=0)

    def on_level(self, level: int) -> tuple[Slot, ...]:
        """Return the slots of one level."""
        return tuple(slot for slot in self.slots.values() if slot.level == level)

    def guess(self) -> float:
        """Return the width of the fullest level in CSS pixels: what the strip takes at least."""
        sums = [0.0] * self.depth
        counts = [0] * self.depth
        for slot in self.slots.values():
            sums[slot.level] += slot.left + slot.right
            counts[slot.level] += 1
        return max((total + GAP * (n - 1) for total, n in zip(sums, counts, strict=True)), default=0.0)


def layers(graph: Graph, style: Style) -> Layers:
    """Return the filled levels of a strip in a style."""
    level = levels(graph)
    boxes = {key: box_of(graph, node, style) for key, node in graph.nodes.items()}
    flags = {leg.id: flag_of(leg.tag, style) for leg in graph.legs if leg.tag}
    slots: dict[str, Slot] = {}
    node_slots: dict[str, str] = {}
    for place, (key, room) in enumerate(boxes.items()):
        node_slots[key] = f"n{place}"
        slots[f"n{place}"] = Slot(f"n{place}", level[key], room.left, room.right, room.above, room.below)
    runs = {}
    for place, leg in enumerate(graph.legs):
        run = [node_slots[leg.start.node]]
        for between in range(level[leg.start.node] + 1, level[leg.end.node]):
            run.append(_between(slots, place, between, flags.get(leg.id) if len(run) == 1 else None))
        runs[leg.id] = (*run, node_slots[leg.end.node])
    return Layers(graph, boxes, flags, slots, runs, node_slots)


def _between(slots: dict[str, Slot], place: int, level: int, flag: Flag | None) -> str:
    if flag is None:
        name = f"l{place}_{level}"
        slots[name] = Slot(name, level, LANE / 2, LANE / 2, 1, 1)
    else:
        name = f"t{place}"
        half = flag.height / 2
        slots[name] = Slot(name, level, TAG_LEFT, math.ceil(flag.width - TAG_LEFT), half, half)
    return name
