"""Which wires lie between a load and its supply: the joins of the system as a graph of terminals."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass

from builder.trailer.model import Trailer
from builder.trailer.parts import Form, Terminal
from builder.trailer.wires import BREAKAWAY, Link, Load, Role, Section

Neighbours = Mapping[Terminal, tuple[tuple[Terminal, int], ...]]
"""For each terminal the terminals next to it, with the index of the wire between; -1 inside a part."""
Back = Mapping[Terminal, tuple[Terminal, int] | None]
"""For each terminal reached the step back towards the source; None at a source. Nearest first."""

OUT = (Role.FEED, Role.TRAVELLER)
"""What carries current from a supply to what uses it."""
HOME = (Role.RETURN, Role.BOND)
"""What carries it back, or would if a feed touched the frame."""


@dataclass(frozen=True, slots=True)
class LoadPath:
    """The wires that one load's current runs through, by their index in the trailer's wires.

    ``feeds`` lie from the supply to the load in that order, ``returns`` from the load back.
    """

    load: Load
    feeds: tuple[int, ...]
    returns: tuple[int, ...]

    @property
    def wires(self) -> tuple[int, ...]:
        """All of them in the order of the current."""
        return (*self.feeds, *self.returns)


def neighbours(
    trailer: Trailer,
    roles: Collection[Role] = (*OUT, *HOME),
    joined: Callable[[Link], bool] | None = None,
) -> Neighbours:
    """Return the graph of all terminals with everything on.

    Only wires of these ``roles`` count; ``joined`` tells which links inside parts do, all where it is None.
    """
    found: dict[Terminal, list[tuple[Terminal, int]]] = {}
    joins: list[tuple[Terminal, Terminal, int]] = [
        (wire.start, wire.end, index) for index, wire in enumerate(trailer.wires) if wire.role in roles
    ]
    joins += [(link.a, link.b, -1) for link in trailer.links if joined is None or joined(link)]
    for a, b, index in joins:
        found.setdefault(a, []).append((b, index))
        found.setdefault(b, []).append((a, index))
    return {terminal: tuple(near) for terminal, near in found.items()}


def with_converters(trailer: Trailer, graph: Neighbours, *, backwards: bool = False) -> Neighbours:
    """Return a graph in which the input of every converter and charger leads to its output, or ``backwards``."""
    found = dict(graph)
    for part in trailer.parts.values():
        if part.form is Form.SECTION:
            ends = Terminal(part.name, "in +"), Terminal(part.name, "out +")
            here, there = ends[::-1] if backwards else ends
            found[here] = (*found.get(here, ()), (there, -1))
    return found


def reach(graph: Neighbours, *sources: Terminal) -> Back:
    """Return for every terminal that these sources reach the step back towards them; None at a source."""
    back: dict[Terminal, tuple[Terminal, int] | None] = dict.fromkeys(sources)
    queue = deque(back)
    while queue:
        here = queue.popleft()
        for near, wire in graph.get(here, ()):
            if near not in back:
                back[near] = (here, wire)
                queue.append(near)
    return back


def way_back(back: Back, start: Terminal) -> tuple[int, ...] | None:
    """Return the wires from a terminal back to the source of a reach, nearest first; None if out of reach."""
    if start not in back:
        return None
    wires = []
    step = back[start]
    while step is not None:
        start, wire = step
        if wire >= 0:
            wires.append(wire)
        step = back[start]
    return tuple(wires)


def load_paths(trailer: Trailer) -> tuple[LoadPath, ...]:
    """Return the path of every load, in the order of the trailer's loads.

    Loads that no supply reaches on both poles are left out; a rule speaks of them.
    """
    graph = neighbours(trailer)
    sections: dict[str, Section] = {section.name: section for section in trailer.sections}
    reached: dict[Terminal, Back] = {}
    paths = []
    for load in trailer.loads:
        section = sections.get(load.section)
        if section is None:
            continue
        for pole in (section.plus, section.minus):
            if pole not in reached:
                reached[pole] = reach(graph, pole)
        feeds = way_back(reached[section.plus], load.plus)
        returns = way_back(reached[section.minus], load.minus)
        if feeds is not None and returns is not None:
            paths.append(LoadPath(load, feeds[::-1], returns))
    return tuple(paths)


def together(paths: Sequence[LoadPath]) -> tuple[frozenset[int], ...]:
    """Return the loads that can be on together, as indexes of their paths: all of them, where no breakaway is wired.

    A breakaway feeds its magnets when the plug is out, so what it feeds is counted once: from there, or from the plug.
    """
    every = frozenset(range(len(paths)))
    again = frozenset(i for i in every if paths[i].load.what == BREAKAWAY)
    if not again:
        return (every,)
    poles = {paths[i].load.plus for i in again}
    return every - again, frozenset(i for i in every if i in again or paths[i].load.plus not in poles)


def wire_currents(paths: Sequence[LoadPath], load_currents: Sequence[float], count: int) -> tuple[float, ...]:
    """Return the most current of each of ``count`` wires in amperes: the sum of the loads that are together beyond it.

    Source: Kirchhoff's current law.
    """
    most = [0.0] * count
    for on in together(paths):
        currents = [0.0] * count
        for place, (path, current_a) in enumerate(zip(paths, load_currents, strict=True)):
            for wire in path.wires if place in on else ():
                currents[wire] += current_a
        most = [max(pair) for pair in zip(most, currents, strict=True)]
    return tuple(most)


def most_together_a(
    paths: Sequence[LoadPath], load_currents: Sequence[float], chosen: Collection[int]
) -> float:
    """Return the most that some loads take in amperes, of those that can be on together; ``chosen`` are indexes."""
    return max(sum(load_currents[i] for i in chosen if i in on) for on in together(paths))


def loads_on_wires(paths: Sequence[LoadPath]) -> dict[int, list[int]]:
    """Return for each wire, by its index, the places of the paths that run through it, in order.

    A path that runs through a wire twice stands there twice.
    """
    found: dict[int, list[int]] = {}
    for place, path in enumerate(paths):
        for wire in path.wires:
            found.setdefault(wire, []).append(place)
    return found


def wires_of(trailer: Trailer, circuit: int) -> tuple[int, ...]:
    """Return the indexes of the wires of a circuit."""
    return tuple(index for index, wire in enumerate(trailer.wires) if wire.circuit == circuit)


def sections_up(trailer: Trailer, name: str) -> tuple[Section, ...]:
    """Return a section and those that its converters or chargers take from, one after the other, up to the supply."""
    return every_section_up(trailer).get(name, ())


def every_section_up(trailer: Trailer) -> dict[str, tuple[Section, ...]]:
    """Return what `sections_up` does for every section, by its name."""
    sections = {section.name: section for section in trailer.sections}
    inputs = {load.part: load.section for load in trailer.loads if load.what == "input"}

    def up(name: str) -> tuple[Section, ...]:
        found: dict[str, Section] = {}
        while name in sections and name not in found:
            found[name] = sections[name]
            name = inputs.get(sections[name].fed_by, "")
        return tuple(found.values())

    return {name: up(name) for name in sections}
