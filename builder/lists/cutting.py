"""Which pieces are cut from which spool in stock, so that as little as can be is bought."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import accumulate
from typing import NamedTuple

MOST_STATES = 3000
"""Ways to have cut the pieces so far that are kept; with fewer than that the answer is the best there is."""
MOST_STEPS = 200_000
"""How often a piece is put on a spool in all these ways: with many pieces and spools fewer ways are kept."""
_PER_M = 10_000
"""Lengths are compared in tenths of a millimetre: pieces rounded up, spools down."""

Placed = list[int | None]
"""For each piece the place of its spool, None where it comes from none of them."""


class _Way(NamedTuple):
    """One way to have cut the pieces so far; ways are sorted as tuples, the best first.

    ``cut`` is what comes from stock, negative, ``begun`` how many spools are, ``used`` what is cut from each of them,
    negative. No two of them have the same ``used``. ``spool`` is that of the last piece, ``before`` the way before it.
    """

    cut: int
    begun: int
    used: tuple[int, ...]
    spool: int | None = None
    before: _Way | None = None


def cut_from(spools_m: Sequence[float], cuts_m: Sequence[float]) -> Placed:
    """Return for each piece the place of the spool that it is cut from, None where it comes from what is bought.

    Lengths are in metres. As much as can be is cut from what is there, from as few spools as that takes. No spool
    gives more than it has. Where all pieces plainly fit, that is the answer. Else they are laid out one after the
    other, the longest first, and the ways to do so that have used most of the stock are kept: all of them in small
    cases, so that these are exact. Beyond that it is a heuristic, beside which each spool is filled by itself as well
    as it can be. The same lengths always give the same answer.

    >>> cut_from([10.0], [6.0, 5.0, 5.0])
    [None, 0, 0]
    """
    rooms = [math.floor(spool * _PER_M + 1e-3) for spool in spools_m]
    sizes = [math.ceil(cut * _PER_M - 1e-3) for cut in cuts_m]
    largest = sorted(range(len(rooms)), key=lambda spool: -rooms[spool])
    fitting = [place for place, size in enumerate(sizes) if rooms and size <= rooms[largest[0]]]
    wanted = [sizes[place] for place in fitting]
    found: Placed = [None] * len(sizes)
    for place, spool in zip(fitting, _best(rooms, largest, wanted), strict=True):
        found[place] = spool
    return found


def _best(rooms: Sequence[int], largest: Sequence[int], sizes: Sequence[int]) -> Placed:
    """Return the best that is found for pieces each of which fits on one spool at least."""
    total = sum(sizes)
    whole = next((spool for spool, room in enumerate(rooms) if room >= total), None)
    if whole is not None or not sizes:
        return [whole] * len(sizes)
    found: Placed = [None] * len(sizes)
    for count, room in enumerate(accumulate(rooms[spool] for spool in largest), start=1):
        if room < total and count < len(rooms):
            continue
        mine = sorted(largest[:count])
        some = [rooms[spool] for spool in mine]
        tried = _plainly(some, sizes) or _most(some, sizes)
        found = [None if at is None else mine[at] for at in tried]
        if None not in found:
            break
    return found


def _longest_first(sizes: Sequence[int]) -> list[int]:
    return sorted(range(len(sizes)), key=lambda place: -sizes[place])


def _plainly(rooms: Sequence[int], sizes: Sequence[int]) -> Placed:
    """Return where all pieces go, the longest first and each where least is left; nothing where one goes nowhere."""
    if sum(sizes) > sum(rooms):
        return []
    left = list(rooms)
    found: Placed = [None] * len(sizes)
    for place in _longest_first(sizes):
        free = [spool for spool, room in enumerate(left) if room >= sizes[place]]
        if not free:
            return []
        spool = min(free, key=lambda one: left[one])
        left[spool] -= sizes[place]
        found[place] = spool
    return found


def _most(rooms: Sequence[int], sizes: Sequence[int]) -> Placed:
    """Return the way that cuts most from what is there: of those that are kept, or spool by spool."""
    by_room = sorted(range(len(rooms)), key=lambda spool: rooms[spool])
    kept, all_of_them = _kept(rooms, sizes)
    tried = (
        [kept] if all_of_them else [kept, *(_filled(rooms, sizes, one) for one in (by_room, by_room[::-1]))]
    )
    return min(tried, key=lambda placed: _rank(sizes, placed))


def _rank(sizes: Sequence[int], placed: Placed) -> tuple[int, int]:
    """Return what ways are compared by, the best first: most cut from stock, fewest spools begun."""
    used = sum(size for size, spool in zip(sizes, placed, strict=True) if spool is not None)
    return -used, len(set(placed) - {None})


def _kept(rooms: Sequence[int], sizes: Sequence[int]) -> tuple[Placed, bool]:
    """Return the best of the ways that are kept, and whether these were all there are."""
    order = _longest_first(sizes)
    most = max(1, min(MOST_STATES, MOST_STEPS // (len(sizes) * len(rooms))))
    ways = [_Way(0, 0, (0,) * len(rooms))]
    all_of_them = True
    for place in order:
        ways = _next(ways, rooms, sizes[place])
        all_of_them = all_of_them and len(ways) <= most
        del ways[most:]
    found: Placed = [None] * len(sizes)
    way: _Way | None = ways[0]
    for place in reversed(order):
        if way is not None:
            found[place], way = way.spool, way.before
    return found, all_of_them


def _next(ways: Sequence[_Way], rooms: Sequence[int], size: int) -> list[_Way]:
    """Return the ways to have cut one piece more, the best first; of equal spools with as much used, one is tried."""
    found: dict[tuple[int, ...], _Way] = {}
    for way in ways:
        cut, begun, used, _, _ = way
        found.setdefault(used, _Way(cut, begun, used, None, way))
        tried = set()
        for spool, room in enumerate(rooms):
            before = used[spool]
            if size - before > room or (room, before) in tried:
                continue
            tried.add((room, before))
            now = (*used[:spool], before - size, *used[spool + 1 :])
            if now not in found:
                found[now] = _Way(cut - size, begun + (before == 0), now, spool, way)
    return sorted(found.values())


def _filled(rooms: Sequence[int], sizes: Sequence[int], order: Sequence[int]) -> Placed:
    """Return the pieces spool by spool: each filled as far as it can be with what is left, by its longest pieces."""
    found: Placed = [None] * len(sizes)
    left = _longest_first(sizes)[::-1]
    for spool in order:
        for place in _fullest(rooms[spool], [(place, sizes[place]) for place in left]):
            found[place] = spool
        left = [place for place in left if found[place] is None]
    return found


def _fullest(room: int, pieces: Sequence[tuple[int, int]]) -> list[int]:
    """Return which pieces, given as place and size, leave least of a spool; of equal sums that with the last pieces.

    Bit n of a number tells that some of the pieces so far add up to n (dynamic programming over sums).
    """
    mask = (1 << (room + 1)) - 1
    sums = [1]
    for _, size in pieces:
        sums.append((sums[-1] | sums[-1] << size) & mask)
    found: list[int] = []
    used = sums[-1].bit_length() - 1
    for n in range(len(pieces), 0, -1):
        place, size = pieces[n - 1]
        if size <= used and sums[n - 1] >> (used - size) & 1:
            found.append(place)
            used -= size
    return found
