"""Which walls and inner skins each stretch runs behind: what somebody asks who wants to drill into one of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from builder.routes.behind import parts_behind
from builder.routes.faces import Unclear
from builder.routes.network import Stretch
from builder.routes.skins import skin_faces
from builder.routes.standing import DEEPEST_M
from builder.routes.wall_faces import faces_on
from builder.trailer.body import Wall
from builder.trailer.places import Geometry


@dataclass(frozen=True, slots=True)
class NearWall:
    """One stretch behind one wall, and the least depth of its line behind the wall's outside, in metres."""

    stretch: Stretch
    wall: Wall
    depth_m: float


@dataclass(frozen=True, slots=True)
class NearSkin:
    """One stretch behind a skin with corners of its own, by its name, and the least depth of its line, in metres."""

    stretch: Stretch
    skin: str
    depth_m: float


def near_skins(geometry: Geometry, tape_m: float) -> tuple[NearSkin, ...]:
    """Return every stretch behind a skin with corners, whatever lies in it, as `near_walls` does of walls."""
    found = []
    for skin in geometry.skins.values():
        faces = skin_faces(geometry, skin, tape_m) if skin.corners else ()
        if isinstance(faces, Unclear):
            continue
        for chase in geometry.chases.values():
            for number, (one, other) in enumerate(pairwise(chase.through)):
                piece = geometry.places[one].point_m, geometry.places[other].point_m
                parts = [part for face in faces for part in parts_behind(face, piece, tape_m, DEEPEST_M)]
                if parts:
                    depth_m = max(min(part.depth_m for part in parts), 0.0)
                    found.append(NearSkin(Stretch(chase.name, number), skin.name, depth_m))
    return tuple(found)


def near_walls(
    geometry: Geometry, tape_m: float, walls: Sequence[Wall] = tuple(Wall)
) -> tuple[NearWall, ...]:
    """Return every stretch behind a wall of the body, not deeper than a screw may go; none without its outline.

    ``tape_m`` is the tape's tolerance in metres: so far a stretch may lie outside the wall and still count.
    """
    if geometry.body is None:
        return ()
    faces = [(wall, face) for wall in walls for face in faces_on(geometry.body, [wall])]
    found = []
    for chase in geometry.chases.values():
        for number, (one, other) in enumerate(pairwise(chase.through)):
            piece = geometry.places[one].point_m, geometry.places[other].point_m
            depths: dict[Wall, float] = {}
            for wall, face in faces:
                for part in parts_behind(face, piece, tape_m, DEEPEST_M):
                    depths[wall] = min(depths.get(wall, part.depth_m), part.depth_m)
            found += [
                NearWall(Stretch(chase.name, number), wall, max(depth_m, 0.0))
                for wall, depth_m in depths.items()
            ]
    return tuple(found)
