"""Which pieces are cut from which spool in stock, so that as little as can be is bought."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

MOST_STATES = 3000
"""Ways to have cut the pieces so far that are kept; with fewer than that the answer is the best there is."""
_PER_M = 10_000
"""Lengths are compared in tenths of a millimetre: pieces rounded up, spools down."""


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to have cut the pieces so far: how much of each spool is used, and the spool of the last piece."""

    used: tuple[int, ...]
    spool: int | None = None
    before: _Way | None = None

    @property
    def rank(self) -> tuple[int, int, tuple[int, ...]]:
        """What ways are sorted by, the best first: most cut from stock, fewest spools begun, first spools first."""
        return -sum(self.used), sum(part > 0 for part in self.used), tuple(-part for part in self.used)


def cut_from(spools_m: Sequence[float], cuts_m: Sequence[float]) -> list[int | None]:
    """Return for each piece the place of the spool that it is cut from, None where it comes from what is bought.

    Lengths are in metres. As much as can be is cut from what is there, from as few spools as that takes. No spool
    gives more than it has. Pieces are laid out one after the other, the longest first, and the ways to do so that
    have used most of the stock are kept: all of them where there are at most `MOST_STATES`, so that small cases are
    exact; beyond that it is a heuristic. The same lengths always give the same answer.

    >>> cut_from([10.0], [6.0, 5.0, 5.0])
    [None, 0, 0]
    """
    rooms = [math.floor(spool * _PER_M + 1e-3) for spool in spools_m]
    sizes = [math.ceil(cut * _PER_M - 1e-3) for cut in cuts_m]
    order = sorted(range(len(sizes)), key=lambda place: -sizes[place])
    ways = [_Way(tuple(0 for _ in rooms))]
    for place in order:
        ways = _next(ways, rooms, sizes[place])
    found: list[int | None] = [None] * len(sizes)
    way: _Way | None = ways[0]
    for place in reversed(order):
        if way is None:
            break
        found[place], way = way.spool, way.before
    return found


def _next(ways: list[_Way], rooms: Sequence[int], size: int) -> list[_Way]:
    """Return the best ways to have cut one piece more, the best first."""
    found: dict[tuple[int, ...], _Way] = {}
    for way in ways:
        found.setdefault(way.used, _Way(way.used, None, way))
        for spool, room in enumerate(rooms):
            if way.used[spool] + size <= room:
                used = (*way.used[:spool], way.used[spool] + size, *way.used[spool + 1 :])
                found.setdefault(used, _Way(used, spool, way))
    return sorted(found.values(), key=lambda way: way.rank)[:MOST_STATES]
