"""The bays that are closed one after the other: a wall of the body from frame to frame, or a skin with corners."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from builder.trailer.body import ENDS, Body, Wall
from builder.trailer.origin import Origin
from builder.trailer.outline import extents, pieces_of, points_of
from builder.trailer.places import Geometry

EVERYTHING = "everything"
"""What a maker writes under ``pulled`` once every wire is in."""
SAME_M = 0.001
"""Frames that are no further apart stand at one place: finer than any tape measure."""
BACK, UP = 0, 2
"""Along which measure the bays of a wall follow each other: back, or up for the front and the rear wall."""


@dataclass(frozen=True, slots=True)
class Bay:
    """One bay: ``wall`` from ``from_m`` to ``to_m`` along the measure ``axis``, or the whole of a ``skin``.

    ``from_frame`` and ``to_frame`` name the frames at its two edges; empty at the end of the wall.
    """

    name: str
    wall: Wall | None = None
    skin: str = ""
    axis: int = BACK
    from_m: float = 0.0
    to_m: float = 0.0
    from_frame: str = ""
    to_frame: str = ""


@dataclass(frozen=True, slots=True)
class ClosedBay:
    """A bay that the maker closed, by its name, and what he says of it.

    ``photo`` is the name of the photo that was taken before, ``without_photo`` tells that none was. ``insulated`` tells
    whether the ends that wait in it are insulated, None where he does not say.
    """

    bay: str
    photo: str
    insulated: bool | None
    origin: Origin
    date: str = ""
    note: str = ""
    without_photo: bool = False


def closed_bay(bays: Iterable[ClosedBay], name: str) -> ClosedBay | None:
    """Return what is said of a bay that was closed, by its name; None of any other."""
    return next((one for one in bays if one.bay == name), None)


@dataclass(frozen=True, slots=True)
class Pulled:
    """A circuit or spare wire, by its name, whose wires are in; `EVERYTHING` stands for all. ``when`` is in words."""

    name: str
    when: str
    origin: Origin


def photo_name(bay: str) -> str:
    """Return how the photo of a bay is best called, without its ending: words of the bay's name, parted by dashes.

    >>> photo_name("left wall bay 1")
    'left-wall-bay-1'
    """
    words = "".join(sign if sign.isalnum() else " " for sign in bay.casefold()).split()
    return "-".join(words) or "bay"


def bays_of(geometry: Geometry) -> tuple[Bay, ...]:
    """Return every bay: wall by wall from the front to the rear, or from below upwards, then skins with corners.

    Upright frames part the side walls, roof and floor, level ones the front and the rear wall. A wall without frames is
    one bay. A skin that is called like a wall or one of its bays has a bay called after it with “skin” behind.
    """
    walls = tuple(_bays_of_walls(geometry.body)) if geometry.body is not None else ()
    theirs = {bay.name.casefold() for bay in walls} | {str(bay.wall) for bay in walls}
    skins = [skin.name for skin in geometry.skins.values() if skin.corners]
    taken = theirs.union(name.casefold() for name in skins)
    return (*walls, *(Bay(_own_name(name, theirs, taken), skin=name) for name in skins))


def _own_name(skin: str, walls: Collection[str], taken: Collection[str]) -> str:
    """Return what the bay of a skin is called: no wall and none of its bays has that name."""
    name = skin
    while name.casefold() in (taken if name != skin else walls):
        name = f"{name} skin"
    return name


def _bays_of_walls(body: Body) -> Iterator[Bay]:
    first_back, last_back, low, high = _reach(body)
    for wall in Wall:
        axis = UP if wall in ENDS else BACK
        ends = (low, high) if axis == UP else (first_back, last_back)
        cuts = _cuts(body, wall, axis, ends)
        edges = [(ends[0], ""), *cuts, (ends[1], "")]
        for number, (one, other) in enumerate(pairwise(edges), start=1):
            name = f"{wall} bay {number}" if cuts else str(wall)
            yield Bay(name, wall, "", axis, one[0], other[0], one[1], other[1])


def _cuts(body: Body, wall: Wall, axis: int, ends: tuple[float, float]) -> list[tuple[float, str]]:
    """Return where frames part a wall, each with the frame's name; two at one place part it once."""
    found = sorted(
        (at_m, frame.name)
        for frame in body.frames
        if wall in frame.walls
        for at_m in (frame.up_m if axis == UP else frame.back_m)
        if ends[0] < at_m < ends[1]
    )
    return [cut for n, cut in enumerate(found) if n == 0 or cut[0] - found[n - 1][0] > SAME_M]


def _reach(body: Body) -> tuple[float, float, float, float]:
    """Return how far a body reaches: from the front to the rear, and from below to above, in metres."""
    return extents(points_of(pieces_of(body.profile)))
