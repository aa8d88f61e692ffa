"""The battery, what charges it and what its kind bears, as entries of the record."""

from __future__ import annotations

from builder.electrics.charging import ChargingFigures
from builder.electrics.figures import (
    EnergyFigures,
    KindFigures,
)
from builder.pages.json_entries import Json, without_none


def energy_entry(energy: EnergyFigures) -> Json:
    """Return what the battery holds and what is taken from it."""
    return {
        "capacity_ah": energy.capacity_ah,
        "usable_ah": energy.usable_ah,
        "idle_a": energy.idle_a,
        "idle_range_a": list(energy.idle_range_a),
        "idle_parts": list(energy.idle_parts),
        "off_a": energy.off_a,
        "off_range_a": list(energy.off_range_a),
        "off_parts": list(energy.off_parts),
        "weeks_to_half": list(energy.weeks_to_half),
        "weeks_to_half_off": list(energy.weeks_to_half_off),
        "day_ah": list(energy.day_ah),
        "nights": list(energy.nights),
        "waiting": list(energy.waiting),
        "day": [
            {
                "part": day.part,
                "current_a": day.current_a,
                "hours": list(day.hours),
                "use_ah": list(day.use_ah),
            }
            for day in energy.days
        ],
        "drains": [
            {"part": one.part, "circuit": one.circuit, "current_a": one.current_a, "stays": one.stays}
            for one in energy.drains
        ],
        "charging": [_charging(one) for one in energy.charging],
        "kind": _kind(energy.kind),
    }


def _charging(one: ChargingFigures) -> Json:
    return without_none(
        {
            "circuit": one.circuit,
            "supply": one.supply,
            "source": one.source,
            "charger": one.charger,
            "into_box": one.into_box,
            "current_a": list(one.current_a),
            "hours_h": list(one.hours) if one.hours else None,
            "sun_day_ah": list(one.day_ah) if one.day_ah else None,
            "days": list(one.days) if one.days else None,
        }
    )


def _kind(kind: KindFigures) -> Json:
    return without_none(
        {
            "rest": [{"percent": percent, "rest_v": volts} for percent, volts in kind.rest],
            "unsure_percent": kind.unsure_percent,
            "cold_percent": kind.cold_percent,
            "freezing": [{"percent": percent, "temperature_c": c} for percent, c in kind.freezes],
            "charge_from_temperature_c": list(kind.charge_from_c) if kind.charge_from_c else None,
            "charger_a": list(kind.charger_a) if kind.charger_a else None,
            "store_months": kind.store_months,
        }
    )
