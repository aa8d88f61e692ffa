"""What each fuse has to do: the current through it, the wires it protects, and the least rating from elsewhere."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from builder.electrics.currents import starting_current_a
from builder.electrics.fusing import FuseSpot, choose_rating, fuse_spots, least_rating
from builder.electrics.groups import Basis
from builder.electrics.network import LoadPath, most_together_a
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import SUPPLY_BAR, Trailer
from builder.trailer.parts import Terminal
from builder.trailer.wires import Role

_INSIDE = (CircuitKind.HOUSE, CircuitKind.FROM)
"""Circuits whose fuses and wires are the trailer's own: the battery's line has its main fuse, the plug the car's."""


@dataclass(frozen=True, slots=True)
class Guard:
    """A fuse at its spot.

    ``load_a`` flows with everything on, ``starting_a`` while the largest load starts; ``protects`` are the
    indexes of its wires, with those of other circuits that its current flows on through; ``floor_a`` is the least
    rating from elsewhere: the main fuse is not below those behind it. Currents in amperes.
    """

    spot: FuseSpot
    load_a: float
    starting_a: float
    protects: tuple[int, ...]
    floor_a: float = 0.0


@dataclass(frozen=True, slots=True)
class Flow:
    """The load paths of a trailer, the currents of loads and wires, what charges the front box, and the guards.

    ``bundles`` tells of each wire beside how many that carry current it lies, itself included. Currents in amperes,
    lengths in metres; wires and their lists by index. ``users`` has for each wire the places of the paths that run
    through it (`loads_on_wires`).
    """

    paths: tuple[LoadPath, ...]
    users: Mapping[int, Sequence[int]]
    loads_a: tuple[float, ...]
    wires_a: tuple[float, ...]
    lengths_m: tuple[float, ...]
    charge_a: float
    guards: tuple[Guard, ...]
    bundles: tuple[int, ...]


def charge_into_box_a(paths: Sequence[LoadPath], currents: Sequence[float]) -> float:
    """Return the current in amperes that chargers at the front box send on to the battery, over the battery's line."""
    return sum(
        current_a
        for path, current_a in zip(paths, currents, strict=True)
        if path.load.plus == SUPPLY_BAR and path.load.charged_from
    )


def guards_of(
    trailer: Trailer, paths: Sequence[LoadPath], currents: Sequence[float], basis: Basis
) -> tuple[Guard, ...]:
    """Return every fuse with what it has to do, in the order of the spots."""
    spots = fuse_spots(trailer)
    fuses = {spot.terminal.part for spot in spots if spot.way is None}
    behind = _behind(trailer, paths)
    own: dict[int, set[int]] = {}
    for index, wire in enumerate(trailer.wires):
        own.setdefault(wire.circuit, set()).add(index)
    kinds = {circuit.number: circuit.kind for circuit in trailer.circuits}
    inside = {index for index, wire in enumerate(trailer.wires) if kinds[wire.circuit] in _INSIDE}
    made = tuple(
        _guard(trailer, spot, (paths, currents, own.get(spot.circuit.number, set()), inside), behind, fuses)
        for spot in spots
    )
    floor_a = max(
        (_rating(trailer, guard, basis) for guard in made if guard.spot.way is not None), default=0.0
    )
    charge_a = charge_into_box_a(paths, currents)
    return tuple(
        replace(
            guard,
            floor_a=floor_a,
            load_a=max(guard.load_a, charge_a),
            starting_a=max(guard.starting_a, charge_a),
        )
        if guard.spot.circuit.kind is CircuitKind.BATTERY
        else guard
        for guard in made
    )


def _behind(trailer: Trailer, paths: Sequence[LoadPath]) -> dict[Terminal, list[tuple[int, int]]]:
    """Return for each terminal the paths whose feeds start there, with the place of that feed in the path."""
    found: dict[Terminal, list[tuple[int, int]]] = {}
    for number, path in enumerate(paths):
        for place, wire in enumerate(path.feeds):
            found.setdefault(trailer.wires[wire].start, []).append((number, place))
    return found


def _guard(
    trailer: Trailer,
    spot: FuseSpot,
    flow: tuple[Sequence[LoadPath], Sequence[float], set[int], set[int]],
    behind: dict[Terminal, list[tuple[int, int]]],
    fuses: set[str],
) -> Guard:
    paths, currents, own, inside = flow
    loads = behind.get(spot.terminal, [])
    total = most_together_a(paths, currents, [number for number, _ in loads])
    starts = (starting_current_a(trailer, paths[n], currents[n]) - currents[n] for n, _ in loads)
    found: set[int] = set()
    for number, place in loads:
        feeds = paths[number].feeds[place:]
        stop = next((n for n, wire in enumerate(feeds) if trailer.wires[wire].end.part in fuses), None)
        found.update(feeds if stop is None else feeds[: stop + 1])
        found.update(paths[number].returns if stop is None else ())
    kept = found & (own | inside if spot.circuit.kind in _INSIDE else own) or own
    protects = tuple(sorted(i for i in kept if trailer.wires[i].role is not Role.BOND))
    return Guard(spot, total, total + max(starts, default=0.0), protects)


def _rating(trailer: Trailer, guard: Guard, basis: Basis) -> float:
    if guard.spot.given_a is not None:
        return guard.spot.given_a
    least_a = least_rating(guard.load_a, guard.starting_a, basis)
    chosen = choose_rating(trailer, guard.spot, least_a, float("inf"))
    return chosen[0] if chosen else 0.0
