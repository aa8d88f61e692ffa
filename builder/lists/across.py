"""What lies between feed and return besides the wires, switches off or on: the meter reads it as well."""

from __future__ import annotations

from collections.abc import Iterable

from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.network import HOME, OUT, Back, Neighbours, neighbours, reach
from builder.tables.road_lamps import road_lamp_draw
from builder.tables.table import NoRow
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import SUPPLY_BAR, Trailer
from builder.trailer.parts import BREAKAWAY_BATTERY, BREAKAWAY_SWITCH, CONTACTS, HAND_WORKED, RELAY, Terminal
from builder.trailer.wires import Link, Role, Section, Wire

_OPEN = (*HAND_WORKED, RELAY, "isolating switch", BREAKAWAY_SWITCH, "fuse")
"""Kinds of parts that let nothing through in a dead test: switched off, without a supply, or taken out."""


_PARTED = ("solar module", BREAKAWAY_BATTERY)
"""Kinds of supplies whose wires are taken off them before a dead test."""


class Across:
    """What a meter finds between feed and return besides the wires, all fuses and supplies out; looked up once."""

    def __init__(self, trailer: Trailer, figures: Figures) -> None:
        self._parts = trailer.parts
        self._wires: dict[Terminal, list[Wire]] = {}
        for wire in trailer.wires:
            for at in (wire.start, wire.end):
                self._wires.setdefault(at, []).append(wire)
        self._graphs = {
            OUT: self._there(neighbours(trailer, OUT, lambda link: not self._is_open(link))),
            HOME: self._there(neighbours(trailer, HOME, lambda link: not self._is_open(link))),
        }
        self._turned_on = self._there(neighbours(trailer, OUT, self._passes))
        self._loads: dict[Terminal, list[tuple[int, LoadFigures, bool]]] = {}
        self._own_switch: dict[Terminal, list[tuple[int, LoadFigures]]] = {}
        every = [(number, load) for number, one in figures.circuits.items() for load in one.loads]
        for place, (number, load) in enumerate(every):
            if self._stays(load):
                bulb = trailer.circuit(number).kind is CircuitKind.TOW and _may_be_bulb(load)
                self._loads.setdefault(load.load.plus, []).append((place, load, bulb))
            elif self._has_switch(load):
                self._own_switch.setdefault(load.load.plus, []).append((place, load))
        self._outputs: dict[Terminal, list[Section]] = {}
        for section in trailer.sections:
            giver = trailer.parts.get(section.plus.part)
            if giver is not None and not giver.waiting and giver.kind not in _PARTED:
                self._outputs.setdefault(section.plus, []).append(section)
        self._returns: dict[Terminal, Back] = {}

    def left(self, reached: Iterable[Terminal], black: Terminal) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Return what hangs with no switch between what a probe has reached and a return: parts, and bulbs to take out.

        A socket has nothing plugged in.
        """
        if black not in self._returns:
            self._returns[black] = self._reach(HOME, black)
        home = self._returns[black]
        found = [one for at in reached for one in self._loads.get(at, ()) if one[1].load.minus in home]
        found.sort(key=lambda one: one[0])
        outputs = [one for at in reached for one in self._outputs.get(at, ()) if one.minus in home]
        parts = [load.load.part for _, load, bulb in found if not bulb] + [one.plus.part for one in outputs]
        bulbs = [load.load.part for _, load, bulb in found if bulb]
        return tuple(dict.fromkeys(parts)), tuple(dict.fromkeys(bulbs))

    def turned_on(
        self, reached: Iterable[Terminal], black: Terminal
    ) -> tuple[tuple[str, ...], tuple[str, ...], tuple[Terminal, ...]]:
        """Return the switches on the way from what a probe reaches, what they let the meter read, and how far it comes.

        A dimmer and a relay let nothing through without a supply. A part with a switch of its own is one of them.
        """
        start = tuple(reached)
        far = tuple(reach(self._turned_on, *start))
        before = self.left(start, black)[0]
        home = self._returns[black]
        parts = (self._parts.get(at.part) for at in far)
        gates = dict.fromkeys(part.name for part in parts if part is not None and part.kind in CONTACTS)
        own = [load for at in far for load in self._own_switch.get(at, ()) if load[1].load.minus in home]
        own.sort(key=lambda one: one[0])
        after = [name for name in self.left(far, black)[0] if name not in before]
        behind = dict.fromkeys((*after, *(one.load.part for _, one in own)))
        return tuple(gates | dict.fromkeys(one.load.part for _, one in own)), tuple(behind), far

    def reached(self, red: Terminal, wire: str = "") -> tuple[Terminal, ...]:
        """Return the terminals that a probe on the feed at ``red`` reaches, nearest first.

        At a part that waits it is on the bare end of ``wire``, or of all its wires.
        """
        return tuple(self._reach(OUT, red, wire))

    def _reach(self, roles: tuple[Role, Role], at: Terminal, wire: str = "") -> Back:
        if not self._waits(at.part):
            return reach(self._graphs[roles], at)
        own = (one for one in self._wires.get(at, ()) if one.role in roles and wire in ("", one.number))
        return reach(self._graphs[roles], *(one.end if one.start == at else one.start for one in own))

    def _there(self, graph: Neighbours) -> Neighbours:
        """Return a graph without what waits, which joins nothing: each of its wires ends in the air."""
        return {at: near for at, near in graph.items() if not self._waits(at.part)}

    def _waits(self, name: str) -> bool:
        return name in self._parts and bool(self._parts[name].waiting)

    def _is_open(self, link: Link) -> bool:
        """Tell whether a link inside a part is parted; those of the supply bar are the fuses of the ways."""
        part = self._parts.get(link.a.part)
        if part is not None and part.kind == RELAY and "contact rest" in (link.a.pin, link.b.pin):
            return False  # what a relay joins while its coil has no supply
        return SUPPLY_BAR in (link.a, link.b) or (part is not None and part.kind in _OPEN)

    def _passes(self, link: Link) -> bool:
        """Tell whether a link inside a part is joined with every switch on that needs no supply for it."""
        part = self._parts.get(link.a.part)
        return not self._is_open(link) or (part is not None and part.kind in CONTACTS)

    def _stays(self, load: LoadFigures) -> bool:
        """Tell whether a meter finds a load between feed and return while everything is switched off."""
        part = self._parts.get(load.load.part)
        if load.load.charged_from or (part is not None and (part.waiting or part.kind == "socket")):
            return False
        if load.load.plus.part != load.load.part:
            # what a charger takes from the battery at rest flows through its output, which stands among the sections
            return False
        return part is None or not part.own_switch or load.load.what == "idle"

    def _has_switch(self, load: LoadFigures) -> bool:
        """Tell whether a load is there and has a switch of its own, at which its feed ends."""
        part = self._parts.get(load.load.part)
        return part is not None and part.own_switch and not part.waiting and load.load.what == ""


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
