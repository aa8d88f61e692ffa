"""Where things are: named places, the chases between them, the skins and panels over them, in metres.

Every measure counts from the middle of the body's front at its underside: back is positive, right is positive, up
is positive; what lies ahead of the body, left of its middle or under it is negative.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from math import dist

from builder.trailer.body import Block, Body, Wall
from builder.trailer.fittings import Carries, Fittings
from builder.trailer.origin import Origin

BOX_LOOP, HINGE_SLACK = "loop at the front box", "slack of a hinge loop"
"""The general assumptions that lengths by a way rest on, by their ids."""


@dataclass(frozen=True, slots=True)
class Place:
    """One named place, in metres from the middle of the body's front at its underside."""

    name: str
    back_m: float
    right_m: float
    up_m: float
    origin: Origin

    @property
    def point_m(self) -> tuple[float, float, float]:
        """Back, right and up, in metres."""
        return self.back_m, self.right_m, self.up_m

    def distance_m(self, other: Place) -> float:
        """Return the straight distance to another place, in metres."""
        return dist(self.point_m, other.point_m)


class ChaseKind(StrEnum):
    """What wires lie in."""

    GROOVE = "groove"
    CHANNEL = "channel"
    CONDUIT = "conduit"
    BAY = "open bay"
    HINGE = "hinge loop"


@dataclass(frozen=True, slots=True)
class Chase:
    """One way that wires run through: straight from each of its places to the next.

    ``through`` holds the names of at least two places. ``bore_m`` is the inside diameter of a conduit, None where it
    is not given. ``slack_m`` is the wire of a hinge loop beyond the distance of its two places; ``slack_given`` tells
    whether the file has it. ``hinge`` names two places on the hinge's axis, ``opens_deg`` is how far it opens in
    degrees; empty and None where the file has not both. ``plate_m`` is the thickness of the steel plates between
    the wires and the skins over them, None where there are none: over its bored holes alone where it is `is_bored`.
    ``fittings`` is how it is built in.
    """

    name: str
    through: tuple[str, ...]
    kind: ChaseKind
    origin: Origin
    bore_m: float | None = None
    bore_origin: Origin | None = None
    slack_m: float = 0.0
    slack_given: bool = False
    where: str = ""
    hinge: tuple[str, ...] = ()
    opens_deg: float | None = None
    plate_m: float | None = None
    fittings: Fittings = field(default_factory=Fittings)

    @property
    def is_bored(self) -> bool:
        """Whether the file says that holes are bored for it, by their size or by what they leave to an edge."""
        return self.fittings.hole_m is not None or self.fittings.edge_m is not None

    @property
    def plate_along_m(self) -> float | None:
        """How thick the steel plate is that lies over it from end to end; None where none or only over bored holes."""
        return None if self.is_bored else self.plate_m

    @property
    def takes_wires(self) -> bool:
        """Whether low-voltage wires may run through it: where mains lies alone they never do."""
        return self.fittings.carries is not Carries.MAINS

    @property
    def holds_mains(self) -> bool:
        """Whether mains lies in it, alone or beside other wires."""
        return self.fittings.carries is not Carries.WIRES


@dataclass(frozen=True, slots=True)
class Skin:
    """What hides wires: ``fasteners_m`` is how far its fasteners go in, from ``outside`` or from inside.

    ``corners`` names places in their order round it, ``on`` the walls of the body that it lies on by their outline;
    both empty where the file does not tell how far it reaches.
    """

    name: str
    fasteners_m: float
    outside: bool
    corners: tuple[str, ...]
    origin: Origin
    where: str = ""
    on: tuple[Wall, ...] = ()


@dataclass(frozen=True, slots=True)
class Panel:
    """A panel that comes off; ``corners`` names places in their order round it.

    ``behind`` names all chases that run behind it, as the maker says; None where he does not say. ``also_behind`` is
    what else runs there in his words, empty where he says that there is nothing, None where he does not say.
    ``outside`` tells whether it comes off from outside, away from the middle of the trailer; None where that is unsaid.
    """

    name: str
    corners: tuple[str, ...]
    held_by: str
    origin: Origin
    where: str = ""
    behind: tuple[str, ...] | None = None
    also_behind: str | None = None
    outside: bool | None = None


@dataclass(frozen=True, slots=True)
class Stand:
    """Where a part stands: the name of its place, and the wire from there to the part itself, in metres.

    ``side`` and ``opening`` tell at which side of which opening its wires must end, ``lead_m`` is the way there along
    the wall, and part of the rise; empty and 0 where its wires end at the part as it stands.
    """

    place: str
    rise_m: float = 0.0
    opening: str = ""
    side: str = ""
    lead_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Geometry:
    """All that a tape measure says of the trailer: places, chases, skins and panels by name.

    ``stands`` tells by the name of a part, of the battery, the front box or the tow plug where it stands; what has no
    place is not in it. ``body`` is None where the file has no outline of it. ``blocks`` are the backing blocks by name.
    """

    places: Mapping[str, Place] = field(default_factory=dict)
    chases: Mapping[str, Chase] = field(default_factory=dict)
    skins: Mapping[str, Skin] = field(default_factory=dict)
    panels: Mapping[str, Panel] = field(default_factory=dict)
    stands: Mapping[str, Stand] = field(default_factory=dict)
    body: Body | None = None
    blocks: Mapping[str, Block] = field(default_factory=dict)

    def __bool__(self) -> bool:
        """Tell whether the file says anything of places."""
        return bool(self.places)
