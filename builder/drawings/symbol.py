"""What a symbol is: its shapes and its measures around the axis on which the conductor comes in."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Symbol:
    """One symbol, drawn around an axis at x = 0 from y = 0 down to ``height``; measures in CSS pixels.

    ``left`` and ``right`` are how far it reaches from the axis. ``tops`` and ``bottoms`` are the x of its
    terminals on its upper edge (y = 0) and its lower edge (y = ``height``), in the order of the pins asked for.
    """

    shapes: str
    left: float
    right: float
    height: float
    tops: tuple[float, ...] = (0.0,)
    bottoms: tuple[float, ...] = (0.0,)


PITCH = 26.0
"""From one terminal of a box to the next, in CSS pixels."""


def spread(count: int) -> tuple[float, ...]:
    """Return where ``count`` terminals in a row stand, the first on the axis."""
    return tuple(place * PITCH for place in range(count))
