"""Battery and daily use: how long it lasts, whether it is low, how to charge it, how to lay it up."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.electrics.charging import battery_kind, limits
from builder.electrics.energy import is_lithium
from builder.electrics.figures import Drain, EnergyFigures
from builder.pages.in_frost import frost_ways
from builder.pages.page_assumed import SUN
from builder.pages.page_fuses import circuit_anchor
from builder.pages.page_start import nights_under_one
from builder.pages.view import View, step
from builder.pages.wiring import (
    clamp_comes_off,
    fuses_before,
    has_post_studs,
    isolating_switch,
    known_where,
    main_fuse,
    starts_at_battery,
    switches_by_part,
)
from builder.trailer.assumed import assumption
from builder.trailer.circuits import CircuitKind
from builder.trailer.mains import has_mains
from builder.trailer.model import Battery
from builder.trailer.parts import Form

MOST_TAKERS = 5
"""So many parts are named that take most in a day."""

DAY_H = 24.0
DAYS_A_WEEK = 7.0

IN_USE, IN_STORE = 50.0, 75.0
"""How full a lead battery may get, in percent, before it is charged again."""

SHOWN_SIGNS = ("lamp", "pump", "fan", "alarm", "fridge")


def has_battery(view: View) -> bool:
    """Tell whether there is anything to say on a battery."""
    return view.trailer.battery is not None


def battery_page(view: View) -> dict[str, Any]:
    """Return what the template of the battery's page is filled with; nothing without a battery."""
    battery, energy = view.trailer.battery, view.figures.energy
    if battery is None or energy is None:
        return {}
    return {
        **_what_it_is(view, battery),
        "studs": has_post_studs(view.trailer),
        **_how_long(view, energy),
        "rest": [
            (percent, view.fig(f"energy/kind/rest/{place}/rest_v", "V"))
            for place, (percent, _) in enumerate(energy.kind.rest)
        ],
        "charge_at": charge_at(view),
        "unsure": view.fig("energy/kind/unsure_percent", "%") if energy.kind.unsure_percent else "",
        "signs": {kind for kind in SHOWN_SIGNS if parts_of_kind(view, kind)},
        "charging": [_charging(view, energy, place) for place in range(len(energy.charging))],
        "charger": _pair(view, "energy/kind/charger_a", "A") if energy.kind.charger_a else None,
        "charge_from": _pair(view, "energy/kind/charge_from_temperature_c", "°C")
        if energy.kind.charge_from_c
        else None,
        "months": view.fig("energy/kind/store_months") if energy.kind.store_months else "",
        **_lying_idle(view, energy),
        "frost_ways": frost_ways(view),
        "meters": _meters(view),
        "has_plug": view.trailer.tow_plug is not None,
        "plugs": view.trailer.tow_plug.names if view.trailer.tow_plug else "",
        "has_mains": has_mains(view.trailer),
        "modules": [part.name for part in view.trailer.parts.values() if part.kind == "solar module"],
        "alarms": parts_of_kind(view, "alarm"),
        "us": view.trailer.identity.country == "US",
        "sun_measured": not assumption(view.trailer, SUN).replaced,
        "idle_assumed": energy.idle_range_a[0] < energy.idle_range_a[1],
    }


def parts_of_kind(view: View, kind: str) -> list[str]:
    """Return the names of the parts of a kind that are wired and there, in the order of the file."""
    trailer = view.trailer
    return [
        part.name
        for part in trailer.parts.values()
        if part.kind == kind and part.name not in trailer.unwired and not part.waiting
    ]


def _meters(view: View) -> list[tuple[str, str]]:
    """Return the meters that hang on the battery or its line, with their places: one of them may show the battery."""
    at_battery = {
        stop.part
        for circuit in view.trailer.circuits
        if circuit.kind is CircuitKind.FROM and starts_at_battery(view.trailer, circuit)
        for stop in circuit.stops
    }
    return [
        (name, known_where(view.trailer, name)) for name in parts_of_kind(view, "meter") if name in at_battery
    ]


