"""On which level each node stands: supplies above, loads in one row, the ground bar below all else."""

from __future__ import annotations

from builder.drawings.graph import Graph


def levels(graph: Graph) -> dict[str, int]:
    """Return the level of each node, 0 at the top, always even: the odd levels between carry the wires' tags.

    A node stands below everything that feeds it. Loads are lifted to one row. A bar at which returns end
    stands alone. The graph has no loops: its legs run down.
    """
    first = _longest(graph, {})
    row = max((first[key] for key, node in graph.nodes.items() if node.load), default=0)
    floor = {key: row for key, node in graph.nodes.items() if node.load}
    found = _longest(graph, floor)
    for key, node in graph.nodes.items():
        if node.bar and any(leg.end.node == key for leg in graph.legs):
            below = _below(graph, key)
            others = [found[other] for other in graph.nodes if other not in below and other != key]
            if others and max(others) >= found[key] and not _feeds_loads(graph, below):
                floor[key] = max(others) + 2
                found = _longest(graph, floor)
    return found


def _feeds_loads(graph: Graph, below: set[str]) -> bool:
    return any(graph.nodes[key].load for key in below)


def _below(graph: Graph, start: str) -> set[str]:
    found: set[str] = set()
    todo = [start]
    while todo:
        here = todo.pop()
        new = {leg.end.node for leg in graph.legs if leg.start.node == here} - found
        found |= new
        todo.extend(new)
    return found


def _longest(graph: Graph, floor: dict[str, int]) -> dict[str, int]:
    """Return the longest way from above, in levels; ``floor`` is the highest level a node may take."""
    found: dict[str, int] = {}
    into: dict[str, list[str]] = {key: [] for key in graph.nodes}
    for leg in graph.legs:
        into[leg.end.node].append(leg.start.node)

    def level(key: str) -> int:
        if key not in found:
            found[key] = max([floor.get(key, 0), *(level(above) + 2 for above in into[key])])
        return found[key]

    for key in graph.nodes:
        level(key)
    return found
