"""The faces that skins and panels have: flat ones, and strips of flat ones where they are bent round a roof."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise

from builder.routes.vectors import (
    Flat,
    Vector,
    cross,
    dot,
    edges_cross,
    length_of,
    middle,
    minus,
    scaled,
    unit,
)
from builder.trailer.outline import extents, pieces_of, points_of
from builder.trailer.places import Geometry

UNSURE_M = 0.1
"""Where the middle of the trailer is not further than that from a face, nobody can tell which side is inside."""
CLEARLY = 0.1
"""By so much the gentlest of several strips is gentler than the next: 1 less the cosine of its sharpest fold."""
LEAST_AREA_M2 = 1e-4
"""A face is larger than a square centimetre: a smaller one is a slip of the tape."""


class Unclear(StrEnum):
    """Why nobody can tell where a skin or panel lies."""

    NO_CORNERS = "no corners"
    IN_NO_PLANE = "its corners lie in no plane, and in no strip of planes"
    IN_ONE_LINE = "its corners lie in one line, or at one point"
    OUT_OF_ORDER = "its corners do not follow each other round it"
    NO_INSIDE = "which side of it is inside is not told"


@dataclass(frozen=True, slots=True)
class Face:
    """A flat piece of a skin or panel with its own three measures: two in it, and the depth behind it, in metres.

    ``outline`` has its corners in the first two of them. ``inwards`` points from the face to where the fasteners go.
    ``bent_m`` is how far its corners lie outside the plane.
    """

    origin: Vector
    across: Vector
    upwards: Vector
    inwards: Vector
    outline: tuple[Flat, ...]
    bent_m: float

    def seen(self, point: Vector) -> Vector:
        """Return a point by the measures of this face: two in it, and its depth behind it."""
        arrow = minus(point, self.origin)
        return dot(arrow, self.across), dot(arrow, self.upwards), dot(arrow, self.inwards)


def faces_of(corners: Sequence[Vector], flat_m: float) -> tuple[Face, ...] | Unclear:
    """Return the faces of a ring of corners, all of them seen from the same side of it.

    One face where no corner lies further than ``flat_m`` outside a plane. Else the ring is taken as two rows of
    corners that face each other, as along both edges of a bent roof, and each pair of neighbours as a face. Where
    several ways to halve it give flat faces, the one counts that folds clearly less sharply than any other.
    """
    if len(corners) < 3:
        return Unclear.NO_CORNERS
    whole = flat_face(corners)
    if whole is not None and whole.bent_m <= flat_m:
        return Unclear.OUT_OF_ORDER if edges_cross(whole.outline) else (whole,)
    if whole is None:
        three = _any_three(corners)
        if three is None:
            return Unclear.IN_ONE_LINE
        if all(abs(three.seen(corner)[2]) <= flat_m for corner in corners):
            return Unclear.OUT_OF_ORDER
    half, odd = divmod(len(corners), 2)
    strips = [] if odd else [strip for first in range(half) if (strip := _strip(corners, first, flat_m))]
    strips.sort(key=_sharpest)
    if not strips or (len(strips) > 1 and _sharpest(strips[1]) - _sharpest(strips[0]) < CLEARLY):
        return Unclear.IN_NO_PLANE
    return strips[0]


def _any_three(corners: Sequence[Vector]) -> Face | None:
    """Return the plane of the first three corners that follow each other and have one; None where all are in a line.

    Corners that hold no area together and lie in that plane cross: two halves cancel out.
    """
    threes = (flat_face([corners[i - 2], corners[i - 1], corners[i]]) for i in range(len(corners)))
    return next((three for three in threes if three is not None), None)


def _sharpest(strip: Sequence[Face]) -> float:
    """Return how sharply a strip folds where it folds most: 0 where it is flat, 1 for a right angle."""
    return max((1.0 - dot(one.inwards, other.inwards) for one, other in pairwise(strip)), default=0.0)


def _strip(corners: Sequence[Vector], first: int, flat_m: float) -> tuple[Face, ...]:
    """Return the faces between two rows of corners, the one beginning at ``first``; none where one is not flat."""
    half = len(corners) // 2
    ring = [*corners[first:], *corners[:first]]
    one, other = ring[:half], ring[half:][::-1]
    found = []
    for i in range(half - 1):
        face = flat_face((one[i], one[i + 1], other[i + 1], other[i]))
        if face is None or face.bent_m > flat_m or edges_cross(face.outline):
            return ()
        found.append(face)
    return tuple(found)


def flat_face(corners: Sequence[Vector]) -> Face | None:
    """Return the plane nearest to some corners in their order; None where they lie in one line.

    Its direction is the sum of the vector products of neighbours (Newell's method, common practice).
    """
    centre = scaled(_sum(corners), 1.0 / len(corners))
    arms = [minus(corner, centre) for corner in corners]
    normal = _sum(cross(arms[i - 1], arms[i]) for i in range(len(arms)))
    if length_of(normal) / 2 < LEAST_AREA_M2:
        return None
    normal = unit(normal)
    flat = max((minus(arm, scaled(normal, dot(arm, normal))) for arm in arms), key=length_of)
    across = unit(flat)
    upwards = cross(normal, across)
    outline = tuple((dot(arm, across), dot(arm, upwards)) for arm in arms)
    return Face(centre, across, upwards, normal, outline, max(abs(dot(arm, normal)) for arm in arms))


def _sum(arrows: Iterable[Vector]) -> Vector:
    x = y = z = 0.0
    for arrow in arrows:
        x, y, z = x + arrow[0], y + arrow[1], z + arrow[2]
    return x, y, z


@dataclass(frozen=True, slots=True)
class Middle:
    """The middle of the trailer: of its body, else of all skins and panels, else of all places.

    A later one counts where those before it lie too near to a face to tell its sides apart.
    """

    points: tuple[Vector, ...]

    def facing(self, faces: Sequence[Face], *, away: bool) -> tuple[Face, ...] | Unclear:
        """Return faces turned towards the middle of the trailer, or ``away`` from it.

        All faces of a skin turn together; where they disagree, or the middle lies too near to all of them, nobody
        can tell.
        """
        for point in self.points:
            depths = [face.seen(point)[2] for face in faces]
            sides = {depth > 0 for depth in depths if abs(depth) >= UNSURE_M}
            if len(sides) == 1:
                return tuple(turned(face) for face in faces) if sides.pop() == away else tuple(faces)
            if sides:
                break
        return Unclear.NO_INSIDE


def turned(face: Face) -> Face:
    """Return a face as it is seen from its other side."""
    return replace(
        face,
        upwards=scaled(face.upwards, -1.0),
        inwards=scaled(face.inwards, -1.0),
        outline=tuple((x, -y) for x, y in face.outline),
    )


def middle_of(geometry: Geometry) -> Middle:
    """Return what tells inside from outside: the boxes round the body, round all corners, and round all places.

    Skins and panels of one side alone have their middle in that side, where it tells nothing of a panel before it.
    """
    rings = [skin.corners for skin in geometry.skins.values()]
    rings += [panel.corners for panel in geometry.panels.values()]
    corners = [geometry.places[name].point_m for ring in rings for name in ring]
    every = [place.point_m for place in geometry.places.values()]
    found = [middle(points) for points in (corners, every) if points]
    if geometry.body is not None:
        front, rear, under, top = extents(points_of(pieces_of(geometry.body.profile)))
        found.insert(0, ((front + rear) / 2, 0.0, (under + top) / 2))
    return Middle(tuple(found))


def laid_faces(
    geometry: Geometry, corners: Sequence[str], flat_m: float, *, away: bool
) -> tuple[Face, ...] | Unclear:
    """Return the faces of a skin or panel by its corners' names, depth counted towards the middle or ``away`` from it.

    ``flat_m`` is how far a corner may lie outside its plane, in metres.
    """
    if not corners:
        return Unclear.NO_CORNERS
    faces = faces_of([geometry.places[name].point_m for name in corners], flat_m)
    return faces if isinstance(faces, Unclear) else middle_of(geometry).facing(faces, away=away)
