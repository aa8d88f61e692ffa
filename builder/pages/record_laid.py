"""The record's entries of how wires are laid: bends, supports, holes, and what keeps apart from mains."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.electrics.figures import Figures, every_size
from builder.pages.json_entries import Json
from builder.pages.record_blocks import point_entry
from builder.routes.apart import BesideMains, least_gap
from builder.routes.bends import Bends, Turn
from builder.routes.cut_to_fit import ConduitPiece, Groove, Loop
from builder.routes.fill import least_hole_m, up_to_a_mark
from builder.routes.framing import FramePassed
from builder.routes.passings import Passing
from builder.routes.supports import Supports
from builder.tables.installation import INCH_M, least_edge_m
from builder.trailer.fittings import Carries, Fittings
from builder.trailer.model import Trailer
from builder.trailer.places import ChaseKind
from builder.trailer.size import Size


def laid_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return how the wires are laid under the record's keys; nothing where the file has no chases."""
    laid = figures.laid
    if not trailer.geometry.chases:
        return {}
    sizes = every_size(trailer, figures.wires)
    frames, pieces = _frames(trailer, sizes, laid.frames), _pieces(trailer, laid.pieces)
    grooves = {one.chase: {"groove": _groove(trailer, one)} for one in laid.grooves}
    supports = {one.chase.name: {"supports": _supports(one, laid.loops)} for one in laid.supports}
    return {
        "laid": [
            _bends(trailer, bends)
            | supports.get(bends.chase.name, {})
            | frames.get(bends.chase.name, {})
            | grooves.get(bends.chase.name, {})
            | pieces.get(bends.chase.name, {})
            for bends in laid.bends
        ],
        "turns": [_turn(trailer, turn) for turn in laid.turns],
        "holes": [_hole(trailer, sizes, hole) for hole in laid.passings],
        "beside_mains": [_beside(one) for one in laid.beside_mains],
        "laid_limits": {
            "edge_length_m": least_edge_m(),
            "mains_gap_length_m": least_gap().value * INCH_M,
        },
    }


def _least(trailer: Trailer, sizes: Mapping[str, Size], wires: Iterable[str]) -> Json:
    """Return the least bore of a hole for some wires, as often as they pass it; nothing where one has no diameter."""
    bore_m = least_hole_m([sizes[wire] for wire in wires], trailer.shelf, trailer.identity.units)
    return {} if bore_m is None else {"least_hole_length_m": bore_m}


def _bends(trailer: Trailer, bends: Bends) -> Json:
    made: Json = {
        "name": bends.chase.name,
        "turned_deg": round(bends.turned_deg),
        **_fittings(bends.chase.fittings),
    }
    if bends.chase.kind is ChaseKind.CONDUIT:
        made |= {"open_deg": round(bends.open_deg), "bent_deg": round(bends.bent_deg)}
    if bends.least_m is not None:
        least_m = up_to_a_mark(bends.least_m, trailer.identity.units)
        made |= {"least_bend_length_m": least_m, "least_bend_source": bends.limit.source}
    return made


def _frames(
    trailer: Trailer, sizes: Mapping[str, Size], passed: Iterable[FramePassed]
) -> dict[str, dict[str, list[Json]]]:
    """Return the frames that each chase passes, by its name."""
    found: dict[str, dict[str, list[Json]]] = {}
    for one in passed:
        at = {"back_length_m": one.back_m} if one.up_m is None else {"up_length_m": one.up_m}
        entry: Json = {"frame": one.frame, **at, "at": point_entry(one.point_m), "wires": list(one.wires)}
        entry |= {"also_from": list(one.also)} if one.also else {}
        entry |= _twice(tuple(dict.fromkeys(one.twice)))
        entry |= _least(trailer, sizes, (*one.wires, *one.twice))
        found.setdefault(one.chase, {"frames": []})["frames"].append(entry)
    return found


def _pieces(trailer: Trailer, pieces: Iterable[ConduitPiece]) -> dict[str, dict[str, list[Json]]]:
    """Return the pieces of each conduit, by its name."""
    found: dict[str, dict[str, list[Json]]] = {}
    for one in pieces:
        found.setdefault(one.chase, {"pieces": []})["pieces"].append(_piece(trailer, one))
    return found


