"""A drawing that is too wide becomes several strips, as a line of text wraps; every leg stands once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.drawings.graph import Graph, Leg, Node, Pin
from builder.drawings.layers import Layers, layers
from builder.drawings.measure import FOLDED, STYLES, Style
from builder.drawings.wording import Words

Range = tuple[int, int]
"""A run of the units of a drawing: the first, and the one behind the last."""


class Folding:
    """A drawing on its way into strips: for one budget after another, most of which try the same strips again.

    ``graph`` is the whole drawing, ``words`` are those of the marks where it goes on.
    """

    def __init__(self, graph: Graph, words: Words) -> None:
        self._graph = graph
        self._words = words
        self._units = units(graph)
        self._widths: dict[Range, float] = {}
        self._filled: dict[tuple[Range | None, Style], Layers] = {}

    def strips(self, budget: float) -> tuple[Layers, ...]:
        """Return the strips of the drawing, each with the roomiest texts that fit ``budget`` CSS pixels.

        Widths are the sums of what stands on a level. A strip that cannot be made narrow enough, since one load
        alone is too wide, comes as narrow as it can be.
        """
        whole = self._roomiest(None, budget)
        if whole.guess() <= budget:
            return (whole,)
        return tuple(self._roomiest(run, budget) for run in self._balanced(self._packed(budget), budget))

    def _roomiest(self, run: Range | None, budget: float) -> Layers:
        for style in STYLES:
            if (run, style) not in self._filled:
                graph = self._graph if run is None else self._strip(run)
                self._filled[run, style] = layers(graph, style)
            filled = self._filled[run, style]
            if filled.guess() <= budget:
                return filled
        return filled

    def _packed(self, budget: float) -> list[Range]:
        """Put as many loads on a strip as fit, in the order of the current."""
        runs: list[Range] = []
        for place in range(len(self._units)):
            if runs and self._width((runs[-1][0], place + 1)) <= budget:
                runs[-1] = (runs[-1][0], place + 1)
            else:
                runs.append((place, place + 1))
        return runs

    def _balanced(self, runs: list[Range], budget: float) -> list[Range]:
        """Move a load over to a last strip that holds only one."""
        if len(runs) < 2 or runs[-1][1] - runs[-1][0] > 1 or runs[-2][1] - runs[-2][0] < 3:
            return runs
        (first, last), end = runs[-2], runs[-1][1]
        moved = (last - 1, end)
        return [*runs[:-2], (first, last - 1), moved] if self._width(moved) <= budget else runs

    def _width(self, run: Range) -> float:
        """Return how wide a strip becomes, before it is known whether it goes on."""
        if run not in self._widths:
            before = _nodes(_legs(self._graph, self._units[: run[0]]))
            legs = _legs(self._graph, self._units[run[0] : run[1]])
            self._widths[run] = layers(_strip(self._graph, legs, before, set(), self._words), FOLDED).guess()
        return self._widths[run]

    def _strip(self, run: Range) -> Graph:
        """Return the graph of a strip; a node that came before comes again as its own mark."""
        before, here, after = (
            _legs(self._graph, part)
            for part in (self._units[: run[0]], self._units[run[0] : run[1]], self._units[run[1] :])
        )
        return _strip(self._graph, here, _nodes(before), _nodes(after), self._words)


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


def _legs(graph: Graph, parts: Sequence[Sequence[str]]) -> tuple[Leg, ...]:
    wanted = {leg for unit in parts for leg in unit}
    return tuple(leg for leg in graph.legs if leg.id in wanted)


def _nodes(legs: Sequence[Leg]) -> set[str]:
    return {pin.node for leg in legs for pin in (leg.start, leg.end)}


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
