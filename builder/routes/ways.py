"""The shortest way from place to place through the chases, past what the maker names."""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import count

from builder.routes.network import Joint, Network, Stretch

MOST_NEAREST = 2_000
"""Points a side among which the nearest are looked for where there is no way: far more than a trailer has."""


@dataclass(frozen=True, slots=True)
class Step:
    """One stretch of a way, with the places it leads from and to, and its length in metres, slack included."""

    stretch: Stretch
    start: str
    end: str
    length_m: float
    slack_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Way:
    """A way through the chases, step by step; none where both ends are one place."""

    steps: tuple[Step, ...]

    @property
    def length_m(self) -> float:
        """Its length in metres, the slack of hinge loops included."""
        return sum(step.length_m for step in self.steps)

    @property
    def slack_m(self) -> float:
        """What of its length is the slack of hinge loops, in metres."""
        return sum(step.slack_m for step in self.steps)


@dataclass(frozen=True, slots=True)
class NoWay:
    """No way leads from one place to another.

    ``near_start`` and ``near_end`` are the nearest two places of what can be reached from each, ``gap_m`` apart.
    ``past`` is the name of what the way was to go past and cannot; empty where nothing is named.
    """

    start: str
    end: str
    near_start: str
    near_end: str
    gap_m: float
    past: str = ""


_Node = tuple[int, int]
"""A point, and how many of the names that a way must go past lie behind it."""


def shortest_way(network: Network, start: str, end: str, past: Sequence[str] = ()) -> Way | NoWay:
    """Return the shortest way between two places, past some places or chases in their order.

    ``past`` names places, which the way must touch, and chases, of which it must use a stretch at least. Of ways
    that are equally long the first in the order of the file counts. Dijkstra's algorithm over pairs of a point and
    how many of the names are behind; common practice.
    """
    goal = network.point_of[end], len(past)
    found, steps = _search(network, _arrive(network, network.point_of[start], 0, past), goal, past)
    if found:
        return Way(tuple(steps))
    return _no_way(network, start, end, past)


def _arrive(network: Network, point: int, stage: int, past: Sequence[str]) -> _Node:
    """Return the node of a point: places that are named next and lie here are behind now."""
    while stage < len(past) and network.point_of.get(past[stage]) == point:
        stage += 1
    return point, stage


def _next(network: Network, node: _Node, joint: Joint, past: Sequence[str]) -> _Node:
    stage = node[1]
    if stage < len(past) and past[stage] not in network.point_of and past[stage] == joint.stretch.chase:
        stage += 1
    return _arrive(network, joint.to, stage, past)


def _search(network: Network, first: _Node, goal: _Node, past: Sequence[str]) -> tuple[bool, list[Step]]:
    best: dict[_Node, float] = {first: 0.0}
    came: dict[_Node, tuple[_Node, Joint]] = {}
    order = count()
    heap: list[tuple[float, int, _Node]] = [(0.0, next(order), first)]
    done: set[_Node] = set()
    while heap:
        far_m, _, node = heapq.heappop(heap)
        if node in done:
            continue
        done.add(node)
        if node == goal:
            return True, _steps(network, came, node)
        for joint in network.near[node[0]]:
            other = _next(network, node, joint, past)
            length_m = far_m + joint.length_m
            if other not in done and length_m < best.get(other, float("inf")):
                best[other] = length_m
                came[other] = node, joint
                heapq.heappush(heap, (length_m, next(order), other))
    return False, []


def _steps(network: Network, came: dict[_Node, tuple[_Node, Joint]], node: _Node) -> list[Step]:
    steps: list[Step] = []
    while node in came:
        before, joint = came[node]
        names = network.names[before[0]], network.names[joint.to]
        steps.append(Step(joint.stretch, *names, joint.length_m, joint.slack_m))
        node = before
    return steps[::-1]


def _no_way(network: Network, start: str, end: str, past: Sequence[str]) -> NoWay:
    """Tell how near one can get: to the end, or to the first named thing that cannot be gone past."""
    here = _reached(network, network.point_of[start])
    missed = next((name for name in past if not _touches(network, here, name)), "")
    aim = network.point_of.get(missed, network.point_of[end]) if missed else network.point_of[end]
    there = _reached(network, aim) if not missed or missed in network.point_of else _on_chase(network, missed)
    near, far, gap_m = _nearest(network, here, there)
    return NoWay(start, end, network.names[near], network.names[far], gap_m, missed)


def _touches(network: Network, reached: Sequence[int], name: str) -> bool:
    if name in network.point_of:
        return network.point_of[name] in set(reached)
    return not set(_on_chase(network, name)).isdisjoint(reached)


def _on_chase(network: Network, name: str) -> list[int]:
    return [network.point_of[place] for place in network.geometry.chases[name].through]


def _reached(network: Network, start: int) -> list[int]:
    """Return every point that chases lead to from one, itself first."""
    seen = {start: None}
    waiting = [start]
    while waiting:
        for joint in network.near[waiting.pop()]:
            if joint.to not in seen:
                seen[joint.to] = None
                waiting.append(joint.to)
    return list(seen)


def _nearest(network: Network, here: Sequence[int], there: Sequence[int]) -> tuple[int, int, float]:
    """Return the nearest two points of two sets, and how far they are apart in metres.

    Points are gone through from the front of the trailer to its back, and those that lie further back than the best
    found so far are not looked at.
    """
    places = network.geometry.places
    line = sorted((places[network.names[one]].back_m, one) for one in there[:MOST_NEAREST])
    best: tuple[float, int, int] | None = None
    for one in here[:MOST_NEAREST]:
        place = places[network.names[one]]
        for back_m, other in line:
            if best is not None and abs(back_m - place.back_m) > best[0]:
                continue
            gap_m = place.distance_m(places[network.names[other]])
            if best is None or (gap_m, one, other) < best:
                best = gap_m, one, other
    gap_m, one, other = best or (0.0, here[0], there[0])
    return one, other, gap_m
