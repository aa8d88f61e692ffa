"""What an owner can find dead, and which of it shares what: suspects by all the things that they serve."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from builder.guide.chains import Chain, Chains
from builder.guide.model import Suspect, Thing
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import Trailer
from builder.trailer.wires import BREAKAWAY, Load


@dataclass(frozen=True, slots=True)
class Segment:
    """Suspects that serve the same things: one of them at fault, and just these things are dead together."""

    things: tuple[Thing, ...]
    suspects: tuple[Suspect, ...]


def things_of(chains: Chains) -> Mapping[Thing, Chain]:
    """Return every thing that can be dead with its chain, in the order of the circuits and their loads.

    A relay's coil and a lighted switch's own lamp are none, nor is the input of a converter with something on it.
    What the maker has not fitted yet is none either; nor is a battery that is charged (see `charges_of`).
    """
    found: dict[Thing, Chain] = {}
    for circuit in chains.trailer.circuits:
        for load in (one for one in chains.trailer.loads if one.circuit == circuit.number):
            if not _is_thing(chains.trailer, load):
                continue
            chain = chains.of(load)
            told = circuit.kind is CircuitKind.TOW or load.what == BREAKAWAY
            thing = Thing(circuit.number, load.part, load.what if told else "")
            if chain is not None:
                _keep(found, thing, chain)
    return found


def charges_of(chains: Chains) -> Mapping[Thing, Chain]:
    """Return every circuit that charges the battery as a thing of the circuit's own name, with its chain."""
    found: dict[Thing, Chain] = {}
    for load in chains.trailer.loads:
        chain = chains.of(load) if load.charged_from else None
        if chain is not None:
            found[Thing(load.circuit, chains.trailer.circuit(load.circuit).name)] = chain
    return found


def _keep(found: dict[Thing, Chain], thing: Thing, chain: Chain) -> None:
    """Keep a thing; the functions that one lamp shows on one circuit are one thing, since one wire feeds them."""
    for known in found:
        if (known.circuit, known.part) == (thing.circuit, thing.part):
            kept = found.pop(known)
            words = ", ".join(dict.fromkeys(word for word in (known.what, thing.what) if word))
            found[Thing(known.circuit, known.part, words)] = kept
            return
    found[thing] = chain


def _is_thing(trailer: Trailer, load: Load) -> bool:
    part = trailer.parts.get(load.part)
    if part is None or part.waiting or load.charged_from or load.what in ("idle", "own draw"):
        return False
    if load.what == "input":
        return not any(
            other.section == load.part for other in trailer.loads
        )  # a converter with nothing on it
    if load.what == "coil":
        return not any(
            wire.start.part == load.part and wire.start.pin == "contact out" for wire in trailer.wires
        )
    return True


def segments(things: Mapping[Thing, Chain]) -> tuple[Segment, ...]:
    """Return all suspects of these things by the set of things they serve, in the order in which they are met."""
    serves: dict[Suspect, list[Thing]] = {}
    for thing, chain in things.items():
        for suspect in chain.suspects:
            serves.setdefault(suspect, []).append(thing)
    grouped: dict[tuple[Thing, ...], list[Suspect]] = {}
    for suspect, served in serves.items():
        grouped.setdefault(tuple(served), []).append(suspect)
    return tuple(Segment(served, tuple(suspects)) for served, suspects in grouped.items())


def circuits_of(things: Iterable[Thing]) -> tuple[int, ...]:
    """Return the circuits of things, each once, in number order."""
    return tuple(sorted({thing.circuit for thing in things}))
