"""All guides of a build: what is dead alone or together, what is dim, a fuse that opens again, charging, road lamps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from builder.electrics.figures import Figures
from builder.guide.chains import Chain, Chains
from builder.guide.growing import Growing
from builder.guide.meter import Meter
from builder.guide.model import Cause, Guide, Outcome, Reads, Step, StepKind, Suspect, Symptom, Thing
from builder.guide.probes import OBSERVE, Probe, can_be_off, looks, off_for
from builder.guide.road import wrong_lamps
from builder.guide.shorts import short_guides
from builder.guide.supplies import supplies_of
from builder.guide.things import Segment, charges_of, circuits_of, segments, things_of
from builder.trailer.model import BATTERY, SUPPLY_BAR, Trailer
from builder.trailer.parts import BRAKE_MAGNET

WIDEST = 2
"""So many of the widest groups are asked for in a guide's first step, beside those next to its own things."""
NOT_DIM = (Cause.OFF, Cause.FUSE, Cause.BREAKER, Cause.HOUSING, Cause.COIL, Cause.ELSE, Cause.PLUG)
FEW = 2
"""With so few suspects a reading is wanted that proves one of them; without, the fault is none of those named."""
ELSE = Suspect(Cause.ELSE)
BATTERY_ONLY = frozenset({Suspect(Cause.BATTERY, BATTERY)})
"""A battery that is low still works one thing and not another."""
ALL = "dead-all"
ALL_DIM = "dim-all"


def guides(trailer: Trailer, figures: Figures) -> tuple[Guide, ...]:
    """Return every guide of a build: first what is shared by circuits, then circuit by circuit.

    Pure: the same trailer and figures give the same guides.
    """
    chains = Chains(trailer, figures)
    things = things_of(chains)
    line = line_suspects(things)
    found = list(_of_the_line(trailer, things, line)) if line else []
    parted = [
        Segment(one.things, tuple(s for s in one.suspects if s not in line)) for one in segments(things)
    ]
    parted = [one for one in parted if one.suspects]
    named = list(_names(parted))
    for name, segment in named:
        found += _of_a_segment(trailer, things, (name, segment), named, line)
    found += wrong_lamps(trailer, things)
    found += _charging(trailer, charges_of(chains), line)
    found += short_guides(trailer, figures, things)
    found = [_with_off(trailer, things, _with_alarms(trailer, things, guide)) for guide in found]
    return tuple(sorted(found, key=lambda guide: -1 if guide.circuit is None else guide.circuit))


def _with_off(trailer: Trailer, things: Mapping[Thing, Chain], guide: Guide) -> Guide:
    """Return a guide with the switches that must be off for what is tried in it."""
    chain = things.get(guide.tried) if guide.tried else None
    return replace(guide, off=off_for(trailer, chain, chain.suspects)) if chain else guide


def _with_alarms(trailer: Trailer, things: Mapping[Thing, Chain], guide: Guide) -> Guide:
    """Return a guide with the alarms that its faults silence; on the battery's line those beside the box as well."""
    whole = guide.id in (ALL, ALL_DIM)
    hangs = (t for t, chain in things.items() if whole and not set(guide.suspects).isdisjoint(chain.suspects))
    names = dict.fromkeys(thing.part for thing in (*guide.things, *hangs))
    alarms = tuple(name for name in names if name in trailer.parts and trailer.parts[name].kind == "alarm")
    return replace(guide, alarms=alarms)


def line_suspects(things: Mapping[Thing, Chain]) -> frozenset[Suspect]:
    """Return what all things behind the front box hang on, such as the battery's own line; with two of them or more.

    With one that can be lit at a time, all is dead whenever that one is: its own guide tells more.
    """
    behind = {thing for thing, chain in things.items() if _through_box(chain)}
    lit = [thing for thing in behind if not things[thing].resting]
    if len(behind) < 2 or len(lit) == 1:
        return frozenset()
    served = [segment for segment in segments(things) if behind.issubset(segment.things)]
    return frozenset(suspect for segment in served for suspect in segment.suspects)


def touched(trailer: Trailer, things: Iterable[Thing], suspects: Iterable[Suspect]) -> tuple[int, ...]:
    """Return the circuits that a hand meets in a guide: of its things, and of the wires that it suspects.

    What is suspected of the battery's own line lies before its isolating switch, which takes nothing off there.
    """
    numbers = {number for suspect in suspects for number in suspect.wires}
    on = {wire.circuit for wire in trailer.wires if wire.number in numbers}
    return tuple(sorted({*circuits_of(things), *on}))


