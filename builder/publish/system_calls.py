"""The few calls to the system that publishing needs and Python does not have for every system."""

from __future__ import annotations

import ctypes
import errno
import os
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from types import FrameType

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
_NOT_HERE = (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP)
_TO_END = ("SIGINT", "SIGTERM", "SIGHUP")


def exchange_names(one: Path, other: Path) -> bool:
    """Let two folders exchange their names in one step.

    Arguments: ``one``, ``other``, existing folders on one disk. Returns whether the system can do it; if
    not, nothing has changed. Raises ``OSError``. Source: renameat2(2), flag RENAME_EXCHANGE (from memory).
    """
    if sys.platform != "linux":
        return False
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if rename is None:
        return False
    if rename(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE) == 0:
        return True
    number = ctypes.get_errno()
    if number in _NOT_HERE:
        return False
    raise OSError(number, os.strerror(number), str(other))


def lock_now(handle: int) -> bool:
    """Take the lock on an open file for as long as this process lives, without waiting.

    Arguments: ``handle``, a file descriptor open for writing. Returns whether it was free. Source: common
    practice.
    """
    try:
        if sys.platform == "win32":
            import msvcrt  # noqa: PLC0415 - exists on one system only

            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl  # noqa: PLC0415 - exists on the other systems only

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except PermissionError:
        if sys.platform != "win32":
            raise  # only that system says so of a lock that another process holds
        return False
    return True


@contextmanager
def without_interruption() -> Iterator[None]:
    """Hold back the signals that end a program; those that come while the block runs arrive behind it.

    They are noted by handlers, for a mask would hold for one thread alone and another would let them through. Does
    nothing outside the first thread, where no signal arrives. Source: common practice.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    noted: dict[int, None] = {}

    def note(number: int, _frame: FrameType | None) -> None:
        noted[number] = None

    def pass_on() -> None:
        for number in noted:
            signal.raise_signal(number)

    with ExitStack() as at_end:  # what is put back is put back even if one of them is asked for just then
        at_end.callback(pass_on)
        for number in (getattr(signal, name) for name in _TO_END if hasattr(signal, name)):
            handler = signal.getsignal(number)
            if handler not in (None, signal.SIG_IGN):
                at_end.callback(signal.signal, number, handler)
                signal.signal(number, note)
        yield


def write_through(path: Path) -> None:
    """Have a file, or a folder's list of names, written through to the disk, if that disk can be asked to.

    Returns nothing. Raises ``OSError``. Source: fsync(2), common practice.
    """
    if sys.platform == "win32" and path.is_dir():
        return  # that system writes names through by itself and opens no folder
    handle = os.open(path, os.O_RDWR if sys.platform == "win32" else os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in _NOT_HERE:
            raise
    finally:
        os.close(handle)
