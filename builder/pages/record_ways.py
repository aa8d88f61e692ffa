"""The record's ways: the bundles of the drawings with what to keep clear of them, and the walls they run behind."""

from __future__ import annotations

from builder.drawings.plan_seen import Bundle, bundles_of
from builder.electrics.figures import Figures
from builder.routes.covers import TAPE
from builder.trailer.assumed import assumption
from builder.trailer.model import Trailer
from builder.trailer.places import Geometry

Json = dict[str, object]
TONGUE, BETWEEN, EVERYWHERE = "tongue", "between", "everywhere"
"""Where a way runs that is behind no wall: ahead of the body, inside between its walls, or in a body nobody drew."""


def way_entries(trailer: Trailer, figures: Figures) -> list[Json]:
    """Return every way by the letter that the drawings give it.

    ``clear_length_m`` is how far to keep from its line on each side: half of its wires side by side, or of a conduit,
    and the tape's tolerance; left out where the diameter of a wire is not known.
    """
    tape_m = assumption(trailer, TAPE).value if trailer.geometry.chases else 0.0
    return [_way(trailer.geometry, figures, bundle, tape_m) for bundle in bundles_of(trailer, figures)]


def _way(geometry: Geometry, figures: Figures, bundle: Bundle, tape_m: float) -> Json:
    stretches = set(bundle.stretches)
    made: Json = {
        "mark": bundle.mark,
        "chase": bundle.chase,
        "places": list(bundle.places),
        "wires": list(bundle.wires),
        "spares": list(bundle.spares),
        "areas": _areas(geometry, figures, bundle),
    }
    radii = [tube.radius_m for tube in figures.tubes if tube.stretch in stretches]
    known = [radius for radius in radii if radius is not None]
    if known and len(known) == len(radii):
        made["clear_length_m"] = max(known) + tape_m
    return made


def _areas(geometry: Geometry, figures: Figures, bundle: Bundle) -> list[Json]:
    if geometry.body is None:
        return [{"area": EVERYWHERE}]
    depths: dict[str, float] = {}
    for one in figures.near_walls:
        if one.stretch in bundle.stretches:
            depths[one.wall.value] = min(depths.get(one.wall.value, one.depth_m), one.depth_m)
    found: list[Json] = [{"area": wall, "depth_length_m": depth_m} for wall, depth_m in depths.items()]
    if any(geometry.places[name].back_m < 0 for name in bundle.places):
        found.append({"area": TONGUE})
    return found or [{"area": BETWEEN}]
