"""The workshop's lists under the keys of the record: what to buy, to cut, to draw in, to land, to write on wires."""

from __future__ import annotations

from builder.lists.costs import Costs
from builder.lists.cut_list import ENOUGH_WIRES, CutList, OwnAllowance, Spool
from builder.lists.cut_pieces import Piece as CutPiece
from builder.lists.labels import Label, text_m
from builder.lists.landing_sheet import BoxPiece
from builder.lists.making import Lists
from builder.lists.pull_plan import Drawn, FillAfter, Pull, PullPlan
from builder.lists.shopping import Item, WireItem
from builder.lists.ways_needed import WayItem
from builder.lists.wrap_labels import WrapGroup
from builder.pages.json_entries import Json, terminal_entry, without_empty
from builder.pages.record_tests import sheet_entries


def lists_record(lists: Lists) -> Json:
    """Return the entries of the record that hold the lists; keys end in their unit, counts have none."""
    counted = (*lists.shopping.items, *lists.shopping.open_ends)
    return {
        "shopping": [
            *(_wire(item) for item in lists.shopping.wire),
            *(_way(item) for item in lists.shopping.ways),
            *(_item(item) for item in counted),
        ],
        **_costs(lists.costs),
        "cuts": [_spool(spool) for spool in lists.cuts.spools],
        **_already(lists.cuts),
        **_own(lists.cuts.own),
        **({"cut_without_loop": list(lists.cuts.no_loop)} if lists.cuts.no_loop else {}),
        **_pull_plan(lists.pulls),
        "landing_sheet": [_piece(piece) for piece in lists.landings],
        "crimp_pulls": [{"size": str(pull.size), "hung_mass_kg": pull.hung_kg} for pull in lists.crimp_pulls],
        "wrap_labels": [_wraps(group) for group in lists.wraps],
        "labels": [_label(label) for label in lists.labels],
        **sheet_entries(lists.tests),
    }


def _wire(item: WireItem) -> Json:
    return without_empty(
        {
            "id": item.id,
            "section": "wire",
            "kind": "pair" if item.other else "single",
            "color": str(item.color),
            "other_color": str(item.other) if item.other else None,
            "size": str(item.size),
            "wired_length_m": item.wired_m,
            "tails_length_m": item.tails_m,
            "to_spare_length_m": item.spare_m,
            "needed_length_m": item.need_m,
            "from_stock_length_m": item.stock_m,
            "buy_length_m": item.buy_m,
            "in_already_length_m": item.in_m or None,
            "from": [
                {
                    "circuit": stretch.circuit,
                    "wires": list(stretch.wires),
                    "length_m": stretch.length_m,
                    "tails_length_m": stretch.tails_m,
                }
                for stretch in item.stretches
            ],
        }
    )


def _costs(found: Costs) -> Json:
    """Return what it costs; nothing where the file has no price."""
    if not found.currency:
        return {}
    lines: list[Json] = [
        {
            "name": line.price.name,
            "of": list(line.ids),
            "price": line.price.amount.value,
            "per": line.price.amount.per,
            **({"buy_length_m": line.length_m} if line.length_m is not None else {"buy": line.count}),
            "sum": line.sum,
        }
        for line in found.lines
    ]
    return {
        "costs": {
            "currency": found.currency,
            "lines": lines,
            "total": found.total,
            "lines_without_price": found.open_lines,
            "prices_of_nothing": list(found.unused),
        }
    }


def _way(item: WayItem) -> Json:
    return without_empty(
        {
            "id": item.id,
            "section": item.section,
            "kind": item.kind,
            "bore_length_m": item.bore_m,
            "wide_length_m": item.wide_m,
            "deep_length_m": item.deep_m,
            "size": item.size,
            "built_in_length_m": item.used_m,
            "from_stock_length_m": item.stock_m,
            "buy_length_m": item.buy_m,
            "names": list(item.names),
        }
    )


def _why_uncut(spool: Spool) -> Json:
    """Say why nothing is cut from a spool, where that can be said of the spool itself."""
    if spool.too_short:
        return {"uncut": "too short"}
    return {} if spool.needed else {"uncut": "no wire of its kind"}


def _spool(spool: Spool) -> Json:
    sort = spool.sort
    made = without_empty(
        {
            "id": spool.id,
            "spool": spool.number or None,
            "kind": "pair" if sort.other else "single",
            "color": str(sort.color),
            "other_color": str(sort.other) if sort.other else None,
            "size": str(sort.size),
        }
    )
    return made | {
        "bought": spool.bought,
        "spool_length_m": spool.length_m,
        "rest_length_m": spool.rest_m,
        **_why_uncut(spool),
        "pieces": [
            {
                "wires": list(piece.wires),
                "circuit": piece.circuit,
                "from": piece.start,
                "to": piece.end,
                "length_m": piece.length_m,
                "tails_length_m": piece.tails_m,
                "to_spare_length_m": piece.spare_m,
                "cut_length_m": piece.cut_m,
                "left_length_m": left_m,
            }
            for piece, left_m in zip(spool.pieces, spool.left_m, strict=True)
        ],
    }


def _already(cuts: CutList) -> Json:
    """Return the pieces that are in already; nothing where none is."""
    if not cuts.already:
        return {}
    pieces = [_pulled_piece(piece) | {"length_m": piece.length_m, "why": why} for piece, why in cuts.already]
    return {"in_already": pieces}


