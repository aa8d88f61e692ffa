"""How the wires are laid in their chases, worked out in one go: bends, supports, holes, and mains beside them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.routes.apart import BesideMains, beside_mains
from builder.routes.bends import Bends, Turn, bends_of, turns_of
from builder.routes.covers import TAPE
from builder.routes.crossed_openings import OpeningCrossed, openings_crossed
from builder.routes.cut_to_fit import ConduitPiece, Groove, Loop, conduit_pieces, grooves_of, loops_of
from builder.routes.framing import BlockPassed, FramePassed, blocks_passed, frames_passed
from builder.routes.passings import Passing, passings_of
from builder.routes.runs import Runs
from builder.routes.supports import Supports, supports_of
from builder.trailer.assumed import assumption
from builder.trailer.model import Trailer
from builder.trailer.size import Size


@dataclass(frozen=True, slots=True)
class Laid:
    """How wires turn, how they are held, what they pass, where mains lies beside them, and what is made to fit them."""

    bends: tuple[Bends, ...] = ()
    turns: tuple[Turn, ...] = ()
    supports: tuple[Supports, ...] = ()
    passings: tuple[Passing, ...] = ()
    frames: tuple[FramePassed, ...] = ()
    beside_mains: tuple[BesideMains, ...] = ()
    blocks: tuple[BlockPassed, ...] = ()
    grooves: tuple[Groove, ...] = ()
    pieces: tuple[ConduitPiece, ...] = ()
    loops: tuple[Loop, ...] = ()
    openings: tuple[OpeningCrossed, ...] = ()


def laid(trailer: Trailer, runs: Runs, sizes: Mapping[str, Size]) -> Laid:
    """Return how the wires of a trailer are laid; ``sizes`` are those of all wires by number."""
    geometry, measured_mm = trailer.geometry, trailer.shelf.diameters_mm
    if not geometry:
        return Laid()
    supports = supports_of(trailer, runs)
    return Laid(
        bends_of(geometry, runs, sizes, measured_mm),
        turns_of(geometry, runs, sizes, measured_mm),
        supports,
        passings_of(trailer, runs),
        frames_passed(geometry, runs.runs.values()),
        beside_mains(trailer, runs, sizes),
        blocks_passed(geometry, geometry.chases.values(), runs.inside, assumption(trailer, TAPE).value),
        grooves_of(trailer, runs, sizes),
        conduit_pieces(trailer, runs),
        loops_of(trailer, runs, sizes, supports),
        openings_crossed(trailer, runs),
    )
