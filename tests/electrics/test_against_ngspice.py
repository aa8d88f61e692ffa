"""Every load's voltage against a general circuit simulator.

The netlist says what the hand formula says. Each wire is a resistor of the record's resistance, terminals that are
joined inside a part are one node, each load is a source of the record's current between its two terminals. A
section has a source of its own between its two poles, ideal and floating: what flows out of its plus comes back to
its minus and nowhere else, however many wires it shares with other sections on the way. So sections that meet at
the ground bar meet there once, the wires make a tree, and each current has one way only; Kirchhoff's laws then leave
the simulator no other answer than "resistance times all current beyond it". No piece of the netlist is tied to
earth twice: each hangs on the simulator's node 0 by one resistor that carries nothing.

One thing is bent to that shape. A charger's output pushes its current into poles that the battery holds already (an
ideal voltage there would fight the battery through milliohms), so its section has a source of current; the drop is
then what its own poles stand above those of what it charges.

(Joins as resistors of 1 nΩ give the same, but their 1 GS beside the siemens of a wire cost the simulator nine of its
sixteen digits, and leave almost nothing of the bound.)
"""

from __future__ import annotations

import subprocess
from collections.abc import Hashable, Iterable, Iterator
from pathlib import Path
from typing import Any

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.pages.record import record
from builder.trailer.model import Trailer
from builder.trailer.parts import Terminal
from builder.trailer.wires import Link

pytestmark = pytest.mark.spice

ROOT = Path(__file__).parents[2]
BOUND_V = 1e-6
EARTH_OHM = 1.0