def _groove(trailer: Trailer, one: Groove) -> Json:
    """Return how wide and deep a groove is where it is widest, and a plate over all of it, rounded up as printed."""
    made: Json = {"from": one.start, "to": one.end}
    if one.wide_m is None or one.deep_m is None:
        return made | {"without_diameter": [str(size) for size in one.unsized]}
    if trailer.geometry.chases[one.chase].plate_along_m is not None:
        made["plate_wide_length_m"] = up_to_a_mark(one.plate_m or 0.0, trailer.identity.units)
    return made | {
        "wide_length_m": up_to_a_mark(one.wide_m, trailer.identity.units),
        "deep_length_m": up_to_a_mark(one.deep_m, trailer.identity.units),
    }


def _piece(trailer: Trailer, one: ConduitPiece) -> Json:
    places = trailer.geometry.places
    return {
        "from": one.start,
        "to": one.end,
        "piece_length_m": one.length_m,
        "ends": [point_entry(places[name].point_m) for name in (one.start, one.end)],
    }


def _twice(wires: tuple[str, ...]) -> Json:
    """Return the wires that pass twice, there and back; nothing where there are none."""
    return {"wires_twice": list(wires)} if wires else {}


def _fittings(told: Fittings) -> Json:
    made = {
        "bend_radius_length_m": told.bend_radius_m,
        "hole_length_m": told.hole_m,
        "from_the_edge_length_m": told.edge_m,
        "sheet_at": list(told.sheet_at) or None,
        "grommets": told.grommets,
        "sealed": told.sealed,
        "strain_relief": told.strain_relief,
        "drip_loop": told.drip_loop,
        "carries": told.carries.value if told.carries is not Carries.WIRES else None,
        "divided": told.divided,
        "near_heat": told.near_heat or None,
        "pull_string": told.pull_string or None,
    }
    return {key: value for key, value in made.items() if value is not None}


def _supports(one: Supports, loops: Iterable[Loop]) -> Json:
    mine = [loop for loop in loops if loop.chase == one.chase.name]
    return {
        "loops": [
            {"from": loop.start, "to": loop.end, "count": loop.count, "flat": loop.flat}
            | ({} if loop.wide_m is None else {f"{'across' if loop.flat else 'loop'}_length_m": loop.wide_m})
            for loop in mine
        ],
        "spacing_length_m": one.spacing_m,
        "given": one.given,
        "count": one.count,
        "between": [{"stretch": number, "count": count} for number, count in one.between.items()],
        "limit_length_m": one.limit_m,
        "limit_source": one.limit.source,
    }


def _turn(trailer: Trailer, turn: Turn) -> Json:
    made: Json = {
        "place": turn.place,
        "chases": list(dict.fromkeys(stretch.chase for stretch in turn.stretches)),
        "angle_deg": round(turn.angle_deg),
        "wires": list(turn.wires),
        **_twice(turn.twice),
    }
    if turn.least_m is not None:
        made["least_bend_length_m"] = up_to_a_mark(turn.least_m, trailer.identity.units)
    return made


def _hole(trailer: Trailer, sizes: Mapping[str, Size], hole: Passing) -> Json:
    made: Json = {
        "places": list(hole.places),
        "chases": list(hole.chases),
        "wires": list(hole.wires),
        **_twice(hole.twice),
        "body": hole.skin,
        "sheet": hole.sheet,
        "tow_plug": hole.plug,
    }
    at: Json = {"at": point_entry(hole.point_m)} if hole.point_m is not None else {}
    at |= {"above_length_m": hole.above_m} if hole.above_m else {}
    return made | at | _least(trailer, sizes, (*hole.wires, *hole.twice))


def _beside(one: BesideMains) -> Json:
    made: Json = {"mains": one.mains.name, "chase": one.chase.name, "wires": list(one.wires)}
    if one.gap_m is not None:
        made["gap_length_m"] = one.gap_m
    if one.divided is not None:
        made["divided"] = one.divided
    return made | {"limit_length_m": one.limit.value * INCH_M, "limit_source": one.limit.source}
