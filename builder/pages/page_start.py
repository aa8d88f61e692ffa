"""Start here: what the trailer is, everything off, which switch works what, the emergency card."""

from __future__ import annotations

from typing import Any

from builder.pages.in_frost import frost_ways
from builder.pages.page_building_in import has_framing
from builder.pages.page_closing import has_bays
from builder.pages.page_fasteners import has_covers
from builder.pages.page_frames import has_frames
from builder.pages.page_landings import has_landings
from builder.pages.view import View
from builder.pages.wiring import (
    feeds,
    is_ground_contact,
    isolating_switch,
    known_where,
    lands_in_box,
    lands_on_battery,
    starts_at_battery,
    stays_live,
    switches_of,
)
from builder.tables.brakes import brake_rules
from builder.trailer.circuits import CircuitKind
from builder.trailer.mains import has_mains
from builder.trailer.model import Trailer
from builder.trailer.parts import BREAKAWAY_BATTERY, Part


def start_page(view: View) -> dict[str, Any]:
    """Return what the template of Start here is filled with."""
    trailer = view.trailer
    isolator = isolating_switch(trailer)
    energy = view.figures.energy
    return {
        "identity": trailer.identity,
        "in_workshop": view.edition.reads(),
        "has_framing": has_framing(view),
        "has_frames": has_frames(view),
        "has_covers": has_covers(view),
        "has_bays": has_bays(view),
        "has_landings": has_landings(view),
        "has_chases": bool(trailer.geometry.chases),
        "has_battery": trailer.battery is not None,
        "to_scale": bool(trailer.geometry),
        "ways_told": bool(trailer.geometry.chases),
        "ways": sum(way.circuit is not None for way in view.figures.ways),
        "box_where": trailer.front_box.where if trailer.front_box else "",
        "off_steps": off_steps(trailer),
        "goes_dead": goes_dead(trailer),
        "stays_live": live_things(trailer),
        "switches": switch_map(trailer),
        "circuits": [
            (circuit.name, view.circuit_link(circuit))
            for circuit in trailer.circuits
            if not is_ground_contact(trailer, circuit)
        ],
        "alarms": [part.name for part in trailer.parts.values() if part.kind == "alarm"],
        "alarms_off": [item["name"] for item in goes_dead(trailer) if item["alarm"]],
        "has_mains": has_mains(trailer),
        "mains": trailer.mains,
        "feeds_box": [circuit.name for circuit in lands_in_box(trailer)],
        "nights": _nights(view),
        "under_a_night": nights_under_one(view),
        "rest": _rest(view),
        "frost_ways": frost_ways(view),
        "has_lamps": trailer.tow_plug is not None and bool(trailer.road_lamps),
        "has_plug": trailer.tow_plug is not None,
        "plugs": trailer.tow_plug.names if trailer.tow_plug else "",
        "brake_rules": trailer.tow_plug is not None and bool(brake_rules(trailer.identity.country)),
        "sun": any(one.source == "solar module" for one in energy.charging) if energy else False,
        "modules": [
            {"part": part.name, "wires": ", ".join(_wires_at(trailer, part.name))}
            for part in trailer.parts.values()
            if part.kind == "solar module" and not part.waiting
        ],
        "breakaway_batteries": [
            part.name
            for part in trailer.parts.values()
            if part.kind == BREAKAWAY_BATTERY and not part.waiting
        ],
        "isolator": isolator is not None,
        "isolator_where": isolator.where if isolator else "",
        "battery_where": trailer.battery.where if trailer.battery else "",
    }


def _wires_at(trailer: Trailer, part: str) -> list[str]:
    """Return the numbers of the wires that end at a part."""
    return [wire.number for wire in trailer.wires if part in (wire.start.part, wire.end.part)]


def _nights(view: View) -> tuple[Any, Any] | None:
    """Return how many nights a full battery lasts, at most use and at little; None where nothing takes from it."""
    energy = view.figures.energy
    if energy is None or not energy.day_ah[0] > 0:
        return None
    return view.fig("energy/nights/0"), view.fig("energy/nights/1")


def nights_under_one(view: View) -> tuple[bool, bool]:
    """Return whether a full battery lasts less than one night, at most use and at little."""
    energy = view.figures.energy
    return (False, False) if energy is None else (energy.nights[0] < 1, energy.nights[1] < 1)


