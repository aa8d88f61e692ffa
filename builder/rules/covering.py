"""What the rules about skins and panels share: plates, and measures as a sentence says them."""

from __future__ import annotations

from math import ceil, floor

from builder.electrics.figures import Figures
from builder.lists.plates import guards, plate_size
from builder.quantities.showing import show_inches, show_measure
from builder.routes.skins import Clearance
from builder.rules.wording import say
from builder.tables.installation import INCH_M
from builder.trailer.model import Trailer
from builder.trailer.places import ChaseKind

_NOISE = 1e-9
WITHOUT_HOLES = ", without holes and from the edge: with these it lies over the holes alone"
"""What is added where a plate is to be written under a chase with bored holes."""
SHORTEST_M = 0.006
"""A fastener that goes in less holds nothing: it is no way out (common practice)."""


def plated(trailer: Trailer, one: Clearance) -> bool:
    """Tell whether steel plates lie between a stretch and its skins that are as thick as NEC 300.4(A) asks (quoted).

    Plates over bored holes alone leave the wires bare between the frames, and none lies over a hinge loop: it moves.
    """
    return not is_loop(trailer, one) and guards(trailer.geometry.chases[one.tube.stretch.chase].plate_along_m)


def is_loop(trailer: Trailer, one: Clearance) -> bool:
    """Tell whether a stretch is a hinge loop, whose wires hang and move: no plate covers it, no screw goes there."""
    return trailer.geometry.chases[one.tube.stretch.chase].kind is ChaseKind.HINGE


def plate_written(trailer: Trailer) -> str:
    """Return how thick a steel plate is at least, as this trailer's maker writes it: never below the limit."""
    return plate_size(None, trailer.identity.units)


def without_holes(trailer: Trailer, *chases: str) -> str:
    """Return what a plate under some chases must do without, so that it lies over all of them; empty for most."""
    return say(WITHOUT_HOLES) if any(trailer.geometry.chases[name].is_bored for name in chases) else ""


def measure(metres: float, trailer: Trailer) -> str:
    """Return a small measure in metres as the trailer's pages say it."""
    return show_measure(metres, "feet" if trailer.identity.units == "feet" else "metric")


def screw_down(metres: float, trailer: Trailer) -> str:
    """Return a fastener's length rounded down to an eighth of an inch or a millimetre; empty where none is left."""
    step_m = 0.003175 if trailer.identity.units == "feet" else 0.001
    down_m = floor(metres / step_m + _NOISE) * step_m
    return measure(down_m, trailer) if down_m >= SHORTEST_M else ""


def longest(trailer: Trailer, figures: Figures, skin: str) -> str:
    """Return how far the fasteners of a skin may go in with all wires behind it out of their reach.

    Rounded down; empty where no fastener is as short, where the diameter of a wire is not known, and for a bent skin
    that is fastened from inside: between its corners it lies nearer to the wires than they tell. Every stretch
    behind the skin counts that no plate covers: the nearest wires are not always those that a finding is about. Of a
    hinge loop its line counts alone: fasteners are kept from where it hangs, whatever their length.
    """
    inside = not trailer.geometry.skins[skin].outside
    if inside and any(one.bent for one in figures.clearances.found if one.skin == skin):
        return ""
    limits_m = [
        None if wide_m is None else one.depth_m - wide_m - one.unsure_m
        for one in figures.clearances.found
        for wide_m in [one.tube.core_m if is_loop(trailer, one) else one.tube.radius_m]
        if one.skin == skin and not plated(trailer, one)
    ]
    known_m = [limit_m for limit_m in limits_m if limit_m is not None]
    return screw_down(min(known_m), trailer) if known_m and len(known_m) == len(limits_m) else ""


def bore_up(bore_mm: float, trailer: Trailer) -> str:
    """Return a bore in mm rounded up to a sixteenth of an inch or to a millimetre, as the trailer's pages say it."""
    if trailer.identity.units != "feet":
        return f"{ceil(bore_mm - 1e-6)} mm"
    return show_inches(ceil(bore_mm / (INCH_M * 1000) * 16 - 1e-6), 16)


def small_down(metres: float, trailer: Trailer) -> str:
    """Return a measure below its limit, rounded down, so that the limit itself is never printed for it."""
    if trailer.identity.units != "feet":
        return f"{floor(metres * 1000 + 1e-6)} mm"
    return show_inches(floor(metres / INCH_M * 16 + 1e-6), 16)


def of_clearance(trailer: Trailer, one: Clearance) -> dict[str, str]:
    """Return the names that a sentence about a skin and a stretch needs."""
    stretch = one.tube.stretch
    through = trailer.geometry.chases[stretch.chase].through
    return {
        "skin": one.skin,
        "chase": stretch.chase,
        "plate": plate_written(trailer),
        "without": without_holes(trailer, stretch.chase),
        "start": through[stretch.number],
        "end": through[stretch.number + 1],
    }
