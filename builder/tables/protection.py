"""Fuses, breakers and switches: standard ratings, colours, largest ratings by wire size, distances."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from builder.tables.table import Fact, Known, NoRow, Row, load_table, number_text

Device = Literal["fuse", "breaker"]


@dataclass(frozen=True, slots=True)
class FuseColour:
    """The colour of a blade fuse: its usual word, other words for it, and how it is known."""

    word: str
    also_called: str
    source: str
    known: Known


@cache
def aircraft_chart(gauge: str, device: Device = "fuse") -> Fact:
    """Return the largest fuse or breaker for a copper wire, in ampere: the chart a fuse is judged by.

    Raises `NoRow` where the chart has no figure for the size. Source: FAA AC 43.13-1B Table 11-3, read.
    """
    table = load_table("aircraft_chart")
    row = table.find(f"{gauge} AWG", gauge=gauge)
    if not row.cells[f"{device}_a"]:
        raise NoRow(f"{table.source} has no {device} for {gauge} AWG")
    return row.fact(f"{device}_a", "A")


@cache
def rv_fuse(gauge: str) -> Fact:
    """Return the largest overcurrent device of the recreational-vehicle table, in ampere.

    Raises `NoRow` outside 18 to 10 AWG. Source: NEC 551.10(E)(1) of older editions, from memory: it may
    make a choice more cautious, never allow one.
    """
    return load_table("rv_fuses").find(f"{gauge} AWG", gauge=gauge).fact("max_a", "A")


@cache
def device_share(rule: str) -> Fact:
    """Return how far a device may exceed the conductor's current, as a share of that current.

    ``rule`` is ``boat rule`` (33 CFR 183.455(c)(1), read) or ``conductor ampacity`` (NEC 552.10(E)(1),
    quoted). Raises `NoRow` for another.
    """
    return load_table("device_rules").find(rule, rule=rule).fact("share", "1")


def device_distance(rule: str, case: str, *, sheathed: bool) -> Fact:
    """Return how far from the source the overcurrent device may stand, in inches along the conductor.

    ``rule`` is ``33 CFR``, ``ABYC`` or ``NEC``; the cases stand in ``device_distances.csv``. Raises `NoRow`
    where there is none. Source: in the row; one row from memory.
    """
    cover = "yes" if sheathed else "no"
    asked = f"{case}, {'sheathed' if sheathed else 'not sheathed'} ({rule})"
    row = load_table("device_distances").find(asked, rule=rule, case=case, sheathed=cover)
    return row.fact("limit_in", "in")


def switch_factor(load: str, system_v: float = 12) -> Fact:
    """Return the rating a switch needs over the current of its load.

    ``load`` is ``lamp`` (filament), ``inductive``, ``motor`` or ``resistive``. Raises `NoRow` for another
    load or system voltage. Source: FAA AC 43.13-1B Table 11-4, read.
    """
    volts = number_text(system_v)
    row = load_table("switch_factors").find(f"{load} at {volts} V", load=load, system_v=volts)
    return row.fact("factor", "1")


def fuse_series_names() -> tuple[str, ...]:
    """Return the names of the series of fuses, such as ``blade regular``."""
    return tuple(dict.fromkeys(row.cells["series"] for row in load_table("fuse_series").rows))


def fuse_series(series: str) -> tuple[Fact, ...]:
    """Return the standard ratings of a series of fuses in ampere, smallest first.

    Raises `NoRow` for a series that is not in `fuse_series_names`. Source: trade list, blade series
    quoted, the larger ones from memory.
    """
    ratings = tuple(row.fact("rating_a", "A") for row in _series_rows(series))
    if not ratings:
        raise NoRow(f"no fuse series is called {series}; known are {', '.join(fuse_series_names())}")
    return ratings


def fuse_colour(series: str, rating_a: float) -> FuseColour:
    """Return the colour of a blade fuse of this series and rating in ampere.

    A description of what the reader sees, beside the printed rating; it never stands for the rating.
    Raises `NoRow` where no colour is known. Source: ISO 8820-3 and SAE J1284, from memory.
    """
    rating = number_text(rating_a)
    row = load_table("fuse_colours").find(f"{series} {rating} A", format=series, rating_a=rating)
    return FuseColour(row.cells["colour"], row.cells["also_called"], row.source, row.known)


def plug_fuse_limit(pattern: str, contact: int) -> Fact:
    """Return the largest fuse before a supply contact of a tow plug, in ampere.

    Raises `NoRow` where no limit is known. Source: connector maker's glossary, quoted.
    """
    row = load_table("plug_fuse_limits").find(
        f"contact {contact} of the {pattern}", pattern=pattern, contact=str(contact)
    )
    return row.fact("max_a", "A")


def _series_rows(series: str) -> tuple[Row, ...]:
    return tuple(row for row in load_table("fuse_series").rows if row.cells["series"] == series)
