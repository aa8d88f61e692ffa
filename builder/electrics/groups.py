"""Which circuits take one size together, and what a candidate size does to each of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.conductors import ampacity_a
from builder.tables.table import NoRow
from builder.trailer.assumed import assumption
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import Trailer
from builder.trailer.size import Size


@dataclass(frozen=True, slots=True)
class Basis:
    """What every resistance and ampacity rests on, from the assumptions of the trailer.

    ``bundle`` counts the wires side by side where nobody knows where a wire runs, and is the least elsewhere.
    """

    copper_c: float
    insulation_c: float
    ambient_c: float
    bundle: int
    fuse_loading: float
    smallest_fuse_a: float


@dataclass(frozen=True, slots=True)
class Group:
    """Circuits that are wired in one size: a house circuit, one with ``from:``, all road lamps, the battery's line.

    ``wires`` are the indexes of their wires, ``free`` those whose size is to be chosen; ``paths`` the places
    of the load paths that run through any of them.
    """

    circuits: tuple[int, ...]
    kind: CircuitKind
    wires: tuple[int, ...]
    free: tuple[int, ...]
    paths: tuple[int, ...]


def basis_of(trailer: Trailer) -> Basis:
    """Return what resistances and ampacities rest on."""
    insulation = trailer.shelf.insulation_c
    if not trailer.shelf.insulation_given:
        insulation = assumption(trailer, "insulation temperature").value
    return Basis(
        copper_c=assumption(trailer, "copper temperature").value,
        insulation_c=insulation,
        ambient_c=assumption(trailer, "surrounding temperature").value,
        bundle=int(assumption(trailer, "wires side by side").value),
        fuse_loading=assumption(trailer, "fuse loading").value / 100.0,
        smallest_fuse_a=assumption(trailer, "smallest fuse").value,
    )


def groups_of(trailer: Trailer, users: Mapping[int, Sequence[int]]) -> tuple[Group, ...]:
    """Return the groups, the battery's line first: what it drops is taken off what the others may drop.

    ``users`` are the places of the load paths on each wire.
    """
    tow = tuple(c.number for c in trailer.circuits if c.kind is CircuitKind.TOW)
    battery = tuple((c.number,) for c in trailer.circuits if c.kind is CircuitKind.BATTERY)
    single = tuple((c.number,) for c in trailer.circuits if c.kind in (CircuitKind.HOUSE, CircuitKind.FROM))
    kinds = {c.number: c.kind for c in trailer.circuits}
    return tuple(
        _group(trailer, users, circuits, kinds[circuits[0]])
        for circuits in (*battery, *single, tow)
        if circuits
    )


def _group(
    trailer: Trailer, users: Mapping[int, Sequence[int]], circuits: tuple[int, ...], kind: CircuitKind
) -> Group:
    wires = tuple(index for index, wire in enumerate(trailer.wires) if wire.circuit in circuits)
    return Group(
        circuits,
        kind,
        wires,
        tuple(index for index in wires if trailer.wires[index].size is None),
        tuple(sorted({place for wire in wires for place in users.get(wire, ())})),
    )


def carries(size: Size, current_a: float, basis: Basis, bundle: int) -> bool:
    """Tell whether a size carries a current in amperes by its ampacity, ``bundle`` wires side by side."""
    try:
        limit = ampacity_a(size, basis.insulation_c, basis.ambient_c, bundle)
    except NoRow:
        return False
    return current_a <= limit.amps
