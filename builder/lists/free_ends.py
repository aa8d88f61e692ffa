"""How much of each end of a piece of wire is left free beyond its way when it is drawn in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.lists.cut_pieces import Piece
from builder.routes.runs import Run
from builder.trailer.model import TOW_PLUG, Trailer

_NOISE_M = 1e-9


@dataclass(frozen=True, slots=True)
class FreeEnd:
    """What is left free at a part beyond the way in the chases, in metres.

    ``free_m`` is all of it: the tail, the rise to a part that stands off its place, the loop at the front box, and at
    the tow plug what its cable hangs free by. ``more`` tells that the tail and the loop that every wire has are not
    enough there.
    """

    part: str
    free_m: float
    more: bool


@dataclass(frozen=True, slots=True)
class Hanging:
    """A wire of the tow plug's cable, and by how much it is longer than its way beyond the plug's place, in metres."""

    wire: str
    length_m: float


def hanging(trailer: Trailer, runs: Mapping[str, Run]) -> tuple[Hanging, ...]:
    """Return what the plan leaves at the tow plug for each of its wires whose way is known: its length less that way.

    A loop, slack and rise at other parts are its way's; the tail for landing is not counted.
    """
    return tuple(
        Hanging(wire.number, max(0.0, wire.length_m - run.length_m + at_plug_m))
        for wire in trailer.wires
        if (run := runs.get(wire.number)) is not None
        for at_plug_m in [end.rise_m for end in run.ends if end.part == TOW_PLUG][:1]
    )


def free_ends(piece: Piece, runs: Mapping[str, Run], hangs_m: Mapping[str, float]) -> tuple[FreeEnd, ...]:
    """Return what is left free at each part that wires of a piece end at, from the supply on; of several the most.

    These are the parts of the length of a run: see `Run`; at the tow plug ``hangs_m`` by wire: see `hanging`. A wire
    whose way is not known has none.
    """
    found: dict[str, FreeEnd] = {}
    for number, run in [(number, runs[number]) for number in piece.wires if number in runs]:
        for end in run.ends:
            more_m = hangs_m[number] if end.part == TOW_PLUG else end.rise_m
            one = FreeEnd(end.part, run.tail_m + more_m + end.loop_m, more_m > _NOISE_M)
            if one.part not in found or one.free_m > found[one.part].free_m + _NOISE_M:
                found[one.part] = one
    return tuple(found.values())
