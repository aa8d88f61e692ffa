"""Tell when a file has new content: by asking, which works on every disk and with every way of saving.

A file is asked for its times, size and identity; only when those differ is it read, and only another content
counts as a change. So a file that is saved unchanged, touched, or replaced by its equal tells nothing.
"""

from __future__ import annotations

import hashlib
import os
import stat
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

GONE, UNREADABLE = "gone", "unreadable"
_COARSEST_CLOCK_NS = 3_000_000_000  # some disks note times to two seconds only


@dataclass(frozen=True, slots=True)
class Look:
    """What was seen of a file: its marks by the system, and its content's digest, ``gone`` or ``unreadable``."""

    marks: tuple[int, ...]
    content: str


def look_at(path: Path, before: Look | None, now_ns: int) -> Look:
    """Look at a file; it is read only where it may differ from what was seen before.

    A file that was written within the last seconds is read all the same: on a coarse clock it may have been
    written twice in one tick.

    Arguments: ``path``; ``before``, the last look at it or None; ``now_ns``, the time in nanoseconds since
    the epoch. Returns what is seen; never raises for what the system refuses. Source: common practice.
    """
    try:
        seen = path.stat()
        marks = (seen.st_mtime_ns, seen.st_ctime_ns, seen.st_size, seen.st_ino, seen.st_dev)
        if not stat.S_ISREG(seen.st_mode):
            return Look(marks, UNREADABLE)
        settled = abs(now_ns - seen.st_mtime_ns) > _COARSEST_CLOCK_NS
        if before is not None and before.marks == marks and before.content != UNREADABLE and settled:
            return before
        with path.open("rb") as file:
            return Look(marks, hashlib.file_digest(file, "sha256").hexdigest())
    except (FileNotFoundError, NotADirectoryError):
        return Look((), GONE)
    except (OSError, ValueError):
        return Look((), UNREADABLE)


class Watch:
    """Watches files and tells a change once, when it has come to rest.

    An editor may empty a file before it writes it, or move it away before the new one comes: so a change is
    told when two looks in a row see the same.
    """

    def __init__(self, paths: Iterable[Path], clock: Callable[[], int] = time.time_ns) -> None:
        self._clock = clock
        self._last = {path: self._look(path, None) for path in paths}
        self._told = self._contents()

    def follow(self, paths: Iterable[Path]) -> None:
        """Watch these files from now on, and no others; a file that is new here counts as it is now."""
        self._last = {path: self._last.get(path) or self._look(path, None) for path in paths}
        self._told = {path: self._told.get(path, look.content) for path, look in self._last.items()}

    def changed(self) -> bool:
        """Look at every file; tell whether there is a change at rest that was not told before."""
        before = self._contents()
        self._last = {path: self._look(path, look) for path, look in self._last.items()}
        now = self._contents()
        if now != before or now == self._told:
            return False
        self._told = now
        return True

    def _look(self, path: Path, before: Look | None) -> Look:
        return look_at(path, before, self._clock())

    def _contents(self) -> dict[Path, str]:
        return {path: look.content for path, look in self._last.items()}


def in_folder(folder: Path, names: Iterable[str]) -> tuple[Path, ...]:
    """Return the files of a folder by their relative names, each once, in the order given.

    Arguments: ``folder``; ``names`` with forward slashes. Returns paths. Source: own work.
    """
    return tuple(dict.fromkeys(Path(os.path.normpath(folder / name)) for name in names))
