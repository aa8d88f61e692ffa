"""The panels that one looks at in a view of the trailer to scale, with how long a screw into each may be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.quantities.showing import System, show_length
from builder.routes.panels import PanelView, printed_screw_m
from builder.routes.vectors import Vector, dot
from builder.trailer.outline import Point
from builder.trailer.places import Geometry, Place
from builder.trailer.views import PLANS, View, seen

FACING = 0.7
"""A panel is drawn where one looks at it no more aslant than that: the cosine of an angle."""
_TOWARDS: dict[View, Vector] = {
    View.LEFT: (0.0, 1.0, 0.0),
    View.RIGHT: (0.0, 1.0, 0.0),
    View.REAR: (1.0, 0.0, 0.0),
    View.FRONT: (1.0, 0.0, 0.0),
}


@dataclass(frozen=True, slots=True)
class PanelSeen:
    """A panel in a view: its corners, and the longest screw for it as a reader's text, empty where none is told."""

    name: str
    ring: tuple[Point, ...]
    screw: str


def panels_seen(
    geometry: Geometry, panels: Sequence[PanelView], view: View, shown: Sequence[Place], units: str
) -> Iterator[PanelSeen]:
    """Yield the panels that face a view and have all their corners among the places ``shown`` in it."""
    there = {place.name for place in shown}
    towards = _TOWARDS.get(view, (0.0, 0.0, 1.0)) if view not in PLANS else (0.0, 0.0, 1.0)
    for one in panels:
        if not one.faces or not there.issuperset(one.panel.corners):
            continue
        if abs(dot(one.faces[0].inwards, towards)) >= FACING:
            ring = tuple(seen(view, geometry.places[name].point_m) for name in one.panel.corners)
            limit_m = 0.0 if one.screw_m is None else printed_screw_m(one.screw_m, units)
            system: System = "metric" if units == "metric" else "feet"
            yield PanelSeen(one.panel.name, ring, show_length(limit_m, system) if limit_m > 0 else "")


def only_corners(geometry: Geometry) -> frozenset[str]:
    """Return the places that are corners of skins and panels or ends of a hinge, and nothing else."""
    corners = {name for skin in geometry.skins.values() for name in skin.corners}
    corners |= {name for panel in geometry.panels.values() for name in panel.corners}
    corners |= {name for chase in geometry.chases.values() for name in chase.hinge}
    used = {name for chase in geometry.chases.values() for name in chase.through}
    return frozenset(corners - used - {stand.place for stand in geometry.stands.values()})
