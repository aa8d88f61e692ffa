"""Where a point is by what can be seen of a closed trailer: by the edges of its doors and hatch, and of its body."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from builder.trailer.body import SIDES, Body, Opening, Wall
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

    Edges of the openings in the wall that the place is at count before those of another wall, which nobody sees from
    there. Without an outline of the body, from where the place itself was measured. Of edges equally near, one of an
    opening counts.
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
    if body is not None and _at_side(body, place):
        wall = Wall.RIGHT if right > 0 else Wall.LEFT
        return Landmark("across", "inside", wall.value, "", body.width_m / 2 - abs(right))
    return _nearest("across", right, [_Edge(0.0, "middle")], ("left of", "right of"))


def _along(body: Body, place: Place, top_m: float) -> list[_Edge]:
    """Return the edges across the trailer of the openings in a place's own wall; of the doors where it has none."""
    side = [one for one in body.openings if _beside(one, place)]
    roof = [one for one in body.openings if one.wall is Wall.ROOF and place.up_m > HIGH * top_m]
    chosen = side if _at_side(body, place) and side else roof or side
    return [
        _Edge(at_m, edge, one.name)
        for one in chosen
        for at_m, edge in ((one.along_m, "front edge"), (one.along_m + one.wide_m, "rear edge"))
    ]


def _up(body: Body, place: Place, ends: tuple[float, float]) -> list[_Edge]:
    """Return the level edges of the openings in a place's own wall; of the doors where it has none."""
    side = [one for one in body.openings if _beside(one, place)]
    far_m = {Wall.FRONT: place.back_m - ends[0], Wall.REAR: ends[1] - place.back_m}
    end = [one for one in body.openings if far_m.get(one.wall, AT_END_M + 1) <= AT_END_M]
    nearest_m = min((far_m[one.wall] for one in end), default=0.0)
    inside_m = body.width_m / 2 - abs(place.right_m)
    chosen = [*side, *end] if _at_side(body, place) and inside_m <= nearest_m else end or side
    return [
        _Edge(at_m, edge, one.name)
        for one in chosen
        for at_m, edge in ((one.across_m, "lower edge"), (one.across_m + one.high_m, "upper edge"))
    ]


def _at_side(body: Body, place: Place) -> bool:
    """Tell whether a place is so near a side of the body that it is measured from there."""
    return 0 <= body.width_m / 2 - abs(place.right_m) <= AT_SIDE_M and place.back_m >= 0


def _beside(opening: Opening, place: Place) -> bool:
    """Tell whether an opening is in the side wall on a place's own side of the middle."""
    if opening.wall not in SIDES:
        return False
    return place.right_m <= 0 if opening.wall is Wall.LEFT else place.right_m >= 0