def charge_at(view: View) -> dict[str, Markup]:
    """Return at which voltage at rest a lead battery wants a charge: in ``use`` and in ``store``.

    Every page that says when to charge takes it from here. Nothing where no table of voltages is good enough. Half
    is what the nights are counted by (sizing sheets plan with half); in store a lead battery is kept fuller, since it
    hardens and freezes while it stands low (common practice).
    """
    energy = view.figures.energy
    steps = [percent for percent, _ in energy.kind.rest] if energy else []
    return {
        when: view.fig(f"energy/kind/rest/{steps.index(percent)}/rest_v", "V")
        for when, percent in (("use", IN_USE), ("store", IN_STORE))
        if percent in steps
    }


def _what_it_is(view: View, battery: Battery) -> dict[str, Any]:
    isolator, fuse = isolating_switch(view.trailer), main_fuse(view.trailer)
    return {
        "chemistry": battery.chemistry,
        "lithium": is_lithium(view.trailer),
        "capacity": view.fig("energy/capacity_ah", "Ah"),
        "where": battery.where,
        "own_box": battery.box,
        "in_workshop": view.edition.reads(),
        "isolator": isolator.name if isolator else "",
        "isolator_where": isolator.where if isolator else "",
        "main_fuse": fuse.name if fuse else "",
        "main_fuse_chip": _chip(view, fuse.name) if fuse else None,
        "main_fuse_where": fuse.where if fuse else "",
        "box": view.trailer.front_box is not None,
        "box_where": view.trailer.front_box.where if view.trailer.front_box else "",
    }


def _chip(view: View, fuse: str) -> dict[str, str] | None:
    """Return the words of a fuse; None where its rating is not known."""
    return view.fuse_words(fuse) if any(one.name == fuse for one in view.figures.fuses) else None


def _how_long(view: View, energy: EnergyFigures) -> dict[str, Any]:
    kind = battery_kind(view.trailer)
    used = energy.day_ah[0] > 0
    order = sorted(range(len(energy.days)), key=lambda place: -energy.days[place].use_ah[1])
    takers = [place for place in order if energy.days[place].use_ah[1] > 0][:MOST_TAKERS]
    return {
        "nights": _pair(view, "energy/nights") if used else None,
        "under_a_night": nights_under_one(view),
        "waiting": energy.waiting,
        "share": view.fig(f"assumptions/{step(f'usable share of a {kind} battery')}/value", "%"),
        "cold": view.fig("energy/kind/cold_percent", "%"),
        "day": (view.fig("energy/day_ah/0", "Ah"), view.fig("energy/day_ah/2", "Ah")) if used else None,
        "takers": [
            {
                "part": part_anchor(view, energy.days[place].part),
                "standing": energy.days[place].hours[0] >= DAY_H,
                "low": view.fig(f"energy/day/{place}/use_ah/0", "Ah"),
                "high": view.fig(f"energy/day/{place}/use_ah/2", "Ah"),
            }
            for place in takers
        ],
    }


def part_anchor(view: View, name: str) -> Markup:
    """Return a part's name as a link to its row on the page Find it."""
    return Markup('<a href="find.html#{}">{}</a>').format(view.part_ids[name], name)


def _pair(view: View, path: str, unit: str = "") -> tuple[Markup, Markup]:
    return view.fig(f"{path}/0", unit), view.fig(f"{path}/1", unit)


def _charging(view: View, energy: EnergyFigures, place: int) -> dict[str, Any]:
    one, path = energy.charging[place], f"energy/charging/{place}"
    circuit = view.trailer.circuit(one.circuit)
    sun = one.day_ah is not None
    return {
        "source": one.source,
        "supply": one.supply,
        "charger": one.charger,
        "held": one.held,
        "limiters": ", ".join(one.limiters),
        "into_box": one.into_box,
        "circuit": circuit_anchor(view, circuit),
        "current": _pair(view, f"{path}/current_a", "A"),
        "hours": _pair(view, f"{path}/hours_h") if one.hours else None,
        "sun": _pair(view, f"{path}/sun_day_ah", "Ah") if sun else None,
        "days": _pair(view, f"{path}/days") if one.days else None,
    }


