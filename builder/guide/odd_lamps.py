"""Odd behaviour of road lamps, by this trailer's own wiring: shared grounds, LED lamps, wires that cross a hinge."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.figures import Figures
from builder.electrics.ways_back import WayBack, ways_back
from builder.guide.chains import Chain, Chains
from builder.guide.model import Cause, Suspect, Thing
from builder.guide.things import charges_of, circuits_of, segments, things_of
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.parts import Law, Terminal


@dataclass(frozen=True, slots=True)
class SharedGround:
    """A stretch of ground that lamps of more than one feed share: lost there, their currents go through each other.

    ``beside`` is what is no road lamp and loses its ground there as well: by it an owner knows the stretch.
    ``led`` tells that all of them are LED lamps, which hardly glow through each other. ``ways`` are those on which
    their current may still come back to the car, whichever of the suspects is the one that is lost.
    """

    suspects: tuple[Suspect, ...]
    things: tuple[Thing, ...]
    beside: tuple[Thing, ...]
    led: bool
    ways: tuple[WayBack, ...]


@dataclass(frozen=True, slots=True)
class Hinged:
    """A lamp that moves, with what of its feed and of its ground is near where it does, in the order of the current."""

    thing: Thing
    feed: tuple[Suspect, ...]
    ground: tuple[Suspect, ...]


@dataclass(frozen=True, slots=True)
class OddLamps:
    """What can make the road lamps of one build behave oddly.

    ``led`` are the circuits of the plug that feed LED lamps alone, with those lamps. ``hinged`` are the lamps on the
    hatch; ``loose`` those of which only a connector on their way tells that they may swing away or come off.
    ``beside`` and ``beside_loose`` are what is no road lamp and goes through the connectors of these as well.
    ``joints`` are the connectors that road lamps hang on, each with these lamps.
    """

    grounds: tuple[SharedGround, ...]
    led: Mapping[int, tuple[Thing, ...]]
    hinged: tuple[Hinged, ...]
    loose: tuple[Hinged, ...]
    beside: tuple[Thing, ...]
    beside_loose: tuple[Thing, ...]
    joints: Mapping[str, tuple[Thing, ...]]


def odd_lamps(trailer: Trailer, figures: Figures) -> OddLamps:
    """Return what can make road lamps behave oddly. Pure: the same trailer and figures give the same.

    Source: the faults of road lamps that repair pages name (quoted), held against this trailer's wires.
    """
    chains = Chains(trailer, figures)
    things = things_of(chains)
    tow = {circuit.number for circuit in trailer.circuits if circuit.kind is CircuitKind.TOW}
    lamps = {thing: chain for thing, chain in things.items() if thing.circuit in tow}
    hatch = {lamp.name for lamp in trailer.road_lamps if lamp.on_hatch}
    hinged = tuple(_hinged(thing, chain) for thing, chain in lamps.items() if thing.part in hatch)
    other = [_hinged(thing, chain) for thing, chain in lamps.items() if thing.part not in hatch]
    loose = tuple(one for one in other if _crossed((one,)))
    rest = {thing: chain for thing, chain in things.items() if thing not in lamps}
    return OddLamps(
        tuple(_grounds(trailer, lamps, rest | dict(charges_of(chains)))),
        _led_circuits(lamps),
        hinged,
        loose,
        tuple(thing for thing, chain in rest.items() if _passes(chain, _crossed(hinged))),
        tuple(thing for thing, chain in rest.items() if _passes(chain, _crossed(loose) - _crossed(hinged))),
        _joints(lamps),
    )


def _crossed(hinged: Sequence[Hinged]) -> set[str]:
    """Return the connectors next to where lamps move."""
    return {s.part for one in hinged for s in (*one.feed, *one.ground) if s.cause is Cause.WAY}


def _grounds(
    trailer: Trailer, lamps: Mapping[Thing, Chain], rest: Mapping[Thing, Chain]
) -> list[SharedGround]:
    """Return the shared stretches of ground, those of the most lamps first; with one feed there is nothing to mix."""
    found = []
    for segment in segments({**lamps, **rest}):
        mine = tuple(thing for thing in segment.things if thing in lamps)
        back = lamps[mine[0]].own.back if mine else ()
        shared = tuple(s for s in segment.suspects if s in back and s.cause is not Cause.HOUSING)
        if shared and len(circuits_of(mine)) > 1:
            led = all(_is_led(lamps[thing]) for thing in mine)
            start = lamps[mine[0]].own.load.minus
            ways = dict.fromkeys(way for suspect in shared for way in _without(trailer, start, suspect))
            beside = tuple(thing for thing in segment.things if thing not in lamps)
            found.append(SharedGround(shared, mine, beside, led, tuple(ways)))
    return sorted(found, key=lambda one: -len(one.things))


def _without(trailer: Trailer, start: Terminal, lost: Suspect) -> tuple[WayBack, ...]:
    """Return the ways back that are left to a lamp when one piece of its ground is lost."""
    part = TOW_PLUG if lost.cause is Cause.CAR_GROUND else lost.part
    ends = {end for wire in trailer.wires for end in (wire.start, wire.end) if end.part == part}
    pins = {
        end
        for end in ends
        if lost.pin == end.pin or (lost.cause is Cause.WAY and lost.pin in end.pin.split())
    }
    return ways_back(trailer, start, wires=lost.wires, terminals=pins)


def _led_circuits(lamps: Mapping[Thing, Chain]) -> Mapping[int, tuple[Thing, ...]]:
    """Return the circuits that feed LED lamps alone: a filament beside them takes up what leaks in."""
    fed = {number: [t for t in lamps if t.circuit == number] for number in circuits_of(lamps)}
    return {n: tuple(mine) for n, mine in fed.items() if all(_is_led(lamps[thing]) for thing in mine)}


def _is_led(chain: Chain) -> bool:
    draw = chain.own.load.draw
    return draw is not None and draw.law is not Law.RESISTANCE


def _hinged(thing: Thing, chain: Chain) -> Hinged:
    """Take the wires and the way next to the hinge: those of the last connector before the lamp, else its own wires."""
    return Hinged(thing, _near(chain.own.feed[::-1])[::-1], _near(chain.own.back))


def _near(side: Sequence[Suspect]) -> tuple[Suspect, ...]:
    """Return what lies from the lamp up to the first connector and one wire beyond it; without one, the first wire."""
    found: list[Suspect] = []
    for suspect in side:
        if suspect.cause not in (Cause.WIRE, Cause.WAY):
            continue
        found.append(suspect)
        if suspect.cause is Cause.WIRE and any(one.cause is Cause.WAY for one in found):
            return tuple(found)
    return tuple(found) if any(one.cause is Cause.WAY for one in found) else tuple(found[:1])


def _passes(chain: Chain, connectors: set[str]) -> bool:
    return any(s.cause is Cause.WAY and s.part in connectors for s in chain.suspects)


def _joints(lamps: Mapping[Thing, Chain]) -> Mapping[str, tuple[Thing, ...]]:
    found: dict[str, list[Thing]] = {}
    for thing, chain in lamps.items():
        for name in dict.fromkeys(s.part for s in chain.suspects if s.cause is Cause.WAY):
            found.setdefault(name, []).append(thing)
    return {name: tuple(mine) for name, mine in found.items()}