SHARED_WAYS = """
format: 1
build: {name: One Long Wall, number: 1, country: US, stage: walls open}
battery: {chemistry: agm, capacity: 60 Ah, path: [main fuse: 5 in, isolating switch: 1 ft, front box: 4 ft]}
front box: {fuse ways: 8, fuses: blade regular}
wire: {on the shelf: [18 AWG, 16 AWG, 12 AWG, 8 AWG], sold as: pair, feed: red, return: black}
parts:
  wall bar: {kind: bar}
  heater: {kind: heater, draws: 60 W, at: 12.8 V}
  corner lamp: {kind: lamp, draws: 3 W}
  shelf lamp: {kind: lamp, draws: 0.4 A}
  far lamp: {kind: lamp, draws: 5 W}
  door switch: {kind: two-way switch}
  bed switch: {kind: four-way switch}
  stove switch: {kind: two-way switch}
  fan: {kind: fan, draws: 2.5 A}
circuits:
  wall: {path: [wall bar: 11 ft, heater: 3 ft], branches: [{from: wall bar, path: [corner lamp: 4 ft, far lamp: 9 ft]}]}
  shelf: {path: [shelf lamp: 7 ft], return: {to: wall bar, length: 2 ft}}
  from three places: {path: [door switch: 5 ft, bed switch: 8 ft, stove switch: 6 ft, fan: 2 ft]}
"""
ROAD_ALONE = """
format: 1
build: {name: Cart Lamps, number: 2, country: DE, stage: walls open}
tow plug: {pattern: 13-pin, to front box: 2.2 m}
wire: {on the shelf: [1 mm², 1.5 mm², 2.5 mm²], sold as: single, feed: blue, return: white}
parts:
  hinge plug: {kind: connector, ways: 12}
road lamps:
  lamps: filament
  rear lamp: {shows: [tail, stop, turn], side: both, path: [hinge plug: 4.2 m, rear lamp: 0.9 m]}
  fog lamp: {shows: fog, side: right, path: [hinge plug: 4.2 m, fog lamp: 0.7 m], own wires: yes}
  reverse lamp: {shows: reverse, side: middle, path: [hinge plug: 4.2 m, reverse lamp: 0.5 m]}
  side marker: {shows: marker, side: both, wire: 1.3 m}
"""
BORROWED_FRAME = """
format: 1
build: {name: Frame and Bar, number: 3, country: US, stage: walls open}
battery: {chemistry: lithium, capacity: 50 Ah, to main fuse: 6 in, to front box: 3 ft, frame bond: 8 AWG}
front box: {fuse ways: 6, fuses: blade mini}
tow plug: {pattern: 4-way flat, to front box: 6 ft}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG, 8 AWG], sold as: single, feed: red, return: black}
parts:
  porch lamp: {kind: lamp, draws: 6 W}
  step lamp: {kind: lamp, draws: 10 W}
  alarm: {kind: alarm, draws: 90 mA}
circuits:
  porch: {path: [porch lamp: 9 ft], return: frame}
  step: {path: [step lamp: 12 ft]}
  alarm: {from: main fuse, fuse: 2 A, path: [alarm: 7 ft], return: {to: ground bar, length: 3 ft}}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 15 ft}
  plate lamp: {shows: plate, wire: 14 ft}
"""
DOWN_AND_UP = """
format: 1
build: {name: Three Voltages, number: 4, country: DE, stage: walls open}
battery: {chemistry: lifepo4, capacity: 100 Ah, path: [main fuse: 0.2 m, front box: 1 m], return: 1.2 m}
front box: {fuse ways: 6, fuses: blade regular}
wire: {on the shelf: [1.5 mm², 4 mm², 10 mm²], sold as: single, feed: red, return: black}
parts:
  raiser: {kind: converter, gives at: 24 V, efficiency: 91 %, draws when idle: 20 mA}
  lowerer: {kind: converter, gives at: 5 V, efficiency: 80 %}
  pan: {kind: heater, draws: 60 W, at: 24 V}
  fan: {kind: fan, draws: 12 W}
  telephone: {kind: socket, draws: 10 W, at: 5 V}
  tablet: {kind: socket, draws: 1.5 A}
circuits:
  long: {path: [raiser: 3 m, pan: 2 m, fan: 1 m, lowerer: 2 m, telephone: 1 m, tablet: 0.4 m]}
"""
ALL_THAT_CHARGES = """
format: 1
build: {name: Sun and Car, number: 5, country: US, stage: walls open}
battery: {chemistry: agm, capacity: 90 Ah, path: [main fuse: 5 in, front box: 4 ft], return: 5 ft}
front box: {fuse ways: 6, fuses: blade regular}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
wire: {on the shelf: [16 AWG, 12 AWG, 10 AWG, 8 AWG, 6 AWG], sold as: single, feed: red, return: black}
parts:
  car fuse: {kind: fuse}
  dc charger: {kind: dc charger, gives: 12 A, gives at: 14.4 V, efficiency: 88 %}
  battery fuse: {kind: fuse}
  module: {kind: solar module, gives: 120 W}
  controller: {kind: charge controller, draws when idle: 10 mA}
  sun fuse: {kind: fuse}
  shore converter: {kind: shore converter, gives: 20 A, gives at: 13.8 V}
  shore fuse: {kind: fuse}
  pump relay: {kind: relay, draws: 0.15 A}
  pump switch: {kind: switch, draws: 20 mA}
  pump: {kind: pump, draws: 5 A}
  receiver: {kind: receiver, outputs: 2, draws when idle: 15 mA}
  left strip: {kind: lamp, draws: 1.5 W per ft, lit length: 4 ft}
  right strip: {kind: lamp, draws: 1.5 W per ft, lit length: 9 ft}
circuits:
  pump:
    path: [pump relay: 2 ft, pump: 12 ft]
    branches: [{from: fuse, path: [pump switch: 10 ft, pump relay: 9 ft]}]
  strips:
    path: [receiver: 1 ft, left strip: 8 ft]
    branches: [{from: receiver, output: 2, path: [right strip: 13 ft]}]
  car line: {from: tow plug battery, path: [car fuse: 1 ft, dc charger: 7 ft, battery fuse: 4 ft, battery: 6 in]}
  sun: {from: module, path: [controller: 12 ft, sun fuse: 4 ft, battery: 6 in]}
  shore: {from: shore converter, path: [shore fuse: 1 ft, front box: 6 in]}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 16 ft}
"""
EXAMPLES = ("example_build/trailer.yaml", "example_build/smallest/trailer.yaml")
OWN = {
    "shared ways": (SHARED_WAYS, 5),
    "road alone": (ROAD_ALONE, 10),
    "borrowed frame": (BORROWED_FRAME, 8),
    "down and up": (DOWN_AND_UP, 8),
    "all that charges": (ALL_THAT_CHARGES, 17),
}


class Pieces:
    """Things that are joined to each other, each piece by the name of one of them (union-find)."""

    def __init__(self) -> None:
        self._next: dict[Hashable, Hashable] = {}

    def __getitem__(self, one: Hashable) -> Hashable:
        while one in self._next:
            one = self._next[one]
        return one

    def join(self, a: Hashable, b: Hashable) -> None:
        if self[a] != self[b]:
            self._next[self[a]] = self[b]


class Netlist:
    """The cards of a netlist, with a node for all terminals that are joined inside parts."""

    def __init__(self, joins: Iterable[Link]) -> None:
        self._terminals, self._nodes = Pieces(), Pieces()
        self._names: dict[Hashable, str] = {}
        self._cards: list[str] = []
        for join in joins:
            self._terminals.join(join.a, join.b)

    def node(self, terminal: Terminal) -> str:
        return self._names.setdefault(self._terminals[terminal], f"n{len(self._names) + 1}")

    @property
    def nodes(self) -> list[str]:
        return list(self._names.values())

    def card(self, letter: str, a: Terminal, b: Terminal, value: str) -> None:
        """Add an element from ``a`` to ``b``; a source of current (letter I) ties nothing to anything."""
        ends = (self.node(a), self.node(b))
        self._cards.append(f"{letter}{len(self._cards) + 1} {ends[0]} {ends[1]} {value}")
        if letter != "I":
            self._nodes.join(*ends)

    def text(self) -> str:
        pieces = dict.fromkeys(str(self._nodes[name]) for name in self.nodes)
        earths = [f"Rearth{number} {name} 0 {EARTH_OHM}" for number, name in enumerate(pieces)]
        prints = [f"print v({name})" for name in self.nodes]
        control = [".control", "set numdgt=15", "op", *prints, ".endc"]
        return "\n".join(["wires of a trailer", *self._cards, *earths, *control, ".end", ""])


