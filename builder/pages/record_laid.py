"""The record's entries of how wires are laid: bends, supports, holes, and what keeps apart from mains."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.electrics.figures import Figures, every_size
from builder.pages.json_entries import Json
from builder.pages.record_blocks import point_entry
from builder.routes import fill
from builder.routes.apart import BesideMains, least_gap
from builder.routes.bends import Bends, Turn
from builder.routes.cut_to_fit import ConduitPiece, Groove
from builder.routes.fill import INCH_M, least_bore_mm, wire_diameter_mm
from builder.routes.passings import Passing
from builder.routes.supports import Supports
from builder.tables.installation import framing_distance
from builder.trailer.fittings import Carries, Fittings
from builder.trailer.model import Trailer
from builder.trailer.size import Size


def laid_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return how the wires are laid under the record's keys; nothing where the file has no chases."""
    laid = figures.laid
    if not trailer.geometry.chases:
        return {}
    sizes = every_size(trailer, figures.wires)
    return {
        "laid": [_chase(trailer, figures, sizes, bends) for bends in laid.bends],
        "turns": [_turn(trailer, turn) for turn in laid.turns],
        "holes": [_hole(trailer, sizes, hole) for hole in laid.passings],
        "beside_mains": [_beside(one) for one in laid.beside_mains],
        "laid_limits": {
            "edge_length_m": framing_distance("bored hole edge distance", "wood", "in").value * INCH_M,
            "mains_gap_length_m": least_gap().value * INCH_M,
        },
    }


def up_to_a_mark(metres: float, trailer: Trailer) -> float:
    """Return a least measure rounded up to an eighth of an inch or a millimetre, as it is printed."""
    return fill.up_to_a_mark(metres, trailer.identity.units)


def _least(trailer: Trailer, sizes: Mapping[str, Size], wires: Iterable[str]) -> Json:
    """Return the least bore of a hole for some wires, as often as they pass it; nothing where one has no diameter.

    The limits are those of a conduit, NEC Chapter 9 Table 1: for a hole that is common practice.
    """
    numbers = list(wires)
    known = [wire_diameter_mm(sizes[one], trailer.shelf) for one in numbers]
    diameters = [mm for mm in known if mm is not None]
    if not numbers or len(diameters) < len(numbers):
        return {}
    return {"least_hole_length_m": up_to_a_mark(least_bore_mm(diameters) / 1000, trailer)}


def _chase(trailer: Trailer, figures: Figures, sizes: Mapping[str, Size], bends: Bends) -> Json:
    name, laid = bends.chase.name, figures.laid
    made: Json = {"name": name, "turned_deg": round(bends.turned_deg), **_fittings(bends.chase.fittings)}
    if bends.least_m is not None:
        least_m = up_to_a_mark(bends.least_m, trailer)
        made |= {"least_bend_length_m": least_m, "least_bend_source": bends.limit.source}
    supports = next((one for one in laid.supports if one.chase.name == name), None)
    if supports is not None:
        made["supports"] = _supports(supports)
    frames = [
        {"frame": one.frame}
        | ({"back_length_m": one.back_m} if one.up_m is None else {"up_length_m": one.up_m})
        | {"at": point_entry(one.point_m), "wires": list(one.wires)}
        | _twice(one.twice)
        | _least(trailer, sizes, (*one.wires, *one.twice))
        for one in laid.frames
        if one.chase == name
    ]
    made |= {"frames": frames} if frames else {}
    groove = next((one for one in laid.grooves if one.chase == name), None)
    made |= {"groove": _groove(trailer, groove)} if groove is not None else {}
    pieces = [_piece(trailer, one) for one in laid.pieces if one.chase == name]
    return made | ({"pieces": pieces} if pieces else {})


def _groove(trailer: Trailer, one: Groove) -> Json:
    """Return how wide and deep a groove is where it is widest, both rounded up as they are printed."""
    made: Json = {"from": one.start, "to": one.end}
    if one.wide_m is None or one.deep_m is None:
        return made | {"without_diameter": [str(size) for size in one.unsized]}
    return made | {
        "wide_length_m": up_to_a_mark(one.wide_m, trailer),
        "deep_length_m": up_to_a_mark(one.deep_m, trailer),
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


def _supports(one: Supports) -> Json:
    return {
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
        made["least_bend_length_m"] = up_to_a_mark(turn.least_m, trailer)
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
    return made | at | _least(trailer, sizes, (*hole.wires, *hole.twice))


def _beside(one: BesideMains) -> Json:
    made: Json = {"mains": one.mains.name, "chase": one.chase.name, "wires": list(one.wires)}
    if one.gap_m is not None:
        made["gap_length_m"] = one.gap_m
    if one.divided is not None:
        made["divided"] = one.divided
    return made | {"limit_length_m": one.limit.value * INCH_M, "limit_source": one.limit.source}
