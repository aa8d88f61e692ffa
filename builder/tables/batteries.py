"""What batteries of a kind have in common: voltage at rest, cold, frost, chargers, time in store."""

from __future__ import annotations

from itertools import pairwise

from builder.tables.table import Fact, NoRow, Row, load_table

FLOODED, AGM, LEAD_ACID, LITHIUM = "flooded", "agm", "lead acid", "lithium"


def rest_voltage(chemistry: str, percent: float) -> Fact:
    """Return the voltage at rest of a 12 V battery that is so full in percent.

    ``chemistry`` is flooded or agm (there the lower edge of the band). Between two rows it is a straight line.
    Raises `NoRow` for another chemistry and outside the table. Source: in the row; quoted and read.
    """
    return _between(f"{chemistry} at {percent:g} %", _of(chemistry, "battery_rest_volts"), percent, "volts")


def full_by_rest_voltage(chemistry: str, volts: float) -> Fact:
    """Return how full in percent a 12 V battery is that rests at a voltage: the table read backwards.

    Raises `NoRow` as `rest_voltage` does.
    """
    rows = _of(chemistry, "battery_rest_volts")
    return _between(f"{chemistry} at {volts:g} V", rows, volts, "percent", by="volts")


def capacity_percent(chemistry: str, temperature_c: float) -> Fact:
    """Return the share of its capacity that a battery gives at a temperature in °C, in percent of that at 25 °C.

    ``chemistry`` is agm, lead acid or lithium. Between two rows it is a straight line. Raises `NoRow` for another
    chemistry and outside the table. Source: makers' sheets in the rows, read.
    """
    rows = _of(chemistry, "battery_cold")
    return _between(
        f"{chemistry} at {temperature_c:g} °C", rows, temperature_c, "percent", by="temperature_c"
    )


def freezing_point_c(percent: float) -> Fact:
    """Return the temperature in °C at which a wet lead battery freezes that is so full in percent.

    Raises `NoRow` outside the table. Source: vehicle battery notes, quoted.
    """
    rows = load_table("battery_freezing").rows
    return _between(f"{percent:g} %", rows, percent, "temperature_c")


def lowest_temperature_c(use: str, maker: str) -> Fact:
    """Return the lowest temperature in °C at which a maker lets its LiFePO4 battery ``charge`` or ``discharge``.

    Raises `NoRow` for another use or maker. Source: in the row, read.
    """
    row = load_table("battery_temperatures").find(f"{use} by maker {maker}", use=use, maker=maker)
    return row.fact("temperature_c", "°C")


def lowest_temperatures_c(use: str) -> tuple[float, ...]:
    """Return the lowest temperatures in °C of all makers for ``charge`` or ``discharge``, lowest first."""
    rows = load_table("battery_temperatures").rows
    return tuple(sorted(row.number("temperature_c") for row in rows if row.cells["use"] == use))


def charger_percent(bound: str) -> Fact:
    """Return the ``min`` or ``max`` current of a charger for a lead battery, in percent of its capacity.

    Raises `NoRow` for another bound. Source: battery charging note, quoted.
    """
    return load_table("battery_chargers").find(bound, bound=bound).fact("percent", "percent")


def store_months(chemistry: str) -> Fact:
    """Return after how many months in store a battery wants a charge, with nothing connected to it.

    Raises `NoRow` for lithium. Source: maker handbook, read.
    """
    return load_table("battery_store").find(chemistry, chemistry=chemistry).fact("months", "months")


def _of(chemistry: str, table: str) -> list[Row]:
    rows = [row for row in load_table(table).rows if row.cells["chemistry"] == chemistry]
    if not rows:
        raise NoRow(f"the table “{load_table(table).title}” has no row for {chemistry}")
    return rows


def _between(
    asked: str, rows: list[Row] | tuple[Row, ...], at: float, column: str, *, by: str = "percent"
) -> Fact:
    """Return the figure of a column on the straight line between the two rows round a place."""
    unit = {"volts": "V", "percent": "percent", "temperature_c": "°C"}[column]
    for low, high in pairwise(rows):
        a, b = low.number(by), high.number(by)
        if a <= at <= b:
            share = (at - a) / (b - a)
            value = low.number(column) + share * (high.number(column) - low.number(column))
            source = low.source if low.source == high.source else f"{low.source}; {high.source}"
            return Fact(value, unit, source, low.known)
    raise NoRow(f"no row for {asked}: the table ends before it")
