"""Which ways lead across an opening of the body, where a door, a hatch or a fan leaves no wood for them to lie in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from builder.routes.crossings import AXES
from builder.routes.framing import STEP_M, WALL_M, depth_in_wall
from builder.routes.network import SAME_PLACE_M, Network, Stretch, network_of
from builder.routes.runs import Runs
from builder.routes.vectors import Vector, along, length_of, minus
from builder.trailer.body import Opening
from builder.trailer.model import FRONT_BOX, Trailer
from builder.trailer.outline import Point, pieces_of, points_of
from builder.trailer.places import ChaseKind, Geometry

_Way = list[tuple[Stretch, tuple[Vector, Vector]]]
"""A way stretch by stretch, each with the points that it leads from and to."""


@dataclass(frozen=True, slots=True)
class OpeningCrossed:
    """An opening that a chase leads across, and the wires of that chase which cross it."""

    opening: Opening
    chase: str
    wires: tuple[str, ...]


def openings_crossed(trailer: Trailer, runs: Runs) -> tuple[OpeningCrossed, ...]:
    """Return every opening that wires cross, with each chase that leads them there; none without an outline.

    A way crosses an opening where it enters its rectangle at one side and leaves it again, within `WALL_M` of its
    wall, inside or outside. What ends in it does not cross it: that is how wires come to a part that sits there.
    What lies on a leaf, behind a hinge loop as seen from the front box, moves with the leaf. Source: arithmetic on
    the measures of the file.
    """
    geometry = trailer.geometry
    body = geometry.body
    if body is None or not body.openings:
        return ()
    outline = points_of(pieces_of(body.profile))
    on_a_leaf = _on_a_leaf(trailer)
    found: dict[tuple[str, str], dict[str, None]] = {}
    for way, wires in _ways(geometry, runs):
        for part in _parted(way, on_a_leaf):
            for opening in body.openings:
                for stretch in _crossing(part, opening, (outline, body.width_m / 2)):
                    held = found.setdefault((opening.name, stretch.chase), {})
                    held.update(dict.fromkeys(wires))
    named = {opening.name: n for n, opening in enumerate(body.openings)}
    order = {name: n for n, name in enumerate(geometry.chases)}
    keys = sorted(found, key=lambda key: (named[key[0]], order[key[1]]))
    return tuple(OpeningCrossed(body.openings[named[key[0]]], key[1], tuple(found[key])) for key in keys)


def _ways(geometry: Geometry, runs: Runs) -> Iterator[tuple[_Way, tuple[str, ...]]]:
    """Yield every way: of the wires, those that run alike together, and then of each chase, whatever lies in it."""
    alike: dict[tuple[tuple[Stretch, str, str], ...], list[str]] = {}
    for run in runs.runs.values():
        steps = tuple((step.stretch, step.start, step.end) for step in run.steps)
        alike.setdefault(steps, []).append(run.wire)
    for steps, wires in alike.items():
        yield [(stretch, (_point(geometry, a), _point(geometry, b))) for stretch, a, b in steps], tuple(wires)
    for chase in geometry.chases.values():
        points = [_point(geometry, name) for name in chase.through]
        yield [(Stretch(chase.name, n), piece) for n, piece in enumerate(pairwise(points))], ()


def _point(geometry: Geometry, name: str) -> Vector:
    return geometry.places[name].point_m


def _on_a_leaf(trailer: Trailer) -> frozenset[str]:
    """Return the chases that move with a leaf: hinge loops, and all that the front box reaches through one alone."""
    geometry = trailer.geometry
    loops = frozenset(chase.name for chase in geometry.chases.values() if chase.kind is ChaseKind.HINGE)
    if not loops:
        return loops
    network = network_of(geometry)
    box = geometry.stands.get(FRONT_BOX)
    fixed = _reached(network, {network.point_of[box.place]} if box is not None else set(), loops)
    ends = {network.point_of[place] for name in loops for place in geometry.chases[name].through}
    moving = _reached(network, ends - fixed, loops)
    return loops | {
        chase.name for chase in geometry.chases.values() if network.point_of[chase.through[0]] in moving
    }


def _reached(network: Network, starts: set[int], loops: frozenset[str]) -> set[int]:
    """Return every point that can be reached from some without a hinge loop."""
    seen, todo = set(starts), list(starts)
    while todo:
        for joint in network.near[todo.pop()]:
            if joint.stretch.chase not in loops and joint.to not in seen:
                seen.add(joint.to)
                todo.append(joint.to)
    return seen


def _parted(way: _Way, on_a_leaf: frozenset[str]) -> Iterator[_Way]:
    """Yield the parts of a way that lie on the body itself, one after the other."""
    part: _Way = []
    for step in way:
        if step[0].chase in on_a_leaf:
            yield part
            part = []
        else:
            part.append(step)
    yield part


def _crossing(way: _Way, opening: Opening, body: tuple[Sequence[Point], float]) -> Iterator[Stretch]:
    """Yield the stretches of a way that lie in an opening where it enters it and leaves it again."""
    held: list[Stretch] = []
    entered = False
    for stretch, piece in way:
        for begins, ends in _shares_within(opening, piece, body):
            if begins > 0:
                entered, held = True, []
            if entered and stretch not in held:
                held.append(stretch)
            if ends < 1:
                yield from held if entered else ()
                entered, held = False, []
        if not held or held[-1] != stretch:
            entered, held = False, []


def _shares_within(
    opening: Opening, piece: tuple[Vector, Vector], body: tuple[Sequence[Point], float]
) -> list[tuple[float, float]]:
    """Return from where to where a piece lies in an opening, as shares of it, in their order."""
    low, high = _shares_over(opening, piece)
    long_m = length_of(minus(piece[1], piece[0]))
    if (high - low) * long_m <= SAME_PLACE_M:
        return []
    steps = max(1, round((high - low) * long_m / STEP_M))
    shares = [low + (high - low) * n / steps for n in range(steps + 1)]
    found: list[tuple[float, float]] = []
    for a, b in pairwise(shares):
        deep_m = depth_in_wall(*body, along(*piece, (a + b) / 2), opening.wall)
        if deep_m is None or abs(deep_m) > WALL_M:
            continue
        if found and found[-1][1] == a:
            found[-1] = found[-1][0], b
        else:
            found.append((a, b))
    return found


def _shares_over(opening: Opening, piece: tuple[Vector, Vector]) -> tuple[float, float]:
    """Return between which shares a piece lies over an opening's rectangle, further in than a place's own size."""
    least, most = 0.0, 1.0
    for axis, low, size in zip(
        AXES[opening.wall],
        (opening.along_m, opening.across_m),
        (opening.wide_m, opening.high_m),
        strict=True,
    ):
        start, step = piece[0][axis], piece[1][axis] - piece[0][axis]
        ends = low + SAME_PLACE_M - start, low + size - SAME_PLACE_M - start
        if step == 0:
            if not ends[0] < 0 < ends[1]:
                return 0.0, 0.0
            continue
        shares = sorted(end / step for end in ends)
        least, most = max(least, shares[0]), min(most, shares[1])
    return least, max(least, most)
