"""What was done otherwise than planned: the trailer holds what is built, and beside it the plan."""

from __future__ import annotations

from dataclasses import dataclass

from builder.trailer.origin import Origin


@dataclass(frozen=True, slots=True)
class Change:
    """One change: of a wire by its number, of a circuit, a part or road lamps by their name.

    ``kind`` is wire, circuit, part or lamp, and ``lamps`` names the road lamps; ``words`` are the words of the file
    that were changed (length, size, color, through, fuse, draws), none where only a note stands; ``circuits`` are the
    numbers of the circuits that it belongs to.
    """

    about: str
    kind: str
    words: tuple[str, ...]
    circuits: tuple[int, ...]
    origin: Origin
    date: str = ""
    note: str = ""
    lamps: tuple[str, ...] = ()
