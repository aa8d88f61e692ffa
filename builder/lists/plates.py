"""Where steel plates lie over the wires of a chase, and how thick they are."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from builder.tables.installation import framing_distance
from builder.trailer.places import Chase

_INCH_M = 0.0254
_NOISE = 1e-9


def wants_plates(chase: Chase) -> bool:
    """Tell whether steel plates lie over the holes of a chase, by the file or since they are near an edge."""
    edge_m = chase.fittings.edge_m
    near = edge_m is not None and edge_m < least_edge_m() - _NOISE
    return chase.takes_wires and (near or (has_holes(chase) and chase.plate_m is not None))


def has_holes(chase: Chase) -> bool:
    """Tell whether the file says of a chase that holes are bored for it."""
    return chase.fittings.hole_m is not None or chase.fittings.edge_m is not None


def least_edge_m() -> float:
    """Return what wood is left between a bored hole and an edge, in metres. Source: NEC 300.4(A), quoted."""
    return framing_distance("bored hole edge distance", "wood", "in").value * _INCH_M


def plate_size(chase: Chase, units: str) -> str:
    """Return how thick the plates of a chase are: as written, 1/16 in at least (NEC 300.4(A), quoted).

    In sixteenths of an inch or tenths of a millimetre, rounded up: finer than other lengths are printed.
    """
    least_m = framing_distance("steel plate thickness", "wood", "in").value * _INCH_M
    thick_m = max(chase.plate_m or 0.0, least_m)
    if units != "feet":
        return f"{ceil(thick_m * 10_000 - _NOISE) / 10:g} mm"
    whole, part = divmod(Fraction(ceil(thick_m / _INCH_M * 16 - _NOISE), 16), 1)
    return f"{whole} {part} in" if whole and part else f"{part or whole} in"
