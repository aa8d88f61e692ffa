"""How much of each end of a piece of wire is left free beyond its way when it is drawn in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.lists.cut_pieces import Piece
from builder.routes.runs import Run

_NOISE_M = 1e-9


@dataclass(frozen=True, slots=True)
class FreeEnd:
    """What is left free at a part beyond the way in the chases, in metres.

    ``free_m`` is all of it: the tail, the rise to a part that stands off its place, and the loop at the front box.
    ``rises`` tells that there is a rise in it: the tail and the loop that every wire has are not enough there.
    """

    part: str
    free_m: float
    rises: bool


def free_ends(piece: Piece, runs: Mapping[str, Run]) -> tuple[FreeEnd, ...]:
    """Return what is left free at each part that wires of a piece end at, from the supply on; of several the most.

    These are the parts of the length of a run: see `Run`. A wire whose way is not known has none.
    """
    found: dict[str, FreeEnd] = {}
    for one in _ends(piece, runs):
        if one.part not in found or one.free_m > found[one.part].free_m + _NOISE_M:
            found[one.part] = one
    return tuple(found.values())


def _ends(piece: Piece, runs: Mapping[str, Run]) -> Iterator[FreeEnd]:
    for run in (runs[number] for number in piece.wires if number in runs):
        for end in run.ends:
            yield FreeEnd(end.part, run.tail_m + end.rise_m + end.loop_m, end.rise_m > _NOISE_M)
