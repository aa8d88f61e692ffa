"""Where a publish can be struck: each of its file calls in the folder around the target, by zone, kind and number."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from kernel_watch import FileCall

from builder.publish.exchange import MARKER

Zone = Literal["outside", "staging", "removal"]

TO_WRITE = "open to write"
CHANGING = {
    TO_WRITE, "write", "sendfile", "mkdir", "unlink", "rmdir", "rename", "exchange", "fsync", "ftruncate", "flock",
}  # fmt: skip
LOOKING = {"open", "read", "stat", "access", "getdents64", "readlink"}
IN_PLACE = {"exchange", "rename"}
_FEW = 12


@dataclass(frozen=True, slots=True)
class Point:
    """One call of a publish: outside the staging folder, in it, or in the removal that follows the exchange."""

    zone: Zone
    kind: str
    number: int

    @property
    def changes(self) -> bool:
        """Whether the call changes what is on the disk, or takes the lock."""
        return self.kind in CHANGING

    def __str__(self) -> str:
        """In words, for a report."""
        return f"{self.kind} no. {self.number} ({self.zone})"


class Counted:
    """Gives the calls of one publish their points, as they come."""

    def __init__(self, around: Path, target: str) -> None:
        """``around`` is the folder in which all happens, ``target`` the name of the published folder in it."""
        self._around = str(around)
        self._target = f"{around}/{target}"
        self._staging = tuple(f"{around}/.{target}{MARKER}/{name}" for name in ("new", "docs"))
        self._numbers: Counter[tuple[Zone, str]] = Counter()
        self._in_place = False

    def point(self, call: FileCall) -> Point | None:
        """The point of a call; None where it names only places that have nothing to do with the folder."""
        within = [place for place in call.places if f"{place}/".startswith(f"{self._around}/")]
        if call.places and not within:
            return None
        kind = TO_WRITE if call.to_write else call.name
        zone = self._zone(kind, call.places)
        if kind in IN_PLACE and self._target in call.places:
            self._in_place = True
        self._numbers[zone, kind] += 1
        return Point(zone, kind, self._numbers[zone, kind])

    def _zone(self, kind: str, places: tuple[str, ...]) -> Zone:
        if self._in_place:
            return "removal"
        staged = any(place.startswith(self._staging) for place in places)
        return "staging" if staged and kind not in IN_PLACE else "outside"


def unknown(points: Iterable[Point]) -> set[str]:
    """The kinds of call for which nothing here says whether they change anything."""
    return {point.kind for point in points} - CHANGING - LOOKING


def few(points: list[Point]) -> list[Point]:
    """The first, the last and ten between, or all where there are no more."""
    last = len(points) - 1
    steps = {round(step * last / (_FEW - 1)) for step in range(_FEW)} if points else set()
    return [points[step] for step in sorted(steps)]


def few_of_each(points: Iterable[Point]) -> list[Point]:
    """A few of each kind."""
    by_kind: defaultdict[str, list[Point]] = defaultdict(list)
    for point in points:
        by_kind[point.kind].append(point)
    return [point for all_of_it in by_kind.values() for point in few(all_of_it)]


def not_written_through(calls: Iterable[FileCall], around: Path, target: str) -> set[str]:
    """What a power cut could still take when it was relied upon: places changed and not yet written through.

    Before the folders change places all of the new one must be on the disk; before the old one is removed the
    exchange must be. Source: fsync(2), common practice.
    """
    new = f"{around}/.{target}{MARKER}/new"
    changed: set[str] = set()
    lost: set[str] = set()
    in_place = False
    for call in calls:
        name, place = (TO_WRITE if call.to_write else call.name), call.places[0]
        folder = place.rpartition("/")[0]
        if name == "fsync":
            changed.discard(place)
        elif name in IN_PLACE and f"{around}/{target}" in call.places:
            lost |= {each for each in changed if each == new or each.startswith(f"{new}/")}
            in_place, changed = True, {str(around)}
        elif in_place:
            lost |= changed if name in {"unlink", "rmdir"} else set()
        elif name in {"write", "sendfile", "ftruncate"}:
            changed.add(place)
        elif name in {TO_WRITE, "mkdir", "unlink", "rmdir", "rename"}:
            changed |= {place, folder} if name in {TO_WRITE, "mkdir"} else {folder}
            changed -= {place} if name in {"unlink", "rmdir"} else set()
    return lost