def terminal(told: dict[str, str]) -> Terminal:
    return Terminal(told["part"], told["terminal"])


def loads_of(made: dict[str, Any]) -> Iterator[dict[str, Any]]:
    for circuit in made["circuits"]:
        yield from circuit["loads"]


def charges(load: dict[str, Any]) -> bool:
    return str(load.get("what", "")).startswith("charged")


def netlist(trailer: Trailer, made: dict[str, Any]) -> Netlist:
    """Return the netlist of a build: its wires and loads from the record, its joins and poles from the trailer."""
    net = Netlist(trailer.links)
    for wire in made["wires"]:
        net.card("R", terminal(wire["from"]), terminal(wire["to"]), repr(wire["resistance_ohm"]))
    for load in loads_of(made):
        net.card("I", terminal(load["plus"]), terminal(load["minus"]), f"DC {load['current_a']!r}")
    for section in trailer.sections:
        loads = [load for load in loads_of(made) if load["supply"] == section.name]
        if any(map(charges, loads)):
            total = sum(load["current_a"] for load in loads)
            net.card("I", section.minus, section.plus, f"DC {total!r}")
        else:
            net.card("V", section.plus, section.minus, f"DC {section.volts!r}")
    return net


def solved(net: Netlist, folder: Path) -> dict[str, float]:
    """Return the voltage of every node, in volts, as the simulator prints it."""
    (folder / "wires.cir").write_text(net.text(), encoding="utf-8")
    done = subprocess.run(
        ["ngspice", "-b", "wires.cir"], cwd=folder, capture_output=True, text=True, timeout=60, check=False
    )
    told = [line.split(" = ") for line in done.stdout.splitlines() if line.startswith("v(")]
    volts = {name[2:-1]: float(value) for name, value in told}
    assert set(volts) == set(net.nodes), done.stdout + done.stderr
    return volts


def judged(data: bytes) -> tuple[Trailer, dict[str, Any]]:
    trailer = read_build(data).trailer
    assert trailer is not None
    return trailer, record(trailer, compute(trailer), ())


def gaps_v(trailer: Trailer, made: dict[str, Any], folder: Path) -> dict[str, float]:
    """Return how far the record and the simulator lie apart, in volts, at each supply, load and wire."""
    net = netlist(trailer, made)
    volts = solved(net, folder)

    def between(plus: Terminal, minus: Terminal) -> float:
        return volts[net.node(plus)] - volts[net.node(minus)]

    gaps = {}
    for section in trailer.sections:
        loads = [load for load in loads_of(made) if load["supply"] == section.name]
        supply_v = between(section.plus, section.minus)
        if not any(map(charges, loads)):
            gaps[f"supply {section.name}"] = supply_v - section.volts
        for load in loads:
            at_load_v = between(terminal(load["plus"]), terminal(load["minus"]))
            name = f"load {load['part']} {load.get('what', '')} on {section.name}"
            gaps[name] = at_load_v - (supply_v - load["drop_v"])
    for wire in made["wires"]:
        over_v = between(terminal(wire["from"]), terminal(wire["to"]))
        gaps[f"wire {wire['number']}"] = abs(over_v) - wire["drop_v"]
    return gaps


def compared(data: bytes, folder: Path) -> int:
    """Hold a build's record against the simulator; return how many loads were compared."""
    gaps = gaps_v(*judged(data), folder)
    assert {name: gap_v for name, gap_v in gaps.items() if abs(gap_v) > BOUND_V} == {}
    return sum(name.startswith("load ") for name in gaps)


@pytest.mark.parametrize("file", EXAMPLES)
def test_every_load_of_an_example_gets_what_the_record_says(file: str, tmp_path: Path) -> None:
    assert compared((ROOT / file).read_bytes(), tmp_path) > 10


@pytest.mark.parametrize(("text", "loads"), OWN.values(), ids=OWN.keys())
def test_every_load_of_a_build_gets_what_the_record_says(text: str, loads: int, tmp_path: Path) -> None:
    assert compared(text.encode(), tmp_path) == loads


def test_a_wrong_resistance_is_seen(tmp_path: Path) -> None:
    trailer, made = judged(SHARED_WAYS.encode())
    step = next(loads_of(made))["steps"][0]["wire"]
    next(wire for wire in made["wires"] if wire["number"] == step)["resistance_ohm"] += 1e-5
    gaps = gaps_v(trailer, made, tmp_path)
    assert abs(gaps[f"wire {step}"]) > BOUND_V
    assert any(abs(gap_v) > BOUND_V for name, gap_v in gaps.items() if name.startswith("load "))
