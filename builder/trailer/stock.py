"""What is already there when the shopping list is made."""

from __future__ import annotations

from dataclasses import dataclass, field

from builder.trailer.color import Color
from builder.trailer.landing_points import StudSize
from builder.trailer.origin import NOWHERE, Origin
from builder.trailer.size import Size

STRIP_KINDS = ("fork", "ferrule")
"""What a terminal strip takes, one or the other."""
TERMINAL_KINDS = ("ring", "push-on", "push-on for two", "splice", "contact", *STRIP_KINDS)
"""What can lie in a drawer: ring terminals, push-on blade terminals and those that take a second one, butt splices,
contacts of connectors; forks and ferrules, of which the strip takes one or the other, so that none is taken off."""


@dataclass(frozen=True, slots=True)
class WireInStock:
    """One spool that is there: ``color`` is None for pair cable in the build's two colours, ``length_m`` in metres.

    ``origin`` is where the file has its length.
    """

    color: Color | None
    size: Size
    length_m: float
    origin: Origin = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class FusesInStock:
    """Fuses that are there: rating in amperes; ``series`` is empty where the file leaves it to the front box."""

    rating_a: float
    series: str
    count: int


@dataclass(frozen=True, slots=True)
class TerminalsInStock:
    """Terminals that are there: a word of `TERMINAL_KINDS`, for a size of wire.

    ``stud`` is the size that rings go on; None where the file does not say it.
    """

    kind: str
    size: Size
    count: int
    stud: StudSize | None = None


@dataclass(frozen=True, slots=True)
class BulbsInStock:
    """Filament bulbs that are there, by their name in the table of bulbs."""

    name: str
    count: int


@dataclass(frozen=True, slots=True)
class ConduitInStock:
    """One piece of conduit that is there: its inside diameter and its length, in metres."""

    bore_m: float
    length_m: float


@dataclass(frozen=True, slots=True)
class Stock:
    """All that the file says is there; ``parts`` are names as the model has them."""

    wire: tuple[WireInStock, ...] = ()
    fuses: tuple[FusesInStock, ...] = ()
    terminals: tuple[TerminalsInStock, ...] = ()
    bulbs: tuple[BulbsInStock, ...] = ()
    labels: int = 0
    conduit: tuple[ConduitInStock, ...] = ()
    clips: int = 0
    grommets: int = 0
    parts: tuple[str, ...] = ()
