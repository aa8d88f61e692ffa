"""Wires in closed walls as they were laid: each keeps the size that it was issued with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from builder.electrics.figures import CircuitFigures, Figures, KeptSize
from builder.trailer.model import Trailer
from builder.trailer.size import Size, by_area
from builder.trailer.wires import Wire


def as_laid(trailer: Trailer) -> Trailer:
    """Return a trailer whose wires have the size that they were issued with, once walls are closed.

    A size that the file gives goes before it: what it says of a wire is what was found or changed there. While walls
    are open nothing is kept, since another wire can still be laid.
    """
    plan = as_laid(trailer.plan) if trailer.plan is not None else None
    if plan is trailer.plan and not any(is_kept(trailer, wire) for wire in trailer.wires):
        return trailer
    return replace(
        trailer,
        wires=tuple(
            replace(wire, size=wire.issued_size) if is_kept(trailer, wire) else wire for wire in trailer.wires
        ),
        plan=plan,
    )


def is_kept(trailer: Trailer, wire: Wire) -> bool:
    """Tell whether a wire keeps the size that it was issued with."""
    return trailer.identity.walls_closed and wire.size is None and wire.issued_size is not None


def told_kept(trailer: Trailer, figures: Figures, today: Mapping[str, Size]) -> Figures:
    """Return figures that tell of kept sizes: why a circuit has its size, and where today's choice would differ.

    Arguments: ``trailer`` as it was read; ``figures`` of what is laid; ``today``, the size by wire number that would be
    chosen if all walls were open.
    """
    kept = [wire for wire in trailer.wires if is_kept(trailer, wire)]
    return replace(
        figures,
        kept_sizes=tuple(
            KeptSize(wire.number, size, today[wire.number])
            for wire in kept
            if (size := figures.wires[wire.number].size) != today[wire.number]
            and abs(by_area(size) - by_area(today[wire.number])) > 1e-9
        ),
        circuits={number: _as_kept(made, kept, figures) for number, made in figures.circuits.items()},
    )


def _as_kept(made: CircuitFigures, kept: Sequence[Wire], figures: Figures) -> CircuitFigures:
    """Return a circuit with the thinnest size that is kept of its wires, and of those wired in one size with them."""
    sizes = [figures.wires[wire.number].size for wire in kept if wire.circuit in made.size.circuits]
    if made.size.reason != "given" or not sizes:
        return made
    return replace(made, size=replace(made.size, reason="kept", chosen=min(sizes, key=by_area)))
