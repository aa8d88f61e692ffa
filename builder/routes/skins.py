"""How much is left between the fasteners of each skin and the wires behind it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import hypot

from builder.routes.behind import Part, from_fasteners, parts_behind
from builder.routes.faces import Face, Unclear, laid_faces
from builder.routes.tubes import Tube
from builder.routes.vectors import Vector, along
from builder.routes.wall_faces import faces_on
from builder.trailer.places import Geometry, Skin

BEYOND_M = 0.1
"""Wires that lie further than that behind the tips of a skin's fasteners are not listed under it."""

OUT_M = 0.003
"""A stretch that comes so near to the face of a skin goes out through it: a tape's readings are rounded."""
STEEP = 2.0
"""A stretch that goes further along a skin than so many times its way through it runs along it (common practice)."""


@dataclass(frozen=True, slots=True)
class Clearance:
    """What is left between the fasteners of a skin and the wires of one stretch, over the part of it behind the skin.

    ``begins_m`` and ``ends_m`` tell which part, in metres from the first place of the stretch. ``depth_m`` is the
    least depth of the stretch's line anywhere behind the skin, ``line_m`` its least distance from a fastener, nothing
    where one reaches it. ``left_m`` is what is left to the wires round that line, below nothing where fasteners get
    in between them; None where the diameter of a wire is not known. ``unsure_m`` is how far all of it may be off: the
    tape's tolerance, and what the skin's corners lie outside their plane. ``bent`` tells that the skin is no one flat
    piece: from corner to corner it bulges outwards, by nobody knows how much. ``through_m`` is set where the
    stretch goes out through the skin: how far from the hole its wires may be within reach of a fastener; there
    everybody sees the hole, and keeps fasteners that far from it. ``hole_m`` is then where that is: back, right, up.
    """

    skin: str
    tube: Tube
    begins_m: float
    ends_m: float
    depth_m: float
    line_m: float
    left_m: float | None
    unsure_m: float
    bent: bool = False
    through_m: float | None = None
    hole_m: Vector | None = None

    @property
    def reaches(self) -> bool:
        """Whether a fastener that goes in where the wires are reaches one of them, by the measures as they are."""
        if self.through_m is not None:
            return False
        return self.line_m <= 0.0 or (self.tube.core_m is not None and self.line_m < self.tube.core_m)

    @property
    def is_near(self) -> bool:
        """Whether less is left than the measures may be off."""
        return self.left_m is not None and self.left_m < self.unsure_m and self.through_m is None


@dataclass(frozen=True, slots=True)
class Clearances:
    """What is left under each skin; ``unclear`` tells by the skin's name why nobody can tell."""

    found: tuple[Clearance, ...] = ()
    unclear: tuple[tuple[str, Unclear], ...] = ()


def clearances(geometry: Geometry, tubes: Sequence[Tube], tape_m: float) -> Clearances:
    """Return what is left under each skin, in the order of the file; ``tape_m`` is the tape's tolerance in metres.

    Fasteners may sit anywhere on a skin and go straight in.
    """
    found: list[Clearance] = []
    unclear: list[tuple[str, Unclear]] = []
    for skin in geometry.skins.values():
        faces = skin_faces(geometry, skin, tape_m)
        if isinstance(faces, Unclear):
            unclear.append((skin.name, faces))
            continue
        for tube in tubes:
            parts = tuple(_under(skin, faces, tube, tape_m))
            if parts:
                best = min(parts, key=lambda one: one.line_m)
                found.append(replace(best, depth_m=min(one.depth_m for one in parts)))
    return Clearances(_one_figure_a_hole(found), tuple(unclear))


def _one_figure_a_hole(found: Sequence[Clearance]) -> tuple[Clearance, ...]:
    """Return what is left with one distance round each hole of a skin: the largest of the stretches that meet there.

    Wires come to a hole from inside and leave it outside, each stretch on a slant of its own.
    """
    widest: dict[tuple[str, Vector], float] = {}
    for one in found:
        if one.through_m is not None and one.hole_m is not None:
            key = one.skin, one.hole_m
            widest[key] = max(widest.get(key, 0.0), one.through_m)
    return tuple(
        one if one.hole_m is None else replace(one, through_m=widest[one.skin, one.hole_m]) for one in found
    )


def skin_faces(geometry: Geometry, skin: Skin, tape_m: float) -> tuple[Face, ...] | Unclear:
    """Return the faces of a skin: of the walls of the body that it lies on, else by its corners."""
    if skin.on and geometry.body is not None:
        return faces_on(geometry.body, skin.on)
    return laid_faces(geometry, skin.corners, tape_m, away=not skin.outside)


def _under(skin: Skin, faces: Sequence[Face], tube: Tube, tape_m: float) -> Iterator[Clearance]:
    for face in faces:
        for part in tube_parts(face, tube, tape_m, skin.fasteners_m + BEYOND_M):
            line_m = from_fasteners(face.outline, (part.start, part.end), skin.fasteners_m)
            through_m = _through_m(face, tube, tape_m + face.bent_m, skin.fasteners_m)
            yield Clearance(
                skin.name,
                tube,
                part.begins * tube.straight_m,
                part.ends * tube.straight_m,
                part.depth_m,
                line_m,
                None if tube.radius_m is None else line_m - tube.radius_m,
                tape_m + face.bent_m,
                len(faces) > 1 and not skin.on,
                through_m,
                None if through_m is None else _hole_m(face, tube),
            )


def _through_m(face: Face, tube: Tube, unsure_m: float, fasteners_m: float) -> float | None:
    """Return how far from its hole a tube that goes out through a face may be reached, in metres along the face.

    None where it does not get to the face, or runs along it rather than through it.
    """
    a, b = (face.seen(end) for end in tube.piece)
    along_m, deep_m = hypot(b[0] - a[0], b[1] - a[1]), abs(b[2] - a[2])
    if tube.radius_m is None or min(a[2], b[2]) > OUT_M or along_m > STEEP * deep_m:
        return None
    wide_m = tube.radius_m + unsure_m
    return along_m / deep_m * (fasteners_m + wide_m) + wide_m


def _hole_m(face: Face, tube: Tube) -> Vector:
    """Return where a tube that goes out through a face does so: at its end there, or where its line meets the face."""
    (start, end), (one, other) = tube.piece, (face.seen(point)[2] for point in tube.piece)
    for point, deep_m in ((start, one), (end, other)):
        if abs(deep_m) <= OUT_M:
            return point
    return (
        along(start, end, one / (one - other))
        if (one < 0) != (other < 0)
        else min((one, start), (other, end))[1]
    )


def tube_parts(face: Face, tube: Tube, tape_m: float, deepest_m: float) -> tuple[Part, ...]:
    """Return the parts of a tube behind a face, with the tape's tolerance to all sides; all in metres.

    The line of the tube counts from ``deepest_m`` up; where its width is not known, the tolerance alone is added.
    """
    wide_m = tape_m + face.bent_m + (tube.radius_m or 0.0)
    return parts_behind(face, tube.piece, wide_m, deepest_m + wide_m)
