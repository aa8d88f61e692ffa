"""Wire by colour and size as it is sold, with tails, something to spare, and what is there taken off."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from builder.electrics.figures import Figures
from builder.electrics.pairs import pair_sides
from builder.lists.shopping import Stretch, WireItem
from builder.trailer.assumed import assumption
from builder.trailer.color import Color
from builder.trailer.model import Trailer
from builder.trailer.size import Size, by_area
from builder.trailer.wires import Wire

FOOT_M = 0.3048
NOTHING_M = 1e-6
"""Lengths that differ by less are equal: sums of written lengths in another order."""


@dataclass(frozen=True, slots=True)
class _Sort:
    """One kind of wire as it is sold; ``other`` is the second colour of pair cable."""

    color: Color
    other: Color | None
    size: Size


def wire_items(trailer: Trailer, figures: Figures) -> tuple[WireItem, ...]:
    """Return every kind of wire to buy: pair cable first, then single wire, thick wire first, then by colour.

    Feed and return of a circuit that both have the build's two colours run side by side, so where wire is sold as
    pair they are one cable as far as both go; what one of them is longer is single wire of its colour. The battery's
    own line is never a pair: its cables part at the fuse, the switch and the posts (common practice).
    """
    tail_m = assumption(trailer, "tail at each end").value
    found: dict[_Sort, list[Stretch]] = {}
    for circuit, size, wires in _by_circuit(trailer, figures):
        for sort, stretch in _stretches(trailer, (circuit, size), wires, tail_m):
            found.setdefault(sort, []).append(stretch)
    made = [_item(trailer, sort, tuple(stretches)) for sort, stretches in found.items()]
    return tuple(sorted(made, key=lambda i: (i.other is None, -by_area(i.size), str(i.color))))


def _by_circuit(trailer: Trailer, figures: Figures) -> Iterable[tuple[int, Size, list[Wire]]]:
    """Return the wires of each circuit by size; the spare ones come last, as circuit 0."""
    found: dict[tuple[int, Size], list[Wire]] = {}
    for wire in trailer.wires:
        found.setdefault((wire.circuit, figures.wires[wire.number].size), []).append(wire)
    for wire in trailer.spares:
        found.setdefault((0, wire.size or trailer.shelf.sizes[0]), []).append(wire)
    return [(circuit, size, wires) for (circuit, size), wires in found.items()]


def _stretches(
    trailer: Trailer, sold: tuple[int, Size], wires: list[Wire], tail_m: float
) -> list[tuple[_Sort, Stretch]]:
    """Return what the wires of one circuit and size come to: pair cable as far as both sides go, then single wire."""
    circuit, size = sold
    on_shelf = size in trailer.shelf.sizes
    feeds, returns = pair_sides(trailer, circuit, wires) if on_shelf else ([], [])
    found: list[tuple[_Sort, Stretch]] = []
    rest = [wire for wire in wires if wire not in feeds and wire not in returns]
    if feeds:
        found += _paired(trailer, sold, (feeds, returns), tail_m)
    by_color: dict[Color, list[Wire]] = {}
    for wire in rest:
        by_color.setdefault(wire.color, []).append(wire)
    for color, some in by_color.items():
        stretch = Stretch(circuit, _numbers(some), _length(some), 2 * len(some) * tail_m)
        found.append((_Sort(color, None, size), stretch))
    return found


def _paired(
    trailer: Trailer, sold: tuple[int, Size], sides: tuple[list[Wire], list[Wire]], tail_m: float
) -> list[tuple[_Sort, Stretch]]:
    """Return pair cable for what both sides have, and single wire for what one side is longer.

    The cable gets as many tails as the side with more ends: where only the feed is cut, the return passes by with
    the same slack.
    """
    circuit, size = sold
    shelf = trailer.shelf
    longer, shorter = sorted(sides, key=_length, reverse=True)
    tails_m = 2 * max(len(longer), len(shorter)) * tail_m
    both = Stretch(circuit, _numbers([*sides[0], *sides[1]]), _length(shorter), tails_m)
    found = [(_Sort(shelf.feed, shelf.ground, size), both)]
    alone_m = _length(longer) - _length(shorter)
    if alone_m > NOTHING_M:
        found.append((_Sort(longer[0].color, None, size), Stretch(circuit, _numbers(longer), alone_m, 0.0)))
    return found


def _numbers(wires: Iterable[Wire]) -> tuple[str, ...]:
    return tuple(wire.number for wire in wires)


def _length(wires: Iterable[Wire]) -> float:
    return sum(wire.length_m for wire in wires)


def _item(trailer: Trailer, sort: _Sort, stretches: tuple[Stretch, ...]) -> WireItem:
    wired_m = sum(stretch.length_m for stretch in stretches)
    tails_m = sum(stretch.tails_m for stretch in stretches)
    spare_m = (wired_m + tails_m) * assumption(trailer, "wire to spare").value / 100.0
    need_m = wired_m + tails_m + spare_m
    stock_m = min(need_m, _in_stock(trailer).get(sort, 0.0))
    words = f"pair {sort.size}" if sort.other else f"{sort.color} {sort.size}"
    return WireItem(
        id=words,
        color=sort.color,
        other=sort.other,
        size=sort.size,
        wired_m=wired_m,
        tails_m=tails_m,
        spare_m=spare_m,
        stock_m=stock_m,
        buy_m=rounded_up_m(need_m - stock_m, trailer.identity.units),
        stretches=stretches,
    )


def _in_stock(trailer: Trailer) -> Mapping[_Sort, float]:
    """Return the metres in stock of each kind of wire."""
    shelf = trailer.shelf
    found: dict[_Sort, float] = {}
    for wire in trailer.stock.wire:
        sort = (
            _Sort(shelf.feed, shelf.ground, wire.size)
            if wire.color is None
            else _Sort(wire.color, None, wire.size)
        )
        found[sort] = found.get(sort, 0.0) + wire.length_m
    return found


def rounded_up_m(length_m: float, units: str) -> float:
    """Return a length in metres rounded up to whole feet or metres, as wire is cut from a spool (common practice)."""
    step_m = FOOT_M if units == "feet" else 1.0
    return max(0, math.ceil(length_m / step_m - NOTHING_M)) * step_m
