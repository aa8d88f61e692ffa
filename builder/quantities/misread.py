"""What is wrong with a text, and how one reading ends.

Takes a text and a parser of it. Gives what the parser read, or a :class:`Misread` whose help names only
spellings that the same parser reads.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

Read = TypeVar("Read")
LONGEST_ECHO = 40


@dataclass(frozen=True, slots=True)
class Misread:
    """A text that could not be read.

    ``start`` and ``length`` mark the words that are wrong: characters from the text's beginning, counted
    from 0, and at least one of them (an empty text is marked as 0, 1). ``message`` says what is wrong,
    ``help`` what to write, ``fixes`` what the whole text may be instead.
    """

    start: int
    length: int
    message: str
    help: str
    fixes: tuple[str, ...] = ()


class CannotReadError(Exception):
    """Ends one reading at the words that are wrong; caught by :func:`settle`, so it never leaves the room.

    ``fixes`` are spellings that may be meant; those that cannot be read themselves are dropped.
    """

    def __init__(
        self, span: tuple[int, int], message: str, fixes: tuple[str, ...] = (), note: str = ""
    ) -> None:
        super().__init__(message)
        self.span = span
        self.message = message
        self.fixes = fixes
        self.note = note


def settle(text: str, parse: Callable[[str], Read], otherwise: str) -> Read | Misread:
    """Read ``text`` with ``parse``, or say what is wrong.

    ``otherwise`` is the help where no spelling that may be meant can be named.
    """
    try:
        return parse(text)
    except CannotReadError as stop:
        start, end = stop.span
        fixes = [fix for fix in dict.fromkeys(stop.fixes) if _reads(fix, parse)]
        advice = "write " + " or ".join(fixes) if fixes else otherwise
        return Misread(start, max(1, end - start), stop.message, advice + stop.note, tuple(fixes))


def _reads(text: str, parse: Callable[[str], Read]) -> bool:
    try:
        parse(text)
    except CannotReadError:
        return False
    return True


def echo(words: str) -> str:
    """Shorten words of the text for a message: one line, at most 40 characters."""
    line = " ".join(words.split())
    return line if len(line) <= LONGEST_ECHO else line[: LONGEST_ECHO - 1] + "…"


def swapped(text: str, span: tuple[int, int], new: str) -> str:
    """Replace the words at ``span``: a spelling that may be meant.

    >>> swapped("2,5 mm²", (0, 3), "2.5")
    '2.5 mm²'
    """
    return " ".join((text[: span[0]] + new + text[span[1] :]).split())
