"""What was measured on the front box: the room inside it, and the pieces that hang there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

PieceName = Literal["supply bar", "fuse block", "strip", "ground bar"]


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of the front box, in metres as it hangs there, seen with the lid open.

    ``left_m`` and ``top_m`` tell where its upper left corner sits from the walls, and are both None where that was
    not measured. Its places run in ``rows`` along its longer side, numbered from the upper left along each row, or
    across the rows where ``across`` says so.
    """

    width_m: float
    height_m: float
    left_m: float | None = None
    top_m: float | None = None
    rows: int = 1
    across: bool = False


@dataclass(frozen=True, slots=True)
class BoxFace:
    """The room inside the front box in metres, and the pieces that were measured."""

    width_m: float
    height_m: float
    pieces: Mapping[PieceName, Piece]
