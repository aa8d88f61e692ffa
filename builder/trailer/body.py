"""The trailer's body: its side profile, its width, the openings in it and its frames, in metres.

Measured like places are: back from the body's front, up from its underside, left and right from its middle.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.trailer.origin import Origin


class Wall(StrEnum):
    """One of the six sides of the body."""

    LEFT = "left wall"
    RIGHT = "right wall"
    FRONT = "front wall"
    REAR = "rear wall"
    ROOF = "roof"
    FLOOR = "floor"


SIDES = (Wall.LEFT, Wall.RIGHT)
ENDS = (Wall.FRONT, Wall.REAR)
FLATS = (Wall.ROOF, Wall.FLOOR)


@dataclass(frozen=True, slots=True)
class Corner:
    """One point of the profile, and how it is reached from the one before.

    Straight where ``radius_m`` is None, else along an arc of that radius, the shorter one of the two there are:
    outwards, or inwards where it is ``hollow``. The first corner is reached from the last.
    """

    back_m: float
    up_m: float
    radius_m: float | None
    hollow: bool
    origin: Origin


@dataclass(frozen=True, slots=True)
class Patch:
    """A rectangle in one wall.

    ``along_m`` is where it begins: behind the body's front, or for the front and the rear wall left of the middle as
    a negative number, right as a positive one. ``across_m`` is where it begins in the other direction: up, or for
    roof and floor from left to right. ``wide_m`` and ``high_m`` reach on from there.
    """

    name: str
    wall: Wall
    along_m: float
    across_m: float
    wide_m: float
    high_m: float
    origin: Origin

    @property
    def middle_m(self) -> tuple[float, float]:
        """Where its middle is, along and across, in metres."""
        return self.along_m + self.wide_m / 2, self.across_m + self.high_m / 2


@dataclass(frozen=True, slots=True)
class Opening(Patch):
    """A door, hatch, window, fan or other opening in one wall; ``radius_m`` is that of its corners."""

    radius_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Block(Patch):
    """A backing block: a piece of wood built in behind a skin, into which something is screwed.

    ``thick_m`` is None where that was not measured; ``holds`` is what is screwed to it in the maker's words, or empty.
    """

    thick_m: float | None = None
    holds: str = ""


@dataclass(frozen=True, slots=True)
class Frame:
    """Frames or studs alike, at their middles: upright at ``back_m``, or level at ``up_m``; one of them is empty.

    ``walls`` are the sides of the body that they stand in; ``thick_m`` is None where that was not measured.
    """

    name: str
    walls: tuple[Wall, ...]
    back_m: tuple[float, ...]
    up_m: tuple[float, ...]
    thick_m: float | None
    origin: Origin


@dataclass(frozen=True, slots=True)
class Body:
    """The body: its profile as seen from the side, closed, and its width, the same all along."""

    profile: tuple[Corner, ...]
    width_m: float
    openings: tuple[Opening, ...] = ()
    frames: tuple[Frame, ...] = ()
