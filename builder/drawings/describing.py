"""A circuit drawing in sentences, for those who hear it or want it in words."""

from __future__ import annotations

from collections.abc import Sequence

from builder.drawings.graph import Graph, Leg
from builder.drawings.wording import Words


def sentences(graph: Graph, words: Words) -> tuple[str, ...]:
    """Return one sentence a load: wire by wire from its supply down to where its return ends.

    A drawing without loads gives one sentence for each way from the top.
    """
    loads = [key for key, node in graph.nodes.items() if node.load]
    if not loads:
        loads = [key for key in graph.nodes if not any(leg.start.node == key for leg in graph.legs)]
    found, told = [], set()
    for key in loads:
        way = [*_up(graph, key), *_down(graph, key)]
        if not way:
            found.append(words.no_end.format(_name(graph, key)))
            continue
        told |= {leg.id for leg in way}
        real = [leg for leg in way if leg.kind != "inner"]
        if not real:  # a box on the overview: thin lines are all it has
            goal = _name(graph, way[-1].end.node)
            real_steps, begin = [words.through.format(_name(graph, key), goal)], way[0]
        else:
            real_steps, begin = [_step(graph, leg, words) for leg in real], real[0]
        found.append(
            words.sentence.format(_name(graph, key), _name(graph, begin.start.node), ", ".join(real_steps))
        )
    for leg in graph.legs:
        if leg.tag and leg.id not in told:
            ends = (_name(graph, leg.start.node), _name(graph, leg.end.node))
            found.append(words.more.format(leg.tag.number, *ends))
    return tuple(sentence[:1].upper() + sentence[1:] for sentence in found)


def _step(graph: Graph, leg: Leg, words: Words) -> str:
    goal = _name(graph, leg.end.node)
    return (
        words.by_wire.format(leg.tag.number, goal) if leg.tag else words.through.format(words.between, goal)
    )


def _name(graph: Graph, key: str) -> str:
    node = graph.nodes[key]
    inside = key.rpartition("/")[2]
    return f"{node.name} {inside}" if "/way " in key and node.kind == "connector" else node.name


def _up(graph: Graph, key: str) -> list[Leg]:
    way: list[Leg] = []
    while leg := next((leg for leg in graph.legs if leg.end.node == key), None):
        way.insert(0, leg)
        key = leg.start.node
    return way


def _down(graph: Graph, key: str) -> list[Leg]:
    way: list[Leg] = []
    while leg := next((leg for leg in graph.legs if leg.start.node == key), None):
        way.append(leg)
        key = leg.end.node
    return way


def strip_description(graph: Graph, said: Sequence[str]) -> str:
    """Return what is said of one strip: the sentences of the loads that stand on it, else all."""
    names = {node.name[:1].upper() + node.name[1:] for node in graph.nodes.values() if node.load}
    numbers = {leg.tag.number for leg in graph.legs if leg.tag}
    fitting = [
        sentence
        for sentence in said
        if any(sentence.startswith(name) for name in names)
        or sentence.split(" ")[1:2] in [[n] for n in numbers]
    ]
    return " ".join(fitting or said)
