"""How a page tells of what lies in bays that were closed: on which date, and on which photos it can be seen."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from builder.trailer.bays import ClosedBay


def closed_told(bays: Iterable[ClosedBay]) -> dict[str, Any]:
    """Return the dates and photos of closed bays, each once and in words; nothing where there is no such bay."""
    held = list(bays)
    if not held:
        return {}
    dates = dict.fromkeys(bay.date for bay in held if bay.date)
    photos = dict.fromkeys(bay.photo for bay in held if bay.photo)
    return {"date": ", ".join(dates), "photos": ", ".join(photos)}