def _rest(view: View) -> tuple[Any, Any] | None:
    """Return after how many weeks with all switched off the battery is half empty.

    None without a battery, and where its minus clamp comes off: then nothing takes from it but itself.
    """
    if view.figures.energy is None or not isolating_switch(view.trailer):
        return None
    return view.fig("energy/weeks_to_half_off/0"), view.fig("energy/weeks_to_half_off/1")


def off_steps(trailer: Trailer) -> list[dict[str, str]]:
    """Return the steps that switch everything off, in the order of the guides: what feeds it besides, then the battery.

    Without an isolating switch the minus clamp comes off the battery: a hand that goes to the main fuse needs that
    first all the same (``clamp_comes_off``). A solar module that feeds the front box itself, or a battery whose
    clamp comes off, is covered first: once the battery is parted from it, no light may fall on it.
    """
    modules = [part for part in trailer.parts.values() if part.kind == "solar module"]
    isolator = isolating_switch(trailer)
    in_box = {circuit.start.part for circuit in lands_in_box(trailer)}
    first = [part for part in modules if part.name in in_box or isolator is None]
    steps = [_cover(part) for part in first]
    if has_mains(trailer):
        steps.append({"kind": "mains", "name": "", "where": ""})
    if trailer.tow_plug is not None:
        steps.append({"kind": "tow plug", "name": trailer.tow_plug.names, "where": trailer.tow_plug.kept})
    if isolator is not None:
        steps.append({"kind": "isolating switch", "name": isolator.name, "where": isolator.where})
    elif trailer.battery is not None:
        steps.append({"kind": "minus post", "name": "", "where": trailer.battery.where})
    return steps + [_cover(part) for part in modules if part not in first]


def _cover(module: Part) -> dict[str, str]:
    return {"kind": module.kind, "name": module.name, "where": module.where}


def goes_dead(trailer: Trailer) -> list[dict[str, Any]]:
    """Return what the steps turn off: alarms one by one, then in one line every other load behind the switch.

    Without a battery all hangs on the tow plug: the line has no name then.
    """
    if trailer.battery is None:
        return [{"name": "", "alarm": False}] if trailer.tow_plug else []
    names: dict[str, None] = {}
    for circuit in trailer.circuits:
        behind = circuit.kind is CircuitKind.HOUSE or (
            circuit.kind is CircuitKind.FROM
            and isolating_switch(trailer) is None
            and starts_at_battery(trailer, circuit)
        )
        if behind:
            names |= dict.fromkeys(feeds(trailer, circuit))
    names = {name: None for name in names if not trailer.parts[name].waiting}
    alarms = [name for name in names if trailer.parts[name].kind == "alarm"]
    rest = [name for name in names if name not in alarms]
    things: list[dict[str, Any]] = [{"name": name, "alarm": True} for name in alarms]
    return [*things, {"name": ", ".join(rest), "alarm": False}] if rest else things


def live_things(trailer: Trailer) -> list[dict[str, str]]:
    """Return what stays live all the same."""
    things: list[dict[str, str]] = []
    if trailer.battery is not None:
        things.append({"kind": _live_cable(trailer), "name": ""})
    for circuit in stays_live(trailer):
        name = ", ".join(feeds(trailer, circuit)) or circuit.name
        things.append({"kind": "circuit", "name": name})
    charging = [circuit.name for circuit in lands_on_battery(trailer)]
    if charging and isolating_switch(trailer) is not None:
        things.append({"kind": "charging", "name": ", ".join(charging)})
    if trailer.tow_plug is not None and trailer.battery is not None:
        things.append({"kind": "tow plug", "name": ""})
    things += [
        {"kind": part.kind, "name": part.name}
        for part in trailer.parts.values()
        if part.kind in (BREAKAWAY_BATTERY, "solar module")
    ]
    if has_mains(trailer):
        things.append({"kind": "mains", "name": ""})
    return things


def _live_cable(trailer: Trailer) -> str:
    """Return what of the battery stays live: the cable up to the switch, or its two posts where a clamp is off."""
    return "posts" if isolating_switch(trailer) is None else "cable to switch"


def switch_map(trailer: Trailer) -> list[dict[str, Any]]:
    """Return every switch with what it works and where it is, in the order of the circuits."""
    lines = []
    for circuit in trailer.circuits:
        for switch, works in switches_of(trailer, circuit):
            if works:
                lines.append(
                    {
                        "switch": switch,
                        "by_remote": trailer.parts[switch].kind == "receiver",
                        "works": ", ".join(works),
                        "where": known_where(trailer, switch),
                    }
                )
    return lines
