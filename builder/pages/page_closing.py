"""The closing list, bay by bay: what lies in it, what is looked at before it is closed, and the photo that is taken."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from builder.pages.csv_files import csv_text
from builder.pages.page_fuses import wire_link
from builder.pages.record_covers import keep_clear_m
from builder.pages.rounding import length
from builder.pages.view import View, joined, step
from builder.routes.bays_held import BayHeld, InBay, mains_stretches
from builder.routes.network import Stretch
from builder.rules.bay_closed_too_early import lying_in, not_pulled
from builder.trailer.bays import UP, closed_bay, photo_name
from builder.trailer.mains import has_mains
from builder.trailer.places import Chase, ChaseKind


def has_bays(view: View) -> bool:
    """Tell whether any bay of the build holds a wire or mains."""
    return any(held.holds for held in view.figures.bays)


def closing_page(view: View) -> dict[str, Any]:
    """Return what the template of the closing list is filled with."""
    held = [one for one in view.figures.bays if one.holds]
    mains = list(mains_stretches(view.trailer.geometry))
    return {
        "bays": [_bay(view, one) for one in held],
        "empty": [one.bay.name for one in view.figures.bays if not one.holds],
        "mains": has_mains(view.trailer) or bool(mains),
        "mains_placed": list(dict.fromkeys(one.chase for one in mains)),
        "mains_between": [_places(view, one) for one in _mains_in_no_bay(view)],
        "between": [_stretch(view, stretch, wires) for stretch, wires in _in_no_bay(view)],
        "unknown": joined([wire_link(number) for number in view.figures.runs.unknown]),
        "body": view.trailer.geometry.body is not None,
        "frames": any(one.bay.from_frame or one.bay.to_frame for one in held),
    }


def _bay(view: View, held: BayHeld) -> dict[str, Any]:
    path = f"bays/{step(held.bay.name)}"
    edges = ("from_up", "to_up") if held.bay.axis == UP else ("from_back", "to_back")
    parted = bool(held.bay.from_frame or held.bay.to_frame)
    closed = closed_bay(view.trailer.closed_bays, held.bay.name)
    return {
        "name": held.bay.name,
        "skin": bool(held.bay.skin),
        "upwards": held.bay.axis == UP,
        "from": view.fig(f"{path}/{edges[0]}_length_m") if parted else "",
        "to": view.fig(f"{path}/{edges[1]}_length_m") if parted else "",
        "count": len(held.wires),
        "rows": [_row(view, one, f"{path}/inside/{n}") for n, one in enumerate(held.inside)],
        "ends": [
            {"name": end.name, "wires": joined([wire_link(number) for number in end.wires])}
            for end in held.ends
        ],
        "photo": photo_name(held.bay.name),
        "must": [finding.message for finding in lying_in(held, view.findings)],
        "not_pulled": [
            {"name": name, "wires": joined([wire_link(number) for number in wires])}
            for name, wires in not_pulled(view.trailer, held).items()
        ],
        "mains": [_places(view, stretch) for stretch in held.mains],
        "unseen": held.unseen,
        "licensed": bool(held.mains) or any(one.licensed for one in held.unseen),
        "closed": closed is not None,
        "closed_photo": closed.photo if closed else "",
        "without_photo": bool(closed and closed.without_photo),
        "date": closed.date if closed else "",
        "note": closed.note if closed else "",
        "insulated": bool(closed and closed.insulated),
    }


def _in_no_bay(view: View) -> list[tuple[Stretch, tuple[str, ...]]]:
    """Return the stretches with wires that run between the walls or outside the body: no bay lists them."""
    held = {one.stretch for bay in view.figures.bays for one in bay.inside}
    return [(stretch, wires) for stretch, wires in view.figures.runs.inside.items() if stretch not in held]


def _mains_in_no_bay(view: View) -> list[Stretch]:
    in_bays = {stretch for held in view.figures.bays for stretch in held.mains}
    return [one for one in mains_stretches(view.trailer.geometry) if one not in in_bays]


def _places(view: View, stretch: Stretch) -> dict[str, Any]:
    through = view.trailer.geometry.chases[stretch.chase].through
    return {"chase": stretch.chase, "start": through[stretch.number], "end": through[stretch.number + 1]}


def _stretch(view: View, stretch: Stretch, wires: tuple[str, ...]) -> dict[str, Any]:
    chase = view.trailer.geometry.chases[stretch.chase]
    supports = any(held.chase.name == chase.name for held in view.figures.laid.supports)
    return {
        **_places(view, stretch),
        "wires": joined([wire_link(number) for number in wires]),
        "twice": joined([wire_link(number) for number in view.figures.runs.twice(stretch)]),
        "apart": view.fig(f"laid/{step(chase.name)}/supports/spacing_length_m") if supports else "",
        "string": chase.fittings.pull_string,
    }


def _row(view: View, one: InBay, path: str) -> dict[str, Any]:
    chase = view.trailer.geometry.chases[one.stretch.chase]
    return {
        **_stretch(view, one.stretch, one.wires),
        "depth": view.fig(f"{path}/depth_length_m"),
        "left": view.fig(f"{path}/left_length_m") if one.left_m and one.left_m > 0 and not one.hole_m else "",
        "reached": one.left_m is not None and one.left_m <= 0,
        "hinge": chase.kind is ChaseKind.HINGE,
        "hole": view.fig(f"{path}/round_hole_length_m") if one.hole_m is not None else "",
        "out": one.is_out,
        "plated": chase.plate_along_m is not None,
    }


_HEAD = (
    "bay", "chase", "from", "to", "wires", "there and back", "depth", "left to fasteners", "steel plates",
    "held every", "string", "waiting ends", "photo", "closed",
)  # fmt: skip


def closing_csv(view: View) -> str:
    """Return the closing list as a table, a line a stretch in a bay; lengths in the build's units."""
    loose = {"bay": "in no bay"}
    rows = [row for held in view.figures.bays for row in _lines(view, held)]
    rows += [loose | _line(view, stretch, wires) for stretch, wires in _in_no_bay(view)]
    rows += [loose | _mains_line(view, stretch) for stretch in _mains_in_no_bay(view)]
    return csv_text([_HEAD, *(tuple(row.get(word, "") for word in _HEAD) for row in rows)])


