"""Whether there is mains in a trailer."""

from __future__ import annotations

from builder.trailer.model import Trailer
from builder.trailer.parts import SHORE_CONVERTER


def has_mains(trailer: Trailer) -> bool:
    """Tell whether the file names mains or a part that needs it."""
    return trailer.mains is not None or any(part.kind == SHORE_CONVERTER for part in trailer.parts.values())
