"""Sizes: the smallest on the shelf that fits each group, then the fewest kinds of wire over the build."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from builder.electrics.conductors import (
    METRES_PER_1000_FT,
    min_gauge_for_voltage_drop,
    required_area_circular_mils,
    required_area_metric,
)
from builder.electrics.currents import NOMINAL_V
from builder.electrics.figures import HandFormula, SizeChoice
from builder.electrics.fusing import choose_rating, least_rating
from builder.electrics.groups import Basis, Group, carries, groups_of
from builder.electrics.guards import Flow, Guard
from builder.electrics.protection import fuse_ceiling, judged_against, lowest_ceiling
from builder.electrics.worst_drop import Known, counted_for, known_drops, worst_drop_v
from builder.tables.conductors import k_constant
from builder.tables.table import NoRow
from builder.trailer.assumed import assumption
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import Trailer
from builder.trailer.size import Size, by_area


@dataclass(frozen=True, slots=True)
class Fit:
    """Whether a size fits a group, and what stands against it: drop, ampacity, fuse; ``drop_v`` the worst drop."""

    size: Size
    against: tuple[str, ...]
    drop_v: float


@dataclass(frozen=True, slots=True)
class Sized:
    """The sizes of all wires by index, how each group's was chosen, by circuit number, and what was tried for each."""

    sizes: Mapping[int, Size]
    choices: Mapping[int, SizeChoice]
    tried: Sequence[tuple[Group, tuple[Fit, ...]]]


def choose_sizes(trailer: Trailer, flow: Flow, basis: Basis) -> Sized:
    """Return a size for every wire: given ones as they are, the others chosen upwards from the smallest.

    Where the battery's line comes out thicker than it needs, as one kind of wire with others, the others are judged
    again with what it then drops: so that what is said of the next smaller size holds for the sizes that are told.
    """
    groups = groups_of(trailer, flow.users)
    given = given_sizes(trailer)
    sized = _settled(trailer, flow, basis, groups, given)
    for _ in range(ROUNDS):
        if all(line.reason != "kinds" for line in _lines(groups, sized)):
            break
        again = _settled(trailer, flow, basis, groups, given | _line_sizes(groups, sized))
        if again.sizes == sized.sizes:
            return again
        if not _line_shares(groups, again):
            return _told_anew(flow, sized, again)
        sized = again
    return sized


def _settled(
    trailer: Trailer, flow: Flow, basis: Basis, groups: Sequence[Group], known: Mapping[int, Size]
) -> Sized:
    """Choose sizes, again and again where a load's path runs through several groups, until none changes."""
    sized = _choose(trailer, flow, basis, groups, known)
    for _ in range(ROUNDS if _share_paths(flow, groups) else 0):
        again = _choose(trailer, flow, basis, groups, sized.sizes)
        if again.sizes == sized.sizes:
            break
        sized = again
    return sized


def _line_sizes(groups: Sequence[Group], sized: Sized) -> dict[int, Size]:
    return {i: sized.sizes[i] for g in groups if g.kind is CircuitKind.BATTERY for i in g.free}


def _line_shares(groups: Sequence[Group], sized: Sized) -> bool:
    """Tell whether the battery's line is no thicker than it needs, or some other wire is of its kind."""
    others = {sized.sizes[i] for g in groups if g.kind is not CircuitKind.BATTERY for i in g.free}
    return all(line.reason != "kinds" or line.chosen in others for line in _lines(groups, sized))


def _lines(groups: Sequence[Group], sized: Sized) -> list[SizeChoice]:
    return [sized.choices[n] for g in groups if g.kind is CircuitKind.BATTERY and g.free for n in g.circuits]


def _told_anew(flow: Flow, sized: Sized, judged: Sized) -> Sized:
    """Return the same sizes, each with the reason that it has by what was tried for it later."""
    choices = {
        number: _choice(
            flow, (group, number), tried, (sized.choices[number].chosen, sized.choices[number].aim_v)
        )
        for group, tried in judged.tried
        for number in group.circuits
    }
    return replace(sized, choices=choices)


