"""Amounts of money as they are written, each with its currency."""

from __future__ import annotations

import re
from typing import Annotated

from builder.buildfile.value_reading import quantity, schema_of
from builder.buildfile.written import Written
from builder.quantities import Misread
from builder.trailer.prices import Amount

_AMOUNT = re.compile(r"(\d+(?:\.\d+)?) *([A-Za-z]{3})(?: +per +(ft|m))?")
_LOOSE = re.compile(
    r"(?P<sign>-?) *(?P<before>[£€$]|[A-Za-z]{3}\b)? *(?P<below>-?)(?P<amount>\d+(?:\.\d+)?)"
    r" *(?P<behind>[£€$]|[A-Za-z]{3}|p)?"
    r"(?: *(?:per|/|a) *(?P<of>\d+(?:\.\d+)?)? *(?P<per>ft|m|foot|feet|metres?|meters?))?"
)
_SIGNS = {"£": "GBP", "€": "EUR", "$": "USD"}
_WANTED = "a price such as 4.50 USD, or 0.35 USD per ft"
_LONGEST = 12
"""Figures of an amount: more than that nobody pays for a part."""
_SAID = {"ft": "one foot", "m": "one metre"}


def read_amount(text: str) -> Amount | Misread:
    """Read an amount of money with its currency: ``4.50 USD``, ``0.35 USD per ft``."""
    said = text.strip()
    found = _AMOUNT.fullmatch(said)
    if found is not None and len(found[1]) <= _LONGEST:
        return Amount(float(found[1]), found[2].upper(), found[3] or "")
    why, help_, *fixes = _why(said)
    return Misread(0, max(len(text), 1), f"“{text}” {why}", help_, tuple(fixes))


def _why(said: str) -> tuple[str, ...]:
    """Return why a text is no price, the way out, and what may be meant, where that can be told."""
    loose = _LOOSE.fullmatch(said)
    if loose is None:
        return "is no price", f"write {_WANTED}"
    if loose["sign"] or loose["below"]:
        return "is below zero", f"write what it costs, {_WANTED}"
    if len(loose["amount"]) > _LONGEST:
        return "is more than anything on the list costs", f"write {_WANTED}"
    mark = loose["behind"] or loose["before"] or ""
    if not mark:
        return (
            "has no currency",
            f"write three letters for it behind the amount, such as {loose['amount']} USD",
        )
    return _meant(loose, mark)


def _meant(loose: re.Match[str], mark: str) -> tuple[str, ...]:
    """Return what may be meant by an amount with a sign, in pence, for several metres, or in another order."""
    amount, of = float(loose["amount"]), float(loose["of"] or 1)
    unit = {"f": "ft", "m": "m"}.get((loose["per"] or "")[:1], "")
    currency = "GBP" if mark == "p" else _SIGNS.get(mark, mark.upper())
    one = f"{amount / (100 if mark == 'p' else 1) / (of or 1):.6g}"
    meant = f"{loose['amount'] if float(one) == amount else one} {currency}" + (
        f" per {unit}" if unit else ""
    )
    if loose["of"]:
        return f"is the price of {loose['of']} {unit}", f"write that of {_SAID[unit]}: {meant}", meant
    if mark in _SIGNS or mark == "p":
        return "has no currency in three letters", f"write {currency} instead of {mark}: {meant}", meant
    return "is no price", f"write {meant}", meant


AmountText = Annotated[
    Written[Amount], quantity(read_amount, _WANTED), schema_of("a price", "4.50 USD", "0.35 USD per ft")
]
