"""What is on while the test sheet has one thing switched on: all that no other switch keeps off."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.network import OUT, sections_up
from builder.lists.waiting import Waiting
from builder.trailer.model import Trailer
from builder.trailer.parts import HAND_WORKED, RELAY, Terminal

OUTSIDE = "socket"
"""A kind of part that takes nothing until something is plugged in, which is as good as a switch."""


class Switching:
    """Which switches keep each load of a trailer off; looked up once."""

    def __init__(self, trailer: Trailer, figures: Figures) -> None:
        self.trailer = trailer
        waits = Waiting(trailer, figures)
        self.loads = [
            load
            for circuit in figures.circuits.values()
            for load in circuit.loads
            if not load.load.charged_from and not waits(load)
        ]
        self._out = {wire.number: wire.start for wire in trailer.wires if wire.role in OUT}

    def on_with(self, load: LoadFigures) -> tuple[LoadFigures, ...]:
        """Return all that is on when one load is switched on and nothing else, that load first.

        The fuses of other circuits are out, but for those of the coils that it needs.
        """
        asked = frozenset(self.switches_of(load))
        circuits = {load.load.circuit, *(coil.load.circuit for coil in self._coils(load, "contact out"))}
        others = (one for one in self.loads if one is not load and one.load.circuit in circuits)
        return (load, *(one for one in others if self._is_on(one, asked)))

    def _is_on(self, load: LoadFigures, asked: frozenset[str]) -> bool:
        """Tell whether nothing but these switches keeps a load off; a rest contact does while its coil is fed."""
        lifted = any(asked.issuperset(self.switches_of(coil)) for coil in self._coils(load, "contact rest"))
        return not lifted and asked.issuperset(self.switches_of(load))

    def switches_of(self, load: LoadFigures, seen: tuple[str, ...] = ()) -> Iterator[str]:
        """Yield what must be turned on for a load: switches on its way, its own, those of its coils and converters.

        A converter takes its full current only with all on that it feeds, so what keeps that off keeps it off too.
        """
        for start in (*self._starts(load), load.load.plus):
            part = self.trailer.parts.get(start.part)
            if part is not None and part.kind in HAND_WORKED and start.pin != "in":
                yield str(start) if part.outputs else part.name
        own = self.trailer.parts.get(load.load.part)
        if own is not None and load.load.what == "" and (own.own_switch or own.kind == OUTSIDE):
            yield own.name
        if load.load.part in seen:
            return
        behind = [one for one in self.loads if load.load.what == "input" and self._is_behind(one, load)]
        for other in (*self._coils(load, "contact out"), *behind):
            yield from self.switches_of(other, (*seen, load.load.part))

    def _starts(self, load: LoadFigures) -> list[Terminal]:
        return [self._out[step.wire] for step in load.steps if step.wire in self._out]

    def _is_behind(self, one: LoadFigures, converter: LoadFigures) -> bool:
        above = sections_up(self.trailer, one.load.section)
        return one.load.what == "" and converter.load.part in {section.fed_by for section in above}

    def _coils(self, load: LoadFigures, contact: str) -> Sequence[LoadFigures]:
        """Return the coils of the relays whose contact of a kind a load's current passes."""
        relays = {
            start.part
            for start in self._starts(load)
            if start.pin == contact and self.trailer.parts[start.part].kind == RELAY
        }
        return [one for one in self.loads if one.load.what == "coil" and one.load.part in relays]
