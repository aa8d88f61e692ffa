"""The whole system as one graph: the battery's line wire by wire, every other circuit as one box."""

from __future__ import annotations

from builder.drawings.circuit_graph import finished
from builder.drawings.circuit_nodes import Scene, amperes, node_at, pin_of
from builder.drawings.circuit_wires import tag_of
from builder.drawings.graph import Graph, Leg, Node, Pin
from builder.drawings.text_width import visible
from builder.drawings.wording import Words
from builder.electrics.figures import Figures
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import BATTERY, FRONT_BOX, GROUND_BAR, SUPPLY_BAR, TOW_PLUG, Trailer
from builder.trailer.parts import Terminal
from builder.trailer.wires import Role

_BOX = "circuit\n"
"""Begins the part of a box: no name in a build file holds a line break, so no part is taken for one."""


def box_of(number: int) -> str:
    """Return what stands for the part's name at the box of a circuit."""
    return f"{_BOX}{number}"


def circuit_of_box(part: str) -> int | None:
    """Return the number of the circuit that a box stands for; None for a part of the trailer."""
    return int(part.removeprefix(_BOX)) if part.startswith(_BOX) else None


def overview_graph(trailer: Trailer, figures: Figures, words: Words) -> Graph:
    """Return the graph of the overview.

    A box stands for a circuit with its fuses, switches and parts; its part is that of `box_of`, so that it can
    lead to the circuit's page. Thin lines are not wires but stand for what a circuit's own drawing shows. What
    charges stands above the battery, what takes below it.
    """
    line = trailer.battery_line
    nodes: dict[str, Node] = {}
    legs: list[Leg] = []
    if line is not None:
        scene = Scene(trailer, figures, line, trailer.wires, words)
        for wire in (wire for wire in trailer.wires if wire.circuit == line.number):
            start, end = (_end(scene, terminal, nodes) for terminal in (wire.start, wire.end))
            legs.append(Leg(wire.number, start, end, "wire", tag_of(wire, figures)))
    for circuit in (c for c in trailer.circuits if c is not line and c.stops):
        on_line = line is not None and any(stop.part == circuit.start.part for stop in line.stops)
        drawn = line if line is not None and on_line else circuit
        legs += _boxed(Scene(trailer, figures, drawn, trailer.wires, words), circuit, nodes)
    return finished(Graph(nodes, tuple(legs)), words)


def _end(scene: Scene, terminal: Terminal, nodes: dict[str, Node]) -> Pin:
    pin = pin_of(scene, terminal)
    if pin.node not in nodes:
        nodes[pin.node] = node_at(scene, terminal, pin.node)
    return pin


def _boxed(scene: Scene, circuit: Circuit, nodes: dict[str, Node]) -> list[Leg]:
    """Return the thin lines of a circuit that is one box: from where it is fed, and to where its current goes."""
    key = box_of(circuit.number)
    fuse = scene.figures.circuits[circuit.number].fuse
    told = [scene.words.way.format(circuit.way)] if circuit.way is not None else []
    told += [amperes(fuse.rating_a)] if fuse is not None and fuse.rating_a else []
    charged = _charged(circuit)
    name = f"{circuit.number} {visible(circuit.name)}"
    nodes[key] = Node(key, key, "circuit", name, (", ".join(told),) if told else (), load=charged is None)
    start = _end(scene, SUPPLY_BAR if circuit.way is not None else circuit.start, nodes)
    back = _end(scene, charged or _comes_back(scene, circuit), nodes)
    return [
        Leg(f"into {key}", start, Pin(key, "in"), "inner"),
        Leg(f"out of {key}", Pin(key, "out"), back, "inner"),
    ]


def _charged(circuit: Circuit) -> Terminal | None:
    """Return where a circuit charges: the battery's post or the supply bar; None when it takes."""
    ends = {stop.part for stop in circuit.stops}
    if circuit.kind is not CircuitKind.FROM or not ends & {BATTERY, FRONT_BOX}:
        return None
    return Terminal(BATTERY, "+") if BATTERY in ends else SUPPLY_BAR


def _comes_back(scene: Scene, circuit: Circuit) -> Terminal:
    """Return where the returns of a circuit end: the ground bar, the plug's ground, or its supply's minus."""
    ends = (FRONT_BOX, BATTERY, TOW_PLUG)
    landed = [w.end for w in scene.trailer.wires if w.circuit == circuit.number and w.role is Role.RETURN]
    found = next((end for end in reversed(landed) if end.part in ends), None)
    if found is not None:
        return found
    own = next((s.minus for s in scene.trailer.sections if s.plus == circuit.start), None)
    return own or (GROUND_BAR if circuit.way is not None else Terminal(BATTERY, "−"))
