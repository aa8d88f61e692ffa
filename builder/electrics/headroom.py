"""What is left on each circuit: how much more its fuses, its wires, its switches and its voltage bear."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_DOWN, Decimal
from itertools import chain

from builder.electrics.carrying import way_flows, way_of
from builder.electrics.currents import NOMINAL_V, starting_current_a
from builder.electrics.figures import FuseFigures, HeadroomFigures, LoadFigures, SwitchFigures, WireFigures
from builder.electrics.fusing import fuse_spots
from builder.electrics.groups import Basis
from builder.electrics.guards import Flow
from builder.electrics.strips import strip_loss_v
from builder.trailer.assumed import assumption
from builder.trailer.circuits import Circuit
from builder.trailer.model import BATTERY, Trailer
from builder.trailer.parts import Form, Terminal

NEVER_SHARED = ("alarm",)
"""Kinds of parts whose circuit is theirs alone: what is joined to it could silence them. Common practice."""

_JOINED_AT = ("", "input")
_FUSES = ("fuse", "breaker")
_NOISE = 1e-9
_Rated = dict[tuple[str, str], float]
"""What more something with a rating bears in amperes, by its name and, of a connector, the way."""


@dataclass(frozen=True, slots=True)
class Bounds:
    """What the wires, fuses, loads and switches of a computed trailer leave: the figures that bound a new load."""

    wires: Mapping[str, WireFigures]
    fuses: Sequence[FuseFigures]
    loads: Sequence[LoadFigures]
    switches: Sequence[SwitchFigures]


@dataclass(frozen=True, slots=True)
class _Left:
    """More current in amperes that one thing bears, and the name of that thing."""

    amps: float
    name: str


@dataclass(frozen=True, slots=True)
class _Sharing:
    """Which wires each load uses, by its place; and by how many volts each may still lose, the least first.

    ``own_v`` has the loads of each circuit, for a new load on it; ``other_v`` all, for one on another circuit.
    """

    wires: Sequence[frozenset[int]]
    own_v: Mapping[int, Sequence[tuple[float, int]]]
    other_v: Sequence[tuple[float, int]]


def headroom(trailer: Trailer, flow: Flow, bounds: Bounds, basis: Basis) -> tuple[HeadroomFigures, ...]:
    """Return what is left on every circuit from a way of the front box, in the order of the circuits.

    A new load is thought of at each part of the circuit in turn, on the part's own terminals, with everything on;
    the place where the least is left counts. A circuit without a fuse that fits, and one that feeds an alarm, is
    left out. Source: Ohm's and Kirchhoff's laws; the shares are those by which fuses and sizes are chosen.
    """
    at_fuses = _left_at_fuses(trailer, flow, bounds.fuses, basis)
    at_switches = _left_at_switches(trailer, bounds)
    sharing = _sharing(trailer, flow, bounds)
    found = []
    for circuit in trailer.circuits:
        places = _places(trailer, flow, circuit) if circuit.way is not None else ()
        if places:
            made = _of_circuit(trailer, flow, bounds, (circuit, places), (at_fuses, at_switches, sharing))
            found += [made] if made is not None else []
    return tuple(found)


def two_figures_down(value: float) -> float:
    """Return a number cut down to two significant figures; nothing below zero.

    >>> two_figures_down(0.879), two_figures_down(38.99), two_figures_down(127.0), two_figures_down(-3.0)
    (0.87, 38.0, 120.0, 0.0)
    """
    if value <= 0:
        return 0.0
    exact = Decimal(repr(value * (1 + _NOISE)))
    return float(exact.quantize(Decimal(1).scaleb(exact.adjusted() - 1), ROUND_DOWN))


def _places(trailer: Trailer, flow: Flow, circuit: Circuit) -> tuple[int, ...]:
    """Return the places of the paths of a circuit's parts that a load could be joined to; none beside an alarm."""
    own = [n for n, path in enumerate(flow.paths) if path.load.circuit == circuit.number]
    parts = {flow.paths[n].load.part for n in own} | {stop.part for stop in circuit.stops}
    if any(name in trailer.parts and trailer.parts[name].kind in NEVER_SHARED for name in parts):
        return ()
    return tuple(
        n for n in own if flow.paths[n].load.section == BATTERY and flow.paths[n].load.what in _JOINED_AT
    )


