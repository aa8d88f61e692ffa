"""What went wrong while publishing, in words for the maker."""

from __future__ import annotations

import errno
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

_NO_ROOM = "There is no room left on the disk that holds {folder}. Free some, then try again."
_NO_RIGHT = (
    "{parent} may not be written to. Choose another folder, or give yourself the right to write there."
)
_OTHER_DISK = (
    "{folder} begins a disk of its own, so it cannot be exchanged in one step. "
    "Name a folder inside it, such as {folder}/manual."
)
_IS_A_FILE = "A part of {folder} is a file, not a folder. Choose another folder."
_SENTENCES = {
    errno.ENOSPC: _NO_ROOM,
    errno.EDQUOT: _NO_ROOM,
    errno.EACCES: _NO_RIGHT,
    errno.EPERM: _NO_RIGHT,
    errno.EROFS: "{parent} is on a disk that can only be read. Choose a folder on another disk.",
    errno.EXDEV: _OTHER_DISK,
    errno.EBUSY: _OTHER_DISK,
    errno.ENAMETOOLONG: "The name {folder} is too long for this disk. Choose a shorter one.",
    errno.ENOTDIR: _IS_A_FILE,
    errno.EEXIST: _IS_A_FILE,
    errno.ELOOP: "{folder} goes round in a circle of links. Choose another folder.",
}
_ELSE = "{folder} could not be written ({reason})."
_UNTOUCHED = " What was there before is untouched."
_IN_PLACE = " {folder} holds the new one all the same."


class PublishError(Exception):
    """Publishing stopped; the text is one plain sentence or a few, fit to print as it is."""


def sentence_for(error: OSError, folder: Path) -> str:
    """Say in plain words what a failed file operation means for a folder that was to be written.

    Arguments: ``error``, what the system raised; ``folder``, the folder that the user named.
    Returns one or two sentences: what is wrong and a way out, and that nothing was lost. Source: common
    practice.
    """
    pattern = _SENTENCES.get(error.errno or 0, _ELSE)
    reason = error.strerror or type(error).__name__
    return pattern.format(folder=folder, parent=folder.parent, reason=reason) + _UNTOUCHED


def note_for_stop(folder: Path, in_place: bool) -> str:
    """Say what an interruption left: the end of a sentence that begins with “Stopped.”.

    Arguments: ``folder``, the folder that the user named; ``in_place``, whether the new one was in place by
    then. Returns the text. Source: common practice.
    """
    return _IN_PLACE.format(folder=folder) if in_place else _UNTOUCHED


@contextmanager
def plain_words(folder: Path) -> Iterator[None]:
    """Turn every ``OSError`` raised inside into a ``PublishError`` about ``folder``.

    Raises ``PublishError``. Source: common practice.
    """
    try:
        yield
    except OSError as error:
        raise PublishError(sentence_for(error, folder)) from error