def _through_box(chain: Chain) -> bool:
    return any(mark.terminal == SUPPLY_BAR for stage in chain.stages for mark in stage.feed_marks)


def _names(parted: Sequence[Segment]) -> Iterator[tuple[str, Segment]]:
    """Yield each segment with the ending of its guides' ids: its circuit and its place there, 0 for shared ones."""
    counts: dict[int, int] = {}
    for segment in parted:
        on = circuits_of(segment.things)
        circuit = on[0] if len(on) == 1 else 0
        counts[circuit] = counts.get(circuit, 0) + 1
        yield f"{circuit}-{counts[circuit]}", segment


def _of_the_line(
    trailer: Trailer, things: Mapping[Thing, Chain], line: frozenset[Suspect]
) -> Iterator[Guide]:
    """Yield the guides for everything dead, and everything dim.

    What hangs on a rest contact is not named: it is never lit together with the other side of its relay.
    """
    reached = [thing for thing, chain in things.items() if _through_box(chain)]
    behind = tuple(thing for thing in reached if not things[thing].resting) or tuple(reached)
    tried = min(behind, key=lambda thing: (len(things[thing].suspects), thing))
    chain = things[tried]
    met = tuple(s for s in chain.suspects if s in line)
    probes = [*_observed(things, reached, line), *looks(trailer, chain, met), *Meter(trailer, chain).dead()]
    off = (Suspect(Cause.OFF),) if can_be_off(trailer, chain, met) else ()
    order = (*off, *met)
    if off:
        probes += looks(trailer, chain, order)
    unplug = supplies_of(trailer, touched(trailer, behind, order))
    yield _grown(ALL, Symptom.DEAD, (None, behind, tried), (order, probes, unplug))
    dim = [s for s in order if s.cause not in NOT_DIM]
    yield _grown(ALL_DIM, Symptom.DIM, (None, behind, tried), (dim, _dim_probes(trailer, chain, dim), unplug))


def _observed(
    things: Mapping[Thing, Chain], behind: Sequence[Thing], line: frozenset[Suspect]
) -> Iterator[Probe]:
    """Yield what the things beside the front box tell of the battery's line: what they share with it is well or not."""
    groups: dict[frozenset[Suspect], list[Thing]] = {}
    for thing, chain in things.items():
        shared = frozenset(s for s in chain.suspects if s in line and s not in BATTERY_ONLY)
        if thing not in behind and shared:
            groups.setdefault(shared, []).append(thing)
    for shared, also in groups.items():
        yield Probe(
            StepKind.OTHERS, shared, Reads.WORKS, Reads.DEAD, OBSERVE, keeps=BATTERY_ONLY, things=tuple(also)
        )


def _of_a_segment(
    trailer: Trailer,
    things: Mapping[Thing, Chain],
    segment: tuple[str, Segment],
    named: Sequence[tuple[str, Segment]],
    shared: frozenset[Suspect],
) -> Iterator[Guide]:
    """Yield the guide for what is dead together, and the one for what is dim together.

    What hangs on any of the battery's line, ``shared``, can be dead for it, beside the front box as well. A low
    battery can still work one thing and not another, so each guide asks for it.
    """
    name, one = segment
    tried = min(one.things, key=lambda thing: (len(things[thing].suspects), thing))
    chain = things[tried]
    circuits = circuits_of(one.things)
    circuit = circuits[0] if len(circuits) == 1 else None
    about = circuit, one.things, tried
    unplug = supplies_of(trailer, touched(trailer, one.things, one.suspects))
    low = _may_be_low(things, one, shared)
    off = (Suspect(Cause.OFF),) if can_be_off(trailer, chain, one.suspects) else ()
    beside = _beside_brakes(trailer, things, one, chain)
    among = {*one.suspects, *beside}
    order = (*off, *(s for s in chain.suspects if s in among))
    probes = [*looks(trailer, chain, order), *Meter(trailer, chain).dead()]
    if (
        beside and circuit is None
    ):  # each of the supplies may have a fault of its own, which no voltage rules out
        probes = [replace(p, keeps=p.keeps | {ELSE}) if p.kind is StepKind.VOLTS else p for p in probes]
    line = ALL if not shared.isdisjoint(chain.suspects) else ""
    wider = _wider(one, named)
    more = (ELSE,) if beside and circuit is None else _one_lamp(trailer, one, order)
    yield _grown(f"dead-{name}", Symptom.DEAD, about, ((*order, *more), probes, unplug), (wider, line), low)
    dim = [s for s in order if s.cause not in NOT_DIM]
    if dim:
        line = ALL_DIM if line else ""
        wider = [(f"dim-{end}", also) for end, also in wider if _can_be_dim(also)]
        made = dim, _dim_probes(trailer, chain, dim), unplug
        yield _grown(f"dim-{name}", Symptom.DIM, about, made, (wider, line), low)


