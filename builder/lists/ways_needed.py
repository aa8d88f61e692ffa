"""Conduit and channel by bore and length: what is built in, what is cut from stock, and what is bought."""

from __future__ import annotations

from dataclasses import dataclass

from builder.lists.cut_list import rounded_up_m
from builder.lists.cutting import cut_from
from builder.routes.network import lengths_of
from builder.trailer.model import Trailer
from builder.trailer.places import Chase, ChaseKind

SAME_BORE_M = 0.0001
"""Bores that are no further apart are one: finer than a rule."""
_SOLD = (ChaseKind.CONDUIT, ChaseKind.CHANNEL)


@dataclass(frozen=True, slots=True)
class WayItem:
    """Conduit of one bore, or channel, lengths in metres; ``bore_m`` is None where the file has none.

    ``used_m`` is built in, ``stock_m`` is cut from what is there, ``buy_m`` the rest, rounded up to whole feet or
    metres. ``names`` tells the chases.
    """

    id: str
    kind: str
    bore_m: float | None
    used_m: float
    stock_m: float
    buy_m: float
    names: tuple[str, ...]


def way_items(trailer: Trailer) -> tuple[WayItem, ...]:
    """Return conduit by bore, then channel; nothing where the file has neither. What carries mains is left out.

    Each chase is one piece, from place to place in straight lines: none is joined on its way (common practice).
    """
    found: dict[tuple[ChaseKind, float | None], list[Chase]] = {}
    for chase in trailer.geometry.chases.values():
        if chase.kind in _SOLD and chase.takes_wires:
            found.setdefault((chase.kind, _bore(chase.bore_m, found)), []).append(chase)
    order = sorted(found, key=lambda key: (_SOLD.index(key[0]), -(key[1] or 0.0)))
    return tuple(_item(trailer, kind, bore_m, found[kind, bore_m]) for kind, bore_m in order)


def _bore(bore_m: float | None, found: dict[tuple[ChaseKind, float | None], list[Chase]]) -> float | None:
    """Return a bore as it was met first."""
    if bore_m is None:
        return None
    met = (one for _, one in found if one is not None and abs(one - bore_m) <= SAME_BORE_M)
    return next(met, bore_m)


def _item(trailer: Trailer, kind: ChaseKind, bore_m: float | None, chases: list[Chase]) -> WayItem:
    cuts = [sum(length_m for _, _, length_m in lengths_of(trailer.geometry, chase)) for chase in chases]
    there = [
        one.length_m
        for one in trailer.stock.conduit
        if kind is ChaseKind.CONDUIT and bore_m is not None and abs(one.bore_m - bore_m) <= SAME_BORE_M
    ]
    places = cut_from(there, cuts)
    stock_m = sum(cut for cut, place in zip(cuts, places, strict=True) if place is not None)
    bought_m = sum(cut for cut, place in zip(cuts, places, strict=True) if place is None)
    bore = f" {bore_m * 1000:.1f} mm" if bore_m is not None else ""
    return WayItem(
        id=f"{kind.value}{bore}",
        kind=kind.value,
        bore_m=bore_m,
        used_m=sum(cuts),
        stock_m=stock_m,
        buy_m=rounded_up_m(bought_m, trailer.identity.units),
        names=tuple(chase.name for chase in chases),
    )
