"""Lamps by the rule: which lamps and reflectors the trailer must have, and which of them the file holds."""

from __future__ import annotations

from typing import Any

from builder.electrics.lamps_required import RequiredLamp, measures_of
from builder.pages.view import View
from builder.tables.lamp_rules import lamp_rules

DRIVES_LEFT = ("GB", "IE", "AU", "NZ")
"""Where the traffic keeps left, so that the right side is the one towards it."""


def lamps_page(view: View) -> dict[str, Any]:
    """Return what the template of Lamps by the rule is filled with; ``rule`` is empty where none is known here."""
    asked = view.figures.lamps_required
    if asked is None or not asked.rule:
        return {"rule": "", "country": view.trailer.identity.country}
    rows = [_row(view, place, one) for place, one in enumerate(asked.required)]
    lacking = dict.fromkeys(measure for one in asked.required for measure in one.lacking)
    return {
        "rule": asked.rule,
        "country": view.trailer.identity.country,
        "drives_left": view.trailer.identity.country in DRIVES_LEFT,
        "note": asked.note,
        "lamps": [row for row in rows if row["kind"] == "lamp"],
        "reflectors": [row for row in rows if row["kind"] == "reflector"],
        "reflectors_told": asked.reflectors_told,
        "lacking": list(lacking),
        "unplaced": sorted(set(asked.unplaced)),
        "on_hatch": [lamp.name for lamp in view.trailer.road_lamps if lamp.on_hatch],
        "exactly": _exactly(view, asked.rule),
        "stands_in": any(one.row.authority != asked.rule for one in asked.required),
    }


def _exactly(view: View, rule: str) -> list[dict[str, str]]:
    """Return the limits of size of a rule that the trailer is exactly at, each with how the rule reads there."""
    measures = measures_of(view.trailer.identity)
    met = {
        (one.measure, one.text, one.sign): None
        for row in lamp_rules(rule)
        if row.count
        for one in row.when
        if one.is_met_exactly(measures.of(one.measure))
    }
    return [{"measure": measure, "limit": text, "sign": sign} for measure, text, sign in met]


def _row(view: View, place: int, one: RequiredLamp) -> dict[str, Any]:
    path = f"lamps_required/{place}"
    row = one.row
    return {
        "lamp": row.lamp,
        "kind": row.kind,
        "count": view.fig(f"{path}/count"),
        "colors": row.colors,
        "least": view.fig(f"{path}/lowest_length_m") if row.lowest_m is not None else "",
        "most": view.fig(f"{path}/highest_length_m") if row.highest_m is not None else "",
        "from_side": view.fig(f"{path}/from_side_length_m") if row.from_side_m is not None else "",
        "apart": view.fig(f"{path}/apart_length_m") if row.apart_m is not None else "",
        "most_apart": view.fig(f"{path}/most_apart_length_m") if row.most_apart_m is not None else "",
        "place": row.place,
        "heights": [view.fig(f"{path}/heights_m/{n}", "m") for n in range(len(one.heights_m))],
        "ins": [view.fig(f"{path}/ins_m/{n}", "m") for n in range(len(one.ins_m))],
        "middles": view.fig(f"{path}/middles_apart_length_m") if one.middles_apart_m is not None else "",
        "have": list(dict.fromkeys(one.have)),
        "missing": view.fig(f"{path}/missing") if one.missing else "",
        "lacking": list(one.lacking),
        "known": one.known,
        "source": row.source,
        "clause": row.clause,
    }
