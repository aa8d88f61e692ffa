"""Care through the year: what to look at each trip and each season, a row only where the part is there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from builder.electrics.energy import is_lithium
from builder.pages.brakes_here import brakes_here
from builder.pages.in_frost import frost_ways
from builder.pages.lamp_check import lamp_check
from builder.pages.page_battery import charge_at, parts_of_kind
from builder.pages.view import View
from builder.pages.wiring import has_post_studs, isolating_switch
from builder.trailer.mains import has_mains
from builder.trailer.model import Trailer
from builder.trailer.wires import Role

OWN_SECTIONS = ("converter", "charge controller", "dc charger", "shore converter")
"""Parts that get warm and want air."""


@dataclass(frozen=True, slots=True)
class CareRow:
    """One thing to look at: ``what`` names its kind to the template, ``names`` the parts of the build it is for."""

    what: str
    names: tuple[str, ...] = ()


PERIODS: Mapping[str, tuple[str, ...]] = {
    "trip": ("battery", "alarm", "tow plug", "breakaway", "breakaway battery", "brakes", "shore lead"),
    "spring": ("battery", "fuses out", "pump", "alarm", "solar module", "tow plug"),
    "season": (
        "road lamp",
        "tow plug",
        "cable entry",
        "brakes",
        "breakaway",
        "breakaway battery",
        "connector",
        "battery",
        "caps",
        "isolating switch",
        "fuse",
        "ground bar",
        "frame bond",
        "fan",
        "socket",
        "charger",
        "solar module",
        "alarm",
        "waiting",
        "spare",
        "mains",
    ),
    "winter": ("pump", "connector", "tow plug", "solar module", "battery", "breakaway battery", "drains"),
    "month": ("battery", "breakaway battery", "tow plug", "alarm"),
}
"""What stands under each heading of the page, in this order, each where the build has it."""


def care_page(view: View) -> dict[str, Any]:
    """Return what the template of the page on care is filled with."""
    rows = {period: care_rows(view, period) for period in PERIODS}
    plug = view.trailer.tow_plug
    battery, energy = view.trailer.battery, view.figures.energy
    kind = energy.kind if energy else None
    frost = [percent for percent, _ in kind.freezes] if kind else []
    return {
        "rows": rows,
        "lamps": lamp_check(view.trailer),
        "plugs": plug.names if plug else "",
        "has_battery": battery is not None,
        "studs": has_post_studs(view.trailer),
        "has_plug": plug is not None,
        "flat_plug": plug is not None and plug.pattern.name == "4-way flat",
        "lithium": is_lithium(view.trailer),
        "charge_at": charge_at(view),
        "frost_ways": frost_ways(view),
        "charge_from": view.fig("energy/kind/charge_from_temperature_c/1", "°C")
        if kind and kind.charge_from_c
        else "",
        "frost": {
            word: view.fig(f"energy/kind/freezing/{frost.index(percent)}/temperature_c", "°C")
            for word, percent in (("full", 100.0), ("quarter", 25.0))
            if percent in frost
        },
        "isolator": isolating_switch(view.trailer) is not None,
    }


def care_rows(view: View, period: str) -> list[CareRow]:
    """Return the rows of a heading: those whose part the build has."""
    rows = (CareRow(what, names) for what in PERIODS[period] if (names := FINDERS[what](view)) is not None)
    return list(rows)


def _named(kind: str) -> Callable[[View], tuple[str, ...] | None]:
    """Return what finds the wired parts of a kind; None where there is none."""
    return lambda view: tuple(parts_of_kind(view, kind)) or None


def _if(there: Callable[[Trailer], Any]) -> Callable[[View], tuple[str, ...] | None]:
    """Return what finds something without a name of its own: an empty tuple where it is there."""
    return lambda view: () if there(view.trailer) else None


def _chargers(view: View) -> tuple[str, ...] | None:
    return tuple(name for kind in OWN_SECTIONS for name in parts_of_kind(view, kind)) or None


def _waiting(view: View) -> tuple[str, ...] | None:
    return tuple(part.name for part in view.trailer.parts.values() if part.waiting) or None


def _spares(view: View) -> tuple[str, ...] | None:
    return tuple(wire.number for wire in view.trailer.spares) or None


def _drains(view: View) -> tuple[str, ...] | None:
    energy = view.figures.energy
    return tuple(drain.part for drain in energy.drains) or None if energy else None


def _brakes(view: View) -> tuple[str, ...] | None:
    here = brakes_here(view)
    return None if here is None else here.magnets


def _breakaway(view: View) -> tuple[str, ...] | None:
    here = brakes_here(view)
    return None if here is None or not here.breakaway else tuple(filter(None, (here.switch,)))


def _breakaway_battery(view: View) -> tuple[str, ...] | None:
    here = brakes_here(view)
    return None if here is None or not here.breakaway else tuple(filter(None, (here.battery,)))


def _isolator(view: View) -> tuple[str, ...] | None:
    isolator = isolating_switch(view.trailer)
    return (isolator.name,) if isolator else None


def _cable_entry(view: View) -> tuple[str, ...] | None:
    """Return where the plug's cable enters the body; None where that is not on record."""
    found = [place for hole in view.figures.laid.passings if hole.plug and hole.skin for place in hole.places]
    return tuple(dict.fromkeys(found)) or None


FINDERS: Mapping[str, Callable[[View], tuple[str, ...] | None]] = {
    "battery": _if(lambda trailer: trailer.battery),
    "caps": _if(lambda trailer: trailer.battery and trailer.battery.chemistry == "flooded"),
    "tow plug": _if(lambda trailer: trailer.tow_plug),
    "road lamp": _if(lambda trailer: trailer.road_lamps),
    "ground bar": _if(lambda trailer: trailer.front_box),
    "frame bond": _if(lambda trailer: any(wire.role is Role.BOND for wire in trailer.wires)),
    "mains": _if(lambda trailer: trailer.mains),
    "shore lead": _if(has_mains),
    "fuse": lambda view: () if view.figures.fuses else None,
    "fuses out": lambda view: () if view.trailer.battery and view.figures.fuses else None,
    "brakes": _brakes,
    "breakaway": _breakaway,
    "breakaway battery": _breakaway_battery,
    "isolating switch": _isolator,
    "charger": _chargers,
    "waiting": _waiting,
    "spare": _spares,
    "cable entry": _cable_entry,
    "drains": _drains,
    **{kind: _named(kind) for kind in ("alarm", "connector", "pump", "fan", "socket", "solar module")},
}
"""For each row what finds its parts: their names, or None where the build has none."""
