"""What has to work before a load does: what feeds its section, and the coils of the relays that it passes."""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.network import OUT, every_section_up
from builder.trailer.model import Trailer
from builder.trailer.parts import RELAY, Terminal


class Needed:
    """Which other loads each load of a trailer needs; looked up once."""

    def __init__(self, trailer: Trailer, figures: Figures) -> None:
        self.loads = [load for circuit in figures.circuits.values() for load in circuit.loads]
        self._starts = {wire.number: wire.start for wire in trailer.wires if wire.role in OUT}
        self._relays = {part.name for part in trailer.parts.values() if part.kind == RELAY}
        self._up = every_section_up(trailer)
        self._inputs = {load.load.part: load for load in self.loads if load.load.what == "input"}
        self._coils: dict[str, list[LoadFigures]] = {}
        for load in self.loads:
            if load.load.what == "coil":
                self._coils.setdefault(load.load.part, []).append(load)

    def starts(self, load: LoadFigures) -> list[Terminal]:
        """Return where the wires of a load's own feed begin, the one at its supply first."""
        return [self._starts[step.wire] for step in load.steps if step.wire in self._starts]

    def of(self, load: LoadFigures) -> Iterator[LoadFigures]:
        """Yield the loads that have to work for a load: the input of what feeds it, the coils of its relays."""
        above = self._up.get(load.load.section, ())
        if above and above[0].fed_by in self._inputs:
            yield self._inputs[above[0].fed_by]
        for start in self.starts(load):
            if start.pin == "contact out" and start.part in self._relays:
                yield from self._coils.get(start.part, ())

    def whole(self, load: LoadFigures) -> list[LoadFigures]:
        """Return a load with all that it needs, directly or not: what feeds it comes before it, coils behind it."""
        found: list[LoadFigures] = []
        asked: set[int] = set()

        def ask(one: LoadFigures) -> None:
            if id(one) in asked:  # a coil that its own contact feeds asks for itself
                return
            asked.add(id(one))
            needs = list(self.of(one))
            for other in (other for other in needs if other.load.what == "input"):
                ask(other)
            found.append(one)
            for other in (other for other in needs if other.load.what != "input"):
                ask(other)

        ask(load)
        return found

    def root(self, load: LoadFigures) -> str:
        """Return the supply that a load hangs on, by the name of its section."""
        return self._up[load.load.section][-1].name
