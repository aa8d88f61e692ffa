"""What the shopping list costs, as far as the file has prices: amounts of what is bought, and their sum."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.lists.shopping import Item, Shopping
from builder.quantities import Misread, read_length
from builder.trailer.model import Trailer
from builder.trailer.prices import FUSE_HOLDER, PER_M, Price, in_mm

_HALF_M = 0.00005
"""Half of what bores are told apart by among prices: a printed one is rounded."""


@dataclass(frozen=True, slots=True)
class CostLine:
    """All that is bought by one price: ``count`` of it, or ``length_m`` in metres.

    ``sum`` is what that costs, rounded to a hundredth; ``ids`` are the lines of the shopping list.
    """

    price: Price
    count: int | None
    length_m: float | None
    sum: float
    ids: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Costs:
    """What it costs: ``total`` is the sum of all lines; ``open_lines`` counts what is bought without a price.

    ``unused`` are the names of prices that no line of the list has. ``currency`` is empty where the file has no price.
    """

    currency: str = ""
    lines: tuple[CostLine, ...] = ()
    open_lines: int = 0
    unused: tuple[str, ...] = ()

    @property
    def total(self) -> float:
        """The sum of all lines, as they are printed."""
        return round(sum(line.sum for line in self.lines), 2)


def costs(trailer: Trailer, shopping: Shopping) -> Costs:
    """Return what is bought by its prices; nothing where the file has none."""
    if not trailer.prices:
        return Costs()
    widest_first = sorted(trailer.prices, key=lambda price: -len(price.keys))
    known = {key: price for price in widest_first for key in price.keys}
    found: dict[Price, list[tuple[str, int | None, float | None]]] = {}
    used: set[Price] = set()
    open_lines = 0
    for id_, names, count, length_m in _bought(shopping):
        price = next((known[name.casefold()] for name in names if name.casefold() in known), None)
        if price is not None:
            used.add(price)
        if count or length_m:
            if price is None:
                open_lines += 1
            else:
                found.setdefault(price, []).append((id_, count, length_m))
    lines = tuple(_line(price, mine) for price, mine in found.items())
    unused = tuple(price.name for price in trailer.prices if price not in used)
    return Costs(trailer.prices[0].amount.currency, lines, open_lines, unused)


def _line(price: Price, mine: list[tuple[str, int | None, float | None]]) -> CostLine:
    ids = tuple(id_ for id_, _, _ in mine)
    lengths = [length_m for _, _, length_m in mine if length_m is not None]
    if lengths:
        amount = sum(lengths) / PER_M[price.amount.per]
        return CostLine(price, None, sum(lengths), round(amount * price.amount.value, 2), ids)
    count = sum(count or 0 for _, count, _ in mine)
    return CostLine(price, count, None, round(count * price.amount.value, 2), ids)


def _bought(shopping: Shopping) -> Iterator[tuple[str, tuple[str, ...], int | None, float | None]]:
    """Yield of each line its id, the names that a price of it may have, and how many or how much is bought."""
    for wire in shopping.wire:
        yield wire.id, (wire.id,), None, wire.buy_m
    for way in shopping.ways:
        measure_m = read_length(way.size) if way.size else way.bore_m or way.wide_m
        yield way.id, (*_measured(way.kind, measure_m), way.kind), None, way.buy_m
    for item in shopping.items:
        yield item.id, price_names(item), item.buy, None


def price_names(item: Item) -> tuple[str, ...]:
    """Return the names under which a price of a counted thing may stand, the closest one first."""
    if item.section == "fuses":
        rating = f"{item.rating_a:g} A"
        return f"fuse {rating} {item.series}", f"fuse {rating}", "fuse"
    if item.section == "splices":
        count = f"splice for {item.conductors}"
        return f"{count} {item.size}", count, f"splice {item.size}", "splice"
    if item.section in ("parts", "connectors") and item.names and item.kind != "contact":
        return *item.names, FUSE_HOLDER if item.kind == "fuse" else item.kind
    if item.section in ("plates", "supports"):
        measure_m = read_length(item.size) if item.size else item.loop_m or item.across_m
        return *_measured(item.kind, measure_m), item.kind
    if item.section == "grommets":
        return *_measured(item.kind, item.bore_m), item.kind, "grommet"
    detail = {"bulbs": item.series, "reflectors": item.color}.get(item.section, item.size)
    with_stud = (f"{item.kind} {detail} {item.stud}",) if item.stud else ()
    return (*with_stud, f"{item.kind} {detail}", item.kind) if detail else (item.kind,)


def _measured(kind: str, metres: float | Misread | None) -> tuple[str, ...]:
    """Return the names of a thing by a bore or a thickness, as exact as pages print it; none where it is not told."""
    if not isinstance(metres, float):
        return ()
    return tuple(dict.fromkeys(f"{kind} {in_mm(metres + off_m)}" for off_m in (0.0, _HALF_M, -_HALF_M)))
