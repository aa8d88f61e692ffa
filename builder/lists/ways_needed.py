"""What is bought by length besides wire: conduit by bore, channel by width, pull string, steel plate over grooves."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from builder.electrics.figures import Figures
from builder.lists.cut_list import rounded_up_m
from builder.lists.cutting import cut_from
from builder.lists.plates import plate_size, plated_along
from builder.lists.pull_plan import PullPlan, drawn_through, longest_to_draw
from builder.routes.fill import up_to_a_mark
from builder.routes.network import lengths_of
from builder.trailer.assumed import assumption
from builder.trailer.model import Trailer
from builder.trailer.places import Chase, ChaseKind
from builder.trailer.prices import FLAT_STEEL, PULL_STRING, in_mm

SAME_BORE_M = 0.0001
"""Bores that are no further apart are one: finer than a rule."""
_SOLD = (ChaseKind.CONDUIT, ChaseKind.CHANNEL)


@dataclass(frozen=True, slots=True)
class WayItem:
    """Conduit of one bore, channel of one width, pull string, or flat steel of one thickness, lengths in metres.

    ``bore_m`` is None where it says nothing, ``size`` is how thick a strip is. ``wide_m`` is the least width inside a
    channel, and ``deep_m`` the least depth where its chases ask for most; of a strip ``wide_m`` is the least width
    where its chases ask for most. None where not known.
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
    size: str = ""
    wide_m: float | None = None
    deep_m: float | None = None

    @property
    def section(self) -> str:
        """The section of the list that it stands in."""
        return "by length" if self.kind in (PULL_STRING, FLAT_STEEL) else "conduit"


def way_items(trailer: Trailer, figures: Figures) -> tuple[WayItem, ...]:
    """Return conduit by bore, then channel by the least width inside that the wires of its chases ask for.

    What carries mains is left out. A channel whose width is not known, or that is empty, stands last. Each chase is
    cut from one piece, from place to place in straight lines: what it is made of is then cut from that (common
    practice).
    """
    found: dict[tuple[ChaseKind, float | None], list[Chase]] = {}
    for chase in trailer.geometry.chases.values():
        if chase.kind is ChaseKind.CONDUIT and chase.takes_wires:
            found.setdefault((chase.kind, _bore(chase.bore_m, found)), []).append(chase)
        elif chase.kind is ChaseKind.CHANNEL and chase.takes_wires:
            found.setdefault((chase.kind, _width(trailer, figures, chase)), []).append(chase)
    order = sorted(found, key=lambda key: (_SOLD.index(key[0]), -(key[1] or 0.0)))
    items = (_item(trailer, kind, wide_m, found[kind, wide_m]) for kind, wide_m in order)
    return tuple(
        replace(item, deep_m=_most(trailer, figures, item, "deep_m"))
        if item.kind == ChaseKind.CHANNEL.value
        else item
        for item in items
    )


def _width(trailer: Trailer, figures: Figures, chase: Chase) -> float | None:
    """Return the least width inside a channel, rounded up; None where it is not known, or without wires."""
    told = (one.wide_m for one in figures.laid.grooves if one.chase == chase.name)
    wide_m = next(told, None)
    return None if wide_m is None else round(up_to_a_mark(wide_m, trailer.identity.units), 6)


def _most(
    trailer: Trailer, figures: Figures, item: WayItem, what: Literal["deep_m", "plate_m"]
) -> float | None:
    """Return the greatest of a measure of an item's chases, rounded up; None where one of them does not tell it.

    A channel without wires asks for nothing.
    """
    held = {stretch.chase for stretch in figures.runs.inside}
    told = {one.chase: getattr(one, what) for one in figures.laid.grooves}
    measures_m = [told.get(name) for name in item.names if name in held]
    known_m = [measure_m for measure_m in measures_m if measure_m is not None]
    if not known_m or len(known_m) < len(measures_m):
        return None
    return up_to_a_mark(max(known_m), trailer.identity.units)


