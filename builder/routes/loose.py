"""How far wires may lie off their ways: on to a part, between two parts at one place, and in a loop at the box."""

from __future__ import annotations

from builder.routes.runs import Runs
from builder.trailer.model import FRONT_BOX, Trailer


def reaches_m(trailer: Trailer, runs: Runs) -> dict[str, float]:
    """Return how far from its place wires of a part may lie outside all chases, in metres, by the part's name.

    A wire between two parts at one place lies in no chase at all: it reaches half of its length from there, the
    rises at both ends included. A loop at the front box hangs half of its length from it. Parts whose wires all end
    at their place are not in it.
    """
    stands = trailer.geometry.stands
    reach_m = {name: stand.rise_m for name, stand in stands.items()}
    if FRONT_BOX in reach_m:
        reach_m[FRONT_BOX] += max((run.loop_m for run in runs.runs.values()), default=0.0) / 2
    for wire in (*trailer.wires, *trailer.spares):
        run = runs.runs.get(wire.number)
        if run is not None and not run.steps:
            for leg in wire.legs:
                for name in (leg.start, leg.end):
                    reach_m[name] = max(reach_m[name], (wire.length_m + run.rise_m) / 2)
    return {name: far_m for name, far_m in reach_m.items() if far_m > 0}
