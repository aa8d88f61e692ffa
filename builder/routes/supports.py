"""Where loose wires are held: how far apart their supports are, and how many that makes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from builder.routes.network import Stretch, lengths_of
from builder.routes.runs import Runs
from builder.tables.installation import support_spacing
from builder.tables.table import Fact
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import Trailer
from builder.trailer.places import Chase, ChaseKind

HELD_BY_CLIPS = (ChaseKind.GROOVE, ChaseKind.BAY)
"""Kinds of chases whose wires hang free until something holds them; a channel or a conduit holds them itself."""
_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class Supports:
    """The supports of one chase: ``spacing_m`` apart, as the file has it or by ``limit``.

    ``between`` counts by the number of each stretch with wires the supports between its two places; ``count`` is all
    of them, with one at each place where such a stretch begins or ends. ``limit`` is the table's greatest distance.
    """

    chase: Chase
    spacing_m: float
    limit: Fact
    between: dict[int, int]
    count: int

    @property
    def given(self) -> bool:
        """Whether the file says how far apart they are."""
        return self.chase.fittings.supports_m is not None

    @property
    def limit_m(self) -> float:
        """The greatest distance of the table, in metres."""
        return self.limit.value / 1000


def supports_of(trailer: Trailer, runs: Runs) -> tuple[Supports, ...]:
    """Return the supports of every groove and open bay with wires, and of each chase whose supports the file has.

    Their distance is that of ISO 10133:2012 (quoted), 450 mm, and 300 mm where a battery cable lies among them.
    """
    return tuple(_supports(trailer, runs))


def _supports(trailer: Trailer, runs: Runs) -> Iterator[Supports]:
    line = {
        wire.number for wire in trailer.wires if trailer.circuit(wire.circuit).kind is CircuitKind.BATTERY
    }
    for chase in trailer.geometry.chases.values():
        held = {
            number: length_m
            for number, (_, _, length_m) in enumerate(lengths_of(trailer.geometry, chase))
            if runs.inside.get(Stretch(chase.name, number))
        }
        given_m = chase.fittings.supports_m
        if not held or (given_m is None and chase.kind not in HELD_BY_CLIPS):
            continue
        inside = {wire for number in held for wire in runs.inside[Stretch(chase.name, number)]}
        limit = support_spacing("small craft dc", "battery cable" if inside & line else "wire")
        spacing_m = given_m if given_m is not None else limit.value / 1000
        between = {number: spans(length_m, spacing_m) - 1 for number, length_m in held.items()}
        places = {end for number in held for end in (number, number + 1)}
        yield Supports(chase, spacing_m, limit, between, sum(between.values()) + len(places))


def spans(length_m: float, spacing_m: float) -> int:
    """Return into how many equal pieces a stretch is cut so that none is longer than ``spacing_m``; one at least."""
    return max(ceil(length_m / spacing_m - _NOISE), 1)
