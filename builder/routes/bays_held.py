"""What lies in each bay before it is closed: stretches with their depths, wires, and the ends that wait there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from builder.routes.behind import Part, parts_behind
from builder.routes.faces import Face
from builder.routes.near_walls import NearSkin
from builder.routes.network import Stretch
from builder.routes.runs import Runs
from builder.routes.skins import OUT_M, Clearances, skin_faces
from builder.routes.standing import DEEPEST_M, holds
from builder.routes.unrecorded import Piece, Unrecorded, unrecorded
from builder.routes.vectors import Vector, along
from builder.routes.wall_faces import faces_on
from builder.trailer.bays import Bay, bays_of
from builder.trailer.body import Wall
from builder.trailer.model import FRONT_BOX, Trailer
from builder.trailer.places import Geometry
from builder.trailer.wires import Wire

_SHORT_M = 0.005
"""What reaches into the next bay by no more than that ends at the frame."""
_HALF = 0.5


@dataclass(frozen=True, slots=True)
class InBay:
    """One stretch in a bay, lengths in metres.

    ``depth_m`` is the least depth of its line there behind the outside of the wall or skin; ``left_m`` what is left to
    the fasteners of the skin over it, None where the file has no such skin or a wire's diameter is not known.
    ``hole_m`` is how far fasteners keep from the hole where it goes out through that skin. ``is_out`` tells that it
    comes to the outside there, with or without a skin on record.
    """

    stretch: Stretch
    wires: tuple[str, ...]
    depth_m: float
    left_m: float | None
    hole_m: float | None = None

    @property
    def is_out(self) -> bool:
        """Whether its line comes to the outside of the wall or skin: there it goes out, or ends on the face."""
        return self.depth_m <= OUT_M


@dataclass(frozen=True, slots=True)
class WaitingEnd:
    """A place in a bay where wires end and wait: at a part that is not there yet, or at the end of a spare wire."""

    name: str
    place: str
    wires: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BayHeld:
    """One bay with what lies in it; ``wires`` are all of them, each once.

    ``mains`` are the stretches in it of chases that carry mains, with or without other wires. ``unseen`` may run in it
    as well, and nobody recorded where.
    """

    bay: Bay
    inside: tuple[InBay, ...]
    ends: tuple[WaitingEnd, ...] = ()
    mains: tuple[Stretch, ...] = ()
    unseen: tuple[Unrecorded, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether anything lies in it or may do so: a wire, mains, or what is not recorded."""
        return bool(self.inside or self.mains or self.unseen)

    @property
    def wires(self) -> tuple[str, ...]:
        """The numbers of the wires in it, in the order of the stretches."""
        return tuple(dict.fromkeys(wire for one in self.inside for wire in one.wires))


def bays_held(
    trailer: Trailer, runs: Runs, behind: tuple[Clearances, Sequence[NearSkin]], tape_m: float
) -> tuple[BayHeld, ...]:
    """Return every bay with the stretches that run in it, as far as they hold wires.

    A stretch lies in the wall that it is nearest to; where another is as near by the tape, in that one too. What runs
    along a frame lies in the bays on both sides of it. ``behind`` tells what is left to fasteners, and which stretches
    lie behind skins with corners; ``tape_m`` is the tape's tolerance in metres.
    """
    geometry = trailer.geometry
    clearances, near = behind
    placed = Placed(geometry, tape_m)
    left, holes = _left(geometry, clearances), _holes(geometry, clearances)
    held: dict[str, dict[Stretch, InBay]] = {bay.name: {} for bay in placed.bays}
    of_skin = {bay.skin: bay.name for bay in placed.bays if bay.skin}
    for stretch, wires in runs.inside.items():
        for bay, depth_m in placed.bays_at(geometry, stretch):
            cover = str(bay.wall)
            hole_m = holes.get((cover, stretch)) if depth_m <= OUT_M else None
            held[bay.name][stretch] = InBay(
                stretch, wires, max(depth_m, 0.0), left.get((cover, stretch)), hole_m
            )
    for one in clearances.found:
        if geometry.skins[one.skin].corners and one.tube.wires:
            stretch = one.tube.stretch
            held[of_skin[one.skin]][stretch] = InBay(
                stretch,
                one.tube.wires,
                max(one.depth_m, 0.0),
                one.left_m if one.through_m is None else None,
                one.through_m,
            )
    ends = _waiting_ends(trailer)
    mains = [
        (
            stretch,
            {bay.name for bay, _ in placed.bays_at(geometry, stretch)}
            | {of_skin[one.skin] for one in near if one.stretch == stretch},
        )
        for stretch in mains_stretches(geometry)
    ]
    unseen = [
        (one, {bay.name for piece in pieces for bay, _ in placed.bays_of(piece)})
        for one, pieces in unrecorded(trailer)
    ]
    return tuple(
        BayHeld(
            bay,
            tuple(held[bay.name].values()),
            tuple(_ends_in(geometry, (bay, held[bay.name]), ends, tape_m)),
            tuple(stretch for stretch, names in mains if bay.name in names),
            tuple(one for one, names in unseen if bay.name in names),
        )
        for bay in placed.bays
    )


