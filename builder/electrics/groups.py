"""Which circuits take one size together, and what a candidate size does to each of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.conductors import ampacity_a, resistance_ohm_per_m, wire_resistance_ohm
from builder.electrics.network import LoadPath
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

    ``wires`` are the indexes of their wires, ``free`` those whose size is to be chosen; ``paths`` the indexes
    of the load paths that run through any of them, ``reach`` all wires of those paths.
    """

    circuits: tuple[int, ...]
    kind: CircuitKind
    wires: tuple[int, ...]
    free: tuple[int, ...]
    paths: tuple[int, ...]
    reach: tuple[int, ...]


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


def groups_of(trailer: Trailer, paths: Sequence[LoadPath]) -> tuple[Group, ...]:
    """Return the groups, the battery's line first: what it drops is taken off what the others may drop."""
    tow = tuple(c.number for c in trailer.circuits if c.kind is CircuitKind.TOW)
    battery = tuple((c.number,) for c in trailer.circuits if c.kind is CircuitKind.BATTERY)
    single = tuple((c.number,) for c in trailer.circuits if c.kind in (CircuitKind.HOUSE, CircuitKind.FROM))
    kinds = {c.number: c.kind for c in trailer.circuits}
    return tuple(
        _group(trailer, paths, circuits, kinds[circuits[0]])
        for circuits in (*battery, *single, tow)
        if circuits
    )


def _group(
    trailer: Trailer, paths: Sequence[LoadPath], circuits: tuple[int, ...], kind: CircuitKind
) -> Group:
    wires = tuple(index for index, wire in enumerate(trailer.wires) if wire.circuit in circuits)
    inside = set(wires)
    through = tuple(place for place, path in enumerate(paths) if not inside.isdisjoint(path.wires))
    return Group(
        circuits,
        kind,
        wires,
        tuple(index for index in wires if trailer.wires[index].size is None),
        through,
        tuple(sorted({wire for place in through for wire in paths[place].wires})),
    )


def wire_resistances(lengths_m: Sequence[float], sizes: Mapping[int, Size], basis: Basis) -> dict[int, float]:
    """Return the resistance in ohm of the wires whose sizes are known, by index; lengths in metres by index."""
    return {
        index: wire_resistance_ohm(resistance_ohm_per_m(size, basis.copper_c).ohm_per_m, lengths_m[index])
        for index, size in sizes.items()
    }


def worst_drop_v(
    group: Group, paths: Sequence[LoadPath], resistances: Mapping[int, float], currents: Sequence[float]
) -> float:
    """Return the largest drop in volts at a load of the group, over all its wires whose size is known."""
    drops = [
        sum(resistances.get(wire, 0.0) * currents[wire] for wire in paths[place].wires)
        for place in group.paths
    ]
    return max(drops, default=0.0)


def carries(size: Size, current_a: float, basis: Basis, bundle: int) -> bool:
    """Tell whether a size carries a current in amperes by its ampacity, ``bundle`` wires side by side."""
    try:
        limit = ampacity_a(size, basis.insulation_c, basis.ambient_c, bundle)
    except NoRow:
        return False
    return current_a <= limit.amps
