"""Where steel plates lie over the wires of a chase, and how thick they are."""

from __future__ import annotations

from math import ceil

from builder.quantities.showing import show_inches
from builder.routes.runs import Runs
from builder.tables.installation import INCH_M, least_edge_m, least_plate_m
from builder.trailer.places import Chase, ChaseKind, Geometry

_NOISE = 1e-9


def wants_plates(chase: Chase) -> bool:
    """Tell whether steel plates lie over the holes of a chase, by the file or since they are near an edge."""
    edge_m = chase.fittings.edge_m
    near = edge_m is not None and edge_m < least_edge_m() - _NOISE
    return chase.takes_wires and (near or (chase.is_bored and chase.plate_m is not None))


def plated_along(geometry: Geometry, runs: Runs) -> tuple[Chase, ...]:
    """Return the chases with wires that steel plate lies over from end to end, and not over bored holes alone."""
    lie = {stretch.chase for stretch in runs.inside}
    return tuple(
        chase
        for chase in geometry.chases.values()
        if chase.plate_along_m is not None and chase.kind is not ChaseKind.HINGE
        if chase.takes_wires and chase.name in lie
    )


def guards(plate_m: float | None) -> bool:
    """Tell whether a plate is as thick as one over wires is at least; none guards nothing. Source: `least_plate_m`."""
    return plate_m is not None and plate_m >= least_plate_m() - _NOISE


def plate_size(plate_m: float | None, units: str) -> str:
    """Return how thick plates are: as the file has it in metres, 1/16 in at least (NEC 300.4(A), quoted).

    In sixteenths of an inch or tenths of a millimetre, rounded up: finer than other lengths are printed.
    """
    thick_m = max(plate_m or 0.0, least_plate_m())
    if units != "feet":
        return f"{ceil(thick_m * 10_000 - _NOISE) / 10:g} mm"
    return show_inches(ceil(thick_m / INCH_M * 16 - _NOISE), 16)
