"""The fuse of a circuit: chosen from the load, the start and the thinnest wire, or the given one judged."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.electrics.figures import FuseFigures
from builder.electrics.groups import Basis
from builder.electrics.protection import (
    fuse_ceiling,
    fuse_min_rating,
    judged_against,
    lowest_ceiling,
    next_standard_rating,
)
from builder.tables.protection import Device, fuse_colour, fuse_series
from builder.tables.table import NoRow
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import Trailer
from builder.trailer.origin import Origin
from builder.trailer.parts import Terminal
from builder.trailer.size import Size

MAIN_SERIES = ("blade regular", "blade maxi")
"""The battery's main fuse: a regular blade fuse while one is big enough, a maxi above."""


@dataclass(frozen=True, slots=True)
class FuseSpot:
    """Where a fuse or breaker stands: a way of the front box, or a part in a path.

    ``terminal`` is the one behind it, where what it protects begins.
    """

    name: str
    circuit: Circuit
    way: int | None
    device: Device
    given_a: float | None
    origin: Origin | None
    terminal: Terminal


def fuse_spots(trailer: Trailer) -> tuple[FuseSpot, ...]:
    """Return every fuse and breaker, in the order of the circuits and along each path."""
    spots: list[FuseSpot] = []
    for circuit in trailer.circuits:
        if circuit.way is not None:
            spots.append(
                FuseSpot(
                    f"way {circuit.way}",
                    circuit,
                    circuit.way,
                    "fuse",
                    circuit.given_fuse_a,
                    circuit.fuse_origin,
                    circuit.start,
                )
            )
        for stop in circuit.stops:
            part = trailer.parts.get(stop.part)
            if part is None or part.kind not in ("fuse", "breaker"):
                continue
            first = stop.part == circuit.fuse_part
            given = part.rating_a or (circuit.given_fuse_a if first else None)
            origin = part.origin if part.rating_a else circuit.fuse_origin if first else None
            device: Device = "breaker" if part.kind == "breaker" else "fuse"
            spots.append(
                FuseSpot(part.name, circuit, None, device, given, origin, Terminal(part.name, "out"))
            )
    return tuple(spots)


def series_of(trailer: Trailer, spot: FuseSpot) -> tuple[str, ...]:
    """Return the fuse series to choose from at a spot: the front box's own, or blade fuses in a holder."""
    if spot.way is not None and trailer.front_box is not None:
        return (trailer.front_box.fuse_format,)
    return MAIN_SERIES if spot.circuit.kind is CircuitKind.BATTERY else ("blade regular",)


def choose_rating(
    trailer: Trailer, spot: FuseSpot, least_a: float, ceiling_a: float
) -> tuple[float, str] | None:
    """Return the smallest rating at hand of at least ``least_a`` within the ceiling, in amperes, with its series.

    The fuses on the shelf where the file names them, else the standard series; None when nothing fits.
    """
    box = trailer.front_box
    if spot.way is not None and box is not None and box.fuses_on_shelf_a:
        on_shelf = [rating for rating in box.fuses_on_shelf_a if rating >= least_a * (1 - 1e-9)]
        found = (min(on_shelf), box.fuse_format) if on_shelf else None
    else:
        found = _next_in(series_of(trailer, spot), least_a)
    return found if found is not None and found[0] <= ceiling_a else None


def _next_in(series: Sequence[str], least_a: float) -> tuple[float, str] | None:
    for name in series:
        try:
            return next_standard_rating(least_a, name), name
        except NoRow:
            continue
    return None


def least_rating(load_a: float, starting_a: float, basis: Basis, floor_a: float = 0.0) -> float:
    """Return the least rating in amperes: for the load over hours, above the start, and not below the floors.

    A start of a second or two may reach the rating itself: a blade fuse holds 110 % for hours and 135 % for at
    least 0.75 s (maker's time-current gates, quoted). Source: common practice.
    """
    return max(fuse_min_rating(load_a, basis.fuse_loading), starting_a, floor_a, basis.smallest_fuse_a)


def fuse_figures(
    trailer: Trailer,
    spot: FuseSpot,
    flow: tuple[float, float],
    thinnest: tuple[int, Size],
    basis: Basis,
    floor_a: float = 0.0,
    *,
    cautious: bool = True,
) -> FuseFigures:
    """Return the figures of one fuse.

    ``flow`` is the load current and the starting current in amperes; ``thinnest`` the index and size of the
    thinnest wire it protects; ``floor_a`` a least rating from elsewhere. A ``cautious`` choice stays below the
    lowest ceiling of all tables known, else below that of the table it is judged by: a fuse that this one allows
    is better than none.
    """
    index, size = thinnest
    judged = fuse_ceiling(size, basis.insulation_c, judged_against(trailer), spot.device)
    lowest = lowest_ceiling(size, basis.insulation_c, spot.device)
    load_a, starting_a = flow
    needed = max(fuse_min_rating(load_a, basis.fuse_loading), starting_a, floor_a)
    most_a = lowest.amps if cautious else judged.amps
    chosen = choose_rating(trailer, spot, least_rating(load_a, starting_a, basis, floor_a), most_a)
    rating = spot.given_a if spot.given_a is not None else chosen[0] if chosen else None
    series = chosen[1] if chosen and spot.given_a is None else _series_with(series_of(trailer, spot), rating)
    return FuseFigures(
        name=spot.name,
        circuit=spot.circuit.number,
        way=spot.way,
        device=spot.device,
        series=series,
        rating_a=rating,
        given=spot.given_a is not None,
        origin=spot.origin,
        load_a=load_a,
        starting_a=starting_a,
        needed_a=needed,
        thinnest=size,
        thinnest_wire=trailer.wires[index].number,
        ceiling_a=judged.amps,
        ceiling_source=judged.source,
        ceiling_known=judged.known,
        choice_ceiling_a=lowest.amps,
        choice_source=lowest.source,
        reason=_reason(spot, rating, load_a, starting_a, (basis, floor_a)),
        color=_color(series, rating) if spot.device == "fuse" else "",
    )


def _series_with(series: Sequence[str], rating: float | None) -> str:
    """Return the first series that has a rating, else the first of all."""
    for name in series:
        if rating in [fact.value for fact in fuse_series(name)]:
            return name
    return series[0]


def _color(series: str, rating: float | None) -> str:
    if rating is None:
        return ""
    try:
        return fuse_colour(series, rating).word
    except NoRow:
        return ""


def _reason(
    spot: FuseSpot, rating: float | None, load_a: float, starting_a: float, limits: tuple[Basis, float]
) -> str:
    """Return the word for what decided: given, none, smallest, start, main (the largest fuse behind it) or load."""
    if spot.given_a is not None:
        return "given"
    if rating is None:
        return "none"
    basis, floor_a = limits
    by_load = fuse_min_rating(load_a, basis.fuse_loading)
    by_word = {"load": by_load, "start": starting_a, "main": floor_a, "smallest": basis.smallest_fuse_a}
    return max(by_word, key=lambda word: by_word[word])
