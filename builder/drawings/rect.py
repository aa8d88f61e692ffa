"""Rectangles on a drawing, and the room that is left between them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle by its upper left corner and its size, in CSS pixels."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Where its right edge is."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """Where its lower edge is."""
        return self.y + self.height

    def meets(self, other: Rect) -> bool:
        """Tell whether it covers any of another one."""
        return (
            self.x < other.right and other.x < self.right and self.y < other.bottom and other.y < self.bottom
        )

    def holds(self, other: Rect) -> bool:
        """Tell whether another one lies inside it."""
        return (
            self.x <= other.x
            and other.right <= self.right
            and self.y <= other.y
            and other.bottom <= self.bottom
        )

    def inset(self, by: float) -> Rect:
        """Return it smaller by so much on each side."""
        return Rect(self.x + by, self.y + by, self.width - 2 * by, self.height - 2 * by)


@dataclass(slots=True)
class Room:
    """What is taken already on a drawing."""

    taken: list[Rect] = field(default_factory=list)

    def take(self, wanted: Iterable[Rect], within: Rect) -> bool:
        """Take some rectangles, where all of them lie within another one and are free; tell whether they were."""
        rects = list(wanted)
        if not all(within.holds(r) and not any(r.meets(t) for t in self.taken) for r in rects):
            return False
        self.taken += rects
        return True