def _lying_idle(view: View, energy: EnergyFigures) -> dict[str, Any]:
    """Return what takes from the battery with all off, how long it lasts so, and the fuses that end it."""
    isolator = isolating_switch(view.trailer)
    return {
        "drains": [
            {
                "part": part_anchor(view, drain.part),
                "current": view.fig(f"energy/drains/{place}/current_a", "A"),
                "stays": drain.stays,
            }
            for place, drain in enumerate(energy.drains)
        ],
        "weeks": _pair(view, "energy/weeks_to_half"),
        "weeks_off": _pair(view, "energy/weeks_to_half_off") if isolator else None,
        "pulls": fuses_to_pull(view, energy),
        "unswitched": _unswitched(view, energy),
        "sun_in_store": _sun_in_store(view, energy),
        "unfused": any(drain.stays and not _nearest_fuse(view, drain) for drain in energy.drains),
    }


def _sun_in_store(view: View, energy: EnergyFigures) -> dict[str, Any] | None:
    """Return the least that a day of sun gives, and whether that is more than what goes on takes; None without sun.

    Compared with the most that is lost in a day, with what a charge needs on top. Source: arithmetic on the figures.
    """
    suns = [(place, one) for place, one in enumerate(energy.charging) if one.day_ah is not None]
    if not suns:
        return None
    place, sun = suns[0]
    switched_off = isolating_switch(view.trailer) is not None and not sun.into_box
    weeks = energy.weeks_to_half_off if switched_off else energy.weeks_to_half
    extra = limits(assumption(view.trailer, f"extra charge of a {battery_kind(view.trailer)} battery"))[1]
    lost_ah = energy.capacity_ah / 2 / (weeks[0] * DAYS_A_WEEK) * (1 + extra / 100.0)
    return {
        "least": view.fig(f"energy/charging/{place}/sun_day_ah/0", "Ah"),
        "enough": sun.day_ah is not None and sun.day_ah[0] > lost_ah,
        "switched_off": switched_off,
    }


def _unswitched(view: View, energy: EnergyFigures) -> list[str]:
    """Return what uses current and has no switch in the file: nobody knows whether it runs with all switches off."""
    works, drained = switches_by_part(view.trailer), {drain.part for drain in energy.drains}
    names = dict.fromkeys(day.part for day in energy.days)
    kinds = {name: view.trailer.parts[name].kind for name in names}
    loads = {name for name in names if view.trailer.parts[name].form is Form.LOAD and kinds[name] != "socket"}
    return [name for name in names if name in loads and not works.get(name) and name not in drained]


def fuses_to_pull(view: View, energy: EnergyFigures) -> list[dict[str, Any]]:
    """Return the fuses that end what still takes from the battery after the first step, each once."""
    found: dict[str, list[str]] = {}
    for drain in energy.drains:
        name = _nearest_fuse(view, drain)
        if drain.stays and name:
            found.setdefault(name, []).append(drain.part)
    fuses = {fuse.name: fuse for fuse in view.figures.fuses}
    return [
        {
            "name": name,
            "way": fuses[name].way,
            "chip": view.fuse_words(name),
            "stops": ", ".join(parts),
            "where": known_where(view.trailer, name),
            "clamp": clamp_comes_off(view.trailer, name),
        }
        for name, parts in found.items()
    ]


def _nearest_fuse(view: View, drain: Drain) -> str:
    """Return the fuse nearest to what takes from the battery; empty where there is none in the trailer."""
    names = fuses_before(view.trailer, view.trailer.circuit(drain.circuit), drain.part)
    known = {fuse.name for fuse in view.figures.fuses}
    return next((name for name in names if name in known), "")