def _of_circuit(
    trailer: Trailer,
    flow: Flow,
    bounds: Bounds,
    which: tuple[Circuit, Sequence[int]],
    at: tuple[Mapping[Terminal, _Left | None], _Rated, _Sharing],
) -> HeadroomFigures | None:
    """Return the figures of one circuit: the least over its parts; None where a fuse before one has no rating."""
    circuit, places = which
    least: dict[str, tuple[_Left, str]] = {}
    for place in places:
        part = flow.paths[place].load.part
        fuse = _by_fuse(trailer, flow, place, at[0])
        if fuse is None:
            return None
        kinds = {
            "fuse": fuse,
            "wire": _by_wire(trailer, flow, place, bounds.wires),
            "switch": _by_switch(trailer, flow, place, at[1]),
            "drop": _by_drop(trailer, flow, place, (bounds, at[2])),
        }
        for kind, left in kinds.items():
            if left is not None and (kind not in least or left.amps < least[kind][0].amps):
                least[kind] = (left, part)
    watts = {kind: two_figures_down(left.amps * NOMINAL_V) for kind, (left, _) in least.items()}
    limit = min(watts, key=lambda kind: least[kind][0].amps)
    return HeadroomFigures(
        circuit=circuit.number,
        part=least[limit][1],
        fuse_w=watts["fuse"],
        wire_w=watts["wire"],
        drop_w=watts["drop"],
        switch_w=watts.get("switch"),
        left_w=watts[limit],
        limit=limit,
        fuse=least["fuse"][0].name,
        wire=least["wire"][0].name,
        switch=least["switch"][0].name if "switch" in least else "",
    )


def _left_at_fuses(
    trailer: Trailer, flow: Flow, fuses: Sequence[FuseFigures], basis: Basis
) -> dict[Terminal, _Left | None]:
    """Return for the terminal behind each fuse what more it carries for hours; None where it has no rating.

    The share of its rating that a fuse carries for hours, less what flows; and its whole rating, less what flows
    while the largest load behind it starts. Source: common practice, as a fuse is chosen.
    """
    ratings = {(fuse.name, fuse.way): fuse.rating_a for fuse in fuses}
    users: dict[Terminal, list[int]] = {}
    for place, path in enumerate(flow.paths):
        for terminal in dict.fromkeys(trailer.wires[wire].start for wire in path.feeds):
            users.setdefault(terminal, []).append(place)
    found: dict[Terminal, _Left | None] = {}
    for spot in fuse_spots(trailer):
        rating_a = ratings.get((spot.name, spot.way))
        if rating_a is None:
            found[spot.terminal] = None
            continue
        behind = users.get(spot.terminal, [])
        through_a = sum(flow.loads_a[n] for n in behind)
        more_a = (
            starting_current_a(trailer, flow.paths[n], flow.loads_a[n]) - flow.loads_a[n] for n in behind
        )
        most_a = min(basis.fuse_loading * rating_a, rating_a - max(more_a, default=0.0))
        found[spot.terminal] = _Left(most_a - through_a, spot.name)
    return found


def _by_fuse(trailer: Trailer, flow: Flow, place: int, at: Mapping[Terminal, _Left | None]) -> _Left | None:
    """Return the least that a fuse on the way leaves; None where one has no rating."""
    passed = [trailer.wires[wire].start for wire in flow.paths[place].feeds]
    met = [at[terminal] for terminal in passed if terminal in at]
    known = [left for left in met if left is not None]
    return min(known, key=lambda left: left.amps) if known and len(known) == len(met) else None


def _by_wire(trailer: Trailer, flow: Flow, place: int, wires: Mapping[str, WireFigures]) -> _Left:
    """Return the least that a wire on the way leaves of what it bears."""
    passed = [wires[trailer.wires[wire].number] for wire in flow.paths[place].wires]
    return min(
        (_Left(wire.ampacity_a - wire.current_a, wire.number) for wire in passed), key=lambda w: w.amps
    )


