"""What wires are screwed to, and the holes through which they leave the front box, as the build file has them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from builder.trailer.origin import Origin

SUPPLY_STUDS = "supply bar"
GROUND_SCREWS = "ground bar"
"""How the file calls the two bars of the front box, as under the measures of its face."""
BoxWall = Literal["left wall", "right wall", "upper wall", "lower wall", "back wall"]


@dataclass(frozen=True, slots=True)
class StudSize:
    """A size of stud or screw: its name, and its ``ring``: sizes of one ring take the same ring terminals."""

    name: str
    ring: int

    def __str__(self) -> str:
        return self.name


@dataclass(frozen=True, slots=True)
class Studs:
    """The studs or screws of one thing: their size, how many there are, how many wires each takes at most.

    Each is None where the file does not tell it. The origins are those of the words, of the entry where one is left
    out.
    """

    name: str
    origin: Origin
    size: StudSize | None = None
    count: int | None = None
    most: int | None = None
    size_origin: Origin | None = None
    most_origin: Origin | None = None


@dataclass(frozen=True, slots=True)
class EntryHole:
    """A hole of the front box: its bore, in which wall it is and where its middle sits, all in metres.

    ``left_m`` and ``top_m`` are from the left and from the upper wall inside, None where not told or where the wall
    has no such measure. ``takes`` are names of circuits, parts, chases and spare wires as the model has them; a hole
    with none takes the rest.
    """

    name: str
    bore_m: float
    origin: Origin
    bore_origin: Origin
    wall: BoxWall | None = None
    left_m: float | None = None
    top_m: float | None = None
    takes: tuple[str, ...] = ()


StudsByName = Mapping[str, Studs]
