"""Put a whole new folder in the place of an old one, so that a reader sees the old or the new, never both.

Everything happens in one hidden working folder beside the target: ``new`` is filled and written through to
the disk, then exchanged with the target in one call where the system has one. Elsewhere two renames do it,
and a journal lets the next command undo what a crash cut short. A lock that dies with its process keeps two
publishers apart. A folder without our marker is never touched. Signals wait while the folders change places
and while the working folder is removed.
"""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from itertools import takewhile
from pathlib import Path

from builder.publish.errors import PublishError, note_for_stop, plain_words, sentence_for
from builder.publish.system_calls import exchange_names, lock_now, without_interruption, write_through

MARKER = ".wiring-manual"
_KINDS = {"site": "a published manual", "source": "a manual source"}
_WARNING = "The next one replaces this whole folder: keep nothing of yours in it."
_NEW, _OLD, _JOURNAL, _LOCK = "new", "old", "journal", "lock"
_TRIES = 100


def replace_folder(folder: Path, kind: str, fill: Callable[[Path], None], keep: Path | None = None) -> None:
    """Fill a new folder and put it in the place of ``folder``, all or nothing.

    Arguments: ``folder``, the target, which may be missing, empty or one that we made before; ``kind``,
    ``site`` or ``source``; ``fill`` writes the files into the empty folder it is given; ``keep``, a file
    that must not lie inside the target, such as the build file.
    Returns nothing. Raises ``PublishError`` in plain words; the folder is then as it was. A
    ``KeyboardInterrupt`` goes through, with a note of what it left. Source: common practice (write beside,
    write through, rename).
    """
    in_place = False
    try:
        with plain_words(folder):
            target = _resolved(folder)
            refuse_unfit(target, kind, keep)
            with parents_made(target), _working_folder(target) as work:
                refuse_unfit(target, kind, keep)
                new = work / _NEW
                new.mkdir()
                fill(new)
                (new / MARKER).write_bytes(_marker_text(kind))
                write_through_tree(new)
                refuse_unfit(target, kind, keep)  # somebody may have put a folder there meanwhile
                with without_interruption():
                    _put_in_place(new, target, work)
                    in_place = True
    except KeyboardInterrupt as stop:
        stop.add_note(note_for_stop(folder, in_place))
        raise


def heal(folder: Path) -> None:
    """Finish or undo what an earlier publish of ``folder`` left half done, if no other process is at it.

    Arguments: ``folder``, the target of the earlier publish. Returns nothing. Raises ``PublishError`` when
    the disk refuses. Source: common practice.
    """
    with plain_words(folder):
        target = _resolved(folder)
        work = _beside(target)
        if not work.is_dir():
            return
        handle = _take_lock(work)
        if isinstance(handle, int):
            _finish(target, work, handle)


@contextmanager
def parents_made(target: Path) -> Iterator[None]:
    """Make the folders above a file or folder that are missing; they go again where the block fails.

    Arguments: ``target``, a path. Returns nothing. Raises ``OSError``. Source: common practice.
    """
    made = list(takewhile(lambda place: not place.exists(), target.parents))
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        yield
    except BaseException:
        for place in made:
            with suppress(OSError):
                place.rmdir()
        raise
    for place in made:
        with suppress(OSError):  # see _put_in_place
            write_through(place.parent)


def refuse_unfit(target: Path, kind: str, keep: Path | None = None) -> None:
    """Raise ``PublishError`` when a folder must not be replaced by one of this kind.

    Arguments: ``target``, an absolute path; ``kind``, ``site`` or ``source``; ``keep``, a file that must
    not lie inside it. Returns nothing. Source: common practice.
    """
    if target.parent == target or (keep is not None and keep.resolve().is_relative_to(target)):
        raise PublishError(
            f"{target} holds the build file itself or the whole disk, and all in the folder is replaced. "
            f"Name a folder of its own, such as {target / 'manual'}."
        )
    if not target.exists():
        return
    if not target.is_dir():
        raise PublishError(f"{target} is a file. Name a folder.")
    if target.is_mount():
        raise PublishError(sentence_for(OSError(errno.EXDEV, ""), target))
    if not any(target.iterdir()):
        return
    marker = target / MARKER
    if not marker.is_file():
        raise PublishError(
            f"{target} holds files that wiring-manual did not make, so nothing in it is touched. "
            "Name a new folder or an empty one."
        )
    if marker.read_bytes() != _marker_text(kind):
        raise PublishError(
            f"{target} was made by wiring-manual, but not as {_KINDS[kind]}, so nothing in it is touched. "
            "Name another folder."
        )


