"""The shopping list and what it costs as tables."""

from __future__ import annotations

from builder.lists.shopping import Item
from builder.lists.ways_needed import WayItem
from builder.pages.csv_files import csv_text
from builder.pages.rounding import Reader, length, price, shown
from builder.pages.view import View
from builder.trailer.color import Color

COLUMNS = ("buy", "needed", "built in", "to spare", "from stock")
"""The amounts of a row of the table."""


def costs_csv(view: View) -> str:
    """Return what it costs as a table, a line a price; lengths are printed in the build's units."""
    found, units = view.lists.costs, view.trailer.identity.units
    head = ("what", "buy", "price", "per", "sum", "currency")
    rows = [
        (
            line.price.name,
            line.count if line.length_m is None else length(line.length_m, units),
            price(line.price.amount.value),
            line.price.amount.per,
            f"{line.sum:.2f}",
            found.currency,
        )
        for line in found.lines
    ]
    return csv_text([head, *rows, ("together", "", "", "", f"{found.total:.2f}", found.currency)])


def shopping_csv(view: View) -> str:
    """Return the shopping list as a table; lengths are printed in the build's units."""
    head = ("section", "what", "color", "size", "detail", *COLUMNS, "wires", "for", "in already")
    shopping, units = view.lists.shopping, view.trailer.identity.units
    wires = [
        (
            "wire",
            "pair" if item.other else "single",
            _color_words(item.color, item.other),
            item.size,
            "",
            *(length(m, units) for m in (item.buy_m, item.need_m, item.wired_m + item.tails_m, item.spare_m)),
            length(item.stock_m, units),
            " ".join(number for stretch in item.stretches for number in stretch.wires),
            "",
            length(item.in_m, units),
        )
        for item in shopping.wire
    ]
    ways = [_way_row(item, units) for item in shopping.ways]
    return csv_text(
        [head, *wires, *ways, *(_row(item, units) for item in (*shopping.items, *shopping.open_ends))]
    )


def _way_row(item: WayItem, units: str) -> tuple[object, ...]:
    bore = f"bore {length(item.bore_m, units)}" if item.bore_m is not None else ""
    inside = " by ".join(length(one_m, units) for one_m in (item.wide_m, item.deep_m) if one_m is not None)
    bore = bore or (
        f"inside {inside} or more" if item.deep_m is not None else f"{inside} wide or more" if inside else ""
    )
    amounts = (item.buy_m, item.used_m, item.used_m, 0.0, item.stock_m)
    lengths = (length(metres, units) for metres in amounts)
    return (item.section, item.kind, "", item.size, bore, *lengths, "", "; ".join(item.names), "")


def _color_words(color: Color, other: Color | None) -> str:
    return f"{color} and {other}" if other else str(color)


def _row(item: Item, units: str) -> tuple[object, ...]:
    counts: tuple[object, ...] = (item.buy, item.need, item.used, item.spare, item.stock)
    if item.section == "open ends":
        counts = ("", "", item.used, "", "")
    rating = f"{item.rating_a:g} A" if item.rating_a is not None else ""
    least = (
        f"{shown(item.least_rating_a, Reader.WORKSHOP)} A or more" if item.least_rating_a is not None else ""
    )
    takes = f"takes {shown(item.takes_a, Reader.WORKSHOP)} A" if item.takes_a is not None else ""
    gives = [f"gives {shown(item.gives_a, Reader.WORKSHOP)} A"] if item.gives_a is not None else []
    gives += [f"{shown(item.capacity_ah, Reader.WORKSHOP)} Ah"] if item.capacity_ah is not None else []
    gives += [f"gives {shown(item.gives_w, Reader.WORKSHOP)} W"] if item.gives_w is not None else []
    gives += [f"gives {item.gives_v:g} V"] if item.gives_v is not None else []
    least_out = item.gives_least_a
    gives += [f"gives {shown(least_out, Reader.WORKSHOP)} A or more"] if least_out is not None else []
    gives += [f"for {item.for_v:g} V"] if item.for_v is not None else []
    gives += [f"for solar modules of {item.module_w:g} W"] if item.module_w is not None else []
    ways = f"{item.ways} ways" if item.ways is not None else ""
    used = f"{item.ways_used} used" if item.ways_used is not None else ""
    bore = f"bore {length(item.bore_m, units)}" if item.bore_m is not None else ""
    bore = f"loop {length(item.loop_m, units)}" if item.loop_m is not None else bore
    bore = f"{length(item.across_m, units)} across" if item.across_m is not None else bore
    sides = [length(metres, units) for metres in (item.wide_m, item.high_m) if metres is not None]
    thick = f"{length(item.thick_m, units)} thick" if item.thick_m is not None else ""
    built_in = "with a reflector" if item.reflector else ""
    splice = f"{item.conductors} conductors" if item.conductors is not None else ""
    waits = f"waits: {item.waits}" if item.waits else ""
    detail = ", ".join(
        filter(
            None,
            (
                *(item.place, item.stud, item.series, bore, " by ".join(sides), thick, rating, least, takes),
                *(*gives, ways, used, splice, built_in, waits),
            ),
        )
    )
    return (
        item.section,
        item.kind,
        item.color,
        item.size,
        detail,
        *counts,
        " ".join(item.wires),
        "; ".join(item.names),
        "",
    )
