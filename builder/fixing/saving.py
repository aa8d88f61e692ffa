"""Put a changed file in the place of the old one, so that whoever opens it finds the old or the new, never a part."""

from __future__ import annotations

import os
import stat
import tempfile
from contextlib import suppress
from pathlib import Path


class SaveError(Exception):
    """The file could not be written, in a plain sentence; it is as it was."""


def replace_file(path: Path, before: bytes, after: bytes) -> None:
    """Write a file's new bytes beside it, through to the disk, and rename them into its place.

    Args:
        path: the file; a link is followed, and stays a link.
        before: what was read of it: when something else stands there by now, nothing is written.
        after: what is written.

    Raises:
        SaveError: it could not be written. Source of the way: common practice (write beside, write through, rename).

    """
    try:
        target = path.resolve()
        if not os.access(target, os.W_OK):
            raise SaveError(f"{path} may not be written. Give yourself the right to write it.")
        _refuse_changed(path, target, before)
        _replace(path, target, before, after)
    except OSError as error:
        raise SaveError(
            f"{path} could not be written ({error.strerror or error}); it is as it was."
        ) from error


def _replace(path: Path, target: Path, before: bytes, after: bytes) -> None:
    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(after)
            file.flush()
            os.fsync(file.fileno())
        Path(name).chmod(stat.S_IMODE(target.stat().st_mode))
        _refuse_changed(path, target, before)
        Path(name).replace(target)
    except BaseException:
        with suppress(OSError):
            Path(name).unlink()
        raise
    _write_through(target.parent)


def _refuse_changed(path: Path, target: Path, before: bytes) -> None:
    if target.read_bytes() != before:
        raise SaveError(f"{path} was changed by somebody else meanwhile; nothing was written. Start again.")


def _write_through(folder: Path) -> None:
    """Bring the new name to the disk, where the system can do that for a folder."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