def _lines(view: View, held: BayHeld) -> Iterator[dict[str, str]]:
    """Yield a line of the table for each stretch of a bay, then of mains, and what is not recorded."""
    closed = closed_bay(view.trailer.closed_bays, held.bay.name)
    photo = closed.photo if closed and closed.photo else photo_name(held.bay.name)
    bay = {
        "bay": held.bay.name,
        "photo": "none" if closed and closed.without_photo else photo,
        "closed": "" if closed is None else closed.date or "yes",
    }
    units, ends = view.trailer.identity.units, "; ".join(end.name for end in held.ends)
    for one in held.inside:
        chase = view.trailer.geometry.chases[one.stretch.chase]
        yield (
            bay
            | _line(view, one.stretch, one.wires)
            | {
                "depth": length(one.depth_m, units),
                "left to fasteners": _left(one, chase, units),
                "steel plates": "yes" if chase.plate_along_m is not None else "",
                "waiting ends": ends,
            }
        )
    for stretch in held.mains:
        yield bay | _mains_line(view, stretch)
    for other in held.unseen:
        yield bay | {"chase": other.name, "wires": f"not recorded: {other.what or 'mains'}"}


def _line(view: View, stretch: Stretch, wires: Sequence[str]) -> dict[str, str]:
    """Return what the table has of the wires of a stretch, wherever it lies."""
    chase = view.trailer.geometry.chases[stretch.chase]
    return _between(view, stretch) | {
        "wires": " ".join(wires),
        "there and back": " ".join(view.figures.runs.twice(stretch)),
        "held every": _held_every(view, chase),
        "string": "yes" if chase.fittings.pull_string else "",
    }


def _mains_line(view: View, stretch: Stretch) -> dict[str, str]:
    return _between(view, stretch) | {"wires": "mains"}


def _between(view: View, stretch: Stretch) -> dict[str, str]:
    told = _places(view, stretch)
    return {"chase": told["chase"], "from": told["start"], "to": told["end"]}


def _held_every(view: View, chase: Chase) -> str:
    """Return how far apart the clips of a chase are; empty where none hold it."""
    units = view.trailer.identity.units
    apart = (one.spacing_m for one in view.figures.laid.supports if one.chase.name == chase.name)
    return next((length(one, units) for one in apart), "")


def _left(one: InBay, chase: Chase, units: str) -> str:
    """Return what the table has of fasteners: what is left to them, or where none may go."""
    if chase.kind is ChaseKind.HINGE:
        return "no screw here"
    if one.hole_m is not None:
        return f"no fastener within {length(keep_clear_m(one.hole_m, units), units)} of the hole"
    if one.is_out:
        return "no screw near it"
    if one.left_m is None:
        return ""
    return length(one.left_m, units) if one.left_m > 0 else "none"
