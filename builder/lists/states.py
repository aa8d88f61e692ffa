"""What is on while the test sheet has one thing switched on: all that no other switch keeps off."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.network import OUT, every_section_up
from builder.lists.waiting import Waiting
from builder.trailer.model import Trailer
from builder.trailer.parts import HAND_WORKED, RELAY, Terminal

OUTSIDE = "socket"
"""A kind of part that takes nothing until something is plugged in, which is as good as a switch."""


@dataclass(frozen=True, slots=True)
class On:
    """All that is on with one load switched on, that load first, and what flows in each wire then, in amperes."""

    loads: tuple[LoadFigures, ...]
    currents_a: Mapping[str, float]


def wire_currents_a(loads: Iterable[LoadFigures]) -> dict[str, float]:
    """Return what flows in each wire with these loads on and no other, in amperes.

    Source: Kirchhoff's current law.
    """
    found: dict[str, float] = {}
    for load in loads:
        for wire in dict.fromkeys(step.wire for step in load.steps):
            found[wire] = found.get(wire, 0.0) + load.current_a
    return found


def givers(trailer: Trailer) -> dict[str, tuple[str, ...]]:
    """Return by the name of a section the converters and chargers that it is fed by, one behind the other."""
    above = every_section_up(trailer)
    return {name: tuple(one.fed_by for one in up if one.fed_by) for name, up in above.items()}


class Switching:
    """Which switches keep each load of a trailer off; looked up once."""

    def __init__(self, trailer: Trailer, figures: Figures, waits: Waiting) -> None:
        self.trailer = trailer
        self.loads = [
            load
            for circuit in figures.circuits.values()
            for load in circuit.loads
            if not load.load.charged_from and not waits(load)
        ]
        self._places = {load.load: place for place, load in enumerate(self.loads)}
        out = {wire.number: wire.start for wire in trailer.wires if wire.role in OUT}
        self._starts = [[out[step.wire] for step in load.steps if step.wire in out] for load in self.loads]
        self._of_relay: dict[str, list[int]] = {}
        self._behind: dict[str, list[int]] = {}
        above = givers(trailer)
        for place, load in enumerate(self.loads):
            if load.load.what == "coil":
                self._of_relay.setdefault(load.load.part, []).append(place)
            for giver in above.get(load.load.section, ()) if load.load.what == "" else ():
                self._behind.setdefault(giver, []).append(place)
        self._switches = [frozenset(self._switches_of(place)) for place in range(len(self.loads))]
        # by one of its switches a load is found wherever all of them are on
        self._by_one: dict[tuple[int, str], list[int]] = {}
        for place, load in enumerate(self.loads):
            one = min(self._switches[place], default="")
            self._by_one.setdefault((load.load.circuit, one), []).append(place)
        self._told: dict[tuple[frozenset[str], frozenset[int]], On] = {}

    def on_with(self, load: LoadFigures) -> On:
        """Return all that is on when one load is switched on and nothing else.

        The fuses of other circuits are out, but for those of the coils that it needs.
        """
        place = self._places[load.load]
        coils = (self.loads[coil].load.circuit for coil in self._coils(place, "contact out"))
        circuits = frozenset((load.load.circuit, *coils))
        asked = self._switches[place]
        if (asked, circuits) not in self._told:
            loads = tuple(self.loads[one] for one in sorted(self._all_on(asked, circuits)))
            self._told[asked, circuits] = On(loads, wire_currents_a(loads))
        told = self._told[asked, circuits]
        loads = (load, *(one for one in told.loads if one is not load))
        return On(loads, told.currents_a if len(loads) == len(told.loads) else wire_currents_a(loads))

    def _all_on(self, asked: frozenset[str], circuits: Collection[int]) -> Iterator[int]:
        """Yield what nothing but these switches keeps off; a rest contact does while its coil is fed."""
        for circuit in circuits:
            for one in ("", *asked):
                for place in self._by_one.get((circuit, one), ()):
                    rest = self._coils(place, "contact rest")
                    lifted = any(asked >= self._switches[coil] for coil in rest)
                    if not lifted and asked >= self._switches[place]:
                        yield place

    def _switches_of(self, place: int, seen: tuple[str, ...] = ()) -> Iterator[str]:
        """Yield what must be turned on for a load: switches on its way, its own, those of its coils and converters.

        A converter takes its full current only with all on that it feeds, so what keeps that off keeps it off too.
        """
        load = self.loads[place].load
        for start in (*self._starts[place], load.plus):
            part = self.trailer.parts.get(start.part)
            if part is not None and part.kind in HAND_WORKED and start.pin != "in":
                yield str(start) if part.outputs else part.name
        own = self.trailer.parts.get(load.part)
        if own is not None and load.what == "" and (own.own_switch or own.kind == OUTSIDE):
            yield own.name
        if load.part in seen:
            return
        behind = self._behind.get(load.part, []) if load.what == "input" else []
        for other in (*self._coils(place, "contact out"), *behind):
            yield from self._switches_of(other, (*seen, load.part))

    def _coils(self, place: int, contact: str) -> list[int]:
        """Return the coils of the relays whose contact of a kind a load's current passes."""
        relays = dict.fromkeys(start.part for start in self._starts[place] if self._passes(start, contact))
        return [coil for relay in relays for coil in self._of_relay.get(relay, ())]

    def _passes(self, start: Terminal, contact: str) -> bool:
        return start.pin == contact and self.trailer.parts[start.part].kind == RELAY
