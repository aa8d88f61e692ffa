"""Prices, resolved: each is of something that a shopping list can have, all are in one currency."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from builder.buildfile.declared import BuildWords
from builder.buildfile.price_keys import PriceName, nearest_names, parts_by_name, price_named, size_meant
from builder.buildfile.problems import BLANK, Problem, instead, leave_out
from builder.buildfile.resolving_headings import country_of
from builder.buildfile.suggesting import did_you_mean, sure_of
from builder.buildfile.written import Key, Written, fold
from builder.trailer.model import Reflector
from builder.trailer.prices import Amount, Price

_HELP = "write a name of the shopping list, such as red 16 AWG, ring 16 AWG, fuse 5 A or clip, or a part's own name"
Named = Sequence[tuple[Key, Written[Amount], PriceName]]


_CURRENCIES = {
    "US": "USD", "CA": "CAD", "GB": "GBP", "CH": "CHF", "SE": "SEK", "NO": "NOK", "DK": "DKK", "PL": "PLN",
    "CZ": "CZK", "AU": "AUD", "NZ": "NZD", "other": "",
}  # fmt: skip
"""Currencies by country (ISO 4217, from memory); the others that a build can name have the euro."""


def currency_of(build: BuildWords | None, amounts: Iterable[Written[Amount]]) -> str:
    """Return the currency for examples: that of the first price that can be read, else that of the build's country."""
    first = next((amount.value.currency for amount in amounts), None)
    return first if first is not None else _CURRENCIES.get(country_of(build), "EUR")


def resolve_prices(
    prices: Mapping[Key, Written[Amount]],
    parts: Iterable[str],
    pairs: Iterable[str],
    reflectors: Iterable[Reflector],
) -> tuple[tuple[Price, ...], list[Problem]]:
    """Return every price, and the problems of those that are of nothing, of one thing twice, or not fit for it.

    Args:
        prices: the amounts by their names, as written.
        parts: names of all parts that can be bought, those of the options too.
        pairs: names of pairs of road lamps.
        reflectors: those of the build; they are bought by form and colour.

    """
    light = {fold(one.name): one for one in reflectors}
    known = parts_by_name((name for name in parts if fold(name) not in light), pairs)
    named = [
        (key, amount, name) for key, amount in prices.items() for name in (price_named(key, known),) if name
    ]
    told = {str(key) for key, _, _ in named}
    unknown = [_unknown(key, known, light) for key in prices if str(key) not in told]
    found = tuple(Price(name.shown, amount.value, key.origin, name.keys) for key, amount, name in named)
    return found, [*unknown, *_twice(named), *_of_two_currencies(prices), *_without_a_length(named)]


def _unknown(key: Key, known: Mapping[str, tuple[str, ...]], light: Mapping[str, Reflector]) -> Problem:
    one = light.get(fold(key))
    if one is not None:
        form = "triangle reflector" if one.triangle else "reflector"
        near: tuple[str, ...] = (f"{form} {one.color}".strip(),)
        help_ = f"reflectors are bought by form and colour: write {near[0]}"
    else:
        near = nearest_names(key, known)
        help_ = did_you_mean(near) or size_meant(key) or _HELP
    return Problem(
        key.origin,
        "price of nothing known",
        f"“{key}” has a price, and nothing on the shopping list goes by that name",
        help_,
        mends=instead(*near, sure=_all_letters(key) and sure_of(key, near)) or leave_out(key.origin),
    )


def _all_letters(key: Key) -> bool:
    """Tell whether a name holds no figure: what holds one is never written unasked."""
    return not any(letter.isdigit() for letter in key)


def _twice(named: Named) -> Iterator[Problem]:
    first: dict[tuple[str, ...], Key] = {}
    for key, _, name in named:
        other = first.get(name.keys)
        first.setdefault(name.keys, key)
        if other is not None:
            yield Problem(
                key.origin,
                "name written twice",
                f"“{key}” has a price of its own, and is the same as “{other}”",
                "keep one of the two",
                other.origin,
                mends=leave_out(key.origin),
            )


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


def _without_a_length(named: Named) -> Iterator[Problem]:
    for key, amount, name in named:
        value = amount.value
        told = f"{amount.text.strip()} per "
        if name.by_length and not value.per:
            yield Problem(
                amount.origin,
                "price that does not fit",
                f"“{key}” is sold by length, and its price does not say of which length it is",
                f"write {told}ft, or {told}m, where that is the price of one foot or one metre",
                mends=instead(f"{told}ft", f"{told}m"),
            )
        elif value.per and not name.by_length:
            yield Problem(
                amount.origin,
                "price that does not fit",
                f"“{key}” is counted, and its price is for a length",
                "write the price of one",
                mends=instead(BLANK),
            )