def _bore(bore_m: float | None, found: dict[tuple[ChaseKind, float | None], list[Chase]]) -> float | None:
    """Return a bore as it was met first."""
    if bore_m is None:
        return None
    met = (one for _, one in found if one is not None and abs(one - bore_m) <= SAME_BORE_M)
    return next(met, bore_m)


def _item(trailer: Trailer, kind: ChaseKind, wide_m: float | None, chases: list[Chase]) -> WayItem:
    """Return what some chases of a kind take that are as wide inside: a conduit's bore, a channel's width."""
    bore_m = wide_m if kind is ChaseKind.CONDUIT else None
    cuts = [_long_m(trailer, chase) for chase in chases]
    there = [
        one.length_m
        for one in trailer.stock.conduit
        if bore_m is not None and abs(one.bore_m - bore_m) <= SAME_BORE_M
    ]
    places = cut_from(there, cuts)
    stock_m = sum(cut for cut, place in zip(cuts, places, strict=True) if place is not None)
    bought_m = sum(cut for cut, place in zip(cuts, places, strict=True) if place is None)
    return WayItem(
        id=f"{kind.value} {in_mm(wide_m)}" if wide_m is not None else kind.value,
        kind=kind.value,
        bore_m=bore_m,
        used_m=sum(cuts),
        stock_m=stock_m,
        buy_m=rounded_up_m(bought_m, trailer.identity.units),
        names=tuple(chase.name for chase in chases),
        wide_m=None if kind is ChaseKind.CONDUIT else wide_m,
    )


def string_items(trailer: Trailer, plan: PullPlan) -> tuple[WayItem, ...]:
    """Return the pull string: one that stays in each conduit and each chase with a string, and one to draw by.

    The one to draw by is as long as the longest pull that is still to be drawn, see `longest_to_draw`. At each of its
    ends a string has the tail of a wire to be held by. Common practice. Where no chase keeps a string, wires are laid
    in or drawn by whatever is at hand.
    """
    chases = [one for one in trailer.geometry.chases.values() if drawn_through(one) and one.takes_wires]
    if not chases:
        return ()
    tails_m = 2 * assumption(trailer, "tail at each end").value
    stay_m = sum(_long_m(trailer, chase) + tails_m for chase in chases)
    longest = longest_to_draw(trailer, plan)
    used_m = stay_m + (longest.way_m + tails_m if longest is not None else 0.0)
    buy_m = rounded_up_m(used_m, trailer.identity.units)
    names = tuple(chase.name for chase in chases)
    return (WayItem(PULL_STRING, PULL_STRING, None, used_m, 0.0, buy_m, names),)


def strip_items(trailer: Trailer, figures: Figures) -> tuple[WayItem, ...]:
    """Return the steel plates over wires that lie in no bored holes: as long as their chases, by thickness."""
    found: dict[str, list[Chase]] = {}
    for chase in plated_along(trailer.geometry, figures.runs):
        found.setdefault(plate_size(chase.plate_m, trailer.identity.units), []).append(chase)
    strips = (_strip(trailer, size, chases) for size, chases in sorted(found.items()))
    return tuple(replace(item, wide_m=_most(trailer, figures, item, "plate_m")) for item in strips)


def _strip(trailer: Trailer, size: str, chases: list[Chase]) -> WayItem:
    used_m = sum(_long_m(trailer, chase) for chase in chases)
    return WayItem(
        id=f"{FLAT_STEEL} {size}",
        kind=FLAT_STEEL,
        bore_m=None,
        used_m=used_m,
        stock_m=0.0,
        buy_m=rounded_up_m(used_m, trailer.identity.units),
        names=tuple(chase.name for chase in chases),
        size=size,
    )


def _long_m(trailer: Trailer, chase: Chase) -> float:
    return sum(length_m for _, _, length_m in lengths_of(trailer.geometry, chase))