def _beside_brakes(
    trailer: Trailer, things: Mapping[Thing, Chain], segment: Segment, chain: Chain
) -> tuple[Suspect, ...]:
    """Return what more is suspected where all brakes are dead from a supply: the car, the joints and their ground.

    An owner tries brakes from one of their supplies and seldom from both, and a car without a controller works none.
    Dead from both it is no car: the breakaway works from a battery of its own.
    """

    def served(suspect: Suspect) -> set[str]:
        mine = {thing.part for thing, other in things.items() if suspect in other.suspects}
        return {part for part in mine if _is_magnet(trailer, part)}

    own = chain.own
    if not _is_magnet(trailer, own.load.part):
        return ()
    parts = {thing.part for thing in segment.things}
    more = [s for s in own.suspects if s.cause is Cause.JOINT]
    if (
        len({thing.circuit for thing in segment.things}) == 1
    ):  # the other supply comes back on a way of its own
        more += [s for s in own.feed if s.cause is Cause.CAR and s.pin]
        more += [s for s in own.back if s.cause in (Cause.CONTACT, Cause.CAR_GROUND)]
    return tuple(s for s in more if served(s) and served(s) <= parts)


def _one_lamp(trailer: Trailer, segment: Segment, order: Sequence[Suspect]) -> tuple[Suspect, ...]:
    """Return the road lamp that all dead things are functions of, as what is left when its wires are well.

    With its voltage at its own terminals it is the lamp, whatever part of it fails: its holder, or a joint in it.
    """
    names = {thing.part for thing in segment.things}
    lamps = {lamp.name for lamp in trailer.road_lamps}
    if len(names) != 1 or not names <= lamps or any(s.cause is Cause.LOAD for s in order):
        return ()
    return (Suspect(Cause.ELSE, names.pop()),)


def _is_magnet(trailer: Trailer, name: str) -> bool:
    part = trailer.parts.get(name)
    return part is not None and part.kind == BRAKE_MAGNET


def _may_be_low(
    things: Mapping[Thing, Chain], segment: Segment, shared: frozenset[Suspect]
) -> tuple[Suspect, ...]:
    """Return the battery as a suspect that no step of the battery's own line is left for; none it does not feed all."""
    fed = all(BATTERY_ONLY.issubset(things[thing].suspects) for thing in segment.things)
    return tuple(BATTERY_ONLY & shared) if fed else ()


def _can_be_dim(segment: Segment) -> bool:
    return any(suspect.cause not in NOT_DIM for suspect in segment.suspects)


def _dim_probes(trailer: Trailer, chain: Chain, suspects: Sequence[Suspect]) -> list[Probe]:
    meter = Meter(trailer, chain)
    supply = meter.supply()
    found = [supply] if supply else []
    if all(suspect.cause is Cause.LOAD for suspect in suspects):
        return [*found, *meter.across(chain.own)]
    return [*found, *meter.coming(), *meter.dim(suspects)]


def _wider(one: Segment, named: Sequence[tuple[str, Segment]]) -> list[tuple[str, Segment]]:
    """Return groups that hold all of these things and more, widest first: the widest, and those next to this one.

    If any wider group is dead, one of those next to this one is; its own guide asks on from there.
    """
    mine = set(one.things)
    found = [(name, other) for name, other in named if mine < set(other.things)]
    found.sort(key=lambda entry: -len(entry[1].things))
    sets = [set(other.things) for _, other in found]
    wider = [
        entry
        for place, entry in enumerate(found)
        if place < WIDEST or not any(other < sets[place] for other in sets)
    ]
    return [*wider, *_crossing(mine, named)]


