"""Round wires in a round bore: one arrangement in which none overlaps, as if they had sunk to its bottom."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import hypot, sqrt

Point = tuple[float, float]
_TOUCH = 1e-6
"""By how much two circles that touch may overlap in the arithmetic, as a share of the bore."""


@dataclass(frozen=True, slots=True)
class Round:
    """One circle: the place of its wire in the list, its middle from the middle of the bore (down counts), its radius.

    All in the unit of the diameters that were given.
    """

    wire: int
    x: float
    y: float
    radius: float


@dataclass(frozen=True, slots=True)
class Packed:
    """What lies in the bore, and the places in the list of what found no room there in this arrangement."""

    inside: tuple[Round, ...]
    left: tuple[int, ...]


def packed(diameters: Sequence[float], bore: float) -> Packed:
    """Return round wires laid into a bore, the thickest first, each at the lowest place that is free.

    ``diameters`` and ``bore`` are in one unit and above zero. A wire that finds no room is left out, which does not
    mean that no arrangement has room for it. Source: a bottom-first placing, common practice.
    """
    half = bore / 2
    slack = bore * _TOUCH
    placed: list[Round] = []
    left: list[int] = []
    for wire in sorted(range(len(diameters)), key=lambda n: (-diameters[n], n)):
        radius = diameters[wire] / 2
        free = [
            (x, y)
            for x, y in _places(placed, half, radius)
            if hypot(x, y) + radius <= half + slack
            and all(hypot(x - one.x, y - one.y) >= radius + one.radius - slack for one in placed)
        ]
        if free:
            x, y = max(free, key=lambda at: (round(at[1] / bore, 9), -round(abs(at[0]) / bore, 9), at[0]))
            placed.append(Round(wire, x, y, radius))
        else:
            left.append(wire)
    return Packed(tuple(sorted(placed, key=lambda one: one.wire)), tuple(sorted(left)))


def _places(placed: Sequence[Round], half: float, radius: float) -> Iterator[Point]:
    """Yield where a circle may lie: at the bottom, against the bore and a circle, or against two circles."""
    if radius <= half:
        yield 0.0, half - radius
    for one in placed:
        yield from _meetings((0.0, 0.0, half - radius), (one.x, one.y, one.radius + radius))
    for one, other in combinations(placed, 2):
        if hypot(one.x - other.x, one.y - other.y) <= one.radius + other.radius + 2 * radius:
            yield from _meetings(
                (one.x, one.y, one.radius + radius), (other.x, other.y, other.radius + radius)
            )


def _meetings(one: tuple[float, float, float], other: tuple[float, float, float]) -> Iterator[Point]:
    """Yield the points in which two circles (middle and radius) meet."""
    (ax, ay, a), (bx, by, b) = one, other
    apart = hypot(bx - ax, by - ay)
    if apart == 0 or apart > a + b or apart < abs(a - b):
        return
    along = (a * a - b * b + apart * apart) / (2 * apart)
    high = sqrt(max(a * a - along * along, 0.0))
    ux, uy = (bx - ax) / apart, (by - ay) / apart
    for side in (1, -1):
        yield ax + along * ux - side * high * uy, ay + along * uy + side * high * ux
