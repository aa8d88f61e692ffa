"""The worst drop of a group of wires, against every path added up wire by wire."""

from __future__ import annotations

import pytest
from ordinary_builds import ordinary_build

from builder.buildfile.resolving import read_build
from builder.electrics.conductors import resistance_ohm_per_m
from builder.electrics.currents import load_currents
from builder.electrics.groups import Basis, Group, basis_of, groups_of
from builder.electrics.guards import Flow
from builder.electrics.network import load_paths, loads_on_wires, wire_currents
from builder.electrics.worst_drop import counted_for, known_drops, worst_drop_v
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import Trailer
from builder.trailer.size import Size

RETURNS_IN_A_ROW = """\
format: 1
build: {name: Row of Returns, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft, size: 6 AWG}
front box: {fuse ways: 12, fuses: blade regular}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG], sold as: single}
parts:
""" + "".join(
    f"  lamp {n}: {{kind: lamp, draws: {n + 1} W}}\n  splice {n}: {{kind: splice}}\n" for n in range(9)
)
CIRCUITS = "circuits:\n" + "".join(
    f"  light {n}: {{path: [splice {n}: {1 + n % 3} ft, lamp {n}: {n + 1} in]"
    + (f", return: splice {n - 1}" if n else "")
    + (", size: 12 AWG}\n" if n == 4 else "}\n")
    for n in range(9)
)
BUILDS = [RETURNS_IN_A_ROW + CIRCUITS, *(ordinary_build(seed).text for seed in range(6))]


def flow_of(trailer: Trailer) -> Flow:
    paths = load_paths(trailer)
    loads_a = load_currents(trailer, paths)
    wires_a = wire_currents(paths, loads_a, len(trailer.wires))
    lengths_m = tuple(wire.length_m for wire in trailer.wires)
    return Flow(paths, loads_on_wires(paths), loads_a, wires_a, lengths_m, 0.0, (), (1,) * len(trailer.wires))


def counts(group: Group, wire: int) -> bool:
    """Tell whether a wire of known size counts: the battery's line alone, none for road lamps, else all."""
    if group.kind is CircuitKind.TOW:
        return False
    return group.kind is not CircuitKind.BATTERY or wire in group.wires


def added_up_v(flow: Flow, group: Group, sizes: dict[int, Size], basis: Basis) -> float:
    """Return the largest drop at a load whose path runs through the group's wires."""
    drops = [0.0]
    for path in flow.paths:
        if not set(group.wires).isdisjoint(path.wires):
            passed = [wire for wire in path.wires if wire in sizes]
            drops.append(
                sum(
                    flow.wires_a[w]
                    * flow.lengths_m[w]
                    * resistance_ohm_per_m(sizes[w], basis.copper_c).ohm_per_m
                    for w in passed
                )
            )
    return max(drops)


@pytest.mark.parametrize("text", BUILDS)
@pytest.mark.parametrize("before", ["nothing", "those of every other wire", "all"])
def test_the_worst_drop_is_that_of_the_worst_path(text: str, before: str) -> None:
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    flow, basis, shelf = flow_of(trailer), basis_of(trailer), trailer.shelf.sizes
    step = {"nothing": 0, "those of every other wire": 2, "all": 1}[before]
    known = {wire: shelf[wire % len(shelf)] for wire in (range(0, len(trailer.wires), step) if step else ())}
    groups = groups_of(trailer, flow.users)
    assert len(groups) > 3
    for group in groups:
        counted = counted_for(flow, group, known, basis) or known_drops(flow, known, basis)
        for size in shelf:
            sizes = {w: s for w, s in known.items() if counts(group, w)} | dict.fromkeys(group.free, size)
            told_v = worst_drop_v(flow, group, counted, size, basis)
            assert told_v == pytest.approx(added_up_v(flow, group, sizes, basis), rel=1e-12)
