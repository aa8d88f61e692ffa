"""From axes to coordinates: heights of levels, tracks in the gaps, and the way of every leg."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from builder.drawings.corners import clean, crossings
from builder.drawings.forks import Fork, drawn_together, forks_of
from builder.drawings.graph import Leg, Pin
from builder.drawings.layers import Layers
from builder.drawings.layout import width_of
from builder.drawings.placed import Placed, PlacedNode, PlacedTag, Point, Route
from builder.drawings.tracks import Net, tracks

MARGIN = 8.0
BARE = 17.0
PITCH = 18.0
BAR_REACH = 22.0
_STRAIGHT = 0.6


@dataclass(slots=True)
class _Work:
    """What grows while a strip is routed."""

    filled: Layers
    x: dict[str, float]
    forks: dict[tuple[str, ...], Fork]
    bands: list[tuple[float, float, float]] = field(default_factory=list)
    track_y: dict[tuple[int, tuple[str, ...]], float] = field(default_factory=dict)
    ways: dict[str, list[Point]] = field(default_factory=dict)
    bars: list[tuple[Point, Point]] = field(default_factory=list)
    leads: list[tuple[Point, Point]] = field(default_factory=list)
    joints: dict[Point, None] = field(default_factory=dict)

    def pin_x(self, pin: Pin, *, top: bool) -> float:
        """Return the x of a pin."""
        return round(
            self.x[self.filled.node_slots[pin.node]] + self.filled.boxes[pin.node].port(pin.pin, top=top), 1
        )


def route(filled: Layers, x: dict[str, float]) -> Placed:
    """Return a strip with every coordinate set, from the x of its axes; CSS pixels from the upper left corner."""
    work = _Work(
        filled, {name: round(value + MARGIN, 1) for name, value in x.items()}, forks_of(filled.graph)
    )
    for fork in work.forks.values():
        end = fork.legs[0].start.node if fork.out else fork.legs[0].end.node
        level = filled.slots[filled.node_slots[end]].level
        fork.gap = level if fork.out else level - 1
    height = _heights(work)
    nodes = {key: _node(work, key) for key in filled.boxes}
    for leg in filled.graph.legs:
        work.ways[leg.id] = _way(work, nodes, leg)
    for fork in work.forks.values():
        _join(work, nodes, fork)
    _single_joints(work, nodes)
    _names_under_bars(work, nodes)
    routes = tuple(Route(leg, clean(work.ways[leg.id])) for leg in filled.graph.legs)
    return Placed(
        tuple(nodes.values()),
        {leg.id: _tag(work, leg) for leg in filled.graph.legs if leg.tag},
        routes,
        tuple(work.bars),
        tuple(work.leads),
        tuple(work.joints),
        crossings(routes),
        drawn_together(filled.graph, work.forks),
        width=max(
            width_of(filled, x) + 2 * MARGIN, *(end[0] + MARGIN for bar in work.bars for end in bar), 60.0
        ),
        height=height,
    )


def _heights(work: _Work) -> float:
    """Set the y of levels and tracks; return the height of the strip."""
    y = MARGIN + 2
    filled = work.filled
    for level in range(filled.depth):
        slots = filled.on_level(level)
        above, below = max(s.above for s in slots), max(s.below for s in slots)
        work.bands.append((y, y + above, y + above + below))
        y += above + below
        if level < filled.depth - 1:
            nets = _nets(work, level)
            found = tracks(nets)
            for key, track in found.items():
                work.track_y[level, key] = y + BARE + PITCH * track
            y += BARE + PITCH * (1 + max(found.values(), default=-1))
    return y + MARGIN


def _segment(work: _Work, leg: Leg, gap: int) -> tuple[float, float] | None:
    """Return the x of a leg above and below a gap; None where the leg does not pass it."""
    run = work.filled.runs[leg.id]
    first = work.filled.slots[run[0]].level
    place = gap - first
    if not 0 <= place < len(run) - 1:
        return None
    above = work.pin_x(leg.start, top=False) if place == 0 else work.x[run[place]]
    below = work.pin_x(leg.end, top=True) if place == len(run) - 2 else work.x[run[place + 1]]
    return above, below


def _net_key(work: _Work, leg: Leg, gap: int) -> tuple[str, ...]:
    for pin, out in ((leg.start, True), (leg.end, False)):
        fork = work.forks.get((pin.node, pin.pin, "out" if out else "in"))
        if fork is not None and fork.gap == gap:
            return fork.key
    return ("leg", leg.id)


def _nets(work: _Work, gap: int) -> list[Net]:
    nets: dict[tuple[str, ...], Net] = {}
    for leg in work.filled.graph.legs:
        ends = _segment(work, leg, gap)
        if ends is None:
            continue
        key = _net_key(work, leg, gap)
        if key[0] == "leg" and abs(ends[0] - ends[1]) < _STRAIGHT:
            continue
        fork = work.forks.get(key)
        bar = fork is not None and fork.bar
        net = nets.setdefault(
            key, Net(key, low=bar and fork is not None and not fork.out, wide=BAR_REACH if bar else 0)
        )
        net.tops.append(ends[0])
        net.bottoms.append(ends[1])
    return list(nets.values())


def _node(work: _Work, key: str) -> PlacedNode:
    slot = work.filled.slots[work.filled.node_slots[key]]
    x, room = work.x[slot.id], work.filled.boxes[key]
    return PlacedNode(room, x, round(work.bands[slot.level][1], 1), round(x + room.text_left, 1))


def _tag(work: _Work, leg: Leg) -> PlacedTag:
    slot = work.filled.slots[work.filled.runs[leg.id][1]]
    return PlacedTag(work.filled.flags[leg.id], work.x[slot.id], round(work.bands[slot.level][1], 1))


def _way(work: _Work, nodes: dict[str, PlacedNode], leg: Leg) -> list[Point]:
    """Return the corners of a leg from terminal to terminal; shared lines are cut later."""
    start, end = nodes[leg.start.node], nodes[leg.end.node]
    points: list[Point] = [(work.pin_x(leg.start, top=False), start.bottom)]
    first = work.filled.slots[work.filled.runs[leg.id][0]].level
    for gap in range(first, first + len(work.filled.runs[leg.id]) - 1):
        ends = _segment(work, leg, gap)
        y = work.track_y.get((gap, _net_key(work, leg, gap)))
        if ends is not None and y is not None:
            points += [(ends[0], round(y, 1)), (ends[1], round(y, 1))]
    return [*points, (work.pin_x(leg.end, top=True), end.top)]


def _join(work: _Work, nodes: dict[str, PlacedNode], fork: Fork) -> None:
    """Cut the legs of a fork at its shared line, and draw the joint."""
    node = nodes[fork.pin.node]
    x = work.pin_x(fork.pin, top=not fork.out)
    y = round(work.track_y[fork.gap, fork.key], 1)
    fork.joint = (x, y)
    drops = {leg.id: work.ways[leg.id][2 if fork.out else -3][0] for leg in fork.legs}
    outer = _outermost(fork, drops, x)
    for leg in fork.legs:
        keep = leg.id in outer and not fork.inked
        way = work.ways[leg.id]
        corner = (drops[leg.id], y)
        rest = way[3:] if fork.out else way[:-3]
        path = [(x, y), corner] if keep and abs(drops[leg.id] - x) > _STRAIGHT else [corner]
        work.ways[leg.id] = [*path, *rest] if fork.out else [*rest, *reversed(path)]
        if not keep and abs(drops[leg.id] - x) > _STRAIGHT:
            work.joints[corner] = None
    passed = node.box.tops if fork.out else node.box.bottoms
    if not (fork.bar and not passed) or any(abs(drop - x) <= _STRAIGHT for drop in drops.values()):
        work.joints[x, y] = None
    _ink(work, fork, drops)
    _to_terminal(work, node, fork)


def _outermost(fork: Fork, drops: dict[str, float], x: float) -> set[str]:
    """Return the one leg on each side that carries the shared line, and the leg straight on."""
    left = [leg.id for leg in fork.legs if drops[leg.id] < x - _STRAIGHT]
    right = [leg.id for leg in fork.legs if drops[leg.id] > x + _STRAIGHT]
    found = {leg.id for leg in fork.legs if abs(drops[leg.id] - x) <= _STRAIGHT}
    for side, pick in ((left, min), (right, max)):
        if side:
            found.add(pick(side, key=lambda name: drops[name]))
    return found


def _ink(work: _Work, fork: Fork, drops: dict[str, float]) -> None:
    if not fork.inked:
        return
    x, y = fork.joint
    every = [*drops.values(), x]
    reach = 14.0 if fork.bar else 0.0
    low, high = min(every) - reach, max(every) + reach
    if fork.bar and high - low < 2 * BAR_REACH:
        low, high = x - BAR_REACH, x + BAR_REACH
    work.bars.append(((round(max(low, 3.0), 1), y), (round(high, 1), y)))


def _to_terminal(work: _Work, node: PlacedNode, fork: Fork) -> None:
    """Lead from the joint to its terminal: by the wire on the other side, or by a short lead in ink."""
    x, y = fork.joint
    across = (fork.pin.node, fork.pin.pin, "in" if fork.out else "out")
    other = work.forks.get(across)
    if not (node.box.node.joint or node.box.node.bar):
        work.leads.append(((x, y), (x, node.bottom if fork.out else node.top)))
    elif other is not None and fork.out:
        far = (work.pin_x(fork.pin, top=True), round(work.track_y[other.gap, other.key], 1))
        work.bars.append(((x, y), far))
    elif other is None:
        _extend(work, fork, (x, y))


def _extend(work: _Work, fork: Fork, joint: Point) -> None:
    for leg in work.filled.graph.legs:
        if fork.out and leg.end == fork.pin:
            work.ways[leg.id].append(joint)
        elif not fork.out and leg.start == fork.pin:
            work.ways[leg.id].insert(0, joint)


def _single_joints(work: _Work, nodes: dict[str, PlacedNode]) -> None:
    """Put a dot where one wire comes to a splice and one leaves it, or where one ends."""
    for key, node in nodes.items():
        if node.box.node.joint and not any(fork.pin.node == key for fork in work.forks.values()):
            work.joints[node.x, node.middle] = None


def _names_under_bars(work: _Work, nodes: dict[str, PlacedNode]) -> None:
    """Let the name of a bar where returns end begin at the bar's left end, where it has the level to itself."""
    for fork in work.forks.values():
        key = fork.pin.node
        alone = len(work.filled.on_level(work.filled.slots[work.filled.node_slots[key]].level)) == 1
        if fork.bar and alone and not nodes[key].box.bottoms:
            left = min(end[0] for bar in work.bars for end in bar if end[1] == fork.joint[1])
            nodes[key] = replace(nodes[key], text_x=left)
