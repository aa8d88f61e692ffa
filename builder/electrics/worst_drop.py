"""The largest drop at a load of a group of wires: for one size after another, without adding up every path anew."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.conductors import resistance_ohm_per_m, voltage_drop_v, wire_resistance_ohm
from builder.electrics.groups import Basis, Group
from builder.electrics.guards import Flow
from builder.trailer.circuits import CircuitKind
from builder.trailer.size import Size


@dataclass(frozen=True, slots=True)
class Known:
    """The drop in volts over the wires whose size is known: of each by its index, and along each path by its place."""

    wires_v: Mapping[int, float]
    paths_v: Sequence[float]


def known_drops(flow: Flow, sizes: Mapping[int, Size], basis: Basis) -> Known:
    """Return what the wires of these sizes drop, with everything on."""
    wires_v = _wire_drops(flow, sizes, basis)
    paths_v = [0.0] * len(flow.paths)
    for wire, drop_v in wires_v.items():
        for place in flow.users.get(wire, ()):
            paths_v[place] += drop_v
    return Known(wires_v, paths_v)


def counted_for(flow: Flow, group: Group, sizes: Mapping[int, Size], basis: Basis) -> Known | None:
    """Return the known drops that count against a group's aim, where it is not all of them that do.

    The battery's line counts alone; road lamps count without the plug's own cable, whose size is not ours to
    choose. A house circuit counts with all that lies before it, the battery's line too: then None.
    """
    if group.kind is CircuitKind.TOW:
        return known_drops(flow, {}, basis)
    if group.kind is CircuitKind.BATTERY:
        return known_drops(flow, {wire: sizes[wire] for wire in group.wires if wire in sizes}, basis)
    return None


def worst_drop_v(flow: Flow, group: Group, known: Known, size: Size, basis: Basis) -> float:
    """Return the largest drop in volts at a load of a group whose wires, where they are free, are of one size.

    The worst load is found by what the group's own wires change; its drop is then added up along its path.
    """
    own_v = _wire_drops(flow, dict.fromkeys(group.free, size), basis)
    more_v = dict.fromkeys(group.paths, 0.0)
    for wire, drop_v in own_v.items():
        for place in flow.users.get(wire, ()):
            more_v[place] += drop_v - known.wires_v.get(wire, 0.0)
    worst = max(group.paths, key=lambda place: known.paths_v[place] + more_v[place], default=None)
    if worst is None:
        return 0.0
    return sum(own_v.get(wire, known.wires_v.get(wire, 0.0)) for wire in flow.paths[worst].wires)


def _wire_drops(flow: Flow, sizes: Mapping[int, Size], basis: Basis) -> dict[int, float]:
    ohm_per_m = {size: resistance_ohm_per_m(size, basis.copper_c).ohm_per_m for size in set(sizes.values())}
    return {
        wire: voltage_drop_v(flow.wires_a[wire], wire_resistance_ohm(ohm_per_m[size], flow.lengths_m[wire]))
        for wire, size in sizes.items()
    }
