"""What every entry of the record is made of."""

from __future__ import annotations

Json = dict[str, object]
"""One object of the record."""


def without_none(items: Json) -> Json:
    """Return an entry without what is not known or empty."""
    return {key: value for key, value in items.items() if value is not None and value != ""}
