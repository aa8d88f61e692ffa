"""From which side each wire comes to the front box, as places and chases tell it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from builder.electrics.entry_holes import Entries, leaving
from builder.routes.runs import Run, Runs
from builder.trailer.model import FRONT_BOX, Trailer

Side = Literal["above", "below", "left", "right", "ahead", "behind"]
_AXES: tuple[tuple[int, Side, Side], ...] = (
    (2, "below", "above"),
    (1, "left", "right"),
    (0, "ahead", "behind"),
)
"""Which of back, right and up a side is measured by, and its names at its low and at its high end."""
_SHARE = 0.5
"""What a direction needs of the longest one to be told beside it (common practice)."""


@dataclass(frozen=True, slots=True)
class BoxSide:
    """Wires that come to the front box by one chase from one side, and the hole that they take.

    ``sides`` are one or two words, as somebody sees them who stands in the trailer and looks forward. ``hole`` is
    empty where the file has none for them.
    """

    sides: tuple[Side, ...]
    chase: str
    hole: str
    wires: tuple[str, ...]


def box_sides(trailer: Trailer, runs: Runs, entries: Entries) -> tuple[BoxSide, ...]:
    """Return from where the wires come to the front box, by side, chase and hole; nothing of those without a way."""
    holes = {wire: hole.name for hole in entries.holes for wire in hole.wires}
    found: dict[tuple[tuple[Side, ...], str, str], list[str]] = {}
    for wire in leaving(trailer):
        run = runs.runs.get(wire.number)
        for chase, sides in _last_piece(trailer, run) if run is not None else ():
            found.setdefault((sides, chase, holes.get(wire.number, "")), []).append(wire.number)
    return tuple(BoxSide(*key, tuple(wires)) for key, wires in found.items())


def _last_piece(trailer: Trailer, run: Run) -> Iterator[tuple[str, tuple[Side, ...]]]:
    """Yield the chase next to the box and from where it comes; nothing where a run does not come to its place."""
    stand = trailer.geometry.stands.get(FRONT_BOX)
    if stand is not None:
        yield from comes_from(trailer, run, stand.place)


def comes_from(trailer: Trailer, run: Run, place: str) -> Iterator[tuple[str, tuple[Side, ...]]]:
    """Yield the chase by which a run comes to a place and from which side; nothing where it does not end there."""
    if not run.steps:
        return
    first, last = run.steps[0], run.steps[-1]
    if first.start == place:
        yield first.stretch.chase, _sides(trailer, place, first.end)
    elif last.end == place:
        yield last.stretch.chase, _sides(trailer, place, last.start)


def _sides(trailer: Trailer, box: str, other: str) -> tuple[Side, ...]:
    places = trailer.geometry.places
    far_m = [b - a for a, b in zip(places[box].point_m, places[other].point_m, strict=True)]
    longest_m = max(map(abs, far_m))
    told = [
        (-abs(far_m[axis]), high if far_m[axis] > 0 else low)
        for axis, low, high in _AXES
        if abs(far_m[axis]) >= _SHARE * longest_m > 0
    ]
    return tuple(side for _, side in sorted(told, key=lambda one: one[0])[:2])
