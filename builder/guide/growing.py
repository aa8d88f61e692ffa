"""From suspects and probes to a tree of steps: looks first, then the reading that parts most for its trouble."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from builder.guide.model import Leaf, Outcome, Step, Suspect
from builder.guide.probes import METER, Probe, parted


def gain(share: float) -> float:
    """Return what a step with two outcomes tells, in bits: ``share`` of the suspects are accused by it.

    The entropy of the outcome, since the fault decides it. Source: Shannon's measure, from memory.
    """
    return -sum(p * math.log2(p) for p in (share, 1.0 - share) if p > 0)


@dataclass(slots=True)
class Growing:
    """A guide while it grows: its steps in reading order, its leaves, and how deep it goes."""

    probes: Sequence[Probe]
    order: Sequence[Suspect]
    steps: dict[str, Step | None] = field(default_factory=dict)
    leaves: list[Leaf] = field(default_factory=list)
    longest: int = 0

    def take(self) -> str:
        """Return the id of the next step, and keep its place."""
        name = f"s{len(self.steps) + 1}"
        self.steps[name] = None
        return name

    def grow(self, suspects: frozenset[Suspect], depth: int = 0, retest: str = "") -> str:
        """Return the id of the step or leaf that goes on with these suspects.

        ``retest`` is the reading that last came out bad: it proves the repair.
        """
        probe = self._next(suspects)
        if probe is None:
            return self.leaf(suspects, depth, retest)
        name = self.take()
        bad_retest = name if probe.red is not None else retest
        cleared, accused = parted(probe, suspects)
        good = self.grow(cleared, depth + 1, retest)
        bad = self.grow(accused, depth + 1, bad_retest)
        things = probe.things
        self.steps[name] = step_of(
            name, probe, (Outcome(probe.good, good, things), Outcome(probe.bad, bad, things))
        )
        return name

    def leaf(self, suspects: Iterable[Suspect], depth: int, retest: str) -> str:
        """Keep a leaf; return its id."""
        self.longest = max(self.longest, depth)
        name = f"end{len(self.leaves) + 1}"
        among = set(suspects)
        self.leaves.append(Leaf(name, tuple(s for s in self.order if s in among), retest))
        return name

    def _next(self, suspects: frozenset[Suspect]) -> Probe | None:
        """Return the probe to take next: none that parts nothing; a look before a reading; the most for its trouble."""
        parting = [
            probe
            for probe in self.probes
            if all(0 < len(left) < len(suspects) for left in parted(probe, suspects))
        ]
        if not parting:
            return None
        rank = min(probe.rank for probe in parting)
        if rank < METER:
            return min((p for p in parting if p.rank == rank), key=lambda p: p.cost)
        count = len(suspects)
        return max(parting, key=lambda p: round(gain(len(p.accuses & suspects) / count) / p.cost, 9))

    def done(self) -> tuple[Step, ...]:
        """Return the steps in reading order."""
        return tuple(step for step in self.steps.values() if step is not None)


def step_of(name: str, probe: Probe, outcomes: tuple[Outcome, ...]) -> Step:
    """Return a probe as a step of a guide."""
    return Step(
        id=name,
        kind=probe.kind,
        outcomes=outcomes,
        parts=probe.parts,
        off=probe.off,
        fuse=probe.fuse,
        red=probe.red,
        black=probe.black,
        least_v=probe.least_v,
        least_of=probe.least_of,
        most_v=probe.most_v,
        load_a=probe.load_a,
    )