def _own(own: OwnAllowance | None) -> Json:
    """Return what measured wires tell; nothing where none was measured."""
    if own is None:
        return {}
    return {
        "own_allowance": {
            "wires": list(own.wires),
            "count": len(own.wires),
            "enough_wires": ENOUGH_WIRES,
            "median_percent": own.median_percent,
            "most_percent": own.most_percent,
            "counted_percent": own.counted_percent,
        }
    }


def _pull_plan(plan: PullPlan) -> Json:
    """Return the pull plan; nothing of what is not in it, and nothing at all where the file has no chases."""
    return without_empty(
        {
            "pulls": [_pull(pull) for pull in plan.pulls],
            "laid_by_hand": [_pulled_piece(piece) for piece in plan.at_hand],
            "not_in_the_pull_plan": [_pulled_piece(piece) for piece in plan.unplaced],
        }
    )


def _pull(pull: Pull) -> Json:
    return {
        "number": pull.number,
        "from": pull.start,
        "to": pull.end,
        "way_length_m": pull.way_m,
        "thickest": str(pull.thickest),
        "chases": list(pull.chases),
        **({"turns_back_at": list(pull.turns)} if pull.turns else {}),
        "pull_strings": list(pull.strings),
        "conduits_without_string": list(pull.bare),
        "pieces": [_drawn(one) for one in pull.drawn],
        "fills": [_fill_after(one) for one in pull.fills],
    }


def _pulled_piece(piece: CutPiece) -> Json:
    return {
        "wires": list(piece.wires),
        "kind": piece.sort.words,
        "from": piece.start,
        "to": piece.end,
        "cut_length_m": piece.cut_m,
    }


def _drawn(one: Drawn) -> Json:
    made = _pulled_piece(one.piece) | ({} if one.whole else {"comes_out_at": one.until})
    return made | {
        "free": [
            {"at": end.part, "free_length_m": end.free_m, "more_than_tail": end.more} for end in one.free
        ]
    }


def _fill_after(one: FillAfter) -> Json:
    made: Json = {"chase": one.chase, "stretch": one.stretch.number, "wires": one.wires}
    if one.fill_percent is not None:
        made["fill_percent"] = one.fill_percent
    return made | {"limit_percent": one.limit_percent}


def _item(item: Item) -> Json:
    made = without_empty(
        {
            "id": item.id,
            "section": item.section,
            "kind": item.kind,
            "size": item.size,
            "place": item.place,
            "stud": item.stud,
            "series": item.series,
            "color": item.color,
            "rating_a": item.rating_a,
            "least_rating_a": item.least_rating_a,
            "takes_a": item.takes_a,
            "gives_a": item.gives_a,
            "gives_w": item.gives_w,
            "gives_v": item.gives_v,
            "gives_least_a": item.gives_least_a,
            "for_v": item.for_v,
            "module_w": item.module_w,
            "capacity_ah": item.capacity_ah,
            "reflector": item.reflector or None,
            "waits": item.waits or None,
            "ways": item.ways,
            "ways_used": item.ways_used,
            "conductors": item.conductors,
            "bore_length_m": item.bore_m,
            "loop_length_m": item.loop_m,
            "across_length_m": item.across_m,
            "wide_length_m": item.wide_m,
            "high_length_m": item.high_m,
            "thick_length_m": item.thick_m,
        }
    )
    made["used"] = item.used
    if item.section != "open ends":
        made |= {"to_spare": item.spare, "needed": item.need, "from_stock": item.stock, "buy": item.buy}
    return made | without_empty({"wires": list(item.wires), "names": list(item.names)})


def _piece(piece: BoxPiece) -> Json:
    """Return a piece with its places: what is crimped on each end, the stud, and where the other end is."""
    counts = {} if piece.count is None else {"count": piece.count, "free": piece.free}
    return {
        "name": piece.name,
        "in_box": piece.in_box,
        "taken": piece.taken,
        **counts,
        "places": [
            without_empty(
                {
                    "terminal": place.terminal.pin,
                    "place": place.place or None,
                    "stud": str(place.stud) if place.stud else None,
                }
            )
            | {
                "ends": [
                    {
                        "wire": end.wire,
                        "size": str(end.size),
                        "crimp": end.fit.value,
                        "far": terminal_entry(end.far),
                    }
                    for end in place.ends
                ]
            }
            for place in piece.places
        ],
    }


def _wraps(group: WrapGroup) -> Json:
    """Return how large the labels for wires of one size are, in mm; without their measures where nobody knows."""
    made: Json = {"size": str(group.size), "count": len(group.labels)}
    wrap = group.wrap
    if wrap is None:
        return made
    return made | {
        "diameter_mm": wrap.diameter_mm,
        "lines": wrap.lines,
        "printed_mm": wrap.printed_mm,
        "tail_mm": wrap.tail_mm,
        "whole_mm": wrap.whole_mm,
    }


def _label(label: Label) -> Json:
    return {
        "wire": label.wire,
        "end": label.side,
        "at": terminal_entry(label.here),
        "far": terminal_entry(label.far),
        "role": label.role.value,
        "circuit": label.circuit,
        "for": label.circuit_name,
        "text": label.texts[0],
        "text_length_m": text_m(label.texts[0]),
    }
