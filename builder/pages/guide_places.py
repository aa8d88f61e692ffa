"""Which page each guide stands on: what everything hangs on by itself, what is shared by itself, the rest by circuit.

A page holds so many guides as a reader can look through; a circuit with many parts takes several pages, each with the
list of all of them at its top.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.guide.model import Guide, Symptom

INDEX = "stops"
"""The first page: every symptom, and where to go on."""
ALL = "stops-all"
"""All is dead, or dim."""
TOGETHER = "stops-together"
"""Several things are dead: what they share, and the guides that no single circuit owns."""
WRONG = "stops-wrong"
"""The wrong road lamp lights."""

WHOLE = ("dead-all", "dim-all")
MOST_GUIDES = 36
"""So many guides at most stand on one page."""


def guide_places(
    guides: Sequence[Guide], circuit_pages: Mapping[int, str]
) -> Mapping[str, tuple[Guide, ...]]:
    """Return the guides of each page by its path without an ending, pages and guides in reading order.

    ``circuit_pages`` are the paths of the circuits' own pages by their numbers. The page of what is shared is there
    wherever things can be dead together, with or without guides of its own.
    """
    groups: dict[str, list[Guide]] = {}
    if any(guide.symptom is Symptom.DEAD and len(guide.things) > 1 for guide in guides):
        groups[TOGETHER] = []
    for guide in guides:
        groups.setdefault(_group(guide, circuit_pages), []).append(guide)
    found: dict[str, tuple[Guide, ...]] = {}
    for path in sorted(groups, key=_rank):
        mine = _in_order(groups[path])
        for place in range(0, max(1, len(mine)), MOST_GUIDES):
            number = place // MOST_GUIDES + 1
            found[path if number == 1 else f"{path}-{number}"] = tuple(mine[place : place + MOST_GUIDES])
    return found


def pages_of_group(places: Mapping[str, tuple[Guide, ...]], circuit: int) -> tuple[str, ...]:
    """Return the pages of a circuit's guides, in order; none where it has no guide."""
    return tuple(path for path, mine in places.items() if mine and mine[0].circuit == circuit)


def _group(guide: Guide, circuit_pages: Mapping[int, str]) -> str:
    if guide.circuit is not None:
        return f"{INDEX}-{circuit_pages[guide.circuit].removeprefix('circuit-')}"
    if guide.symptom is Symptom.WRONG:
        return WRONG
    return ALL if guide.id in WHOLE else TOGETHER


def _rank(path: str) -> tuple[int, str]:
    shared = (ALL, TOGETHER, WRONG)
    return (shared.index(path), "") if path in shared else (len(shared), path)


def _in_order(guides: Sequence[Guide]) -> list[Guide]:
    """Sort guides by symptom, those for most things first."""
    order = list(Symptom)
    return sorted(guides, key=lambda guide: (order.index(guide.symptom), -len(guide.things)))
