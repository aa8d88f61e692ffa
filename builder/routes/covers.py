"""All that is told of skins, panels and hinges, worked out in one go."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.routes.bays_held import BayHeld, bays_held
from builder.routes.hinges import HingeLoop, hinge_loops
from builder.routes.near_walls import NearSkin, NearWall, near_skins, near_walls
from builder.routes.panels import PanelView, panel_views
from builder.routes.runs import Runs
from builder.routes.skins import Clearances, clearances
from builder.routes.tubes import Tube, tubes_of
from builder.trailer.assumed import assumption
from builder.trailer.model import Trailer
from builder.trailer.size import Size

TAPE = "error of a tape measure"
"""The general assumption of how far a measured distance may be off."""


@dataclass(frozen=True, slots=True)
class Covers:
    """What is left under the skins, what lies behind the panels, and the hinge loops.

    ``tubes`` has what may hold a wire in each stretch, ``walls`` and ``skins`` which stretches run behind the
    walls of the body and behind skins with corners,
    ``bays`` what lies in each bay.
    """

    clearances: Clearances
    panels: tuple[PanelView, ...]
    hinges: tuple[HingeLoop, ...]
    tubes: tuple[Tube, ...]
    walls: tuple[NearWall, ...]
    skins: tuple[NearSkin, ...]
    bays: tuple[BayHeld, ...]


def covers(trailer: Trailer, runs: Runs, sizes: Mapping[str, Size]) -> Covers:
    """Return what a trailer's places tell of its skins, panels and hinges; ``sizes`` are of all wires by number."""
    geometry = trailer.geometry
    measured_mm = trailer.shelf.diameters_mm
    tape_m = assumption(trailer, TAPE).value
    tubes = tubes_of(geometry, runs, sizes, measured_mm)
    left, behind = clearances(geometry, tubes, tape_m), near_skins(geometry, tape_m)
    return Covers(
        left,
        panel_views(trailer, runs, tubes, tape_m),
        hinge_loops(geometry, runs, sizes, measured_mm),
        tubes,
        near_walls(geometry, tape_m),
        behind,
        bays_held(trailer, runs, (left, behind), tape_m),
    )
