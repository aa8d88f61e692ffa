"""Where legs of a strip meet, and how the meeting is drawn."""

from __future__ import annotations

from dataclasses import dataclass

from builder.drawings.graph import Graph, Leg, Pin
from builder.drawings.placed import Point


@dataclass(slots=True)
class Fork:
    """A terminal where several legs meet on one side, or one side of a bar: its joint and its look."""

    pin: Pin
    out: bool
    legs: list[Leg]
    bar: bool
    gap: int = 0
    joint: Point = (0.0, 0.0)

    @property
    def key(self) -> tuple[str, ...]:
        """What tells this fork from the others."""
        return (self.pin.node, self.pin.pin, "out" if self.out else "in")

    @property
    def inked(self) -> bool:
        """Whether the shared line is drawn in ink, since its wires differ or a bar joins them."""
        colors = {(leg.tag.base, leg.tag.tracer) for leg in self.legs if leg.tag}
        return self.bar or len(colors) > 1 or any(leg.kind == "tie" for leg in self.legs)


def forks_of(graph: Graph) -> dict[tuple[str, ...], Fork]:
    """Return every place where legs meet: a shared pin, or the thick side of a bar."""
    outs: dict[Pin, list[Leg]] = {}
    ins: dict[Pin, list[Leg]] = {}
    for leg in graph.legs:
        outs.setdefault(leg.start, []).append(leg)
        ins.setdefault(leg.end, []).append(leg)
    found = []
    for out, groups, others in ((True, outs, ins), (False, ins, outs)):
        for pin, legs in groups.items():
            across = len(others.get(pin, ()))
            bar = graph.nodes[pin.node].bar
            thick = bar and (len(legs) > across if out else len(legs) >= across)
            if len(legs) > 1 or thick:
                found.append(Fork(pin, out, legs, bar))
    return {fork.key: fork for fork in found}


def drawn_together(graph: Graph, forks: dict[tuple[str, ...], Fork]) -> tuple[tuple[str, ...], ...]:
    """Return the legs that are drawn together, so that a joint looks like one piece of copper."""
    group = {leg.id: leg.id for leg in graph.legs}
    for fork in forks.values():
        if not fork.inked:
            names = {group[leg.id] for leg in fork.legs}
            group = {leg: min(names) if name in names else name for leg, name in group.items()}
    found: dict[str, list[str]] = {}
    for leg in graph.legs:
        found.setdefault(group[leg.id], []).append(leg.id)
    return tuple(tuple(legs) for legs in found.values())
