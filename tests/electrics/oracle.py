"""An oracle for `hand_drop_v` that shares no method with the rooms of the house.

It works from these words alone: "over each stretch, feed and return, its resistance times the currents of
all loads beyond it, everything on; at each load, from the supply to the load and back". Each load is a pair
of fixed currents, out of its section's plus pole and into its plus, out of its minus and into the minus
pole. The network of resistors is solved by star-mesh transformation (A. Rosen, 1924): a node is taken away
and its neighbours are joined to each other, until one node of each piece is left, at 0 V.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import combinations

from builder.trailer.model import Trailer
from builder.trailer.parts import Law, Terminal
from builder.trailer.wires import Load

Mesh = dict[Terminal, dict[Terminal, float]]
"""Conductances between nodes, in siemens."""


class Joined:
    """Terminals that count as one node (union-find)."""

    def __init__(self, pairs: Iterable[tuple[Terminal, Terminal]]) -> None:
        self._next: dict[Terminal, Terminal] = {}
        for a, b in pairs:
            if self[a] != self[b]:
                self._next[self[a]] = self[b]

    def __getitem__(self, terminal: Terminal) -> Terminal:
        while terminal in self._next:
            terminal = self._next[terminal]
        return terminal


def fed_loads(trailer: Trailer) -> list[Load]:
    """Return the loads that conductors join to both poles of their section with everything on."""
    poles = {one.name: one for one in trailer.sections}
    piece = Joined([(one.start, one.end) for one in trailer.wires] + [(x.a, x.b) for x in trailer.links])
    return [
        load
        for load in trailer.loads
        if piece[load.plus] == piece[poles[load.section].plus]
        and piece[load.minus] == piece[poles[load.section].minus]
    ]


def current_a(trailer: Trailer, load: Load) -> float:
    """Return what a load takes at the nominal voltage of its section, in amperes; its draw counts at its own."""
    volts = next(one.volts for one in trailer.sections if one.name == load.section)
    draw = load.draw
    if draw is None:  # a converter takes in what its output gives, and the losses
        outputs = {one.name: one.volts for one in trailer.sections if one.fed_by == load.part}
        beyond = [one for one in fed_loads(trailer) if one.section in outputs]
        out_w = sum(outputs[one.section] * current_a(trailer, one) for one in beyond)
        return out_w / (trailer.parts[load.part].efficiency * volts)
    at_v = draw.at_v
    amperes = draw.value / at_v if draw.unit == "W" else draw.value
    return amperes * {Law.POWER: at_v / volts, Law.CURRENT: 1.0, Law.RESISTANCE: volts / at_v}[draw.law]


def drops_v(trailer: Trailer, resistance_ohm: Mapping[str, float]) -> list[float]:
    """Return the drop of every load of `fed_loads`, in volts; resistances by wire number."""
    nothing = [wire for wire in trailer.wires if resistance_ohm[wire.number] == 0]
    node = Joined([(one.a, one.b) for one in trailer.links] + [(one.start, one.end) for one in nothing])
    poles = {one.name: (node[one.plus], node[one.minus]) for one in trailer.sections}
    into_a: dict[Terminal, float] = {}
    ways: list[tuple[Terminal, ...]] = []
    for load in fed_loads(trailer):
        pole, back = poles[load.section]
        ways.append((pole, node[load.plus], node[load.minus], back))
        for terminal, sign in zip(ways[-1], (1, -1, 1, -1), strict=True):
            into_a[terminal] = into_a.get(terminal, 0.0) + sign * current_a(trailer, load)
    mesh: Mesh = {terminal: {} for terminal in into_a}
    for wire in trailer.wires:
        if (a := node[wire.start]) != (b := node[wire.end]):
            _join(mesh, a, b, 1 / resistance_ohm[wire.number])
    at = _solve(mesh, into_a)
    return [at[pole] - at[plus] + at[minus] - at[back] for pole, plus, minus, back in ways]


def _join(mesh: Mesh, a: Terminal, b: Terminal, siemens: float) -> None:
    for here, there in ((a, b), (b, a)):
        mesh.setdefault(here, {})[there] = mesh.get(here, {}).get(there, 0.0) + siemens


def _solve(mesh: Mesh, into_a: dict[Terminal, float]) -> dict[Terminal, float]:
    """Return the voltage of every node, in volts, from the current fed into each; both are used up."""
    taken: list[tuple[Terminal, dict[Terminal, float]]] = []
    while mesh:
        one = min(mesh, key=lambda name: len(mesh[name]))
        star = mesh.pop(one)
        taken.append((one, star))
        assert star or abs(into_a.get(one, 0.0)) < 1e-9, f"current is lost at {one}"
        for other, siemens in star.items():
            del mesh[other][one]
            into_a[other] = into_a.get(other, 0.0) + into_a.get(one, 0.0) * siemens / sum(star.values())
        for a, b in combinations(star, 2):
            _join(mesh, a, b, star[a] * star[b] / sum(star.values()))
    volts: dict[Terminal, float] = {}
    for one, star in reversed(taken):
        fed_a = into_a.get(one, 0.0) + sum(siemens * volts[other] for other, siemens in star.items())
        volts[one] = fed_a / sum(star.values()) if star else 0.0
    return volts
