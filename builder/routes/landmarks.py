"""Where a point is by what can be seen of a closed trailer: by the edges of its doors and hatch, and of its body."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from builder.trailer.body import FLATS, SIDES, Body, Opening, Wall
from builder.trailer.outline import extents, pieces_of, points_of
from builder.trailer.places import Geometry, Place

AT_END_M = 0.6
"""An opening in front or rear wall serves what is not further than that from it."""
AT_SIDE_M = 0.15
"""What is not further than that inside a side of the body is measured from that side."""
HIGH = 2 / 3
"""An opening in the roof serves what is higher than that share of the body."""

Axis = Literal["along", "up", "across"]
Side = Literal["at", "ahead of", "behind", "above", "below", "left of", "right of", "inside"]


@dataclass(frozen=True, slots=True)
class Landmark:
    """One distance of a point, in metres: how far it is to one ``side`` of an edge.

    ``edge`` is front, rear, lower or upper edge, middle, or a side wall, of the opening ``of``, or of the body where
    that is empty.
    """

    axis: Axis
    side: Side
    edge: str
    of: str
    far_m: float


@dataclass(frozen=True, slots=True)
class _Edge:
    at_m: float
    edge: str
    of: str = ""


def landmarks(geometry: Geometry, place: Place) -> tuple[Landmark, Landmark, Landmark]:
    """Return where a place is along the body, up and across it: each from the nearest edge that can be seen.

    Without an outline of the body, from where the place itself was measured. Of edges equally near, one of an opening
    counts.
    """
    body = geometry.body
    along = [_Edge(0.0, "front")]
    up = [_Edge(0.0, "lower edge")]
    if body is not None:
        front, rear, under, top = extents(points_of(pieces_of(body.profile)))
        along, up = [_Edge(front, "front"), _Edge(rear, "rear")], [_Edge(under, "lower edge")]
        if front <= place.back_m <= rear:
            along = [*_along(body, place, top), *along]
            up = [*_up(body, place, (front, rear)), *up]
        else:
            along = along[:1] if place.back_m < front else along[1:]
    return (
        _nearest("along", place.back_m, along, ("ahead of", "behind")),
        _nearest("up", place.up_m, up, ("below", "above")),
        _across(body, place),
    )


def _nearest(axis: Axis, at_m: float, edges: list[_Edge], sides: tuple[Side, Side]) -> Landmark:
    edge = min(edges, key=lambda one: round(abs(at_m - one.at_m), 3))
    off_m = at_m - edge.at_m
    side: Side = "at" if abs(off_m) < 5e-4 else sides[off_m > 0]
    return Landmark(axis, side, edge.edge, edge.of, abs(off_m))


def _across(body: Body | None, place: Place) -> Landmark:
    right = place.right_m
    half_m = body.width_m / 2 if body is not None else None
    if half_m is not None and 0 <= half_m - abs(right) <= AT_SIDE_M and place.back_m >= 0:
        wall = Wall.RIGHT if right > 0 else Wall.LEFT
        return Landmark("across", "inside", wall.value, "", half_m - abs(right))
    return _nearest("across", right, [_Edge(0.0, "middle")], ("left of", "right of"))


def _along(body: Body, place: Place, top_m: float) -> Iterator[_Edge]:
    for opening in body.openings:
        if _beside(opening, place) or (opening.wall is Wall.ROOF and place.up_m > HIGH * top_m):
            yield _Edge(opening.along_m, "front edge", opening.name)
            yield _Edge(opening.along_m + opening.wide_m, "rear edge", opening.name)


def _up(body: Body, place: Place, ends: tuple[float, float]) -> Iterator[_Edge]:
    front, rear = ends
    for opening in body.openings:
        near_end = (opening.wall is Wall.REAR and rear - place.back_m <= AT_END_M) or (
            opening.wall is Wall.FRONT and place.back_m - front <= AT_END_M
        )
        if opening.wall not in FLATS and (_beside(opening, place) or near_end):
            yield _Edge(opening.across_m, "lower edge", opening.name)
            yield _Edge(opening.across_m + opening.high_m, "upper edge", opening.name)


def _beside(opening: Opening, place: Place) -> bool:
    """Tell whether an opening is in the side wall on a place's own side of the middle."""
    if opening.wall not in SIDES:
        return False
    return place.right_m <= 0 if opening.wall is Wall.LEFT else place.right_m >= 0