def _left_at_switches(trailer: Trailer, bounds: Bounds) -> _Rated:
    """Return what more each part with a rating of its own passes, in amperes, for a load without a motor.

    Source: the rating in the file, less what a switch needs for its loads by FAA AC 43.13-1B Table 11-4 (read), or
    what flows; of a connector less what flows through the way.
    """
    needs = {switch.name: switch.least_rating_a for switch in bounds.switches}
    flows = {number: wire.current_a for number, wire in bounds.wires.items()}
    on_ways = way_flows(trailer, lambda number: flows.get(number, 0.0))
    most: dict[str, float] = {}
    for wire in trailer.wires:
        most[wire.start.part] = max(most.get(wire.start.part, 0.0), flows.get(wire.number, 0.0))
    found: _Rated = {}
    for part in trailer.parts.values():
        if part.rating_a is None or part.kind in _FUSES:
            continue
        if part.form is Form.THROUGH:
            found |= {(part.name, way): part.rating_a - a for way, a in on_ways.get(part.name, {}).items()}
        else:
            found[part.name, ""] = part.rating_a - needs.get(part.name, most.get(part.name, 0.0))
    return found


def _by_switch(trailer: Trailer, flow: Flow, place: int, at: _Rated) -> _Left | None:
    """Return the least that a switch, or a connector's way out or back, leaves; None where nothing has a rating."""
    path = flow.paths[place]
    switched = [(trailer.wires[wire].start.part, "") for wire in path.feeds]
    ways = [(end.part, way_of(end)) for wire in path.wires for end in _ends(trailer, wire)]
    left = [_Left(at[key], key[0]) for key in (*switched, *ways) if key in at]
    return min(left, key=lambda one: one.amps, default=None)


def _ends(trailer: Trailer, wire: int) -> tuple[Terminal, Terminal]:
    return trailer.wires[wire].start, trailer.wires[wire].end


def _by_drop(trailer: Trailer, flow: Flow, place: int, left: tuple[Bounds, _Sharing]) -> _Left:
    """Return what more may flow until too much is lost: at the new load itself, or at one that shares its wires.

    The new load may lose what sizes are chosen for. The other parts of its circuit keep within the advice for their
    kind, and every part stays above the voltage it works from; one on another circuit that is below it already
    bounds nothing here. None that may still lose more than the new load loses by now on its whole way bounds it
    further, whatever the two share.
    """
    path, (bounds, sharing) = flow.paths[place], left
    ohms = {wire: bounds.wires[trailer.wires[wire].number].resistance_ohm for wire in path.wires}
    way_ohm = sum(ohms.values())
    aim_v = assumption(trailer, "drop aimed at").value / 100.0 * NOMINAL_V
    least_a = _over(aim_v - bounds.loads[place].drop_v, way_ohm)
    own = sharing.own_v[path.load.circuit]
    for margin_v, other in chain(own, sharing.other_v):
        if margin_v >= max(0.0, least_a * way_ohm):
            continue
        shared_ohm = sum(ohm for wire, ohm in ohms.items() if wire in sharing.wires[other])
        least_a = min(least_a, _over(margin_v, shared_ohm))
    return _Left(least_a, path.load.part)


def _sharing(trailer: Trailer, flow: Flow, bounds: Bounds) -> _Sharing:
    own: dict[int, list[tuple[float, int]]] = {}
    other: list[tuple[float, int]] = []
    for place, load in enumerate(bounds.loads):
        mine = own.setdefault(load.load.circuit, [])
        mine += [(margin_v, place) for margin_v in _margins_v(trailer, load, own=True)]
        other += [(margin_v, place) for margin_v in _margins_v(trailer, load, own=False) if margin_v >= 0]
    wires = tuple(frozenset(path.wires) for path in flow.paths)
    return _Sharing(wires, {circuit: sorted(margins) for circuit, margins in own.items()}, sorted(other))


def _margins_v(trailer: Trailer, load: LoadFigures, *, own: bool) -> Iterator[float]:
    """Yield in volts what a load may lose further: to what it works from, on its ``own`` circuit to the advice too.

    Of a lamp strip the far end counts.
    """
    nominal_v = next(s.volts for s in trailer.sections if s.name == load.load.section)
    along_v = strip_loss_v(trailer, load.load, load.current_a)
    if own and load.advice_percent is not None:
        yield load.advice_percent / 100.0 * nominal_v - load.drop_v - along_v
    if load.works_from_v is None or (not load.works_from_given and nominal_v < NOMINAL_V):
        return
    yield load.left_v - along_v - load.works_from_v
    if load.works_from_given:
        yield nominal_v - load.drop_v - along_v - load.works_from_v


def _over(volts: float, ohm: float) -> float:
    return volts / ohm if ohm > 0 else float("inf")
