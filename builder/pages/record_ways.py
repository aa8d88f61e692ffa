"""The record's ways: the bundles of the drawings with what to keep clear of them, and the walls they run behind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.drawings.plan_seen import Bundle, bundles_of
from builder.electrics.figures import Figures
from builder.pages.json_entries import Json
from builder.pages.record_covers import at_least_m, keep_clear_m
from builder.routes.covers import TAPE
from builder.routes.loose import reaches_m
from builder.routes.near_walls import NearSkin, NearWall
from builder.routes.network import Stretch
from builder.routes.tubes import Tube
from builder.trailer.assumed import assumption
from builder.trailer.model import Trailer
from builder.trailer.places import Geometry

TONGUE, BETWEEN, EVERYWHERE = "tongue", "between", "everywhere"
"""Where a way runs that is behind no wall: ahead of the body, inside between its walls, or in a body nobody drew."""


def way_entries(trailer: Trailer, figures: Figures) -> list[Json]:
    """Return every way by the letter that the drawings give it.

    ``clear_length_m`` is how far to keep from its line on each side: half of its wires side by side, or of a conduit,
    and the tape's tolerance; left out where the diameter of a wire is not known.
    """
    tape_m = assumption(trailer, TAPE).value if trailer.geometry.chases else 0.0
    near: dict[Stretch, list[NearWall]] = {}
    for one in figures.near_walls:
        near.setdefault(one.stretch, []).append(one)
    linings: dict[Stretch, list[NearSkin]] = {}
    for behind in figures.near_skins:
        if not trailer.geometry.skins[behind.skin].outside:
            linings.setdefault(behind.stretch, []).append(behind)
    tubes = {tube.stretch: tube for tube in figures.tubes}
    return [
        _way(trailer.geometry, bundle, (near, tubes, tape_m, trailer.identity.units))
        | _linings(bundle, linings, trailer.identity.units)
        for bundle in bundles_of(trailer, figures)
    ]


def loose_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return the places round which wires lie off their ways under their key; nothing where all wires keep to them.

    ``clear_length_m`` is how far to keep from the place all round: as far as a wire may reach, and the tape's
    tolerance.
    """
    stands, reach_m = trailer.geometry.stands, reaches_m(trailer, figures.runs)
    if not trailer.geometry.chases or not reach_m:
        return {}
    tape_m = assumption(trailer, TAPE).value
    parts: dict[str, list[str]] = {}
    for name in reach_m:
        parts.setdefault(stands[name].place, []).append(name)
    return {
        "loose": [
            {
                "place": place,
                "parts": names,
                "clear_length_m": keep_clear_m(
                    max(reach_m[name] for name in names) + tape_m, trailer.identity.units
                ),
            }
            for place, names in parts.items()
        ]
    }


_Found = tuple[Mapping[Stretch, Sequence[NearWall]], Mapping[Stretch, Tube], float, str]
"""The walls and the tube of each stretch, the tape's tolerance in metres, and the reader's units."""


def _way(geometry: Geometry, bundle: Bundle, found: _Found) -> Json:
    near, tubes, tape_m, units = found
    made: Json = {
        "mark": bundle.mark,
        "chase": bundle.chase,
        "places": list(bundle.places),
        "wires": list(bundle.wires),
        "spares": list(bundle.spares),
        "areas": _areas(geometry, bundle, near, units),
    }
    radii = [tubes[stretch].radius_m for stretch in bundle.stretches if stretch in tubes]
    known = [radius for radius in radii if radius is not None]
    if known and len(known) == len(radii):
        made["clear_length_m"] = keep_clear_m(max(known) + tape_m, units)
    return made


def _linings(bundle: Bundle, near: Mapping[Stretch, Sequence[NearSkin]], units: str) -> Json:
    """Return the inner skins that a way runs behind, with its least depth behind each; nothing where there is none."""
    depths: dict[str, float] = {}
    for stretch in bundle.stretches:
        for one in near.get(stretch, ()):
            depths[one.skin] = min(depths.get(one.skin, one.depth_m), one.depth_m)
    found = [{"skin": name, "depth_length_m": at_least_m(depth_m, units)} for name, depth_m in depths.items()]
    return {"linings": found} if found else {}


def _areas(
    geometry: Geometry, bundle: Bundle, near: Mapping[Stretch, Sequence[NearWall]], units: str
) -> list[Json]:
    if geometry.body is None:
        return [{"area": EVERYWHERE}]
    depths: dict[str, float] = {}
    for stretch in bundle.stretches:
        for one in near.get(stretch, ()):
            depths[one.wall.value] = min(depths.get(one.wall.value, one.depth_m), one.depth_m)
    found: list[Json] = [
        {"area": wall, "depth_length_m": at_least_m(depth_m, units)} for wall, depth_m in depths.items()
    ]
    if any(geometry.places[name].back_m < 0 for name in bundle.places):
        found.append({"area": TONGUE})
    return found or [{"area": BETWEEN}]
