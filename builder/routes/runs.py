"""Where every wire runs: its way stretch by stretch, the parts of its length, and what lies beside it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from builder.routes.legs import Finder
from builder.routes.network import Stretch
from builder.routes.ways import NoWay, Step, Way
from builder.trailer.assumed import assumption
from builder.trailer.model import FRONT_BOX, Trailer
from builder.trailer.places import BOX_LOOP
from builder.trailer.wires import Wire

TAIL = "tail at each end"
"""The general assumption of what is left at each end of a wire."""


@dataclass(frozen=True, slots=True)
class RunEnd:
    """One end of a run at a part, in metres: its rise from the place to the part, and its loop at the front box."""

    part: str
    rise_m: float
    loop_m: float


@dataclass(frozen=True, slots=True)
class Run:
    """Where one wire runs, and what its length is made of, in metres.

    ``steps`` lead away from the supply, for a return as for its feed, and so do ``ends``. ``tail_m`` is the tail at
    each of its two ends.
    """

    wire: str
    steps: tuple[Step, ...]
    ends: tuple[RunEnd, RunEnd]
    tail_m: float

    @property
    def rise_m(self) -> float:
        """The rise from its places to the parts at both ends."""
        return sum(end.rise_m for end in self.ends)

    @property
    def loop_m(self) -> float:
        """The loop at the front box, once for each end there."""
        return sum(end.loop_m for end in self.ends)

    @property
    def way_m(self) -> float:
        """The way from place to place through the chases, without slack."""
        return sum(step.length_m - step.slack_m for step in self.steps)

    @property
    def slack_m(self) -> float:
        """The slack of the hinge loops on its way."""
        return sum(step.slack_m for step in self.steps)

    @property
    def length_m(self) -> float:
        """What the wire measures from landing to landing: way, rise, slack and loop."""
        return self.way_m + self.rise_m + self.slack_m + self.loop_m

    @property
    def cut_m(self) -> float:
        """What is cut off for it: its length and both tails."""
        return self.length_m + 2 * self.tail_m


@dataclass(frozen=True, slots=True)
class NoRun:
    """A wire of which nobody can tell where it runs: parts without a place, or places that no chase joins."""

    wire: str
    unplaced: tuple[str, ...] = ()
    no_way: NoWay | None = None


@dataclass(frozen=True, slots=True)
class Runs:
    """The runs of all wires by number, what is not known of the others, and which wires lie in each stretch.

    ``again`` has those that lie in a stretch once more: a wire that goes out to what ``through`` names, and back.
    """

    runs: Mapping[str, Run] = field(default_factory=dict)
    unknown: Mapping[str, NoRun] = field(default_factory=dict)
    inside: Mapping[Stretch, tuple[str, ...]] = field(default_factory=dict)
    again: Mapping[Stretch, tuple[str, ...]] = field(default_factory=dict)

    def laid(self, stretch: Stretch) -> tuple[str, ...]:
        """Return what lies side by side in a stretch: its wires, each as often as it passes."""
        return (*self.inside.get(stretch, ()), *self.again.get(stretch, ()))

    def twice(self, stretch: Stretch) -> tuple[str, ...]:
        """Return the wires that lie in a stretch more than once: those that go there and back."""
        return tuple(dict.fromkeys(self.again.get(stretch, ())))


def runs_of(trailer: Trailer) -> Runs:
    """Return where every wire runs, the spare ones too; nothing where the file has no places.

    A feed takes the shortest way through the chases, or past what ``through`` names; a return goes back beside its
    feed where it does not go elsewhere.
    """
    if not trailer.geometry:
        return Runs()
    finder = Finder(trailer.geometry)
    lengths = assumption(trailer, BOX_LOOP).value, assumption(trailer, TAIL).value
    runs: dict[str, Run] = {}
    unknown: dict[str, NoRun] = {}
    inside: dict[Stretch, dict[str, None]] = {}
    again: dict[Stretch, tuple[str, ...]] = {}
    for wire in (*trailer.wires, *trailer.spares):
        found = _run(finder, wire, lengths)
        if isinstance(found, NoRun):
            unknown[wire.number] = found
            continue
        runs[wire.number] = found
        for step in found.steps:
            wires = inside.setdefault(step.stretch, {})
            if wire.number in wires:
                again[step.stretch] = (*again.get(step.stretch, ()), wire.number)
            wires[wire.number] = None
    chases = list(trailer.geometry.chases)
    order = sorted(inside, key=lambda stretch: (chases.index(stretch.chase), stretch.number))
    return Runs(runs, unknown, {stretch: tuple(inside[stretch]) for stretch in order}, again)


def _run(finder: Finder, wire: Wire, lengths_m: tuple[float, float]) -> Run | NoRun:
    stands = finder.geometry.stands
    names = dict.fromkeys(name for leg in wire.legs for name in (leg.start, leg.end))
    unplaced = tuple(name for name in names if name not in stands)
    if unplaced:
        return NoRun(wire.number, unplaced)
    ways: list[Way] = []
    for leg in wire.legs:
        way = finder.way(stands[leg.start].place, stands[leg.end].place, leg.past)
        if isinstance(way, NoWay):
            return NoRun(wire.number, no_way=way)
        ways.append(way)
    loop_m, tail_m = lengths_m

    def end_at(name: str) -> RunEnd:
        return RunEnd(name, stands[name].rise_m, loop_m if name == FRONT_BOX else 0.0)

    return Run(
        wire.number,
        tuple(step for way in ways for step in way.steps),
        (end_at(wire.legs[0].start), end_at(wire.legs[-1].end)),
        tail_m,
    )


def bundle(runs: Runs, carrying: Collection[str]) -> dict[str, int]:
    """Return for every wire with a run how many that carry current lie side by side where most do, itself included.

    ``carrying`` are the numbers of the wires that carry current with everything on; only they warm their neighbours.
    A wire whose ends are at one place is not in it. A short stretch counts like a long one, which is the cautious
    way: no length from which wires warm each other was read in any source (common practice).
    """
    warm = frozenset(carrying)
    most: dict[str, int] = {}
    for stretch, wires in runs.inside.items():
        count = sum(wire in warm for wire in runs.laid(stretch))
        for wire in wires:
            most[wire] = max(most.get(wire, 0), count)
    return most