def mains_stretches(geometry: Geometry) -> Iterator[Stretch]:
    """Yield every stretch of the chases that carry mains; in those that carry it alone no wire is led."""
    for chase in geometry.chases.values():
        if chase.holds_mains:
            yield from (Stretch(chase.name, number) for number in range(len(chase.through) - 1))


class Placed:
    """The bays of a trailer, and the faces of the walls that they are in."""

    def __init__(self, geometry: Geometry, tape_m: float) -> None:
        self.bays = bays_of(geometry)
        self._tape_m = tape_m
        body = geometry.body
        self._faces = [(wall, face) for wall in Wall for face in faces_on(body, [wall])] if body else []

    def bays_at(self, geometry: Geometry, stretch: Stretch) -> Iterator[tuple[Bay, float]]:
        """Yield the bays of walls that a stretch lies in, each once, with its least depth there in metres."""
        chase = geometry.chases[stretch.chase]
        one, other = chase.through[stretch.number], chase.through[stretch.number + 1]
        yield from self.bays_of((geometry.places[one].point_m, geometry.places[other].point_m))

    def bays_of(self, piece: Piece) -> Iterator[tuple[Bay, float]]:
        """Yield the bays of walls that a straight piece lies in, each once, with its least depth there in metres."""
        parts = list(_parts(self._faces, piece, self._tape_m))
        for bay in self.bays:
            depths = [
                depth_m
                for wall, part in parts
                if wall is bay.wall
                for depth_m in self._depths(bay, part, piece, parts)
            ]
            if depths:
                yield bay, min(depths)

    def _depths(
        self, bay: Bay, part: Part, piece: tuple[Vector, Vector], parts: Sequence[tuple[Wall, Part]]
    ) -> Iterator[float]:
        """Yield the least depth of a part in a bay, where any share of it there is nearer to this wall than to others.

        The depth is that of all of it in the bay: a screw through this wall meets the rest of it as well.
        """
        clipped = _clipped(bay, part, piece, self._tape_m)
        if clipped is None:
            return
        inner = (share for _, one in parts for share in (one.begins, one.ends))
        steps = sorted({*clipped, *(share for share in inner if clipped[0] < share < clipped[1])})
        for step in pairwise(steps) if len(steps) > 1 else [clipped]:
            middle = (step[0] + step[1]) * _HALF
            others = [one for _, one in parts if one is not part and one.begins <= middle <= one.ends]
            if _is_nearest(part, others, step, self._tape_m):
                yield min(_depth_m(part, share) for share in clipped)
                return


def _is_nearest(part: Part, others: Sequence[Part], step: tuple[float, float], tape_m: float) -> bool:
    """Tell whether a part lies no deeper than any other by the tape at one share of a step at least."""
    begins, ends = step
    for other in others:
        first, last = (_depth_m(part, share) - _depth_m(other, share) - tape_m for share in step)
        if first > 0 and last > 0:
            return False
        if (first > 0) != (last > 0):
            crossing = step[0] + (step[1] - step[0]) * first / (first - last)
            begins, ends = (max(begins, crossing), ends) if first > 0 else (begins, min(ends, crossing))
    return begins <= ends


def _parts(
    faces: Sequence[tuple[Wall, Face]], piece: tuple[Vector, Vector], tape_m: float
) -> Iterator[tuple[Wall, Part]]:
    for wall, face in faces:
        for part in parts_behind(face, piece, tape_m, DEEPEST_M):
            yield wall, part


