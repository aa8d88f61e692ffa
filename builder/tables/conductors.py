"""What a conductor resists and carries: published resistances, currents and constants of copper."""

from __future__ import annotations

from functools import cache
from typing import Literal

from builder.tables.table import Fact, NoRow, Table, load_table, number_text

AreaBasis = Literal["AWG", "SAE_min"]
"""Whose areas a gauge stands for: the AWG series, or the SAE minimum of primary wire."""

Coating = Literal["plain", "tinned"]

AWG_RESISTANCE_AT_C = 75.0
"""Temperature of the copper in NEC Chapter 9 Table 8, in °C."""

METRIC_RESISTANCE_AT_C = 20.0
"""Temperature of the copper in IEC 60228, in °C."""

AMPACITY_AMBIENT_C = 30.0
"""Temperature of the air in 33 CFR 183.425 Table 5, in °C."""


@cache
def awg_resistance(gauge: str) -> Fact:
    """Return the resistance of stranded uncoated copper at 75 °C, in ohm per 1000 ft.

    Raises `NoRow` outside 18 to 4/0 AWG. Source: NEC Chapter 9 Table 8, quoted.
    """
    return load_table("awg_resistance").find(f"{gauge} AWG", gauge=gauge).fact("ohm_per_kft", "ohm/kft")


@cache
def metric_resistance(area_mm2: float, coating: Coating = "plain") -> Fact:
    """Return the greatest resistance of class 5 (flexible) copper at 20 °C, in ohm per km.

    Raises `NoRow` for an area in mm² that is no standard one from 0.5 to 70. Source: IEC 60228, quoted.
    """
    area = number_text(area_mm2)
    return load_table("metric_resistance").find(f"{area} mm²", area_mm2=area).fact(coating, "ohm/km")


def ampacity_columns() -> tuple[int, ...]:
    """Return the insulation temperatures of 33 CFR 183.425 Table 5 in °C, lowest first."""
    return _temperature_columns(load_table("awg_ampacity"))


@cache
def ampacity_column(insulation_c: float) -> int:
    """Return the column of 33 CFR 183.425 Table 5 to read for an insulation, in °C.

    It is the highest column not above the insulation's own temperature, so that wire between two
    columns is taken for the lower. Raises `NoRow` below 60 °C.
    """
    fitting = [column for column in ampacity_columns() if column <= insulation_c]
    if not fitting:
        raise NoRow(f"33 CFR 183.425 Table 5 has no column as low as {number_text(insulation_c)} °C")
    return fitting[-1]


@cache
def awg_ampacity(gauge: str, column_c: int) -> Fact:
    """Return the current of a single conductor under 50 V at 30 °C outside engine spaces, in ampere.

    ``column_c`` is one of the table's insulation temperatures in °C. Raises `NoRow` outside 18 to 4/0 AWG
    and for another temperature. Source: 33 CFR 183.425 Table 5, read.
    """
    table = load_table("awg_ampacity")
    _require_column(table, column_c)
    return table.find(f"{gauge} AWG", gauge=gauge).fact(str(column_c), "A")


def metric_ampacity(area_mm2: float, column_c: int) -> Fact:
    """Return the current of a single metric conductor on small craft at 30 °C, in ampere.

    Raises `NoRow` where there is no such area in mm² or insulation temperature in °C. Source: ISO 10133
    from memory: it may make a choice more cautious, never allow one.
    """
    table = load_table("metric_ampacity")
    _require_column(table, column_c)
    area = number_text(area_mm2)
    return table.find(f"{area} mm²", area_mm2=area).fact(str(column_c), "A")


@cache
def bundle_row(current_carrying: int) -> Fact:
    """Return the factor for this many current-carrying conductors in one bundle.

    Raises `NoRow` below one. Source: 33 CFR 183.425 Table 5 note 2, quoted; one and two have no factor
    in it and count as 1.
    """
    table = load_table("bundle_factors")
    for row in table.rows:
        last = row.cells["to"]
        if int(row.cells["from"]) <= current_carrying and (not last or current_carrying <= int(last)):
            return row.fact("factor", "1")
    raise NoRow(f"a bundle has at least one conductor, not {current_carrying}")


def bundle_steps() -> tuple[tuple[int, int | None, float], ...]:
    """Return from and up to how many current-carrying conductors each factor of `bundle_row` counts; None for more."""
    return tuple(
        (
            int(row.cells["from"]),
            int(last) if (last := row.cells["to"]) else None,
            row.fact("factor", "1").value,
        )
        for row in load_table("bundle_factors").rows
    )


def copper_constant(constant: str, unit: str) -> Fact:
    """Return a constant of copper by its name in ``copper.csv`` and its unit.

    Raises `NoRow` where the pair is unknown. Source: in the row.
    """
    return (
        load_table("copper").find(f"{constant} in {unit}", constant=constant, unit=unit).fact("value", unit)
    )


def copper_temp_coefficient_20c() -> Fact:
    """Return the share by which the resistance at 20 °C rises a degree: 1/254.5.

    Source: arithmetic on the temperature of zero resistance, FAA AC 43.13-1B Chg 1, 11-66 item (4), read.
    """
    zero = copper_constant("temperature of zero resistance", "degC")
    return Fact(1 / (20 - zero.value), "1/degC", zero.source, zero.known)


def k_constant(area_basis: AreaBasis) -> Fact:
    """Return K of the hand formula CM = K I L / E, in ohm circular mil per foot, L out and back in feet.

    10.75 goes with the SAE minimum areas (ABYC E-11, quoted), 11.2 with AWG areas (quoted).
    """
    row = load_table("k_constants").find(area_basis, area_basis=area_basis)
    return row.fact("k", "ohm-cmil/ft")


def drop_limit(domain: str, circuit: str) -> Fact:
    """Return the allowed voltage drop of a kind of circuit, in percent of nominal voltage.

    Raises `NoRow` where the trade (``domain``) or the circuit is not in ``drop_limits.csv``.
    """
    row = load_table("drop_limits").find(f"{circuit} ({domain})", domain=domain, circuit=circuit)
    return row.fact("percent", "percent")


def _temperature_columns(table: Table) -> tuple[int, ...]:
    return tuple(int(column) for column in table.columns[1:])


def _require_column(table: Table, column_c: int) -> None:
    if column_c not in _temperature_columns(table):
        raise NoRow(f"the table “{table.title}” ({table.source}) has no column for {column_c} °C")
