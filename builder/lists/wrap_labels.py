"""Labels that are wrapped round a wire: how long each must be, by how thick the wire is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import pi

from builder.electrics.figures import Figures, every_size
from builder.lists.labels import Label
from builder.routes.fill import wire_diameter_mm
from builder.trailer.model import Trailer
from builder.trailer.size import Size, by_area

LINE_MM = 4.0
"""From line to line on a label, where the wire is thick enough for two: letters 2.5 mm high (ISO 3098, from memory)."""
LEAST_LINES = 2
"""A label says the same all round, so that one side is read without turning the wire: twice at least."""
OVER_MM = 4.0
"""How much further than once round the clear tail goes, so that it holds on itself (common practice)."""


@dataclass(frozen=True, slots=True)
class Wrap:
    """The label of a wire of one thickness, in mm along the way round it.

    ``printed_mm`` holds ``lines`` of the same text, each ``line_mm`` high; ``tail_mm`` is the clear tail behind it.
    """

    diameter_mm: float
    lines: int
    line_mm: float

    @property
    def printed_mm(self) -> float:
        """The printed zone, never more than once round: what is under a second turn cannot be read."""
        return self.lines * self.line_mm

    @property
    def tail_mm(self) -> float:
        """The clear tail: once round, over all that is printed, and a little further."""
        return pi * self.diameter_mm + OVER_MM

    @property
    def whole_mm(self) -> float:
        """The whole label."""
        return self.printed_mm + self.tail_mm


@dataclass(frozen=True, slots=True)
class WrapGroup:
    """The labels of all wires of one size; ``wrap`` is None where nobody knows how thick they are."""

    size: Size
    wrap: Wrap | None
    labels: tuple[Label, ...]


def wrap_of(diameter_mm: float) -> Wrap:
    """Return the label for a wire of an outside diameter in mm. Raises ValueError where that is not above zero.

    Source: arithmetic (once round is π times the diameter); the tail's overlap is common practice.
    """
    if diameter_mm <= 0:
        raise ValueError("a wire has a diameter above zero")
    round_mm = pi * diameter_mm
    line_mm = min(LINE_MM, round_mm / LEAST_LINES)
    # two lines that just go round are two, whatever the arithmetic leaves behind the point
    return Wrap(diameter_mm, max(LEAST_LINES, int(round_mm / line_mm)), line_mm)


def wrap_groups(trailer: Trailer, figures: Figures, labels: Iterable[Label]) -> tuple[WrapGroup, ...]:
    """Return the labels by size of wire, thin ones first, each group in the order in which they are handed out."""
    sizes = every_size(trailer, figures.wires)
    found: dict[Size, list[Label]] = {}
    for label in labels:
        found.setdefault(sizes[label.wire], []).append(label)
    groups = []
    for size in sorted(found, key=by_area):
        diameter_mm = wire_diameter_mm(size, trailer.shelf)
        wrap = wrap_of(diameter_mm) if diameter_mm is not None else None
        groups.append(WrapGroup(size, wrap, tuple(found[size])))
    return tuple(groups)
