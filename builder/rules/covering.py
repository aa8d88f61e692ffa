"""What the rules about skins and panels share: plates, and measures as a sentence says them."""

from __future__ import annotations

from math import ceil, floor

from builder.electrics.figures import Figures
from builder.quantities.showing import show_measure
from builder.routes.skins import Clearance
from builder.tables.installation import framing_distance
from builder.trailer.model import Trailer

_NOISE = 1e-9
SHORTEST_M = 0.006
"""A fastener that goes in less holds nothing: it is no way out (common practice)."""


def plated(trailer: Trailer, one: Clearance) -> bool:
    """Tell whether steel plates lie between a chase and its skins that are as thick as NEC 300.4(A) asks (quoted)."""
    plate_m = trailer.geometry.chases[one.tube.stretch.chase].plate_m
    return plate_m is not None and plate_m * 1000 >= plate_mm() - _NOISE * 1000


def plate_mm() -> float:
    """Return how thick a steel plate is at least, in mm: 1/16 in. Source: NEC 300.4(A), quoted."""
    return framing_distance("steel plate thickness", "wood", "in").value * 25.4


def plate_written(trailer: Trailer) -> str:
    """Return how thick a steel plate is at least, as this trailer's maker writes it: never below `plate_mm`."""
    return "1/16 in" if trailer.identity.units == "feet" else f"{ceil(plate_mm() * 10 - _NOISE) / 10:g} mm"


def face_m() -> float:
    """Return how far from the face wires lie in wood at least, in metres: 1 1/4 in. Source: NEC 300.4(A), quoted."""
    return framing_distance("bored hole edge distance", "wood", "in").value * 0.0254


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
    behind the skin counts that no plate covers: the nearest wires are not always those that a finding is about.
    """
    inside = not trailer.geometry.skins[skin].outside
    if inside and any(one.bent for one in figures.clearances.found if one.skin == skin):
        return ""
    limits_m = [
        None if one.tube.radius_m is None else one.depth_m - one.tube.radius_m - one.unsure_m
        for one in figures.clearances.found
        if one.skin == skin and not plated(trailer, one)
    ]
    known_m = [limit_m for limit_m in limits_m if limit_m is not None]
    return screw_down(min(known_m), trailer) if known_m and len(known_m) == len(limits_m) else ""


def bore_up(bore_mm: float, trailer: Trailer) -> str:
    """Return a bore in mm rounded up to a sixteenth of an inch or to a millimetre, as the trailer's pages say it."""
    if trailer.identity.units != "feet":
        return f"{ceil(bore_mm - 1e-6)} mm"
    return _sixteenths(ceil(bore_mm / 25.4 * 16 - 1e-6))


def small_down(metres: float, trailer: Trailer) -> str:
    """Return a measure below its limit, rounded down, so that the limit itself is never printed for it."""
    if trailer.identity.units != "feet":
        return f"{floor(metres * 1000 + 1e-6)} mm"
    return _sixteenths(floor(metres / 0.0254 * 16 + 1e-6))


def _sixteenths(count: int) -> str:
    whole, rest = divmod(count, 16)
    if not rest:
        return f"{whole} in"
    below = 16
    while rest % 2 == 0:
        rest, below = rest // 2, below // 2
    return f"{whole} {rest}/{below} in" if whole else f"{rest}/{below} in"


def of_clearance(trailer: Trailer, one: Clearance) -> dict[str, str]:
    """Return the names that a sentence about a skin and a stretch needs."""
    stretch = one.tube.stretch
    through = trailer.geometry.chases[stretch.chase].through
    return {
        "skin": one.skin,
        "chase": stretch.chase,
        "plate": plate_written(trailer),
        "start": through[stretch.number],
        "end": through[stretch.number + 1],
    }
