"""Answers on gauges, resistances, currents and constants of copper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from builder.electrics import conductors as electrics
from builder.tables import conductors as tables
from builder.tables import gauges
from builder.trailer.size import Size

if TYPE_CHECKING:
    from answers import Answerer
    from asked import Asked


def _awg(asked: Asked, key: str = "gauge_awg") -> Size:
    return Size("AWG", asked.text(key))


def _dc_resistance(asked: Asked) -> float:
    asked.word("stranding", "stranded")
    asked.word("coating", "uncoated")
    asked.word("temp_C", "75")
    return tables.awg_resistance(asked.text("gauge_awg")).value


def _metric_resistance(asked: Asked) -> float:
    asked.word("class", "5")
    asked.word("temp_C", "20")
    coating = asked.word("coating", "plain", "tinned")
    return tables.metric_resistance(
        asked.number("area_mm2"), "plain" if coating == "plain" else "tinned"
    ).value


def _ampacity(asked: Asked) -> float:
    asked.word("space", "outside_engine")
    asked.word("ambient_C", "30")
    return tables.awg_ampacity(asked.text("gauge_awg"), asked.whole("insulation_C")).value


def _ampacity_metric(asked: Asked) -> float:
    asked.word("ambient_C", "30")
    return tables.metric_ampacity(asked.number("area_mm2"), asked.whole("insulation_C")).value


def _ampacity_bundled(asked: Asked) -> float:
    asked.word("space", "outside_engine")
    asked.maybe("ambient_C")
    return electrics.ampacity_a(
        _awg(asked),
        insulation_c=asked.number("insulation_C"),
        ambient_c=asked.number("ambient_C") if asked.has("ambient_C") else 30,
        conductors_in_bundle=asked.whole("current_carrying_conductors"),
    ).amps


def _ambient_factor(asked: Asked) -> float:
    asked.maybe("formula")
    return electrics.ambient_factor(asked.number("conductor_C"), asked.number("ambient_C"))


def _iec_factor(asked: Asked) -> float:
    asked.maybe("formula")
    return electrics.iec60228_factor_to_20c(asked.number("temp_C"))


def _resistivity(unit: str) -> Answerer:
    def answer(asked: Asked) -> float:
        asked.word("standard", "IACS")
        return tables.copper_constant("resistivity at 20 °C", unit).value

    return answer


def _zero_resistance(asked: Asked) -> float:
    asked.maybe("formula")
    return tables.copper_constant("temperature of zero resistance", "degC").value


def _temp_coefficient(asked: Asked) -> float:
    asked.maybe("formula")
    return tables.copper_temp_coefficient_20c().value


def _conductivity(asked: Asked) -> float:
    asked.maybe("formula")
    asked.word("length", "one_way_m")
    return tables.copper_constant("conductivity of the hand formula", "m/(ohm-mm2)").value


def _k_constant(asked: Asked) -> float:
    asked.word("formula", "K*I*L/E")
    asked.word("length", "round_trip_ft")
    return tables.k_constant("SAE_min").value


def _drop_limit(asked: Asked) -> float:
    return tables.drop_limit(asked.plain("domain"), asked.plain("circuit")).value


ANSWERS: dict[str, dict[str, Answerer]] = {
    "awg_solid_diameter": {"in": lambda asked: gauges.awg_diameter_in(asked.text("gauge_awg"))},
    "awg_area_circular_mils": {"cmil": lambda asked: gauges.awg_area_circular_mils(asked.text("gauge_awg"))},
    "awg_area_mm2": {"mm2": lambda asked: _awg(asked).area_mm2},
    "circular_mils": {"cmil": lambda asked: gauges.circular_mils(asked.number("diameter_in"))},
    "sae_min_area_circular_mils": {
        "cmil": lambda asked: gauges.sae_minimum_area(asked.text("gauge_sae")).value
    },
    "copper_resistivity_20c": {unit: _resistivity(unit) for unit in ("ohm-mm2/km", "ohm-cmil/ft")},
    "copper_temp_coefficient_20c": {"1/degC": _temp_coefficient},
    "copper_inferred_zero_resistance_temp": {"degC": _zero_resistance},
    "copper_conductivity_constant": {"m/(ohm-mm2)": _conductivity},
    "k_constant": {"ohm-cmil/ft": _k_constant},
    "dc_resistance_75c_per_length": {"ohm/kft": _dc_resistance},
    "iec60228_max_resistance_20c": {"ohm/km": _metric_resistance},
    "iec60228_factor_to_20c": {"1": _iec_factor},
    "ampacity_under_50v": {"A": _ampacity},
    "ampacity_small_craft_mm2": {"A": _ampacity_metric},
    "ambient_factor_base_30c": {"1": _ambient_factor},
    "bundle_factor": {"1": lambda asked: tables.bundle_row(asked.whole("current_carrying_conductors")).value},
    "ampacity_bundled": {"A": _ampacity_bundled},
    "voltage_drop_limit": {"percent": _drop_limit},
}

CLASS_A = {
    "awg_solid_diameter": ("builder.tables.gauges.awg_diameter_in",),
    "awg_area_circular_mils": ("builder.tables.gauges.awg_area_circular_mils",),
    "awg_area_mm2": ("builder.tables.gauges.awg_area_mm2",),
    "circular_mils": ("builder.tables.gauges.circular_mils",),
    "iec60228_factor_to_20c": ("builder.electrics.conductors.iec60228_factor_to_20c",),
    "ambient_factor_base_30c": ("builder.electrics.conductors.ambient_factor",),
    "ampacity_bundled": ("builder.electrics.conductors.ampacity_a", "builder.routes.bundle.bundle_factor"),
}
