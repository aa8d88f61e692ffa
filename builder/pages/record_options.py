"""What the record has of options: what each would add, and the figures with it beside today's."""

from __future__ import annotations

from typing import Any

from builder.electrics.figures import Figures, FuseFigures, OptionCircuit, OptionFigures, OptionWire
from builder.trailer.model import Option, Trailer

Json = dict[str, Any]


def option_entries(trailer: Trailer, figures: Figures) -> Json:
    """Return the entries of options; empty where there are none."""
    if not trailer.options:
        return {}
    pairs = zip(trailer.options, figures.options, strict=True)
    return {"options": [_option(option, made, figures) for option, made in pairs]}


def _option(option: Option, made: OptionFigures, today: Figures) -> Json:
    entry: Json = {
        "name": option.name,
        "parts": list(option.parts),
        "fuse_ways_needed": made.ways_needed,
        "fuse_ways_free": made.ways_free,
        "circuits": [_circuit(made, one) for one in made.circuits],
        "wires": [_wire(one) for one in made.wires],
        "spares": [
            {"number": one.number, "length_m": one.length_m, "size": str(one.size)} for one in option.spares
        ],
        "spares_too_short": list(made.short),
        "spares_that_end_elsewhere": [number for number, _ in made.elsewhere],
        "not_in_use": list(made.gone),
        "line": option.origin.line,
    }
    if option.note:
        entry["note"] = option.note
    if made.main is not None and made.today_main is not None:
        entry["main_fuse"] = _main(made.main, made.today_main)
    if made.figures.energy is not None and today.energy is not None:
        entry["nights"] = list(made.figures.energy.nights)
        entry["today_nights"] = list(today.energy.nights)
    return entry


def _circuit(made: OptionFigures, one: OptionCircuit) -> Json:
    with_it = one.made
    entry: Json = {
        "number": with_it.number,
        "name": made.trailer.circuit(with_it.number).name,
        "new": one.today is None,
        "current_a": with_it.load_current_a,
        "drop_v": with_it.worst_drop_v,
        "drop_percent": with_it.worst_drop_percent,
    }
    optional = {
        "way": one.way,
        "left_w": one.left_w,
        "fuse_a": with_it.fuse.rating_a if with_it.fuse else None,
        "today_current_a": one.today.load_current_a if one.today else None,
        "today_drop_v": one.today.worst_drop_v if one.today else None,
        "today_fuse_a": one.today.fuse.rating_a if one.today and one.today.fuse else None,
    }
    return entry | {key: value for key, value in optional.items() if value is not None}


def _wire(one: OptionWire) -> Json:
    entry: Json = {
        "circuit": one.circuit,
        "from": one.start,
        "to": one.end,
        "role": one.role.value,
        "length_m": one.length_m,
        "size": str(one.size),
    }
    return entry | ({"spare": one.spare} if one.spare else {})


def _main(made: FuseFigures, today: FuseFigures) -> Json:
    entry: Json = {"load_a": made.load_a, "today_load_a": today.load_a}
    ratings = {"rating_a": made.rating_a, "today_rating_a": today.rating_a}
    return entry | {key: value for key, value in ratings.items() if value is not None}
