"""Where in the build file a thing was written."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, order=True, slots=True)
class Origin:
    """A place in the build file.

    ``line`` and ``column`` count from 1; ``length`` is the number of characters of the very word, at
    least 1, so that a message can put its mark under it.
    """

    line: int
    column: int
    length: int = 1


NOWHERE = Origin(1, 1, 1)
"""The origin of what stands for a whole file."""
