"""Road lamps that light with the wrong function: a ground that is lost, or wires that are changed over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.guide.chains import Chain
from builder.guide.growing import Growing
from builder.guide.meter import Meter
from builder.guide.model import Cause, Guide, Outcome, Reads, Step, StepKind, Suspect, Symptom, Thing
from builder.guide.probes import OBSERVE, Probe
from builder.guide.supplies import supplies_of
from builder.guide.things import circuits_of, segments
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import Trailer


def wrong_lamps(trailer: Trailer, things: Mapping[Thing, Chain]) -> Iterator[Guide]:
    """Yield the guide for wrong lamps, where the car feeds lamps on more than one function."""
    tow = {circuit.number for circuit in trailer.circuits if circuit.kind is CircuitKind.TOW}
    lamps = {thing: chain for thing, chain in things.items() if thing.circuit in tow}
    if len(circuits_of(lamps)) < 2:
        return
    probes = list(_probes(trailer, lamps))
    among = {suspect for probe in probes for suspect in probe.accuses}
    probes += _beside({thing: chain for thing, chain in things.items() if thing not in lamps}, among)
    faint = tuple(dict.fromkeys(suspect for probe in probes for suspect in _in_order(lamps, probe.accuses)))
    order = (*faint, Suspect(Cause.MIXED), Suspect(Cause.ELSE))
    growing = Growing(probes, order)
    first = growing.take()
    returns = growing.grow(frozenset(faint), depth=1) if faint else growing.leaf([order[-1]], 1, "")
    mixed = growing.leaf([Suspect(Cause.MIXED)], 1, first)
    right = growing.leaf([Suspect(Cause.ELSE)], 1, first)
    growing.steps[first] = Step(
        first,
        StepKind.FUNCTIONS,
        (Outcome(Reads.FAINT, returns), Outcome(Reads.INSTEAD, mixed), Outcome(Reads.WORKS, right)),
    )
    yield Guide(
        id="wrong",
        symptom=Symptom.WRONG,
        circuit=None,
        things=tuple(lamps),
        tried=None,
        suspects=order,
        steps=growing.done(),
        leaves=tuple(growing.leaves),
        unplug=supplies_of(trailer, circuits_of(lamps)),
        longest=growing.longest,
    )


def _beside(rest: Mapping[Thing, Chain], among: set[Suspect]) -> Iterator[Probe]:
    """Yield what the car feeds beside the lamps and tells of their ground: both are lost with what they share."""
    groups: dict[frozenset[Suspect], list[Thing]] = {}
    for thing, chain in rest.items():
        shared = frozenset(among.intersection(chain.own.back))
        if shared:
            groups.setdefault(shared, []).append(thing)
    for shared, mine in groups.items():
        yield Probe(StepKind.OTHERS, shared, Reads.WORKS, Reads.DEAD, OBSERVE, things=tuple(mine))


def _in_order(lamps: Mapping[Thing, Chain], among: frozenset[Suspect]) -> list[Suspect]:
    return [s for s in dict.fromkeys(s for chain in lamps.values() for s in chain.suspects) if s in among]


def _probes(trailer: Trailer, lamps: Mapping[Thing, Chain]) -> Iterator[Probe]:
    """Yield a reading for every stretch of return that more than one function shares: lost there, they mix."""
    done: set[frozenset[Suspect]] = set()
    for segment in segments(lamps):
        chain = lamps[segment.things[0]]
        shared = [s for s in segment.suspects if s in chain.own.back and s.cause is not Cause.HOUSING]
        for probe in Meter(trailer, chain).dim(shared) if len(segment.things) > 1 and shared else ():
            accused = probe.accuses.intersection(chain.own.back)
            if accused and accused not in done:
                done.add(accused)
                yield probe
