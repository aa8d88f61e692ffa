"""Amounts of money as they are written, each with its currency."""

from __future__ import annotations

import re
from typing import Annotated

from builder.buildfile.value_reading import quantity, schema_of
from builder.buildfile.written import Written
from builder.quantities import Misread
from builder.trailer.prices import Amount

_AMOUNT = re.compile(r"(\d+(?:\.\d+)?) *([A-Za-z]{3})(?: +per +(ft|m))?")
_WANTED = "a price such as 4.50 USD, or 0.35 USD per ft"
_LONGEST = 12
"""Figures of an amount: more than that nobody pays for a part."""


def read_amount(text: str) -> Amount | Misread:
    """Read an amount of money with its currency: ``4.50 USD``, ``0.35 USD per ft``."""
    found = _AMOUNT.fullmatch(text.strip())
    if found is None or len(found[1]) > _LONGEST:
        return Misread(0, max(len(text), 1), f"“{text}” is no price", f"write {_WANTED}")
    return Amount(float(found[1]), found[2].upper(), found[3] or "")


AmountText = Annotated[
    Written[Amount], quantity(read_amount, _WANTED), schema_of("a price", "4.50 USD", "0.35 USD per ft")
]
