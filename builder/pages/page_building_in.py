"""Build in while framing: holes, supports, bends, strings and what keeps apart, before a skin hides them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from builder.lists.grommets import fitted
from builder.lists.plates import plate_size, plated_along
from builder.pages.closed_told import closed_told
from builder.pages.laid_told import bend_told, length_told, mains_told, turn_told
from builder.pages.leads_told import leads_told
from builder.pages.page_fuses import wire_link
from builder.pages.view import View, joined, step
from builder.routes.closed_already import ClosedAlready
from builder.routes.covers import TAPE
from builder.routes.laid import Laid
from builder.routes.passings import Passing
from builder.routes.supports import Supports
from builder.trailer.already_in import already_in
from builder.trailer.assumed import assumption
from builder.trailer.bays import ClosedBay
from builder.trailer.model import TOW_PLUG
from builder.trailer.places import Chase, ChaseKind


def has_framing(view: View) -> bool:
    """Tell whether the build file says what the wires run through, or has backing blocks."""
    return bool(view.trailer.geometry.chases or view.trailer.geometry.blocks)


def building_in_page(view: View) -> dict[str, Any]:
    """Return what the template of the page is filled with."""
    laid, chases = view.figures.laid, view.trailer.geometry.chases
    passing = {name for one in laid.frames for name in one.chases}
    bored = [chase for chase in chases.values() if chase.fittings.hole_m is not None or chase.name in passing]
    plug = next((n for n, hole in enumerate(laid.passings) if hole.plug and hole.skin), None)
    plated = {chase.name for chase in plated_along(view.trailer.geometry, view.figures.runs)}
    closed = ClosedAlready(view.trailer, assumption(view.trailer, TAPE).value if chases else 0.0)
    return {
        "bored": [row for chase in bored for row in _bored(view, laid, chase, closed)],
        "edge": view.fig("laid_limits/edge_length_m") if chases else "",
        "holes": [
            _hole(view, hole, n) | _closed(closed.at(hole.point_m) if hole.point_m else ())
            for n, hole in enumerate(laid.passings)
        ],
        "plug": " – ".join(laid.passings[plug].places) if plug is not None else "",
        "plug_told": _plug_told(view, laid.passings[plug]) if plug is not None else [],
        "plug_in": plug is not None and _plug_is_in(view, laid.passings[plug]),
        "box_holes": [
            _box_hole(view, n)
            for n in range(len(view.value("box_holes") if "box_holes" in view.record else ()))
        ],
        "lead_sides": leads_told(view, view.trailer.parts),
        "supports": [_supports(view, one) | _closed(closed.along(one.chase)) for one in laid.supports],
        "round_held": any(not loop.flat for loop in laid.loops),
        "flat_held": any(loop.flat for loop in laid.loops),
        "turns": [turn_told(view, turn, n) for n, turn in enumerate(laid.turns)],
        "bends": [
            bend_told(view, bends)
            for bends in laid.bends
            if bends.chase.kind is ChaseKind.CONDUIT or bends.chase.fittings.bend_radius_m is not None
        ],
        "blocks": [
            _block(view, n) | _closed(closed.under(block))
            for n, block in enumerate(view.trailer.geometry.blocks.values())
        ],
        "frame_sheets": bool(laid.frames),
        "chased": bool(chases),
        "conduits": [
            _conduit(view, chase, chase.name in plated) | _closed(closed.along(chase))
            for chase in chases.values()
            if chase.kind is not ChaseKind.HINGE
        ],
        "conduit_pieces": _conduit_pieces(view, closed),
        "grooves": bool(laid.grooves),
        "plated": bool(plated),
        "places": _places(view, closed),
        "strings": [chase.name for chase in chases.values() if chase.fittings.pull_string],
        "hot": [
            (chase.name, chase.fittings.near_heat) for chase in chases.values() if chase.fittings.near_heat
        ],
        **mains_told(view),
    }


def _closed(bays: tuple[ClosedBay, ...]) -> dict[str, Any]:
    """Return what is told of a row that lies in closed bays alone."""
    return {"closed": closed_told(bays)}


def _block(view: View, number: int) -> dict[str, Any]:
    path = f"blocks/{number}"
    entry = view.value(path)

    def told(key: str) -> Any:
        return view.fig(f"{path}/{key}") if key in entry else ""

    return {
        **{key: entry[key] for key in ("name", "wall")},
        "holds": entry.get("holds", ""),
        "back": told("back_length_m"),
        "up": told("up_length_m"),
        "side": entry.get("side", ""),
        "from_middle": told("from_middle_length_m"),
        "width": told("width_length_m"),
        "high": told("high_length_m"),
        "long": told("long_length_m"),
        "thick": told("thick_length_m"),
        "passed": [
            (one["chase"], joined([wire_link(wire) for wire in one["wires"]]))
            for one in entry.get("passed_by", ())
        ],
    }


def _conduit(view: View, chase: Chase, plated: bool) -> dict[str, Any]:
    """Return what of a chase is built in: what it is, its bore, how long it is; ``plated`` is it all along."""
    path = f"chases/{step(chase.name)}"
    return {
        "name": chase.name,
        "kind": chase.kind.value,
        "from": chase.through[0],
        "to": chase.through[-1],
        "bore": view.fig(f"{path}/bore_length_m") if chase.bore_m is not None else "",
        "long": view.fig(f"{path}/whole_length_m"),
        "where": chase.where,
        "plate": plate_size(chase.plate_m, view.trailer.identity.units) if plated else "",
        "groove": _groove(view, chase),
        "mains": chase.holds_mains,
        "mains_alone": not chase.takes_wires,
    }


def _groove(view: View, chase: Chase) -> dict[str, Any] | None:
    """Return how wide and deep a groove, or a channel inside, is where it is widest; None for any other chase."""
    one = next((one for one in view.figures.laid.grooves if one.chase == chase.name), None)
    if one is None:
        return None
    path, known = f"laid/{step(chase.name)}/groove", one.wide_m is not None
    return {
        "wide": view.fig(f"{path}/wide_length_m") if known else "",
        "deep": view.fig(f"{path}/deep_length_m") if known else "",
        "plate": view.fig(f"{path}/plate_wide_length_m") if "plate_wide_length_m" in view.value(path) else "",
        "unsized": ", ".join(map(str, one.unsized)),
        "between": "" if one.alike else (one.start, one.end),
    }


def _conduit_piece(view: View, chase: str, number: int, nth: int) -> dict[str, Any]:
    """Return a piece of a conduit: its number, its length, and where both its ends are."""
    path = f"laid/{step(chase)}/pieces/{nth}"
    piece = view.value(path)
    return {
        "n": number,
        "chase": chase,
        "start": piece["from"],
        "end": piece["to"],
        "long": view.fig(f"{path}/piece_length_m"),
        "ends": [_point(view, f"{path}/ends/{n}") for n in range(len(piece["ends"]))],
    }


def _conduit_pieces(view: View, closed: ClosedAlready) -> list[dict[str, Any]]:
    counted: Counter[str] = Counter()
    made = []
    for number, one in enumerate(view.figures.laid.pieces, start=1):
        chase = view.trailer.geometry.chases[one.chase]
        first, last = chase.through.index(one.start), chase.through.index(one.end)
        bays = closed.along(replace(chase, through=chase.through[first : last + 1]))
        made.append(_conduit_piece(view, one.chase, number, counted[one.chase]) | _closed(bays))
        counted[one.chase] += 1
    return made


def _places(view: View, closed: ClosedAlready) -> list[dict[str, Any]]:
    """Return every place of a chase with the chases that meet there, in the order in which they are built in."""
    held: dict[str, dict[str, None]] = {}
    for chase in view.trailer.geometry.chases.values():
        for name in chase.through:
            held.setdefault(name, {})[chase.name] = None
    return [
        {"name": name, "chases": list(chases), **_point(view, f"places/{step(name)}/at")}
        | _closed(closed.at(view.trailer.geometry.places[name].point_m))
        for name, chases in held.items()
    ]


def _point(view: View, path: str) -> dict[str, Any]:
    """Return the measures of a place along, across and up: each figure under its own word, empty where it has none."""
    entry = view.value(path)
    told = {
        word: view.fig(f"{path}/{word}_length_m") if f"{word}_length_m" in entry else ""
        for word in ("back", "ahead", "from_middle", "up", "below")
    }
    return {**told, "side": entry["side"]}


def _bored(view: View, laid: Laid, chase: Chase, closed: ClosedAlready) -> Iterator[dict[str, Any]]:
    """Yield each hole of a chase through a frame; one without a frame where the file has its size alone."""
    for n, one in enumerate(one for one in laid.frames if one.chase == chase.name):
        path = f"laid/{step(chase.name)}/frames/{n}"
        yield {
            **bored_told(view, one.chases),
            "frame": one.frame,
            "at": _point(view, f"{path}/at"),
            "least": least_hole(view, path),
            **_closed(closed.at(one.point_m)),
        }
    if not any(chase.name in one.chases for one in laid.frames):
        yield {**bored_told(view, (chase.name,)), "frame": "", "least": "", **_closed(())}


def bored_told(view: View, names: Sequence[str]) -> dict[str, Any]:
    """Return what the file says of a hole that some chases lead to: of each measure, the first that has it."""
    chases = [view.trailer.geometry.chases[name] for name in names]
    made: dict[str, Any] = {
        "name": " · ".join(names),
        "kind": chases[0].kind.value,
        "plated": any(chase.plate_m is not None for chase in chases),
    }
    for key, word in (("hole", "hole"), ("edge", "from_the_edge")):
        made[key] = next((told for told in (length_told(view, chase, word) for chase in chases) if told), "")
    return made


def least_hole(view: View, path: str) -> Any:
    """Return the least bore of a hole for its wires; empty where a wire has no known diameter."""
    return view.fig(f"{path}/least_hole_length_m") if "least_hole_length_m" in view.value(path) else ""


def _hole(view: View, hole: Passing, place: int) -> dict[str, Any]:
    return {
        "places": list(hole.places),
        "chases": list(hole.chases),
        "count": len(hole.wires) + len(hole.twice),
        "twice": joined([wire_link(wire) for wire in hole.twice]),
        "wires": joined([wire_link(wire) for wire in hole.wires]),
        "body": hole.skin,
        "sheet": hole.sheet,
        "plug": hole.plug,
        "grommets": hole_told(view, hole, "grommets"),
        "sealed": hole_told(view, hole, "sealed"),
        "number": place + 1,
        "at": _point(view, f"holes/{place}/at"),
        "above": view.fig(f"holes/{place}/above_length_m") if hole.above_m else "",
        "hole": "",
        "least": least_hole(view, f"holes/{place}"),
        "kind": _kind(view, hole),
    }


def _kind(view: View, hole: Passing) -> str:
    """Return whether a conduit or a channel goes through a hole; empty for any other chase."""
    kinds = {view.trailer.geometry.chases[name].kind for name in hole.chases}
    return next((kind.value for kind in (ChaseKind.CONDUIT, ChaseKind.CHANNEL) if kind in kinds), "")


def hole_told(view: View, hole: Passing, word: str) -> str:
    """Return what the file says of a hole: yes, no where one of its chases says no, else nothing."""
    said = fitted(view.trailer, hole, word)
    return "" if said is None else "yes" if said else "no"


def _plug_told(view: View, hole: Passing) -> list[str]:
    """Return what the file says is there where the plug's cable enters the body."""
    return [word for word in ("sealed", "strain_relief", "drip_loop") if hole_told(view, hole, word) == "yes"]


