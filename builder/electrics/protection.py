"""Fuses and switches: the rating a load asks for and the rating a wire allows.

Pure functions. Several published tables say how large a fuse may be for a wire, and they disagree; each is
a `Ceiling` with its own source, and the caller says which one judges.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from builder.electrics.conductors import awg_row
from builder.tables import Fact, Known, NoRow
from builder.tables.conductors import ampacity_column, awg_ampacity
from builder.tables.protection import (
    Device,
    aircraft_chart,
    device_share,
    fuse_series,
    rv_fuse,
    switch_factor,
)
from builder.tables.table import number_text
from builder.trailer.model import Trailer
from builder.trailer.size import Size

AIRCRAFT_CHART = "aircraft chart"
CONDUCTOR_AMPACITY = "conductor ampacity"
BOAT_RULE = "boat rule"
RV_TABLE = "rv table"

CHECK_AGAINST = (AIRCRAFT_CHART, CONDUCTOR_AMPACITY, BOAT_RULE, RV_TABLE)
"""The tables that a fuse can be checked against, the usual one first."""

SELECTIVE = 2.0
"""A main fuse of twice the largest fuse behind it lets that one open first, where the wire allows it.

Source: Electrical Installation Work p. 333 (quoted), mixed devices; no ratio is published for blade fuses.
"""


@dataclass(frozen=True, slots=True)
class Ceiling:
    """The largest fuse or breaker that one table allows for a wire, in ampere.

    ``against`` is the word of `CHECK_AGAINST` for that table, ``row`` the AWG row that was read.
    """

    amps: float
    source: str
    known: Known
    against: str
    row: Size


def next_standard_rating(min_a: float, series: str) -> float:
    """Return the smallest standard rating of a fuse series of at least so many ampere.

    Raises NoRow for an unknown series and where the series ends below. Source: trade list of ratings,
    blade series quoted, the larger ones from memory.
    """
    ratings = fuse_series(series)
    for rating in ratings:
        if rating.value >= min_a * (1 - 1e-9):  # a hair below is the noise of the arithmetic
            return rating.value
    raise NoRow(
        f"the {series} series ends at {number_text(ratings[-1].value)} A, "
        f"below the {number_text(min_a)} A that are needed"
    )


def fuse_min_rating(load_a: float, loading_factor: float = 0.8, ambient_factor: float = 1.0) -> float:
    """Return the least rating in ampere of a fuse that carries a load for hours.

    Load over the share of its rating that a fuse may carry, over the share left at its temperature. Raises
    ValueError where a factor is not above zero. Source: common practice (80 percent for steady loads).
    """
    if loading_factor <= 0 or ambient_factor <= 0:
        raise ValueError("a share of a fuse's rating is above zero")
    return load_a / (loading_factor * ambient_factor)


def fuse_rating_from_continuous_load(load_a: float, factor: float, series: str) -> float:
    """Return the next standard rating in ampere of at least ``factor`` times a continuous load in ampere.

    Raises NoRow for an unknown series and where it ends below, ValueError where the factor is not above
    zero. Source: common practice (factor 1.25).
    """
    if factor <= 0:
        raise ValueError("the factor on a load is above zero")
    return next_standard_rating(fuse_min_rating(load_a, 1 / factor), series)


def fuse_max_rating_by_conductor(conductor_a: float, rule: str = CONDUCTOR_AMPACITY) -> float:
    """Return the largest rating in ampere for a conductor of so many ampere.

    ``conductor ampacity``: not above it (NEC 552.10(E)(1), quoted). ``boat rule``: 150 percent of it
    (33 CFR 183.455(c)(1), read). Raises NoRow for another rule.
    """
    return conductor_a * device_share(rule).value


def max_ocp_33cfr(size: Size, insulation_c: float = 60) -> float:
    """Return the largest overcurrent device in ampere by the boat rule: 150 percent of the table's current.

    ``insulation_c`` in °C; between two columns the lower counts. Raises NoRow where the table has no row or
    column. Source: 33 CFR 183.455(c)(1) on 183.425 Table 5, read.
    """
    return fuse_max_rating_by_conductor(_table_5(size, insulation_c).value, BOAT_RULE)


def judged_against(trailer: Trailer) -> str:
    """Return the table that given fuses are judged by: the file's choice, else the aircraft chart."""
    return (trailer.front_box.check_against if trailer.front_box else "") or AIRCRAFT_CHART


