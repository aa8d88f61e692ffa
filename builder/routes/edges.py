"""Where a thing behind a panel is, by the panel's edges: what somebody in front of it can hold a tape measure to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from builder.routes.faces import Face
from builder.routes.vectors import (
    Flat,
    Vector,
    cross,
    dot,
    inside,
    length_of,
    minus,
    on_edge,
    scaled,
    to_edge,
    unit,
)

UP: Vector = (0.0, 0.0, 1.0)
AHEAD: Vector = (-1.0, 0.0, 0.0)
_LEVEL = 0.2
"""A face that rises less than that, as a share of its slope, has its front edge on top when it is drawn."""
_ACROSS = 0.7
"""Two edges run across each other where the cosine of the angle between them is below this."""
_AXES = (("front edge", "rear edge"), ("left edge", "right edge"), ("lower edge", "upper edge"))


@dataclass(frozen=True, slots=True)
class FromEdge:
    """How far a point of a panel is from one of its edges, in metres; ``edge`` is its number round the panel."""

    edge: int
    far_m: float


def seen_from_before(face: Face) -> tuple[Vector, Vector]:
    """Return which way is right and which is up for somebody who looks at a panel from before it."""
    up = minus(UP, scaled(face.inwards, dot(UP, face.inwards)))
    if length_of(up) < _LEVEL:
        up = minus(AHEAD, scaled(face.inwards, dot(AHEAD, face.inwards)))
    up = unit(up)
    return cross(face.inwards, up), up


def edge_names(face: Face) -> tuple[str, ...]:
    """Return what each edge of a panel is called: the edge from corner to corner, beginning with the first corner.

    Empty where two would have one name.
    """
    outline = face.outline
    turn = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(outline, (*outline[1:], outline[0]), strict=True))
    names = []
    for i, corner in enumerate(outline):
        after = outline[(i + 1) % len(outline)]
        x, y = after[1] - corner[1], corner[0] - after[0]
        sign = 1.0 if turn > 0 else -1.0
        out = tuple(sign * (x * face.across[k] + y * face.upwards[k]) for k in range(3))
        axis = max(range(3), key=lambda k: abs(out[k]))
        names.append(_AXES[axis][out[axis] > 0])
    return tuple(name if names.count(name) == 1 else "" for name in names)


def from_edges(face: Face, ends: tuple[Flat, Flat]) -> tuple[tuple[FromEdge, ...], tuple[FromEdge, ...]]:
    """Return how far both ends of a part are from the edge next to it, and from the next one across that edge.

    What lies outside the panel is at its edge.
    """
    outline = face.outline
    edges = [(outline[i], outline[(i + 1) % len(outline)]) for i in range(len(outline))]
    ends = _held(outline, ends[0]), _held(outline, ends[1])
    half = (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2
    order = sorted(range(len(edges)), key=lambda i: (round(to_edge(half, *edges[i]), 6), i))
    first = order[0]
    across = next((i for i in order[1:] if _between(edges[first], edges[i]) < _ACROSS), None)
    chosen = [first] if across is None else [first, across]
    one, other = (tuple(FromEdge(i, _far_m(edges[i], end)) for i in chosen) for end in ends)
    return one, other


def _held(outline: Sequence[Flat], point: Flat) -> Flat:
    """Return a point inside an outline as it is, and one outside it where it is nearest on an edge."""
    if inside(point, outline):
        return point
    near = (on_edge(point, outline[i - 1], outline[i]) for i in range(len(outline)))
    return min(near, key=lambda one: hypot(one[0] - point[0], one[1] - point[1]))


def _between(one: tuple[Flat, Flat], other: tuple[Flat, Flat]) -> float:
    ax, ay = one[1][0] - one[0][0], one[1][1] - one[0][1]
    bx, by = other[1][0] - other[0][0], other[1][1] - other[0][1]
    return abs(ax * bx + ay * by) / (hypot(ax, ay) * hypot(bx, by) or 1.0)


def _far_m(edge: tuple[Flat, Flat], point: Flat) -> float:
    (ax, ay), (bx, by) = edge
    return abs((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / (hypot(bx - ax, by - ay) or 1.0)
