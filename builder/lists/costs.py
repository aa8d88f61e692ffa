"""What the shopping list costs, as far as the file has prices: amounts of what is bought, and their sum."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.lists.shopping import Item, Shopping
from builder.trailer.model import Trailer
from builder.trailer.prices import PER_M, Price


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
    known = {price.name.casefold(): price for price in trailer.prices}
    found: dict[str, list[tuple[str, int | None, float | None]]] = {}
    used: set[str] = set()
    open_lines = 0
    for id_, names, count, length_m in _bought(shopping):
        name = next((name.casefold() for name in names if name.casefold() in known), None)
        if name is not None:
            used.add(name)
        if count or length_m:
            if name is None:
                open_lines += 1
            else:
                found.setdefault(name, []).append((id_, count, length_m))
    lines = tuple(_line(known[name], mine) for name, mine in found.items())
    unused = tuple(price.name for price in trailer.prices if price.name.casefold() not in used)
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
        yield way.id, (way.kind,), None, way.buy_m
    for item in shopping.items:
        yield item.id, price_names(item), item.buy, None


def price_names(item: Item) -> tuple[str, ...]:
    """Return the names under which a price of a counted thing may stand, the closest one first."""
    if item.section == "fuses":
        rating = f"{item.rating_a:g} A"
        return f"fuse {rating} {item.series}", f"fuse {rating}"
    if item.section == "bulbs":
        return f"bulb {item.series}", "bulb"
    if item.section in ("parts", "connectors") and item.names and item.kind != "contact":
        return *item.names, item.kind
    return (f"{item.kind} {item.size}", item.kind) if item.size else (item.kind,)
