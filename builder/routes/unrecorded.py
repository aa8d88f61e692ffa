"""What may run in a bay though nobody recorded its way: what a panel has behind it in words, and a cable of mains."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.routes.vectors import Vector
from builder.trailer.mains import has_mains
from builder.trailer.model import Trailer
from builder.trailer.parts import SHORE_CONVERTER
from builder.trailer.places import Panel

_LICENSED = ("mains", "cable", "outlet", "shore", "volt", "230 v", "120 v", "240 v", "inverter", "gas")
"""Words of a maker by which what runs there is for a licensed person to look at (common practice)."""
_HAIR_M = 0.001
Piece = tuple[Vector, Vector]


@dataclass(frozen=True, slots=True)
class Unrecorded:
    """What may run in a bay without a way on record: behind a panel, or to a part of mains, by its ``name``.

    ``what`` are the maker's words for it; empty where he says nothing of it and the trailer has mains. ``licensed``
    tells that a licensed person looks at it, ``panel`` that the name is a panel's.
    """

    name: str
    what: str
    licensed: bool
    panel: bool


def unrecorded(trailer: Trailer) -> Iterator[tuple[Unrecorded, tuple[Piece, ...]]]:
    """Yield all that is left unrecorded, with the pieces that show in which bays it is: a panel's edges, or a place."""
    places = trailer.geometry.places
    converters = [name for name, part in trailer.parts.items() if part.kind == SHORE_CONVERTER]
    mains = has_mains(trailer)
    for panel in trailer.geometry.panels.values():
        one = _behind(panel, mains=mains)
        if one is not None:
            corners = [places[name].point_m for name in panel.corners]
            yield one, tuple(zip(corners, (*corners[1:], corners[0]), strict=True))
    led_to = {
        places[name].point_m
        for chase in trailer.geometry.chases.values()
        if chase.holds_mains
        for name in chase.through
    }
    for name in converters:
        stand = trailer.geometry.stands.get(name)
        if stand is not None and places[stand.place].point_m not in led_to:
            back, right, up = places[stand.place].point_m
            yield Unrecorded(name, "", True, False), (((back, right, up), (back + _HAIR_M, right, up)),)


def _behind(panel: Panel, *, mains: bool) -> Unrecorded | None:
    if panel.also_behind:
        said = panel.also_behind.casefold()
        return Unrecorded(panel.name, panel.also_behind, any(word in said for word in _LICENSED), True)
    return Unrecorded(panel.name, "", True, True) if panel.also_behind is None and mains else None