def _crossing(mine: set[Thing], named: Sequence[tuple[str, Segment]]) -> list[tuple[str, Segment]]:
    """Return groups that share things with these and have others, where a thing has no guide for itself alone.

    A brake that two supplies feed has none: who finds it dead from one of them begins here, and the fault may be there.
    """
    alone = {other.things[0] for _, other in named if len(other.things) == 1}
    if mine <= alone:
        return []
    others = [(name, other, set(other.things)) for name, other in named]
    return [(name, other) for name, other, its in others if mine & its and mine - its and its - mine]


def _grown(
    name: str,
    symptom: Symptom,
    about: tuple[int | None, tuple[Thing, ...], Thing | None],
    made: tuple[Sequence[Suspect], Sequence[Probe], tuple],  # type: ignore[type-arg]
    wider: tuple[Sequence[tuple[str, Segment]], str] = ((), ""),
    low: tuple[Suspect, ...] = (),
) -> Guide:
    """Return a guide: the first step asks what else is dead, the rest grows from the suspects and a ``low`` battery."""
    order, probes, unplug = made
    if (
        all(one.cause is not Cause.ELSE for one in order)
        and sum(suspect.cause is not Cause.CAR_GROUND for suspect in order) <= FEW
    ):
        probes = _with_else(order, probes)
        order = (*order, ELSE)
    order = (*low, *order)
    growing = Growing(probes, order)
    ask = bool(wider[0] or wider[1])
    first = growing.take() if ask else ""
    start = growing.grow(frozenset(order), depth=int(ask))
    if ask:
        growing.steps[first] = _what_else(first, start, symptom, *wider)
    return Guide(
        id=name,
        symptom=symptom,
        circuit=about[0],
        things=about[1],
        tried=about[2],
        suspects=tuple(order),
        steps=growing.done(),
        leaves=tuple(growing.leaves),
        unplug=unplug,
        longest=growing.longest,
    )


def _with_else(order: Sequence[Suspect], probes: Sequence[Probe]) -> list[Probe]:
    """Let a reading that clears all of a guide's suspects but accuses the rest speak for what is not named.

    Only where a suspect is accused by no reading: a part that uses current is found by all else being well.
    """
    read = (StepKind.VOLTS, StepKind.DROP)
    named = {suspect for p in probes if p.kind in read for suspect in p.accuses}
    if named.issuperset(order):
        return list(probes)
    outside = [p for p in probes if p.kind is StepKind.VOLTS and p.accuses.isdisjoint(order)]
    widest = max(outside, key=lambda probe: len(probe.accuses), default=None)
    return [replace(p, accuses=frozenset({*p.accuses, ELSE})) if p is widest else p for p in probes]


def _what_else(
    name: str, start: str, symptom: Symptom, wider: Sequence[tuple[str, Segment]], line: str
) -> Step:
    outcomes = [Outcome(Reads.ALSO, line)] if line else []
    outcomes += [
        Outcome(Reads.ALSO, end if end.startswith("dim-") else f"{symptom.value}-{end}", other.things)
        for end, other in wider
    ]
    return Step(name, StepKind.OTHERS, (*outcomes, Outcome(Reads.ONLY, start)))


def _charging(trailer: Trailer, charges: Mapping[Thing, Chain], line: Iterable[Suspect]) -> Iterator[Guide]:
    """Yield a guide for every circuit that charges the battery.

    What charges at the front box goes on over the battery's own line: with its switch off the house is fed and the
    battery is not charged. What charges at the battery itself shares of ``line`` at most a wire without which all
    is dead.
    """
    for place, (thing, chain) in enumerate(charges.items(), start=1):
        in_box = chain.own.load.plus == SUPPLY_BAR
        met = [s for s in chain.suspects if (in_box or s not in line) and s.cause is not Cause.BATTERY]
        off = [Suspect(Cause.OFF)] if can_be_off(trailer, chain, tuple(met)) else []
        order = [*off, *met]
        meter = Meter(trailer, chain)
        rise = list(meter.rise())
        order += [ELSE] if rise else []  # all is well, and the battery is full
        probes = [*looks(trailer, chain, order), *meter.dead(), *meter.dim(order), *rise]
        about = thing.circuit, (thing,), thing
        yield _grown(
            f"charge-{thing.circuit}-{place}",
            Symptom.CHARGE,
            about,
            (order, probes, supplies_of(trailer, touched(trailer, (thing,), order))),
        )
