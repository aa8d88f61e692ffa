"""Answers on drops, on sizes by hand formula, and on how wire is run."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from asked import NotAnswered

from builder.electrics import conductors as electrics
from builder.tables import installation as tables
from builder.tables.conductors import AreaBasis
from builder.tables.protection import plug_fuse_limit

if TYPE_CHECKING:
    from answers import Answerer
    from asked import Asked


def _area_basis(asked: Asked) -> AreaBasis:
    return cast("AreaBasis", asked.word("area_basis", "AWG", "SAE_min"))


def _sizes_offered(asked: Asked) -> list[str] | None:
    return asked.words("sizes_offered") if asked.has("sizes_offered") else None


def _min_gauge_for_drop(asked: Asked) -> str:
    return electrics.min_gauge_for_voltage_drop(
        k=asked.number("K"),
        current_a=asked.number("current_A"),
        round_trip_ft=asked.number("round_trip_ft"),
        max_drop_v=asked.number("system_V") * asked.number("drop_percent") / 100,
        area_basis=_area_basis(asked),
        sizes_offered=_sizes_offered(asked),
    ).value


def _min_gauge_for_area(asked: Asked) -> str:
    size = electrics.min_gauge_for_area(asked.number("area_cmil"), _area_basis(asked), _sizes_offered(asked))
    return size.value


def _required_area(asked: Asked) -> float:
    """For one ampere the drop over a wire in volts is its resistance in ohm."""
    if asked.has("K"):
        return electrics.required_area_circular_mils(
            asked.number("K"),
            asked.number("current_A"),
            asked.number("round_trip_ft"),
            asked.number("max_drop_V"),
        )
    return electrics.required_area_circular_mils(
        asked.number("rho_ohm_cmil_per_ft"), 1, asked.number("one_way_ft"), asked.number("max_ohm_per_wire")
    )


def _required_area_metric(asked: Asked) -> float:
    if asked.has("power_W"):
        volts = asked.number("nominal_V")
        current_a = electrics.load_current_a(asked.number("power_W"), volts)
        if asked.has("current_A"):  # the source's own rounding of that current
            current_a = asked.number("current_A")
    else:
        asked.maybe("nominal_V")
        current_a = asked.number("current_A")
    conductivity = asked.number("conductivity") if asked.has("conductivity") else None
    area_mm2 = electrics.required_area_metric(
        current_a, asked.number("one_way_m"), asked.number("max_drop_V"), conductivity
    )
    if asked.has("round_up_to_standard") and asked.word("round_up_to_standard", "yes"):
        return electrics.min_metric_size(area_mm2).area_mm2
    return area_mm2


def _wire_resistance(asked: Asked) -> float:
    if asked.has("ohm_per_kft"):
        ohm_per_ft = asked.number("ohm_per_kft") / 1000
    else:
        ohm_per_ft = asked.number("rho_ohm_cmil_per_ft") / asked.number("area_cmil")
    return electrics.wire_resistance_ohm(ohm_per_ft, asked.number("length_ft"))


def _voltage_drop(asked: Asked) -> float:
    asked.maybe("size", "gauge_awg", "area_mm2", "nominal_mm2")  # which wire it was; its resistance is given
    if asked.has("power_W"):
        asked.word("model", "current_at_nominal_voltage")
        current_a = electrics.load_current_a(asked.number("power_W"), asked.number("nominal_V"))
    else:
        current_a = asked.number("current_A")
    return electrics.voltage_drop_v(current_a, _run_ohm(asked))


def _run_ohm(asked: Asked) -> float:
    if asked.has("ohm_per_ft"):
        return electrics.wire_resistance_ohm(asked.number("ohm_per_ft"), asked.number("circuit_length_ft"))
    if asked.has("ohm_per_m"):
        copper_m = asked.number("length_m") * asked.number("conductors_counted")
        return electrics.wire_resistance_ohm(asked.number("ohm_per_m"), copper_m)
    if asked.has("ohm_per_kft"):
        return electrics.wire_resistance_ohm(
            asked.number("ohm_per_kft") / 1000, 2 * asked.number("one_way_ft")
        )
    if asked.has("mV_per_A_m"):
        return electrics.wire_resistance_ohm(
            asked.number("mV_per_A_m") / 1000, asked.number("circuit_length_m")
        )
    raise NotAnswered("no resistance is given")


def _hot(asked: Asked) -> dict[str, float | int]:
    return {
        "source_v": asked.number("source_V"),
        "wire_ohm_20c": asked.number("wire_ohm_20C"),
        "load_ohm": asked.number("load_ohm"),
        "temp_c": asked.number("temp_C"),
        "alpha_20c": asked.number("alpha_20C"),
        "wires": asked.whole("wires"),
    }


def _constant_power(asked: Asked) -> float:
    wire_ohm = electrics.wire_resistance_ohm(
        asked.number("mV_per_A_m") / 1000, asked.number("circuit_length_m")
    )
    current_a = electrics.constant_power_current_a(
        asked.number("power_W"), asked.number("source_V"), wire_ohm
    )
    if current_a is None:
        raise NotAnswered("the load has no solution")
    return current_a


def _short_circuit(asked: Asked) -> float:
    return electrics.series_current_a(asked.number("source_V"), asked.number("wire_ohm_total"))


def _gxl_diameter(asked: Asked) -> float:
    return tables.outside_diameter(asked.word("type", "GXL"), asked.text("gauge")).value


def _thin_wall_diameter(asked: Asked) -> float:
    asked.word("type", "ISO6722_thin_wall")
    return tables.outside_diameter(tables.THIN_WALL, asked.text("area_mm2")).value


def _jam_ratio(asked: Asked) -> tables.JamRatio:
    asked.word("ratio", "conduit_id/cable_od")
    return tables.jam_ratio(asked.whole("conductors"))


def _framing_in(asked: Asked) -> float:
    return tables.framing_distance("bored hole edge distance", asked.text("member"), "in").value


def _framing_mm(asked: Asked) -> float:
    return tables.framing_distance("bored hole edge distance", asked.text("member"), "mm").value


def _plate_mm(asked: Asked) -> float:
    return tables.framing_distance("steel plate thickness", asked.text("member"), "mm").value


def _support(wiring: str) -> Answerer:
    return lambda asked: tables.support_spacing(asked.plain("domain"), wiring).value


def _minimum_size(asked: Asked, domain: str, wiring: str, unit: str) -> tables.MinimumSize:
    asked.word("domain", domain)
    found = tables.minimum_size(domain.replace("_", " ").replace("50V", "50 v"), wiring)
    if found.unit != unit:
        raise NotAnswered(f"the size is given in {found.unit}")
    return found


def _separate_area(asked: Asked) -> float:
    found = _minimum_size(asked, "small_craft_dc", "separate", "mm2")
    if asked.number("longer_than_mm") != found.length_mm:
        raise NotAnswered("the rule begins at another length")
    return float(found.size)


def _out_of_sheath_in(asked: Asked) -> float:
    length_mm = _minimum_size(asked, "boat_under_50V", "in sheath", "AWG").length_mm
    if length_mm is None:
        raise NotAnswered("no length is known")
    return length_mm / 25.4


ANSWERS: dict[str, dict[str, Answerer]] = {
    "wire_resistance": {"ohm": _wire_resistance},
    "min_gauge_for_voltage_drop": {"AWG": _min_gauge_for_drop},
    "min_gauge_for_area": {"AWG": _min_gauge_for_area},
    "required_area": {"cmil": _required_area},
    "required_area_metric": {"mm2": _required_area_metric},
    "voltage_drop": {"V": _voltage_drop},
    "voltage_drop_per_wire_hot": {"V": lambda asked: electrics.voltage_drop_per_wire_hot(**_hot(asked))},
    "load_voltage_hot": {"V": lambda asked: electrics.load_voltage_hot(**_hot(asked))},
    "load_current_constant_power": {"A": _constant_power},
    "short_circuit_current": {"A": _short_circuit},
    "insulated_outside_diameter": {"mm": _gxl_diameter},
    "insulated_outside_diameter_max": {"mm": _thin_wall_diameter},
    "conduit_fill_limit": {
        "percent": lambda asked: tables.conduit_fill_limit(asked.whole("conductors")).value
    },
    "jam_ratio_low": {"1": lambda asked: _jam_ratio(asked).low},
    "jam_ratio_high": {"1": lambda asked: _jam_ratio(asked).high},
    "bend_radius_min_multiple_of_od": {
        "x OD": lambda asked: tables.bend_radius_multiple(asked.plain("wiring")).value
    },
    "bored_hole_edge_distance_min": {"in": _framing_in, "mm": _framing_mm},
    "steel_plate_thickness_min": {"mm": _plate_mm},
    "support_spacing_max": {"mm": _support("wire")},
    "support_spacing_max_battery_cable": {"mm": _support("battery cable")},
    "minimum_gauge_separate_conductor": {
        "AWG": lambda asked: _minimum_size(asked, "boat_under_50V", "separate", "AWG").size
    },
    "minimum_gauge_in_sheath": {
        "AWG": lambda asked: _minimum_size(asked, "boat_under_50V", "in sheath", "AWG").size
    },
    "max_length_18awg_out_of_sheath": {"in": _out_of_sheath_in},
    "minimum_area_separate_conductor": {"mm2": _separate_area},
    "minimum_area_in_sheath": {
        "mm2": lambda asked: float(_minimum_size(asked, "small_craft_dc", "in sheath", "mm2").size)
    },
    "trailer_13pin_max_fuse": {"A": lambda asked: plug_fuse_limit("13-pin", asked.whole("pin")).value},
}

_OF = "builder.electrics.conductors."

CLASS_A = {
    "wire_resistance": (_OF + "wire_resistance_ohm",),
    "min_gauge_for_voltage_drop": (_OF + "min_gauge_for_voltage_drop",),
    "min_gauge_for_area": (_OF + "min_gauge_for_area",),
    "required_area": (_OF + "required_area_circular_mils",),
    "required_area_metric": (_OF + "required_area_metric",),
    "voltage_drop": (_OF + "voltage_drop_v", _OF + "wire_resistance_ohm"),
    "voltage_drop_per_wire_hot": (_OF + "voltage_drop_per_wire_hot",),
    "load_voltage_hot": (_OF + "load_voltage_hot",),
    "load_current_constant_power": (_OF + "constant_power_current_a",),
    "short_circuit_current": (_OF + "series_current_a",),
}
