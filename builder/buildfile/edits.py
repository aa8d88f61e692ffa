"""One change of a build file's text, and what a file becomes by it: everything else stays byte for byte."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from builder.buildfile.reading_characters import encoding_of

_LINE_END = re.compile(r"\r\n|\r|\n")


@dataclass(frozen=True, order=True, slots=True)
class Edit:
    r"""Writes ``text`` in place of what stands between two places.

    Attributes:
        line: where it begins; lines and columns count from 1.
        column: the first character that is replaced.
        end_line: where it ends.
        end_column: the first character that stays.
        text: what is written; ``\n`` stands for the file's own line end.
        what: what the edit does, in a few words.
        sure: whether it is a matter of spelling alone, so that it may be written without asking.

    """

    line: int
    column: int
    end_line: int
    end_column: int
    text: str
    what: str
    sure: bool = False


def can_be_edited(data: bytes) -> bool:
    """Tell whether everything beside an edit can be kept: stray bytes of UTF-8 can, half a sign of UTF-16 cannot."""
    mark, codec, keep = _encoding(data)
    try:
        data[len(mark) :].decode(codec, keep)
    except UnicodeDecodeError:
        return False
    return True


def _encoding(data: bytes) -> tuple[bytes, str, str]:
    """Return the byte-order mark of a file, its codec, and how that keeps what it cannot read."""
    mark, codec, _ = encoding_of(data)
    return mark, codec, "surrogateescape" if codec == "utf-8" else "surrogatepass"


def apply_edits(data: bytes, edits: Sequence[Edit]) -> bytes:
    """Return the bytes of a file with edits made, in its own encoding and with its own line ends.

    Raises ValueError when two edits overlap, or where the file cannot be edited (`can_be_edited`).
    """
    mark, codec, keep = _encoding(data)
    text = data[len(mark) :].decode(codec, keep)
    hits = list(_LINE_END.finditer(text))
    starts = [0, *(hit.end() for hit in hits)]
    ends = [*(hit.start() for hit in hits), len(text)]
    newline = hits[0].group() if hits else "\n"

    def offset(line: int, column: int) -> int:
        index = min(line, len(starts)) - 1
        return min(starts[index] + column - 1, ends[index]) if line <= len(starts) else len(text)

    pieces: list[str] = []
    done = 0
    for edit in sorted(edits):
        start, end = offset(edit.line, edit.column), offset(edit.end_line, edit.end_column)
        if start < done or end < start:
            raise ValueError("two edits touch the same text")
        pieces += [text[done:start], edit.text.replace("\n", newline)]
        done = end
    pieces.append(text[done:])
    return mark + "".join(pieces).encode(codec, keep)
