"""Answers on batteries, what charges them, and what takes from them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from builder.electrics import charging, currents, energy
from builder.tables import batteries as tables
from builder.trailer.parts import Draw, Law

if TYPE_CHECKING:
    from answers import Answerer
    from asked import Asked

_COLD = {"agm": tables.AGM, "lead_acid": tables.LEAD_ACID, "lifepo4": tables.LITHIUM}


def _rest_voltage(asked: Asked) -> float:
    asked.word("table", "BCI")
    return tables.rest_voltage(asked.word("chemistry", "flooded"), asked.number("soc_pct")).value


def _lower_bound(asked: Asked) -> float:
    return tables.rest_voltage(asked.word("chemistry", "agm"), asked.number("soc_pct")).value


def _full_by_rest_voltage(asked: Asked) -> float:
    asked.word("table", "BCI")
    return tables.full_by_rest_voltage(asked.word("chemistry", "flooded"), asked.number("volts")).value


def _freezing_point(asked: Asked) -> float:
    asked.word("chemistry", "flooded")
    return tables.freezing_point_c(asked.number("soc_pct")).value


def _cold(asked: Asked) -> float:
    if asked.has("discharge"):
        asked.word("discharge", "over_60_min")
    return tables.capacity_percent(_COLD[asked.word("chemistry", *_COLD)], asked.number("temp_C")).value


def _lowest_for_charge(asked: Asked) -> float:
    asked.word("chemistry", "lifepo4")
    return tables.lowest_temperature_c("charge", asked.word("maker", "1", "2", "3")).value


def _lowest_for_discharge(asked: Asked) -> float:
    asked.word("chemistry", "lifepo4")
    return tables.lowest_temperatures_c("discharge")[0]


def _charge_hours(asked: Asked) -> float:
    return charging.charge_hours(
        asked.number("capacity_Ah"), asked.number("charge_needed"), asked.number("charger_A"), factor=1.6
    )


def _sun_yield(asked: Asked) -> float:
    return charging.solar_yield_wh(asked.number("module_W"), asked.number("psh"), asked.number("losses_pct"))


def _days(asked: Asked) -> float:
    usable_ah = asked.number("capacity_Ah") * asked.number("dod")
    return energy.nights(usable_ah, asked.number("load_Wh_per_day") / asked.number("system_V"))


def _fridge_day(asked: Asked) -> float:
    draw = Draw(asked.number("nameplate_W"), "W", Law.POWER)
    current_a = currents.draw_current_a(draw, asked.number("system_V"))
    return energy.day_use_ah(current_a, asked.number("duty") * 24)


ANSWERS: dict[str, dict[str, Answerer]] = {
    "rest_voltage": {"V": _rest_voltage},
    "rest_voltage_lower_bound": {"V": _lower_bound},
    "state_of_charge_from_rest_voltage": {"%": _full_by_rest_voltage},
    "electrolyte_freezing_point": {"degC": _freezing_point},
    "capacity_temperature_pct": {"%": _cold},
    "min_charge_temperature": {"degC": _lowest_for_charge},
    "min_discharge_temperature": {"degC": _lowest_for_discharge},
    "charger_size_pct_of_c20": {
        "%": lambda asked: tables.charger_percent(asked.word("bound", "min", "max")).value
    },
    "charger_size_range": {
        "A": lambda asked: charging.charger_size_a(
            asked.number("capacity_Ah"), asked.word("bound", "min", "max")
        )
    },
    "charge_time_rule": {"h": _charge_hours},
    "pv_daily_yield": {"Wh/day": _sun_yield},
    "days_of_autonomy": {"days": _days},
    "converter_input_current": {
        "A": lambda asked: currents.converter_input_a(
            asked.number("p_out_W"), asked.number("efficiency"), asked.number("v_in")
        )
    },
    "fridge_daily_load": {"Ah": _fridge_day},
}

CLASS_A = {
    "state_of_charge_from_rest_voltage": ("builder.tables.batteries.full_by_rest_voltage",),
    "charger_size_range": ("builder.electrics.charging.charger_size_a",),
    "charge_time_rule": ("builder.electrics.charging.charge_hours",),
    "pv_daily_yield": ("builder.electrics.charging.solar_yield_wh",),
    "days_of_autonomy": ("builder.electrics.energy.nights",),
    "converter_input_current": ("builder.electrics.currents.converter_input_a",),
    "fridge_daily_load": (
        "builder.electrics.currents.draw_current_a",
        "builder.electrics.energy.day_use_ah",
    ),
}