ROUNDS = 4
"""How often sizes are gone through again at most; each round only makes thicker what it was given."""


def given_sizes(trailer: Trailer) -> dict[int, Size]:
    """Return the sizes that the file gives, by the index of the wire."""
    return {i: wire.size for i, wire in enumerate(trailer.wires) if wire.size is not None}


def _share_paths(flow: Flow, groups: Sequence[Group]) -> bool:
    """Tell whether the path of a load runs through wires of two groups, the battery's line apart."""
    owner = {w: n for n, g in enumerate(groups) if g.kind is not CircuitKind.BATTERY for w in g.wires}
    return any(len({owner[w] for w in path.wires if w in owner}) > 1 for path in flow.paths)


def _choose(
    trailer: Trailer, flow: Flow, basis: Basis, groups: Sequence[Group], known: Mapping[int, Size]
) -> Sized:
    """Go through all groups once; ``known`` are sizes from before, given or found."""
    shelf = trailer.shelf.sizes
    sizes = dict(known)
    fits: list[tuple[Group, tuple[Fit, ...], float]] = []
    everything: Known | None = None
    for group in groups:
        aim_v = aim_of(trailer, group)
        mine = guards_on(flow, group)
        counted = counted_for(flow, group, sizes, basis)
        if counted is None:
            everything = counted = everything or known_drops(flow, sizes, basis)
        tried = tuple(try_size(trailer, flow, basis, (group, mine, counted, aim_v), size) for size in shelf)
        fits.append((group, tried, aim_v))
        if group.kind is CircuitKind.BATTERY:
            sizes |= dict.fromkeys(group.free, _at_least(_smallest(tried).size, group, known))
    chosen = fewest_kinds(
        [
            (_at_least(_smallest(tried).size, group, known), _free_length(flow, group))
            for group, tried, _ in fits
        ],
        assumption(trailer, "one kind of wire less").value / 100.0,
    )
    choices: dict[int, SizeChoice] = {}
    for (group, tried, aim_v), wanted in zip(fits, chosen, strict=True):
        size = wanted
        sizes |= dict.fromkeys(group.free, size)
        if not group.free:
            size = min((sizes[index] for index in group.wires if index in sizes), key=by_area, default=size)
        choices |= {number: _choice(flow, (group, number), tried, (size, aim_v)) for number in group.circuits}
    return Sized(sizes, choices, [(group, tried) for group, tried, _ in fits])


def _at_least(size: Size, group: Group, known: Mapping[int, Size]) -> Size:
    """Return a size, or the one that the group's wires have from the round before where that is thicker."""
    return max([size, *(known[i] for i in group.free if i in known)], key=by_area)


def _free_length(flow: Flow, group: Group) -> float:
    return sum(flow.lengths_m[index] for index in group.free)


def aim_of(trailer: Trailer, group: Group) -> float:
    """Return the drop in volts that a group's size is chosen for, from the supply to the load and back."""
    special = {CircuitKind.BATTERY: "battery line drop aimed at", CircuitKind.TOW: "road lamp drop aimed at"}
    id_ = special.get(group.kind, "drop aimed at")
    return assumption(trailer, id_).value / 100.0 * NOMINAL_V


def guards_on(flow: Flow, group: Group) -> tuple[Guard, ...]:
    """Return the fuses that protect wires of a group whose size is to be chosen, one of those that ask for the same."""
    free = set(group.free)
    mine = (guard for guard in flow.guards if not free.isdisjoint(guard.protects))
    return tuple({_asks(guard): guard for guard in mine}.values())


def _asks(guard: Guard) -> tuple[object, ...]:
    """Return all of a fuse that decides which sizes allow it."""
    spot = guard.spot
    place = (spot.given_a, spot.device, spot.way is None, spot.circuit.kind)
    return (*place, guard.load_a, guard.starting_a, guard.floor_a)


