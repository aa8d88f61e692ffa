"""From the model to the graph of one circuit: wires become legs, terminals become nodes with pins."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from builder.drawings.circuit_nodes import Scene, node_at, pin_of
from builder.drawings.circuit_wires import drawn_wires, tag_of
from builder.drawings.graph import Graph, Leg, Node, Pin
from builder.drawings.terminal_words import shared_line
from builder.drawings.wording import Words
from builder.electrics.figures import Figures
from builder.trailer.circuits import Circuit
from builder.trailer.model import FRONT_BOX, GROUND_BAR, SUPPLY_BAR, Trailer


def circuit_graph(trailer: Trailer, figures: Figures, circuit: Circuit, words: Words) -> Graph:
    """Return the graph of one circuit: every wire of its drawing is one leg from above to below.

    Where a load passes current on, the terminals that more than one wire lands on become nodes of their own.
    A wire that would lead back up ends at a repeated node, so that current always falls.
    """
    scene = Scene(trailer, figures, circuit, drawn_wires(trailer, circuit), words)
    nodes: dict[str, Node] = {}
    legs: list[Leg] = []
    for wire in scene.wires:
        ends = []
        for terminal in (wire.start, wire.end):
            pin = pin_of(scene, terminal)
            if pin.node not in nodes:
                nodes[pin.node] = node_at(scene, terminal, pin.node)
            ends.append(pin)
        legs.append(Leg(wire.number, ends[0], ends[1], "wire", tag_of(wire, figures)))
    return finished(_tied(_split(Graph(nodes, tuple(legs)), words), words), words)


def finished(graph: Graph, words: Words) -> Graph:
    """Return a graph in which current always falls, its nodes in the order in which the current meets them."""
    return _in_order(_without_loops(graph, words))


def _split(graph: Graph, words: Words) -> Graph:
    """Give the terminals of loads that pass current on a node of their own, joined by a lead inside the part."""
    nodes, legs = dict(graph.nodes), list(graph.legs)
    for node in graph.nodes.values():
        if not node.load:
            continue
        tops = {leg.end.pin for leg in legs if leg.end.node == node.key}
        bottoms = {leg.start.pin for leg in legs if leg.start.node == node.key}
        for pin in sorted(tops & bottoms):
            key = f"{node.key}//{pin}"
            nodes[key] = Node(
                key,
                node.part,
                "terminal",
                node.name,
                (
                    (words.minus if "−" in pin else words.plus),
                    *shared_line(_landing(legs, node.key, pin), words),
                ),
                where=node.where,
            )
            legs = [_moved(leg, Pin(node.key, pin), Pin(key, pin)) for leg in legs]
            inner = (Pin(node.key, pin), Pin(key, pin)) if "−" in pin else (Pin(key, pin), Pin(node.key, pin))
            legs.append(Leg(f"inner {key}", *inner, "inner"))
    return Graph(nodes, tuple(legs))


def _landing(legs: Iterable[Leg], node: str, pin: str) -> list[str]:
    """Return the numbers of the wires that land on one pin."""
    return [leg.id for leg in legs if Pin(node, pin) in (leg.start, leg.end) and leg.kind == "wire"]


def _moved(leg: Leg, old: Pin, new: Pin) -> Leg:
    start, end = (new if pin == old else pin for pin in (leg.start, leg.end))
    return leg if (start, end) == (leg.start, leg.end) else replace(leg, start=start, end=end)


def _tied(graph: Graph, words: Words) -> Graph:
    """Let a box on a dashed line stand for the other circuits between the supply bar and the ground bar."""
    supply, ground = f"{SUPPLY_BAR.part}/{SUPPLY_BAR.pin}", f"{GROUND_BAR.part}/{GROUND_BAR.pin}"
    ends = any(leg.end.node == supply for leg in graph.legs)
    begins = any(leg.start.node == ground for leg in graph.legs)
    fed = any(leg.end.node == ground for leg in graph.legs)
    if not (ends and begins) or fed:
        return graph
    others = Node("the other circuits", FRONT_BOX, "other circuits", words.between, (words.no_wire,))
    ties = (
        Leg("tie in", Pin(supply, SUPPLY_BAR.pin), Pin(others.key, "in"), "tie"),
        Leg("tie out", Pin(others.key, "out"), Pin(ground, GROUND_BAR.pin), "tie"),
    )
    return Graph(graph.nodes | {others.key: others}, (*graph.legs, *ties))


def _without_loops(graph: Graph, words: Words) -> Graph:
    """End every leg that closes a loop at a repeated node."""
    nodes = dict(graph.nodes)
    kept: list[Leg] = []
    for leg in graph.legs:
        if leg.start.node == leg.end.node or _reaches(kept, leg.end.node, leg.start.node):
            old = graph.nodes[leg.end.node]
            key = f"{old.key}//again {leg.id}"
            details = (leg.end.pin, words.above)
            nodes[key] = replace(
                old, key=key, kind="drawn elsewhere", details=details, load=False, repeat=True
            )
            nodes[key] = replace(nodes[key], bar=False, joint=False)
            kept.append(replace(leg, end=Pin(key, leg.end.pin)))
        else:
            kept.append(leg)
    return Graph(nodes, tuple(kept))


def _reaches(legs: Iterable[Leg], start: str, goal: str) -> bool:
    todo, seen = [start], {start}
    while todo:
        here = todo.pop()
        if here == goal:
            return True
        for leg in legs:
            if leg.start.node == here and leg.end.node not in seen:
                seen.add(leg.end.node)
                todo.append(leg.end.node)
    return False


def _in_order(graph: Graph) -> Graph:
    """Put the nodes in the order in which the current meets them, each supply with all that hangs on it."""
    heads = [key for key in graph.nodes if not any(leg.end.node == key for leg in graph.legs)]
    order: dict[str, Node] = {}

    def visit(key: str) -> None:
        if key in order:
            return
        order[key] = graph.nodes[key]
        for leg in graph.legs:
            if leg.start.node == key:
                visit(leg.end.node)

    for key in heads:
        visit(key)
    return Graph(order, graph.legs)
