"""What lies between feed and return besides the wires, with every switch off: the meter reads it as well."""

from __future__ import annotations

from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.network import OUT, neighbours, reach
from builder.tables.road_lamps import road_lamp_draw
from builder.tables.table import NoRow
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import SUPPLY_BAR, Trailer
from builder.trailer.parts import BREAKAWAY_SWITCH, HAND_WORKED, Terminal
from builder.trailer.wires import Link

_OPEN = (*HAND_WORKED, "relay", "isolating switch", BREAKAWAY_SWITCH, "fuse")
"""Kinds of parts that let nothing through in a dead test: switched off, without a supply, or taken out."""


def waits(trailer: Trailer, load: LoadFigures) -> bool:
    """Tell whether a load's part, or one on the way to it, is not there yet: it can be neither worked nor measured."""
    used = {step.wire for step in load.steps}
    names = {wire.start.part for wire in trailer.wires if wire.number in used} | {load.load.part}
    return any(name in trailer.parts and trailer.parts[name].waiting for name in names)


def left_across(trailer: Trailer, figures: Figures, red: Terminal) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what hangs on a feed with no switch that takes it off, and of the lamps those with a bulb to take out.

    ``red`` is where the red probe goes, all fuses and supplies are out. A socket has nothing plugged in.
    """
    reached = reach(neighbours(trailer, OUT, lambda link: not _is_open(trailer, link)), red)
    parts: dict[str, None] = {}
    bulbs: dict[str, None] = {}
    for number, circuit in figures.circuits.items():
        road = trailer.circuit(number).kind is CircuitKind.TOW
        for load in circuit.loads:
            if load.load.plus not in reached or not _stays(trailer, load):
                continue
            found = bulbs if road and _may_be_bulb(load) else parts
            found[load.load.part] = None
    for section in trailer.sections:
        giver = trailer.parts.get(section.plus.part)
        # the output of a converter or charger; a module's wires are taken off it
        if section.plus in reached and giver is not None and giver.kind != "solar module":
            parts[giver.name] = None
    return tuple(parts), tuple(bulbs)


def _is_open(trailer: Trailer, link: Link) -> bool:
    """Tell whether a link inside a part is parted; those of the supply bar are the fuses of the ways."""
    part = trailer.parts.get(link.a.part)
    return SUPPLY_BAR in (link.a, link.b) or (part is not None and part.kind in _OPEN)


def _stays(trailer: Trailer, load: LoadFigures) -> bool:
    """Tell whether a meter finds a load between feed and return while everything is switched off."""
    part = trailer.parts.get(load.load.part)
    if load.load.charged_from or waits(trailer, load) or (part is not None and part.kind == "socket"):
        return False
    if load.load.plus.part != load.load.part:
        # what a charger takes from the battery at rest flows through its output, which stands among the sections
        return False
    return part is None or not part.own_switch or load.load.what == "idle"


def _may_be_bulb(load: LoadFigures) -> bool:
    """Tell whether a road lamp takes as much as a filament does; one that takes less is an LED lamp.

    Source: the lowest draws of filament lamps in the table of road lamps (quoted rule and common practice).
    """
    functions = [word for part in load.load.what.split(" and ") for word in part.split(", ")]
    try:
        least_a = min(road_lamp_draw(function, "filament").low_a for function in functions)
    except NoRow:
        return True
    return load.current_a >= least_a