def write_through_tree(folder: Path) -> None:
    """Have every file and folder below ``folder`` written through to the disk, in one pass.

    Returns nothing. Raises ``OSError``. Source: common practice.
    """
    for place, _, names in os.walk(folder, topdown=False):
        for name in names:
            write_through(Path(place, name))
        write_through(Path(place))


def _marker_text(kind: str) -> bytes:
    return f"wiring-manual: {_KINDS[kind]}\n{_WARNING}\n".encode()


def _beside(target: Path) -> Path:
    return target.with_name(f".{target.name}{MARKER}")


def _resolved(folder: Path) -> Path:
    try:
        return folder.resolve()
    except RuntimeError as error:  # what Python says of links that go round in a circle
        raise OSError(errno.ELOOP, str(error)) from error


@contextmanager
def _working_folder(target: Path) -> Iterator[Path]:
    work = _beside(target)
    handle: int | str = ""
    try:
        with without_interruption():  # or the lock could be taken and not known of
            handle = _take_lock(work)
        if isinstance(handle, str):
            raise PublishError(
                f"Another wiring-manual ({handle}) is writing {target} just now. "
                "Wait until it is done, then try again."
            )
        _recover(target, work)
        _clear(work, strictly=True)
        yield work
    finally:
        if isinstance(handle, int):
            _finish(target, work, handle)


def _take_lock(work: Path) -> int | str:
    """Lock the working folder: the open lock file, or the words that name the process which holds it."""
    for _ in range(_TRIES):
        ours = _made(work)
        handle = -1
        try:
            handle = os.open(work / _LOCK, os.O_RDWR | os.O_CREAT, 0o644)
            if not lock_now(handle):
                return _holder(work / _LOCK)
            if _is_still(handle, work / _LOCK):
                ours = True
                os.ftruncate(handle, 0)
                os.write(handle, f"process {os.getpid()}".encode())
                taken, handle = handle, -1
                return taken
        except FileNotFoundError:
            continue  # the process before us removed the folder between the two lines above
        except OSError:
            if ours:
                _drop(work)
            raise
        finally:
            if handle >= 0:
                os.close(handle)
    return "of another user"


def _made(folder: Path) -> bool:
    """Make a folder unless it is there; whether it was made."""
    try:
        folder.mkdir()
    except FileExistsError:
        return False
    return True


def _drop(work: Path) -> None:
    """Remove a working folder in which there is nothing but the lock, if that can be done."""
    with suppress(OSError):
        (work / _LOCK).unlink(missing_ok=True)
        work.rmdir()


def _holder(lock: Path) -> str:
    try:
        return lock.read_text(encoding="utf-8") or "just started"
    except OSError:
        return "just ended or of another user"


def _is_still(handle: int, path: Path) -> bool:
    """Whether the open file still bears its name: the process before us may have removed it."""
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except FileNotFoundError:
        return False


def _put_in_place(new: Path, target: Path, work: Path) -> None:
    if not target.exists():
        new.rename(target)
    elif not exchange_names(new, target):
        _two_renames(new, target, work)
    with suppress(OSError):  # the new folder is in place: a late refusal must not be told as "untouched"
        write_through(target.parent)


def _two_renames(new: Path, target: Path, work: Path) -> None:
    journal = work / _JOURNAL
    journal.write_bytes(b"new is whole; old is the folder it replaces\n")
    write_through(journal)
    write_through(work)
    target.rename(work / _OLD)
    new.rename(target)


def _recover(target: Path, work: Path) -> None:
    """Bring the old folder back when the two renames were cut short; nobody was told of the new one."""
    journal = work / _JOURNAL
    if not journal.exists():
        return
    if not target.exists():
        whole = work / _OLD if (work / _OLD).exists() else work / _NEW
        whole.rename(target)
        write_through(target.parent)
    journal.unlink()


def _clear(work: Path, strictly: bool) -> None:
    for entry in work.iterdir():
        if entry.is_dir():
            shutil.rmtree(entry, ignore_errors=not strictly)
        elif entry.name != _LOCK:
            entry.unlink()


def _finish(target: Path, work: Path, handle: int) -> None:
    """Remove the working folder, unless it holds the only good copy: then the next command heals."""
    with without_interruption():
        try:
            _recover(target, work)
            _clear(work, strictly=False)
            (work / _LOCK).unlink()
            work.rmdir()
        except OSError:
            pass  # left for the next command, which begins with the same steps
        finally:
            os.close(handle)