def try_size(
    trailer: Trailer,
    flow: Flow,
    basis: Basis,
    state: tuple[Group, Sequence[Guard], Known, float],
    size: Size,
) -> Fit:
    """Return how a size does for a group: its worst drop, its ampacity and the fuse it allows."""
    group, guards, known, aim_v = state
    against = []
    drop_v = worst_drop_v(flow, group, known, size, basis)
    if drop_v > aim_v * (1 + 1e-9):
        against.append("drop")
    charge_a = flow.charge_a if group.kind is CircuitKind.BATTERY else 0.0
    most: dict[int, float] = {}
    for i in group.free:
        most[flow.bundles[i]] = max(most.get(flow.bundles[i], 0.0), flow.wires_a[i], charge_a)
    if not all(carries(size, current_a, basis, bundle) for bundle, current_a in most.items()):
        against.append("ampacity")
    if not all(fuse_fits(trailer, basis, guard, size) for guard in guards):
        against.append("fuse")
    return Fit(size, tuple(against), drop_v)


def fuse_fits(trailer: Trailer, basis: Basis, guard: Guard, size: Size) -> bool:
    """Tell whether a fuse exists that carries the load and that a wire of this size allows; or the given one is."""
    spot = guard.spot
    try:
        if spot.given_a is not None:
            return (
                spot.given_a
                <= fuse_ceiling(size, basis.insulation_c, judged_against(trailer), spot.device).amps
            )
        ceiling = lowest_ceiling(size, basis.insulation_c, spot.device)
    except NoRow:
        return False
    least_a = least_rating(guard.load_a, guard.starting_a, basis, guard.floor_a)
    return choose_rating(trailer, spot, least_a, ceiling.amps) is not None


def _smallest(tried: Sequence[Fit]) -> Fit:
    """Return the smallest size that fits, else the largest on the shelf."""
    return next((fit for fit in tried if not fit.against), tried[-1])


MOST_COPPER = 2.6
"""How much more copper than it needs a wire is given to save a kind: two steps of even gauge (common practice).

A thicker one no longer goes under the screws and into the connectors that its part has.
"""


def fewest_kinds(needs: Sequence[tuple[Size, float]], kind_worth: float) -> tuple[Size, ...]:
    """Return a size for each need (smallest size that fits, length in metres), with few kinds of wire in all.

    Every subset of the sizes that are needed is tried (a size that nobody needs never helps): each need takes
    the smallest size of the subset that is not below its own, and none that is far above it (`MOST_COPPER`). The
    copper is weighed with (1 + ``kind_worth``) for each kind used; the lightest wins, then fewer kinds, then the
    smaller sizes. Needs without length take no part. Source: our own weighing.
    """
    wanted = [(size, length) for size, length in needs if length > 0]
    best: tuple[tuple[float, int, tuple[float, ...]], dict[float, Size]] | None = None
    areas = sorted({by_area(size): size for size, _ in wanted}.items())
    for count in range(1, len(areas) + 1):
        for subset in combinations(areas, count):
            taken = _take(wanted, subset)
            if taken is None or len(set(taken)) < count:
                continue
            copper = sum(area * length for area, (_, length) in zip(taken, wanted, strict=True))
            score = (copper * (1 + kind_worth) ** count, count, tuple(taken))
            if best is None or score < best[0]:
                best = (score, dict(subset))
    if best is None:
        return tuple(size for size, _ in needs)
    return tuple(
        next((kept for area, kept in sorted(best[1].items()) if area >= by_area(size)), size)
        if length > 0
        else size
        for size, length in needs
    )


def _take(wanted: Sequence[tuple[Size, float]], subset: Sequence[tuple[float, Size]]) -> list[float] | None:
    taken = []
    for size, _ in wanted:
        area = next((area for area, _ in subset if area >= by_area(size)), None)
        if area is None or area > MOST_COPPER * by_area(size):
            return None
        taken.append(area)
    return taken