def _plug_is_in(view: View, hole: Passing) -> bool:
    """Tell whether all wires of the plug that pass a hole are in: only then is what holds and seals them done."""
    known = already_in(view.trailer)
    at_plug = {wire.number for wire in view.trailer.wires if TOW_PLUG in (wire.start.part, wire.end.part)}
    return all(wire in known for wire in at_plug & set(hole.wires))


def _box_hole(view: View, number: int) -> dict[str, Any]:
    """Return what enters a box at one place: its wires, from which sides they come, and the least hole for them."""
    path = f"box_holes/{number}"
    entry = view.value(path)
    return {
        "box": entry["box"],
        "name": entry["for"],
        "wires": joined([wire_link(wire) for wire in entry["wires"]]),
        "sides": [{"sides": sides} for sides in entry["sides"]],
        "least": least_hole(view, path),
    }


def _supports(view: View, one: Supports) -> dict[str, Any]:
    path = f"laid/{step(one.chase.name)}/supports"
    through, loops = one.chase.through, view.value(path)["loops"]
    return {
        "name": one.chase.name,
        "count": view.fig(f"{path}/count"),
        "apart": view.fig(f"{path}/spacing_length_m"),
        "given": one.given,
        "limit": view.fig(f"{path}/limit_length_m"),
        "loops": [
            {
                "where": "" if len(loops) == 1 else f"{loop['from']} – {loop['to']}",
                "count": view.fig(f"{path}/loops/{n}/count"),
                "flat": loop["flat"],
                "wide": next(
                    (view.fig(f"{path}/loops/{n}/{key}") for key in loop if key.endswith("_length_m")), ""
                ),
            }
            for n, loop in enumerate(loops)
        ],
        "between": [
            (f"{through[number]} – {through[number + 1]}", view.fig(f"{path}/between/{n}/count"))
            for n, (number, count) in enumerate(one.between.items())
            if count
        ],
    }
