"""Where leads come out of a part in an opening: the middle of one side, and the way to it round the opening."""

from __future__ import annotations

import re
from itertools import pairwise, permutations
from math import dist

from builder.trailer.body import ENDS, FLATS, Opening
from builder.trailer.places import Place

LEFT, RIGHT, FRONT, REAR, TOP, BOTTOM = "left", "right", "front", "rear", "top", "bottom"
_SAID = {
    "left": LEFT, "right": RIGHT, "front": FRONT, "rear": REAR, "back": REAR, "top": TOP, "upper": TOP,
    "bottom": BOTTOM, "lower": BOTTOM,
}  # fmt: skip
_HAIR_M = 1e-9

Spot = tuple[float, float]


def said_sides(text: str) -> tuple[str, ...]:
    """Return the sides that a text names, each once: *left side* is left, *front left* is two."""
    words = re.findall(r"[a-z]+", text.casefold())
    return tuple(dict.fromkeys(_SAID[word] for word in words if word in _SAID))


def sides_of(opening: Opening) -> tuple[str, ...]:
    """Return the four sides that an opening has in its wall: at its low ends first, along and then across."""
    if opening.wall in FLATS:
        return FRONT, REAR, LEFT, RIGHT
    if opening.wall in ENDS:
        return LEFT, RIGHT, BOTTOM, TOP
    return FRONT, REAR, BOTTOM, TOP


def spot_of(opening: Opening, side: str) -> Spot:
    """Return the middle of one side of an opening, in metres along and across its wall.

    Raises ValueError for a side that it does not have.
    """
    low, high = _corners(opening)
    middle = (low[0] + high[0]) / 2, (low[1] + high[1]) / 2
    spots = (low[0], middle[1]), (high[0], middle[1]), (middle[0], low[1]), (middle[0], high[1])
    return spots[sides_of(opening).index(side)]


def lead_way_m(opening: Opening, side: str, place: Place) -> float:
    """Return the shortest way in metres from a place to the middle of a side, along the wall.

    A wire goes round the opening and not through the hole in it; from a place that was measured inside the opening it
    goes straight. How far the place lies from the wall is left out: the rise tells of that.
    """
    start, goal = _on_the_wall(opening, place), spot_of(opening, side)
    low, high = _corners(opening)
    if _is_inside(start, low, high):
        return dist(start, goal)
    corners = (low, (high[0], low[1]), high, (low[0], high[1]))
    ways = [(start, *between, goal) for count in range(4) for between in permutations(corners, count)]
    return min(
        sum(dist(a, b) for a, b in pairwise(way))
        for way in ways
        if not any(_crosses(a, b, low, high) for a, b in pairwise(way))
    )


def _corners(opening: Opening) -> tuple[Spot, Spot]:
    low = opening.along_m, opening.across_m
    return low, (low[0] + opening.wide_m, low[1] + opening.high_m)


def _on_the_wall(opening: Opening, place: Place) -> Spot:
    if opening.wall in FLATS:
        return place.back_m, place.right_m
    if opening.wall in ENDS:
        return place.right_m, place.up_m
    return place.back_m, place.up_m


def _is_inside(spot: Spot, low: Spot, high: Spot) -> bool:
    return all(a + _HAIR_M < x < b - _HAIR_M for x, a, b in zip(spot, low, high, strict=True))


def _crosses(start: Spot, end: Spot, low: Spot, high: Spot) -> bool:
    """Tell whether a straight line runs through the inside of a rectangle: whether any of it is between all sides."""
    enters, leaves = 0.0, 1.0
    for a, b, least, most in zip(start, end, low, high, strict=True):
        if abs(b - a) < _HAIR_M:
            if not least + _HAIR_M < a < most - _HAIR_M:
                return False
            continue
        first, last = sorted(((least - a) / (b - a), (most - a) / (b - a)))
        enters, leaves = max(enters, first), min(leaves, last)
    return leaves - enters > _HAIR_M