def _choice(
    flow: Flow, which: tuple[Group, int], tried: Sequence[Fit], decided: tuple[Size, float]
) -> SizeChoice:
    (group, circuit), (size, aim_v) = which, decided
    smallest = _smallest(tried)
    place = next(i for i, fit in enumerate(tried) if fit.size == smallest.size)
    smaller = tried[place - 1] if place else None
    own = next((fit for fit in tried if fit.size == size), smallest)
    if not group.free:
        reason = "given"
    elif smallest.against:
        reason = "none"
    elif by_area(size) > by_area(smallest.size):
        reason = "kinds"
    else:
        reason = smaller.against[0] if smaller else "smallest"
    paths = own_paths(flow, group, circuit)
    pencil = hand_formula(flow, group, paths, ([fit.size for fit in tried], aim_v))
    return SizeChoice(
        circuits=group.circuits,
        chosen=size,
        smallest=smallest.size,
        reason=reason,
        fits=not own.against,
        aim_v=aim_v,
        worst_drop_v=own.drop_v,
        next_smaller=smaller.size if smaller else None,
        next_smaller_drop_v=smaller.drop_v if smaller else None,
        pencil=pencil,
        pencil_differs=why_differs(pencil.size, size, reason, (len(paths), len(group.circuits))),
    )


def own_paths(flow: Flow, group: Group, circuit: int) -> tuple[int, ...]:
    """Return the places of the load paths of one circuit of a group; of the battery's line all that run through it."""
    if group.kind is CircuitKind.BATTERY:
        return group.paths
    return tuple(place for place in group.paths if flow.paths[place].load.circuit == circuit)


def hand_formula(
    flow: Flow, group: Group, paths: Sequence[int], wanted: tuple[Sequence[Size], float]
) -> HandFormula:
    """Apply the textbook formula as a pencil would: a path's largest current sent all the way to its end.

    ``paths`` are the places of the load paths to look at, of which the one that asks for most counts;
    ``wanted`` the sizes on offer and the drop aimed at in volts.
    CM = K I L / E (feet, out and back) for AWG wire, S = 2 L I / (56 E) (metres, one way) for metric wire.
    Source: ABYC E-11 11.14.2.6 (quoted); boat wiring note, German practice (quoted).
    """
    sizes, aim_v = wanted
    inside = set(group.free if group.kind is CircuitKind.TOW else group.wires)
    current_a, loop_m = 0.0, 0.0
    for place in paths:
        mine = [wire for wire in flow.paths[place].wires if wire in inside]
        most_a = max((flow.wires_a[wire] for wire in mine), default=0.0)
        length_m = sum(flow.lengths_m[wire] for wire in mine)
        if most_a * length_m > current_a * loop_m:
            current_a, loop_m = most_a, length_m
    if sizes[0].kind == "mm2":
        area_mm2 = required_area_metric(current_a, loop_m / 2, aim_v)
        fitting = next((size for size in sizes if by_area(size) >= area_mm2 * (1 - 1e-9)), None)
        return HandFormula("S = 2 L I / (56 E)", 56.0, current_a, loop_m / 2, "m", area_mm2, "mm²", fitting)
    k = k_constant("AWG").value
    loop_ft = loop_m * 1000 / METRES_PER_1000_FT
    area_cmil = required_area_circular_mils(k, current_a, loop_ft, aim_v)
    offered = [size.value for size in sizes if size.kind == "AWG"]
    try:
        asked: Size | None = min_gauge_for_voltage_drop(k, current_a, loop_ft, aim_v, "AWG", offered)
    except NoRow:
        asked = None
    return HandFormula("CM = K I L / E", k, current_a, loop_ft, "ft", area_cmil, "circular mils", asked)


def why_differs(asked: Size | None, chosen: Size, reason: str, counts: tuple[int, int]) -> str:
    """Return the word for why the pencil's answer and the chosen size differ; empty when they agree.

    ``off the shelf``: no size at hand is big enough for it; ``far end``: it sends all current to the far end;
    ``copper``: it takes cooler copper and leaves out the battery's line; ``together``: the size was chosen for
    several circuits in one; else what decided the chosen size. ``counts`` are the loads of the circuit, and the
    circuits that take the size together.
    """
    loads, circuits = counts
    if asked is None:
        return "off the shelf"
    if asked == chosen:
        return ""
    if by_area(asked) > by_area(chosen):
        return "far end" if loads > 1 else "copper"
    if reason in ("ampacity", "fuse", "kinds", "given"):
        return reason
    return "together" if circuits > 1 else "copper"
