"""What is not there yet: the parts that the file says wait, and all that cannot work without them."""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures, LoadFigures
from builder.lists.needed import Needed
from builder.trailer.model import FRONT_BOX, Trailer
from builder.trailer.wires import Load


class Waiting:
    """Which parts are not there yet, and which loads can be neither worked nor measured for that; looked up once."""

    def __init__(self, trailer: Trailer, figures: Figures) -> None:
        self.parts = frozenset(part.name for part in trailer.parts.values() if part.waiting)
        self._needed = Needed(trailer, figures)
        self._starts = {wire.number: wire.start for wire in trailer.wires}
        self._sections = {section.name: section for section in trailer.sections}
        line = trailer.battery_line
        stops = {stop.part for stop in line.stops} if line is not None else set()
        self.battery_line = not self.parts.isdisjoint(stops)
        """Whether something between the battery and the front box is not there yet."""
        self._told: dict[Load, bool] = {}

    def __call__(self, load: LoadFigures) -> bool:
        """Tell whether a load waits: its part, its supply, or one on the way from there, of its relays' coils too."""
        if not self.parts:
            return False
        if load.load not in self._told:
            # a coil that its own contact feeds asks for itself
            self._told[load.load] = False
            missing = not self.parts.isdisjoint(self._named(load))
            self._told[load.load] = missing or any(self(one) for one in self._needed.of(load))
        return self._told[load.load]

    def _named(self, load: LoadFigures) -> Iterator[str]:
        """Yield the parts that the current of a load passes, its own, and the one that its section begins at."""
        yield load.load.part
        yield from (self._starts[step.wire].part for step in load.steps)
        if load.load.section in self._sections:
            yield self._sections[load.load.section].plus.part

    def charge(self, load: LoadFigures) -> bool:
        """Tell whether a way to charge waits; one that ends at the front box needs the line to the battery too."""
        return self(load) or (load.load.part == FRONT_BOX and self.battery_line)
