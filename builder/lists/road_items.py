"""What the road lamps and brakes want beside their wires: bulbs, reflectors, the breakaway battery."""

from __future__ import annotations

from collections.abc import Mapping

from builder.lists.shopping import Item
from builder.tables.bulbs import filament_for
from builder.trailer.model import RoadLamp, Trailer
from builder.trailer.parts import BREAKAWAY_BATTERY

SPARE_BULBS = 1
"""Bulbs to carry of each kind. Common practice."""


def bulb_items(trailer: Trailer) -> tuple[Item, ...]:
    """Return the filament bulbs by name, with one of each to carry. Common practice.

    LED lamps have none; nor has a lamp whose bulb the file does not name.
    """
    lit: dict[str, dict[str, int]] = {}
    for lamp in trailer.road_lamps:
        for name, count in bulbs_in(lamp).items():
            lit.setdefault(name, {})[lamp.name] = count
    there: dict[str, int] = {}
    for one in trailer.stock.bulbs:
        there[one.name] = there.get(one.name, 0) + one.count
    found = []
    for name in sorted(lit):
        used = sum(lit[name].values())
        stock = min(there.get(name, 0), used + SPARE_BULBS)
        found.append(
            Item(
                id=f"bulb {name}",
                section="bulbs",
                kind="bulb",
                used=used,
                spare=SPARE_BULBS,
                stock=stock,
                series=name,
                names=tuple(lit[name]),
            )
        )
    return tuple(found)


def bulbs_in(lamp: RoadLamp) -> Mapping[str, int]:
    """Return how many bulbs of each name are in a lamp.

    Functions on one contact share a filament: they are lit together. Functions apart that need the same filament of
    a bulb need a bulb each; both filaments of one bulb count once.
    """
    contact = {function: at for shown, at in lamp.contacts for function in shown.split(", ")}
    lit: dict[str, dict[str, set[str]]] = {}
    for function, name in lamp.bulb_of.items():
        filament = filament_for(name, function).filament
        lit.setdefault(name, {}).setdefault(filament, set()).add(contact.get(function, function))
    return {
        name: lamp.count * max(len(contacts) for contacts in by_filament.values())
        for name, by_filament in lit.items()
    }


def reflector_items(trailer: Trailer) -> tuple[Item, ...]:
    """Return the reflectors by form and colour; one that is built into a lamp comes with the lamp."""
    found: dict[tuple[str, str], list[str]] = {}
    for one in trailer.reflectors:
        form = "triangle reflector" if one.triangle else "reflector"
        found.setdefault((form, one.color), []).append(one.name)
    return tuple(
        Item(
            id=f"{form} {color}".strip(),
            section="reflectors",
            kind=form,
            used=len(names),
            stock=sum(name in trailer.stock.parts for name in names),
            color=color,
            names=tuple(names),
        )
        for (form, color), names in sorted(found.items())
    )


def breakaway_items(trailer: Trailer) -> tuple[Item, ...]:
    """Return the breakaway battery where the file has one under ``brakes`` and no part is one."""
    brakes = trailer.brakes
    named = any(part.kind == BREAKAWAY_BATTERY for part in trailer.parts.values())
    if brakes is None or brakes.breakaway_ah is None or named:
        return ()
    return (
        Item(
            id=f"box {BREAKAWAY_BATTERY}",
            section="box",
            kind=BREAKAWAY_BATTERY,
            used=1,
            stock=int(BREAKAWAY_BATTERY in trailer.stock.parts),
            capacity_ah=brakes.breakaway_ah,
        ),
    )
