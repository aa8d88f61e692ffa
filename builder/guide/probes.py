"""What can be asked of a chain, each question with whom its answer accuses; here those that need no meter."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder.guide.chains import Chain, Stage
from builder.guide.model import Cause, Point, Reads, StepKind, Suspect, Thing
from builder.trailer.model import Trailer
from builder.trailer.parts import HAND_WORKED, ISOLATOR

OBSERVE, LOOK, METER = 0, 1, 2
SWITCHES = (*HAND_WORKED, ISOLATOR)


@dataclass(frozen=True, slots=True)
class Probe:
    """A step before it has its place in a guide.

    ``accuses`` are the suspects of which one is at fault when it ends as ``bad``; when it ends as ``good`` all of
    these are cleared. ``keeps`` stay in question either way. ``rank`` puts what is only looked at first; ``cost``
    counts the trouble of getting there.
    """

    kind: StepKind
    accuses: frozenset[Suspect]
    good: Reads
    bad: Reads
    rank: int
    cost: float = 1.0
    keeps: frozenset[Suspect] = frozenset()
    parts: tuple[str, ...] = ()
    off: tuple[str, ...] = ()
    things: tuple[Thing, ...] = ()
    fuse: str = ""
    red: Point | None = None
    black: Point | None = None
    least_v: float | None = None
    least_of: str = ""
    most_v: float | None = None
    load_a: float | None = None


def parted(probe: Probe, suspects: frozenset[Suspect]) -> tuple[frozenset[Suspect], frozenset[Suspect]]:
    """Return which of some suspects are left after a probe: when it ends as good, and when it ends as bad."""
    return suspects - (probe.accuses - probe.keeps), suspects & (probe.accuses | probe.keeps)


def at_least(volts: float) -> float:
    """Return a least voltage rounded down to a tenth: a good reading is never called bad for its rounding.

    No more than a tenth, since that parts a battery that is half full from one that is empty.

    >>> at_least(11.37), at_least(4.74), at_least(11.5)
    (11.3, 4.7, 11.5)
    """
    return math.floor(max(0.0, volts) * 10 + 1e-6) / 10


def at_most(volts: float) -> float:
    """Return a greatest voltage rounded up to two figures.

    >>> at_most(0.3412), at_most(0.1)
    (0.35, 0.1)
    """
    if volts <= 0:
        return 0.0
    scale = 10.0 ** (1 - math.floor(math.log10(volts)))
    return float(f"{math.ceil(volts * scale - 1e-6) / scale:.6g}")


def looks(trailer: Trailer, chain: Chain, suspects: Iterable[Suspect]) -> Iterator[Probe]:
    """Yield what needs no meter: switches, plugs, fuses, breakers and relays among these suspects."""
    among = tuple(suspects)
    for suspect in among:
        alone = frozenset({suspect})
        if suspect.cause is Cause.OFF:
            yield Probe(
                StepKind.SWITCH,
                alone,
                Reads.DEAD,
                Reads.WORKS,
                LOOK,
                1,
                parts=_worked_by(trailer, chain, among),
                off=off_for(trailer, chain, among),
            )
        elif suspect.cause in (Cause.HOUSING, Cause.PLUG):
            yield Probe(StepKind.PUSH, alone, Reads.DEAD, Reads.WORKS, LOOK, 2, parts=(suspect.part,))
        elif suspect.cause is Cause.FUSE:
            name = suspect.pin or suspect.part
            yield Probe(
                StepKind.FUSE, alone, Reads.WHOLE, Reads.OPEN, LOOK, 3, parts=(suspect.part,), fuse=name
            )
        elif suspect.cause is Cause.BREAKER:
            yield Probe(
                StepKind.BREAKER,
                alone,
                Reads.DEAD,
                Reads.WORKS,
                LOOK,
                3,
                parts=(suspect.part,),
                fuse=suspect.part,
            )
    for relay in chain.relays:
        behind = frozenset(s for stage in _coils(chain, relay) for s in stage.suspects)
        if behind:
            yield Probe(StepKind.CLICK, behind, Reads.CLICKS, Reads.SILENT, LOOK, 4, parts=(relay,))


def _worked_by(trailer: Trailer, chain: Chain, suspects: tuple[Suspect, ...]) -> tuple[str, ...]:
    """Return what turns a thing on: the switches among the suspects, and its own."""
    names = [s.part for s in suspects if s.cause is Cause.SWITCH and trailer.parts[s.part].kind in SWITCHES]
    own = chain.own.load.part
    if (
        own in trailer.parts
        and trailer.parts[own].own_switch
        and Suspect(Cause.LOAD, own, chain.own.load.what) in suspects
    ):
        names.append(own)
    return tuple(dict.fromkeys(names))


def can_be_off(trailer: Trailer, chain: Chain, suspects: tuple[Suspect, ...]) -> bool:
    """Tell whether something among these suspects is turned on and off by hand."""
    return bool(_worked_by(trailer, chain, suspects) or off_for(trailer, chain, suspects))


def off_for(trailer: Trailer, chain: Chain, suspects: tuple[Suspect, ...]) -> tuple[str, ...]:
    """Return the switches that must be off, since the rest contact of their relay is among these suspects."""
    relays = {s.part for s in suspects if s.cause is Cause.RELAY_CONTACT and s.pin}
    coils = [stage for relay in chain.resting if relay in relays for stage in chain.resting[relay]]
    return tuple(
        dict.fromkeys(
            s.part
            for stage in coils
            for s in stage.suspects
            if s.cause is Cause.SWITCH and trailer.parts[s.part].kind in SWITCHES
        )
    )


def _coils(chain: Chain, relay: str) -> list[Stage]:
    return [stage for stage in chain.stages if stage.load.part == relay and stage.load.what == "coil"]
