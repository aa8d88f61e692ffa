"""What stands behind a panel at places of its own: parts, and the ends of spare wires that wait there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from builder.routes.faces import Face
from builder.routes.vectors import Flat, Vector, from_outline
from builder.trailer.model import FRONT_BOX, Trailer
from builder.trailer.places import Geometry

DEEPEST_M = 0.15
"""What lies deeper behind a panel is not told of: no screw for a trailer's lining is as long (common practice)."""


@dataclass(frozen=True, slots=True)
class Standing:
    """A part behind a panel: its name and place, on which face, where by that one's measures, how deep, in metres.

    Only its place is known, not its size. ``rise_m`` is the wire from the place to the part itself.
    """

    name: str
    place: str
    face: int
    at: Flat
    depth_m: float
    rise_m: float


def placed_parts(trailer: Trailer) -> tuple[str, ...]:
    """Return what stands at a known place and has a wire in use: parts, the battery, the front box, the tow plug."""
    wired = {name for wire in trailer.wires for leg in wire.legs for name in (leg.start, leg.end)}
    return tuple(name for name in trailer.geometry.stands if name in wired)


def standing_behind(
    geometry: Geometry, faces: Sequence[Face], names: Iterable[str], tape_m: float
) -> tuple[Standing, ...]:
    """Return which of some parts stand behind a panel, each once, at the face that it is nearest to."""
    found = []
    for name in names:
        stand = geometry.stands[name]
        point = geometry.places[stand.place].point_m
        near = [
            (abs(face.seen(point)[2]), number)
            for number, face in enumerate(faces)
            if holds([face], point, tape_m)
        ]
        if near:
            _, number = min(near)
            x, y, depth_m = faces[number].seen(point)
            found.append(Standing(name, stand.place, number, (x, y), max(depth_m, 0.0), stand.rise_m))
    return tuple(found)


def ends_behind(trailer: Trailer, faces: Sequence[Face], tape_m: float) -> tuple[str, ...]:
    """Return the numbers of the spare wires of which an end waits behind a panel, outside the front box."""
    stands, places = trailer.geometry.stands, trailer.geometry.places
    found = []
    for wire in trailer.spares:
        names = (wire.legs[0].start, wire.legs[-1].end) if wire.legs else ()
        points = [
            places[stands[name].place].point_m for name in names if name != FRONT_BOX and name in stands
        ]
        if any(holds(faces, point, tape_m) for point in points):
            found.append(wire.number)
    return tuple(found)


def holds(faces: Sequence[Face], point: Vector, reach_m: float) -> bool:
    """Tell whether something that reaches so far from a point may be behind a panel."""
    seen = [(face, face.seen(point)) for face in faces]
    return any(
        -reach_m <= depth <= DEEPEST_M + reach_m and from_outline((x, y), face.outline) <= reach_m
        for face, (x, y, depth) in seen
    )
