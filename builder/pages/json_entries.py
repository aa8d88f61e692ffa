"""What every entry of the record is made of."""

from __future__ import annotations

from builder.trailer.parts import Terminal

Json = dict[str, object]
"""One object of the record."""


def without_none(items: Json) -> Json:
    """Return an entry without what is not known or empty."""
    return {key: value for key, value in items.items() if value is not None and value != ""}


def without_empty(items: Json) -> Json:
    """Return an entry without what is not known or empty, lists of nothing included."""
    return {key: value for key, value in without_none(items).items() if value != []}


def terminal_entry(at: Terminal) -> Json:
    """Return where a conductor lands."""
    return {"part": at.part, "terminal": at.pin}