def fuse_ceiling(
    size: Size, insulation_c: float = 60, check_against: str = AIRCRAFT_CHART, device: Device = "fuse"
) -> Ceiling:
    """Return the largest fuse or breaker for a wire by the table it is checked against.

    The usual one is the aircraft chart; an AWG size without a row there goes by 33 CFR 183.425 Table 5 at
    the insulation's column (``insulation_c`` in °C), a metric size by the row of the largest AWG size not
    above its area. Raises NoRow for an unknown ``check_against`` and where the table has no row. Source:
    FAA AC 43.13-1B Table 11-3, read; the others in their rows.
    """
    if check_against != AIRCRAFT_CHART:
        return _ceiling_by(check_against, size, insulation_c, device)
    try:
        return _ceiling_by(AIRCRAFT_CHART, size, insulation_c, device)
    except NoRow:
        return _ceiling_by(CONDUCTOR_AMPACITY, size, insulation_c, device)


def fuse_ceilings(size: Size, insulation_c: float = 60, device: Device = "fuse") -> tuple[Ceiling, ...]:
    """Return the ceilings of every table that has a row for the wire, in the order of `CHECK_AGAINST`.

    ``insulation_c`` in °C. Empty where no table has a row. Source: in each ceiling; the rv table is from
    memory.
    """
    found = []
    for against in CHECK_AGAINST:
        try:
            found.append(_ceiling_by(against, size, insulation_c, device))
        except NoRow:
            continue
    return tuple(found)


def lowest_ceiling(size: Size, insulation_c: float = 60, device: Device = "fuse") -> Ceiling:
    """Return the lowest of all ceilings known, those from memory included: what a choice must stay below.

    Where two agree it is the one that stands first in `CHECK_AGAINST`. ``insulation_c`` in °C. Raises NoRow
    where no table has a row.
    """
    ceilings = fuse_ceilings(size, insulation_c, device)
    if not ceilings:
        raise NoRow(f"no table says how large a {device} may be for {size}")
    return min(ceilings, key=lambda ceiling: ceiling.amps)


def switch_min_rating(load_a: float, load_kind: str, system_v: float = 12) -> float:
    """Return the least rating in ampere of a switch for a load.

    ``load_kind`` is ``lamp`` (filament), ``inductive``, ``motor`` or ``resistive``. Raises NoRow for another
    kind or system voltage. Source: FAA AC 43.13-1B Table 11-4 note 1, read.
    """
    return load_a * switch_factor(load_kind, system_v).value


def _table_5(size: Size, insulation_c: float) -> Fact:
    """Read the current of a wire from 33 CFR 183.425 Table 5, without factors."""
    return awg_ampacity(awg_row(size).value, ampacity_column(insulation_c))


def _boat_rule(size: Size, insulation_c: float) -> Fact:
    """Read Table 5 and raise it by the boat rule; the source names both clauses."""
    share = device_share(BOAT_RULE)
    source = f"{_table_5(size, insulation_c).source}, times {number_text(share.value)} by {share.source}"
    return Fact(max_ocp_33cfr(size, insulation_c), "A", source, share.known)


def _strict_rule(size: Size, insulation_c: float) -> Fact:
    """Read Table 5 as the limit itself."""
    table = _table_5(size, insulation_c)
    return replace(table, value=fuse_max_rating_by_conductor(table.value))


def _ceiling_by(against: str, size: Size, insulation_c: float, device: Device) -> Ceiling:
    row = awg_row(size)
    readers: dict[str, Callable[[], Fact]] = {
        AIRCRAFT_CHART: lambda: aircraft_chart(row.value, device),
        CONDUCTOR_AMPACITY: lambda: _strict_rule(row, insulation_c),
        BOAT_RULE: lambda: _boat_rule(row, insulation_c),
        RV_TABLE: lambda: rv_fuse(row.value),
    }
    if against not in readers:
        raise NoRow(f"a fuse cannot be checked against “{against}”; known are {', '.join(CHECK_AGAINST)}")
    fact = readers[against]()
    return Ceiling(fact.value, fact.source, fact.known, against, row)
