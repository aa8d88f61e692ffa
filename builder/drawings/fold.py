"""A drawing that is too wide becomes several strips, as a line of text wraps; every leg stands once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.drawings.graph import Graph, Leg, Node, Pin
from builder.drawings.layers import Layers, layers
from builder.drawings.measure import FOLDED, STYLES
from builder.drawings.wording import Words


def strips(graph: Graph, budget: float, words: Words) -> tuple[Layers, ...]:
    """Return the strips of a drawing, each with the roomiest texts that fit ``budget`` CSS pixels.

    Widths are the sums of what stands on a level. A strip that cannot be made narrow enough, since one load
    alone is too wide, comes as narrow as it can be.
    """
    whole = _roomiest(graph, budget)
    if whole.guess() <= budget:
        return (whole,)
    groups = _balanced(graph, _packed(graph, budget, words), budget, words)
    return tuple(_roomiest(strip, budget) for strip in cut_into(graph, groups, words))


def _roomiest(graph: Graph, budget: float) -> Layers:
    for style in STYLES:
        filled = layers(graph, style)
        if filled.guess() <= budget:
            return filled
    return filled


def _packed(graph: Graph, budget: float, words: Words) -> list[list[tuple[str, ...]]]:
    """Put as many loads on a strip as fit, in the order of the current."""
    groups: list[list[tuple[str, ...]]] = []
    for unit in units(graph):
        if groups and _fits(graph, [*groups[:-1], [*groups[-1], unit]], budget, words):
            groups[-1].append(unit)
        else:
            groups.append([unit])
    return groups


def _fits(graph: Graph, groups: list[list[tuple[str, ...]]], budget: float, words: Words) -> bool:
    before = {pin.node for leg in _legs(graph, groups[:-1]) for pin in (leg.start, leg.end)}
    last = _strip(graph, _legs(graph, groups[-1:]), before, set(), words)
    return layers(last, FOLDED).guess() <= budget


def _balanced(
    graph: Graph, groups: list[list[tuple[str, ...]]], budget: float, words: Words
) -> list[list[tuple[str, ...]]]:
    """Move a load over to a last strip that holds only one."""
    if len(groups) < 2 or len(groups[-1]) > 1 or len(groups[-2]) < 3:
        return groups
    moved = [*groups[:-2], groups[-2][:-1], [groups[-2][-1], *groups[-1]]]
    return moved if _fits(graph, moved, budget, words) else groups


def units(graph: Graph) -> list[tuple[str, ...]]:
    """Return the legs of each load with all on its way up and down that no load before it has; then the rest."""
    taken: dict[str, None] = {}
    found = []
    for key, node in graph.nodes.items():
        if node.load:
            way = _way(graph, key)
            unit = tuple(leg.id for leg in graph.legs if leg.id in way and leg.id not in taken)
            taken |= dict.fromkeys(unit)
            found.append(unit)
    found += [(leg.id,) for leg in graph.legs if leg.id not in taken]
    return [unit for unit in found if unit]


def _way(graph: Graph, load: str) -> set[str]:
    """Return the legs above and below a load, and the own returns of what its current passes."""
    found: set[str] = set()
    above = _climb(graph, load, found)
    _fall(graph, [load], found)
    for leg in graph.legs:
        if leg.start.node in above and "−" in leg.start.pin:
            found.add(leg.id)
            _fall(graph, [leg.end.node], found)
    return found


def _climb(graph: Graph, start: str, found: set[str]) -> set[str]:
    todo, seen = [start], {start}
    while todo:
        here = todo.pop()
        for leg in graph.legs:
            if leg.end.node == here:
                found.add(leg.id)
                if leg.start.node not in seen:
                    seen.add(leg.start.node)
                    todo.append(leg.start.node)
    return seen


def _fall(graph: Graph, todo: list[str], found: set[str]) -> None:
    while todo:
        here = todo.pop()
        for leg in graph.legs:
            if leg.start.node == here and leg.id not in found:
                found.add(leg.id)
                todo.append(leg.end.node)


def cut_into(graph: Graph, groups: Sequence[Sequence[Sequence[str]]], words: Words) -> list[Graph]:
    """Return one graph a group of units; a node that came before comes again as its own mark."""
    parts = [_legs(graph, [group]) for group in groups]
    used = [{pin.node for leg in legs for pin in (leg.start, leg.end)} for legs in parts]
    found = []
    for place, legs in enumerate(parts):
        before = set().union(*used[:place])
        after = set().union(*used[place + 1 :])
        found.append(_strip(graph, legs, before, after, words))
    return found


def _legs(graph: Graph, groups: Sequence[Sequence[Sequence[str]]]) -> tuple[Leg, ...]:
    wanted = {leg for group in groups for unit in group for leg in unit}
    return tuple(leg for leg in graph.legs if leg.id in wanted)


def _strip(graph: Graph, legs: tuple[Leg, ...], before: set[str], after: set[str], words: Words) -> Graph:
    nodes: dict[str, Node] = {}
    moved = []
    for leg in legs:
        ends = []
        for pin in (leg.start, leg.end):
            node = graph.nodes[pin.node]
            if pin.node in before and not node.bar:
                key = f"{pin.node}@{pin.pin}"
                nodes[key] = _again(node, key, (*_which(graph, node, pin), words.above))
                ends.append(Pin(key, pin.pin))
            else:
                goes_on = pin.node in after
                repeat = pin.node in before
                details = (*node.details, words.above) if repeat else node.details
                note = words.below if goes_on and not repeat else ""
                nodes[pin.node] = replace(node, details=details, repeat=repeat, note=note)
                ends.append(pin)
        moved.append(replace(leg, start=ends[0], end=ends[1]))
    order = {key: place for place, key in enumerate(graph.nodes)}
    keys = sorted(nodes, key=lambda key: order.get(key.rpartition("@")[0] if key not in order else key, 0))
    return Graph({key: nodes[key] for key in keys}, tuple(moved))


def _which(graph: Graph, node: Node, pin: Pin) -> tuple[str, ...]:
    """Return the line that tells one of several marks of a part from the others: its way, or its pin."""
    if node.kind in ("connector", "splice"):
        return node.details[:1]
    return (pin.pin,) if len(_pins(graph, node.key)) > 2 else ()


def _pins(graph: Graph, key: str) -> tuple[str, ...]:
    return tuple(pin for pins in graph.pins(key) for pin in pins)


def _again(node: Node, key: str, details: tuple[str, ...]) -> Node:
    return replace(
        node,
        key=key,
        kind="drawn elsewhere",
        details=details,
        load=False,
        repeat=True,
        joint=False,
        note="",
        outputs="",
    )
