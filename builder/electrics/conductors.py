"""What a wire resists, drops and carries, and which size a hand formula asks for.

Pure functions of plain numbers; the unit stands in each name. The gauge formulas of ASTM B258 live beside
the tables and are handed on here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

from builder.routes.bundle import bundle_factor
from builder.tables import NoRow
from builder.tables.conductors import (
    AMPACITY_AMBIENT_C,
    AWG_RESISTANCE_AT_C,
    METRIC_RESISTANCE_AT_C,
    AreaBasis,
    ampacity_column,
    awg_ampacity,
    awg_resistance,
    copper_constant,
    metric_resistance,
)
from builder.tables.gauges import (
    TRADE_GAUGES,
    awg_area_circular_mils,
    awg_area_mm2,
    awg_diameter_in,
    circular_mils,
    next_metric_area_mm2,
    sae_gauges,
    sae_minimum_area,
)
from builder.tables.table import number_text
from builder.trailer.size import Size

__all__ = [
    "Ampacity",
    "TableResistance",
    "ambient_factor",
    "ampacity_a",
    "awg_area_circular_mils",
    "awg_area_mm2",
    "awg_diameter_in",
    "awg_row",
    "circular_mils",
    "constant_power_current_a",
    "iec60228_factor_to_20c",
    "load_current_a",
    "load_voltage_hot",
    "min_gauge_for_area",
    "min_gauge_for_voltage_drop",
    "min_metric_size",
    "required_area_circular_mils",
    "required_area_metric",
    "resistance_at_temperature",
    "resistance_ohm_per_m",
    "series_current_a",
    "voltage_drop_per_wire_hot",
    "voltage_drop_v",
    "wire_resistance_ohm",
]

METRES_PER_1000_FT = 304.8


@dataclass(frozen=True, slots=True)
class TableResistance:
    """A wire's resistance in ohm per metre, the table it comes from and that table's copper in °C."""

    ohm_per_m: float
    source: str
    table_temperature_c: float


@dataclass(frozen=True, slots=True)
class Ampacity:
    """The current a wire carries, in ampere, and what it was worked out from.

    ``table_amps`` is the figure of the table at ``row`` and ``column_c`` (the insulation's temperature in
    °C), before the two factors.
    """

    amps: float
    table_amps: float
    ambient_factor: float
    bundle_factor: float
    row: Size
    column_c: int
    source: str


def resistance_at_temperature(ohm: float, at_c: float, to_c: float, zero_c: float | None = None) -> float:
    """Return a copper resistance, known at one temperature, at another; both in °C.

    Resistance runs in a straight line to nothing at ``zero_c``; not given, that is −234.5 °C: (234.5 + T2)
    / (234.5 + T1). Source: FAA AC 43.13-1B Chg 1, 11-66 item (4), read.
    """
    if zero_c is None:
        zero_c = copper_constant("temperature of zero resistance", "degC").value
    return ohm * (to_c - zero_c) / (at_c - zero_c)


def iec60228_factor_to_20c(temp_c: float) -> float:
    """Return the factor that brings a resistance measured at ``temp_c`` °C to 20 °C: 250 / (230 + t).

    Source: IEC 60228, table of factors, quoted; the formula fits it within 0.001.
    """
    return 250 / (230 + temp_c)


@lru_cache(maxsize=1_000, typed=True)
def resistance_ohm_per_m(size: Size, temperature_c: float) -> TableResistance:
    """Return the resistance of one metre of stranded copper at a copper temperature in °C.

    AWG: NEC Chapter 9 Table 8 at 75 °C, brought to the temperature by the straight line of copper. Metric:
    IEC 60228 class 5 plain at 20 °C, divided by the standard's own factor. Both tables quoted. Raises NoRow
    where the size has no row (18 to 4/0 AWG; 0.5 to 70 mm²).
    """
    if size.kind == "AWG":
        row = awg_resistance(size.value)
        ohm = resistance_at_temperature(row.value / METRES_PER_1000_FT, AWG_RESISTANCE_AT_C, temperature_c)
        return TableResistance(ohm, row.source, AWG_RESISTANCE_AT_C)
    row = metric_resistance(float(size.value))
    ohm = row.value / 1000 / iec60228_factor_to_20c(temperature_c)
    return TableResistance(ohm, row.source, METRIC_RESISTANCE_AT_C)


def wire_resistance_ohm(ohm_per_length: float, length: float) -> float:
    """Return the resistance of a run in ohm, from ohm per unit of length and the length in that unit.

    The length is that of the copper: out and back counts twice. Source: physics.
    """
    return ohm_per_length * length


def voltage_drop_v(current_a: float, resistance_ohm: float) -> float:
    """Return the drop in volts of a current in ampere over a resistance in ohm: E = I R. Source: physics."""
    return current_a * resistance_ohm


def load_current_a(power_w: float, volts: float) -> float:
    """Return the current in ampere of a load of so many watts at so many volts.

    Raises ValueError where the voltage is not above zero. Source: physics.
    """
    if volts <= 0:
        raise ValueError("a current follows from watts only at a voltage above zero")
    return power_w / volts


def series_current_a(source_v: float, *resistances_ohm: float) -> float:
    """Return the current in ampere that a voltage drives through resistances in a row.

    With the wire alone it is the short-circuit current. Raises ValueError where the sum is not above zero.
    Source: physics.
    """
    total = sum(resistances_ohm)
    if total <= 0:
        raise ValueError("a current through a resistance needs a resistance above zero")
    return source_v / total


def constant_power_current_a(power_w: float, source_v: float, wire_ohm: float) -> float | None:
    """Return the current in ampere of a constant-power load behind a wire (whole loop, in ohm).

    Of the two solutions it is the one with the higher voltage at the load, where a working load stands.
    Returns None where there is none: the wire cannot bring that much power. Source: physics, P = U I with
    U = E - I R.
    """
    root = source_v**2 - 4 * power_w * wire_ohm
    if root < 0:
        return None
    return 2 * power_w / (source_v + sqrt(root))


def voltage_drop_per_wire_hot(
    source_v: float, wire_ohm_20c: float, load_ohm: float, temp_c: float, alpha_20c: float, wires: int = 2
) -> float:
    """Return the drop in volts over one of several equal warm wires that feed a resistive load.

    ``wire_ohm_20c`` is one wire at 20 °C in ohm, ``alpha_20c`` the copper's coefficient at 20 °C, 1/°C.
    Source: Lessons in Electric Circuits vol. I, temperature coefficient of resistance, read.
    """
    hot_ohm = resistance_at_temperature(wire_ohm_20c, 20, temp_c, zero_c=20 - 1 / alpha_20c)
    return voltage_drop_v(series_current_a(source_v, wires * hot_ohm, load_ohm), hot_ohm)


def load_voltage_hot(
    source_v: float, wire_ohm_20c: float, load_ohm: float, temp_c: float, alpha_20c: float, wires: int = 2
) -> float:
    """Return the voltage left at that load, in volts; see `voltage_drop_per_wire_hot`."""
    drop_v = voltage_drop_per_wire_hot(source_v, wire_ohm_20c, load_ohm, temp_c, alpha_20c, wires)
    return source_v - wires * drop_v


def awg_row(size: Size) -> Size:
    """Return the AWG size whose row of a table holds for this size.

    An AWG size stands for itself, a metric one for the largest AWG size of the trade not above its area
    (2.5 mm² as 14 AWG). Raises NoRow below 22 AWG. Source: our own rule, on the cautious side.
    """
    if size.kind == "AWG":
        return size
    fitting = [gauge for gauge in TRADE_GAUGES if awg_area_mm2(gauge) <= size.area_mm2]
    if not fitting:
        raise NoRow(f"{size} is thinner than 22 AWG, the smallest size of the tables")
    return Size("AWG", fitting[-1])


def ambient_factor(conductor_c: float, ambient_c: float) -> float:
    """Return the factor on a 30 °C ampacity for another surrounding temperature; both in °C.

    ``sqrt((Tc − Ta) / (Tc − 30))``; nothing is left where the surroundings are as hot as the insulation
    bears. Raises ValueError where the conductor's limit is not above 30 °C. Source: NEC 310.15(B), the
    square-root formula; IRC 2021 Table E3705.2 (read) agrees at the upper end of each band.
    """
    if conductor_c <= AMPACITY_AMBIENT_C:
        raise ValueError("the conductor's limit must lie above 30 °C")
    return sqrt(max(conductor_c - ambient_c, 0) / (conductor_c - AMPACITY_AMBIENT_C))


@lru_cache(maxsize=1_000, typed=True)
def ampacity_a(
    size: Size, insulation_c: float = 60, ambient_c: float = 30, conductors_in_bundle: int = 2
) -> Ampacity:
    """Return the current in ampere that a wire carries under 50 V, outside engine spaces.

    The table's figure, times the factor of the surroundings, times that of the bundle. ``insulation_c``
    and ``ambient_c`` in °C; insulation between two columns counts as the lower. A metric size goes by the
    AWG row of `awg_row`. Raises NoRow where the table has no row or column. Source: 33 CFR 183.425 Table 5
    (read) and its note 2 (quoted).
    """
    row = awg_row(size)
    column_c = ampacity_column(insulation_c)
    table = awg_ampacity(row.value, column_c)
    surroundings = ambient_factor(column_c, ambient_c)
    bundle = bundle_factor(conductors_in_bundle)
    amps = table.value * surroundings * bundle
    return Ampacity(amps, table.value, surroundings, bundle, row, column_c, table.source)


def required_area_circular_mils(k: float, current_a: float, length_ft: float, max_drop_v: float) -> float:
    """Return the area in circular mils that keeps a drop: CM = K I L / E.

    K in ohm circular mil per foot is the resistivity of the wire as it runs; the length is that of the
    copper, out and back. For one ampere the drop in volts is the resistance in ohm. Raises ValueError where
    the drop is not above zero. Source: ABYC E-11 11.14.2.6, quoted.
    """
    if max_drop_v <= 0:
        raise ValueError("no area keeps a drop of zero")
    return k * current_a * length_ft / max_drop_v


def min_gauge_for_area(
    area_cmil: float, area_basis: AreaBasis, sizes_offered: Sequence[str] | None = None
) -> Size:
    """Return the smallest gauge of at least this area in circular mils.

    ``area_basis`` says whether a gauge holds its AWG area or the SAE minimum; ``sizes_offered`` is smallest
    first, else 18 to 4/0 without 3, as both published series have it. Raises NoRow where no size offered is
    big enough. Source: ASTM B258; SAE J1128 minimum areas.
    """
    for gauge in sizes_offered or sae_gauges():
        holds = awg_area_circular_mils(gauge) if area_basis == "AWG" else sae_minimum_area(gauge).value
        if holds >= area_cmil * (1 - 1e-9):  # a hair below is the noise of the arithmetic
            return Size("AWG", gauge)
    raise NoRow(f"no size offered has {area_cmil:,.0f} circular mils")


def min_gauge_for_voltage_drop(
    k: float,
    current_a: float,
    round_trip_ft: float,
    max_drop_v: float,
    area_basis: AreaBasis,
    sizes_offered: Sequence[str] | None = None,
) -> Size:
    """Return the smallest gauge that keeps a drop by CM = K I L / E, and the next size up.

    The length is in feet, out and back, the drop in volts. K = 10.75 goes with the SAE minimum areas,
    K = 11.2 with AWG areas. Raises NoRow where no size offered is big enough, ValueError where the drop is
    not above zero. Source: ABYC E-11 11.14.2.6, quoted.
    """
    area_cmil = required_area_circular_mils(k, current_a, round_trip_ft, max_drop_v)
    return min_gauge_for_area(area_cmil, area_basis, sizes_offered)


def required_area_metric(
    current_a: float, one_way_m: float, max_drop_v: float, conductivity: float | None = None
) -> float:
    """Return the area in mm² that keeps a drop in volts: S = 2 L I / (56 E), L one way in metres.

    ``conductivity`` in m/(ohm mm²) replaces the 56. Raises ValueError where the drop is not above zero.
    Source: boat wiring note, German practice, quoted.
    """
    if max_drop_v <= 0:
        raise ValueError("no area keeps a drop of zero")
    if conductivity is None:
        conductivity = copper_constant("conductivity of the hand formula", "m/(ohm-mm2)").value
    return 2 * one_way_m * current_a / (conductivity * max_drop_v)


def min_metric_size(area_mm2: float) -> Size:
    """Return the smallest standard metric size of at least this area in mm².

    Raises NoRow above the largest. Source: IEC 60228 class 5, quoted.
    """
    return Size("mm2", number_text(next_metric_area_mm2(area_mm2)))
