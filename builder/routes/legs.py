"""One leg of a wire: from where one part stands to where the next does, through the chases."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from builder.routes.network import Network, network_of
from builder.routes.ways import NoWay, Way, shortest_way
from builder.trailer.model import FRONT_BOX
from builder.trailer.places import Geometry, Stand


@dataclass(slots=True)
class Finder:
    """Finds ways and remembers them: wires of one circuit, and returns beside their feeds, take the same ones."""

    geometry: Geometry
    network: Network = field(init=False)
    known: dict[tuple[str, str, tuple[str, ...]], Way | NoWay] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Make the network of the chases."""
        self.network = network_of(self.geometry)

    def way(self, start: str, end: str, past: Sequence[str] = ()) -> Way | NoWay:
        """Return the shortest way between two places, past what is named."""
        asked = start, end, tuple(past)
        if asked not in self.known:
            self.known[asked] = shortest_way(self.network, start, end, asked[2])
        return self.known[asked]


def leg_length_m(way: Way, ends: tuple[tuple[str, Stand], tuple[str, Stand]], loop_m: float) -> float:
    """Return how much wire a leg takes in metres: its way, the rise at both ends, and a loop at the front box.

    ``ends`` are the names of the two parts, and where they stand. Tails are not in it: they are cut off or land
    inside a part.
    """
    rise_m = sum(stand.rise_m for _, stand in ends)
    loops_m = loop_m * sum(name == FRONT_BOX for name, _ in ends)
    return way.length_m + rise_m + loops_m
