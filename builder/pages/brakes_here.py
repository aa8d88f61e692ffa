"""What the pages on towing and on care say of electric brakes and their breakaway: only what the build has."""

from __future__ import annotations

from dataclasses import dataclass

from builder.pages.view import View
from builder.pages.wiring import known_where
from builder.trailer.model import Trailer
from builder.trailer.parts import BRAKE_MAGNET, BREAKAWAY_BATTERY, BREAKAWAY_SWITCH


@dataclass(frozen=True, slots=True)
class BrakesHere:
    """Electric brakes of a build for a template; names and places are empty where the file has none.

    ``breakaway`` tells that the file names a breakaway, as parts or by its battery alone; ``magnets`` are the names
    of the brakes that are wired; ``needed`` and ``hold`` are figures: ampere-hours, and the minutes they are for.
    ``done_by`` is who fitted them, as the file has it.
    """

    magnets: tuple[str, ...]
    breakaway: bool
    switch: str
    switch_where: str
    battery: str
    battery_where: str
    needed: object
    hold: object
    done_by: str


def brakes_here(view: View) -> BrakesHere | None:
    """Return what a template tells of electric brakes; None where the build has none."""
    trailer, found = view.trailer, view.figures.brakes
    if found is None or trailer.brakes is None:
        return None
    switch, battery = _first(trailer, BREAKAWAY_SWITCH), _first(trailer, BREAKAWAY_BATTERY)
    given = trailer.brakes.breakaway_ah is not None
    where = known_where(trailer, battery) if battery else trailer.brakes.where
    return BrakesHere(
        magnets=tuple(part.name for part in trailer.parts.values() if part.kind == BRAKE_MAGNET),
        breakaway=bool(switch or battery or given),
        switch=switch,
        switch_where=known_where(trailer, switch) if switch else "",
        battery=battery,
        battery_where=where,
        needed=view.fig("brakes/needed_ah", "Ah"),
        hold=view.fig("brakes/hold_min", "min"),
        done_by=trailer.brakes.done_by,
    )


def _first(trailer: Trailer, kind: str) -> str:
    return next((part.name for part in trailer.parts.values() if part.kind == kind), "")
