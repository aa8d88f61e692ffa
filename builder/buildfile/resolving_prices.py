"""Prices, resolved: one currency for all, and a length for what is sold by it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from pydantic_core import PydanticCustomError

from builder.buildfile.problems import BLANK, Problem, instead
from builder.buildfile.stock_keys import PAIR, fuse_named, wire_named
from builder.buildfile.written import Key, Written
from builder.trailer.color import Color
from builder.trailer.places import ChaseKind
from builder.trailer.prices import FLAT_STEEL, PULL_STRING, Amount, Price
from builder.trailer.size import Size

_BY_LENGTH = (ChaseKind.CONDUIT.value, ChaseKind.CHANNEL.value, PULL_STRING, FLAT_STEEL)


def resolve_prices(prices: Mapping[Key, Written[Amount]]) -> tuple[tuple[Price, ...], list[Problem]]:
    """Return every price, and the problems of those in a second currency, or without the length that they are for."""
    found = tuple(Price(_name(key), amount.value, key.origin) for key, amount in prices.items())
    return found, [*_of_two_currencies(prices), *_without_a_length(prices)]


def _of_two_currencies(prices: Mapping[Key, Written[Amount]]) -> Iterator[Problem]:
    first: tuple[Key, str] | None = None
    for key, amount in prices.items():
        currency = amount.value.currency
        first = first or (key, currency)
        if currency != first[1]:
            yield Problem(
                amount.origin,
                "two currencies",
                f"“{key}” has a price in {currency}, and “{first[0]}” has one in {first[1]}",
                f"write all prices in one currency, {first[1]} or {currency}: nothing is exchanged here",
                mends=instead(BLANK),
            )


def _without_a_length(prices: Mapping[Key, Written[Amount]]) -> Iterator[Problem]:
    for key, amount in prices.items():
        by_length = _is_by_length(key)
        value = amount.value
        told = f"{amount.text.strip()} per "
        if by_length and not value.per:
            yield Problem(
                amount.origin,
                "price that does not fit",
                f"“{key}” is sold by length, and its price does not say of which length it is",
                f"write {told}ft, or {told}m",
                mends=instead(f"{told}ft", f"{told}m"),
            )
        elif value.per and not by_length:
            yield Problem(
                amount.origin,
                "price that does not fit",
                f"“{key}” is counted, and its price is for a length",
                "write the price of one",
                mends=instead(BLANK),
            )


def _is_by_length(key: Key) -> bool:
    """Tell whether a name is one of wire, by colour and size, or of what else is sold by length."""
    return key.casefold() in _BY_LENGTH or _wire(key) is not None


def _name(key: Key) -> str:
    """Return what a price is of as the shopping list has it, however size and rating are written."""
    wire = _wire(key)
    if wire is not None:
        color, size = wire
        return f"{color or PAIR} {size}"
    first, _, rest = key.partition(" ")
    if first.casefold() == "fuse":
        try:
            rating_a, series = fuse_named(Key.of(rest.strip(), key.origin))
        except PydanticCustomError:
            return str(key)
        return f"fuse {rating_a:g} A {series}".rstrip()
    return str(key)


def _wire(key: Key) -> tuple[Color | None, Size] | None:
    try:
        return wire_named(key)
    except PydanticCustomError:
        return None