def _depth_m(part: Part, share: float) -> float:
    """Return how deep a piece lies at a share of it, by the part of it behind a face."""
    if part.ends <= part.begins:
        return part.depth_m
    inner = (share - part.begins) / (part.ends - part.begins)
    return part.start[2] + (part.end[2] - part.start[2]) * inner


def _clipped(bay: Bay, part: Part, piece: tuple[Vector, Vector], tape_m: float) -> tuple[float, float] | None:
    """Return between which shares of a piece its part lies in a bay; None where it does not.

    A part that goes along the frame between two bays lies in both.
    """
    a, b = (along(*piece, share)[bay.axis] for share in (part.begins, part.ends))
    if abs(b - a) <= _SHORT_M:
        at_m = (a + b) * _HALF
        return (part.begins, part.ends) if bay.from_m - tape_m <= at_m <= bay.to_m + tape_m else None
    shares = sorted(
        part.begins + (min(max(edge, min(a, b)), max(a, b)) - a) / (b - a) * (part.ends - part.begins)
        for edge in (bay.from_m, bay.to_m)
    )
    reach_m = (shares[1] - shares[0]) / (part.ends - part.begins) * abs(b - a)
    return (shares[0], shares[1]) if reach_m > _SHORT_M else None


def _left(geometry: Geometry, clearances: Clearances) -> dict[tuple[str, Stretch], float]:
    """Return what is least left to the fasteners of the skins on each wall of the body, by wall and stretch.

    What goes out through a skin has a hole there that everybody sees.
    """
    found: dict[tuple[str, Stretch], float] = {}
    for one in clearances.found:
        if one.left_m is None or one.through_m is not None:
            continue
        for wall in geometry.skins[one.skin].on:
            key = str(wall), one.tube.stretch
            found[key] = min(found.get(key, one.left_m), one.left_m)
    return found


def _holes(geometry: Geometry, clearances: Clearances) -> dict[tuple[str, Stretch], float]:
    """Return how far fasteners keep from the hole of each stretch that goes out through a skin, by wall and stretch."""
    found: dict[tuple[str, Stretch], float] = {}
    for one in clearances.found:
        if one.through_m is not None:
            for wall in geometry.skins[one.skin].on:
                key = str(wall), one.tube.stretch
                found[key] = max(found.get(key, one.through_m), one.through_m)
    return found


def _waiting_ends(trailer: Trailer) -> list[WaitingEnd]:
    """Return every end that waits outside the front box, at the place where it is."""
    stands = trailer.geometry.stands
    found = []
    for part in (one for one in trailer.parts.values() if one.waiting and one.name in stands):
        wires = tuple(wire.number for wire in trailer.wires if part.name in (wire.start.part, wire.end.part))
        if wires:
            found.append(WaitingEnd(part.name, stands[part.name].place, wires))
    found += [
        WaitingEnd(wire.start.pin, stands[name].place, (wire.number,))
        for wire in trailer.spares
        for name in _ends_of(wire)
        if name in stands
    ]
    return found


def _ends_of(wire: Wire) -> tuple[str, ...]:
    names = (wire.legs[0].start, wire.legs[-1].end) if wire.legs else ()
    return tuple(name for name in names if name != FRONT_BOX)


def _ends_in(
    geometry: Geometry, held: tuple[Bay, dict[Stretch, InBay]], ends: Sequence[WaitingEnd], tape_m: float
) -> Iterator[WaitingEnd]:
    """Yield the ends that wait in a bay, at a place of one of the stretches in it which hold their wires."""
    bay, inside = held
    faces = skin_faces(geometry, geometry.skins[bay.skin], tape_m) if bay.skin else ()
    for end in ends:
        point = geometry.places[end.place].point_m
        if bay.wall is not None and not bay.from_m - tape_m <= point[bay.axis] <= bay.to_m + tape_m:
            continue
        if bay.skin and not (isinstance(faces, tuple) and holds(faces, point, tape_m)):
            continue
        for stretch, one in inside.items():
            places = geometry.chases[stretch.chase].through[stretch.number : stretch.number + 2]
            points = {geometry.places[name].point_m for name in places}
            if point in points and set(end.wires) & set(one.wires):
                yield end
                break
