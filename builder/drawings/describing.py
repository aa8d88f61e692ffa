"""A circuit drawing in sentences, for those who hear it or want it in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.drawings.graph import Graph, Leg
from builder.drawings.wording import Words


@dataclass(frozen=True, slots=True)
class Said:
    """One sentence, and what it is about: the name of a load, or the number of a wire that no load's way has."""

    about: str
    text: str


def sentences(graph: Graph, words: Words) -> tuple[Said, ...]:
    """Return one sentence a load: wire by wire from its supply down to where its return ends.

    A drawing without loads gives one sentence for each way from the top.
    """
    loads = [key for key, node in graph.nodes.items() if node.load]
    if not loads:
        loads = [key for key in graph.nodes if not any(leg.start.node == key for leg in graph.legs)]
    found: list[Said] = []
    told: set[str] = set()
    for key in loads:
        way = [*_up(graph, key), *_down(graph, key)]
        if not way:
            found.append(_said(graph.nodes[key].name, words.no_end.format(_name(graph, key))))
            continue
        told |= {leg.id for leg in way}
        found.append(_said(graph.nodes[key].name, _way_in_words(graph, key, way, words)))
    for leg in graph.legs:
        if leg.tag and leg.id not in told:
            ends = (_name(graph, leg.start.node), _name(graph, leg.end.node))
            found.append(_said(leg.tag.number, words.more.format(leg.tag.number, *ends)))
    return tuple(found)


def _said(about: str, text: str) -> Said:
    return Said(about, text[:1].upper() + text[1:])


def _way_in_words(graph: Graph, key: str, way: Sequence[Leg], words: Words) -> str:
    """Return the way of a load's current; leads inside parts are left out unless they are all there is."""
    real = [leg for leg in way if leg.kind != "inner" and not _into_others(graph, leg)]
    steps = [_step(graph, leg, words) for leg in real]
    if not real:  # a box on the overview
        steps = [words.through.format(_name(graph, key), _name(graph, way[-1].end.node))]
    begin = (real or way)[0]
    return words.sentence.format(_name(graph, key), _name(graph, begin.start.node), ", ".join(steps))


def _into_others(graph: Graph, leg: Leg) -> bool:
    """Tell whether a leg leads to the box of the other circuits: the leg out of it tells of both."""
    return leg.kind == "tie" and graph.nodes[leg.end.node].kind == "other circuits"


def _step(graph: Graph, leg: Leg, words: Words) -> str:
    goal = _name(graph, leg.end.node)
    return (
        words.by_wire.format(leg.tag.number, goal)
        if leg.tag
        else words.through.format(_name(graph, leg.start.node), goal)
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


def strip_description(graph: Graph, said: Sequence[Said]) -> str:
    """Return what is said of the loads and the single wires that stand on one strip; else all."""
    here = {node.name for node in graph.nodes.values() if node.load}
    here |= {leg.tag.number for leg in graph.legs if leg.tag}
    return " ".join([one.text for one in said if one.about in here] or [one.text for one in said])
