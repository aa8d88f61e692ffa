"""A strip with every coordinate set: what the painter needs and no more."""

from __future__ import annotations

from dataclasses import dataclass

from builder.drawings.graph import Leg
from builder.drawings.measure import Box, Flag

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class PlacedNode:
    """A node: its axis, the y of the middle of its symbol, and where its text begins, in CSS pixels."""

    box: Box
    x: float
    middle: float
    text_x: float

    @property
    def top(self) -> float:
        """The y of the symbol's upper edge."""
        return self.middle - self.box.symbol.height / 2

    @property
    def bottom(self) -> float:
        """The y of the symbol's lower edge."""
        return self.middle + self.box.symbol.height / 2


@dataclass(frozen=True, slots=True)
class PlacedTag:
    """A tag: the axis of its wire and the y of its middle."""

    flag: Flag
    x: float
    middle: float


@dataclass(frozen=True, slots=True)
class Route:
    """The way of a leg, corner by corner; only level and upright pieces."""

    leg: Leg
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    """One strip: nodes, tags, routes, thick bars and thin leads as pairs of points, joints as points."""

    nodes: tuple[PlacedNode, ...]
    tags: dict[str, PlacedTag]
    routes: tuple[Route, ...]
    bars: tuple[tuple[Point, Point], ...]
    leads: tuple[tuple[Point, Point], ...]
    joints: tuple[Point, ...]
    crossings: tuple[tuple[str, Point, bool], ...]
    groups: tuple[tuple[str, ...], ...]
    width: float
    height: float
