"""Whether the length that the file gives for a wire fits the way that it is taken to run."""

from __future__ import annotations

from collections.abc import Iterator

from builder.routes.runs import Run, Runs
from builder.trailer.model import Trailer
from builder.trailer.wires import Role, Wire

TAPE_M = 0.0254
"""An inch: what a tape measure can be out by over a whole way (common practice)."""
SHARE, MORE_M = 1.25, 0.4572
"""A quarter, and 18 in: a wire that wanders a little in its groove is no longer than that (common practice)."""
_NOISE = 1e-9


def written(trailer: Trailer) -> Iterator[Wire]:
    """Yield the wires whose length stands in the file, the spare ones too."""
    yield from (wire for wire in (*trailer.wires, *trailer.spares) if is_written(wire))


def is_written(wire: Wire) -> bool:
    """Tell whether the length of a wire stands in the file; a bond has a length of its own."""
    return wire.length_source == "written" and wire.role is not Role.BOND


def reach_m(trailer: Trailer, run: Run) -> float:
    """Return the least wire that gets from end to end, in metres: way, rise, and what the file gives as slack."""
    chases = trailer.geometry.chases
    given_m = sum(step.slack_m for step in run.steps if chases[step.stretch.chase].slack_given)
    return run.way_m + run.rise_m + given_m


def is_short(trailer: Trailer, wire: Wire, run: Run) -> bool:
    """Tell whether a wire is written shorter than its way, an inch left for the tape measure."""
    return reach_m(trailer, run) - TAPE_M > wire.length_m + _NOISE


def lacks_loop(trailer: Trailer, wire: Wire, run: Run) -> bool:
    """Tell whether a wire reaches from end to end, and not with the loop at the box and all slack; an inch is left.

    A wire whose length is worked out has them always.
    """
    if wire.length_source == "worked out" or is_short(trailer, wire, run):
        return False
    return run.length_m - TAPE_M > wire.length_m + _NOISE


def is_long(wire: Wire, run: Run) -> bool:
    """Tell whether a wire is written so much longer than its way that it may run another one.

    A wire between two parts at one place has no way to be held against.
    """
    return bool(run.steps) and wire.length_m > SHARE * run.length_m + MORE_M + _NOISE


def misfits(trailer: Trailer, runs: Runs) -> tuple[str, ...]:
    """Return the numbers of the wires whose written length says that they run another way than they are taken to."""
    return tuple(
        wire.number
        for wire in written(trailer)
        if (run := runs.runs.get(wire.number)) is not None
        and (is_short(trailer, wire, run) or is_long(wire, run))
    )
