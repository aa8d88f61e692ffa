"""Answers on fuses, breakers and switches."""

from __future__ import annotations

from typing import TYPE_CHECKING

from asked import NotAnswered

from builder.electrics import protection as electrics
from builder.electrics.conductors import load_current_a
from builder.tables import protection as tables
from builder.tables.connections import crimp_pull
from builder.tables.gauges import awg_area_mm2
from builder.trailer.size import Size

if TYPE_CHECKING:
    from answers import Answerer
    from asked import Asked

_SERIES = {"regular_blade": "blade regular", "mini_blade": "blade mini", "maxi_blade": "blade maxi"}
_FORMATS = {"regular": "blade regular", "mini": "blade mini", "maxi": "blade maxi"}


def _boat_rule(asked: Asked) -> float:
    asked.word("engine_space", "no")
    if not asked.number("system_v") < 50:
        raise NotAnswered("the boat rule holds under 50 V")
    return electrics.max_ocp_33cfr(Size("AWG", asked.text("awg")), _column(asked.number("insulation_temp_c")))


def _column(insulation_c: float) -> float:
    if insulation_c not in (60, 75, 80, 90, 105, 125, 200):
        raise NotAnswered(f"no column for {insulation_c} °C")
    return insulation_c


def _rv_table(asked: Asked) -> float:
    return electrics.fuse_ceiling(Size("AWG", asked.text("awg")), check_against=electrics.RV_TABLE).amps


def _aircraft_chart(device: tables.Device) -> Answerer:
    def answer(asked: Asked) -> float:
        asked.word("conductor", "copper")
        return tables.aircraft_chart(asked.text("awg"), device).value

    return answer


def _strict_rule(asked: Asked) -> float:
    asked.maybe("i_load_a")  # the ceiling is the wire's, whatever the load
    return electrics.fuse_max_rating_by_conductor(asked.number("ampacity_a"))


def _distance(rule: str) -> Answerer:
    def answer(asked: Asked) -> float:
        sheathed = asked.has("sheathed") and asked.word("sheathed", "yes", "no") == "yes"
        return tables.device_distance(rule, asked.plain("case"), sheathed=sheathed).value

    return answer


def _switch_rating(asked: Asked) -> float:
    return electrics.switch_min_rating(asked.number("load_a"), asked.word("load"), asked.number("system_v"))


def _fuse_for_load(asked: Asked) -> float:
    series = _SERIES[asked.word("series", *_SERIES)]
    return electrics.fuse_rating_from_continuous_load(
        asked.number("i_cont_a"), asked.number("factor"), series
    )


def _fuse_min_rating(asked: Asked) -> float:
    return electrics.fuse_min_rating(
        asked.number("i_load_a"), asked.number("safety_coefficient"), asked.number("ambient_factor")
    )


def _fuse_colour(asked: Asked) -> str:
    series = _FORMATS[asked.word("format", *_FORMATS)]
    return tables.fuse_colour(series, asked.number("rating_a")).word


def _crimp_pull(asked: Asked) -> float:
    if asked.number("hold_min") != 1:
        raise NotAnswered("the table is for a minute")
    return crimp_pull(awg_area_mm2(asked.text("awg"))).value


ANSWERS: dict[str, dict[str, Answerer]] = {
    "max_ocp_rating_33cfr": {"A": _boat_rule},
    "max_ocp_rating_nec_rv": {"A": _rv_table},
    "fuse_rating_aircraft_chart": {"A": _aircraft_chart("fuse")},
    "breaker_rating_aircraft_chart": {"A": _aircraft_chart("breaker")},
    "switch_derating_factor": {
        "-": lambda asked: tables.switch_factor(asked.word("load"), asked.number("system_v")).value
    },
    "switch_min_nominal_rating": {"A": _switch_rating},
    "fuse_max_rating_by_conductor": {"A": _strict_rule},
    "ocp_max_distance_33cfr": {"in": _distance("33 CFR")},
    "ocp_max_distance_abyc": {"in": _distance("ABYC")},
    "ocp_max_distance_nec": {"in": _distance("NEC")},
    "load_current": {"A": lambda asked: load_current_a(asked.number("p_w"), asked.number("u_v"))},
    "fuse_rating_from_continuous_load": {"A": _fuse_for_load},
    "fuse_min_rating": {"A": _fuse_min_rating},
    "fuse_colour": {"text": _fuse_colour},
    "crimp_tensile_min_abyc": {"lbf": _crimp_pull},
}

_OF = "builder.electrics.protection."

CLASS_A = {
    "max_ocp_rating_33cfr": (_OF + "max_ocp_33cfr",),
    "max_ocp_rating_nec_rv": (_OF + "fuse_ceiling",),
    "switch_min_nominal_rating": (_OF + "switch_min_rating",),
    "fuse_max_rating_by_conductor": (_OF + "fuse_max_rating_by_conductor",),
    "load_current": ("builder.electrics.conductors.load_current_a",),
    "fuse_rating_from_continuous_load": (_OF + "next_standard_rating", _OF + "fuse_min_rating"),
    "fuse_min_rating": (_OF + "fuse_min_rating",),
}
