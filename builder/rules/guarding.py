"""Which fuse stands before which wire: from every source outwards, through parts that are switched on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.figures import Figures, FuseFigures
from builder.electrics.groups import basis_of
from builder.electrics.network import Neighbours, neighbours, reach
from builder.electrics.protection import Ceiling, fuse_ceiling, judged_against
from builder.tables.protection import device_distance
from builder.tables.table import NoRow
from builder.trailer.circuits import Circuit
from builder.trailer.model import BATTERY, BATTERY_MINUS, BATTERY_PLUS, FRONT_BOX, GROUND_BAR, Trailer
from builder.trailer.parts import Terminal
from builder.trailer.size import Size, by_area
from builder.trailer.wires import Role, Wire

METRES_PER_INCH = 0.0254
PROTECTORS = ("fuse", "breaker")
_ENDS = (GROUND_BAR, BATTERY_MINUS)


@dataclass(frozen=True, slots=True)
class Reached:
    """A wire as a source reaches it.

    ``wire`` is its index; ``guard`` the index of the fuse passed last on the way, None before the first one;
    ``far`` the terminal at its other end.
    """

    wire: int
    guard: int | None
    far: Terminal


@dataclass(frozen=True, slots=True)
class Thinnest:
    """The thinnest of some wires, by number and size, and the largest fuse that it allows."""

    wire: str
    size: Size
    ceiling: Ceiling


def reached_from(trailer: Trailer, figures: Figures, source: Terminal) -> tuple[Reached, ...]:
    """Return every wire that a source can send current through, nearest first, each with the fuse before it.

    Fault current runs through feeds in both directions, through loads, and through returns towards the
    ground bar; a charger or converter lets none through. Source: Kirchhoff's laws.
    """
    walk = _Walk(trailer, figures)
    found: dict[int, Reached] = {}
    guards: dict[Terminal, int | None] = {}
    for here, step in reach(walk.graph, source).items():
        guards[here] = walk.fuse_between(step[0], here, guards[step[0]]) if step is not None else None
        for near, wire in walk.graph.get(here, ()):
            if wire >= 0:
                found.setdefault(wire, Reached(wire, guards[here], near))
    return tuple(found.values())


class _Walk:
    """The graph of a trailer as fault current sees it."""

    def __init__(self, trailer: Trailer, figures: Figures) -> None:
        self._trailer = trailer
        self._ways = {
            Terminal(FRONT_BOX, f"way {fuse.way}"): place
            for place, fuse in enumerate(figures.fuses)
            if fuse.way is not None
        }
        self._parts = {fuse.name: place for place, fuse in enumerate(figures.fuses) if fuse.way is None}
        self._through: dict[Terminal, list[Terminal]] = {}
        for load in trailer.loads:
            if load.plus.part in trailer.parts:
                self._through.setdefault(load.plus, []).append(load.minus)
        whole = neighbours(trailer)
        self.graph = {here: tuple(self._steps(whole, here)) for here in (*whole, *self._through)}

    def _steps(self, whole: Neighbours, here: Terminal) -> Iterator[tuple[Terminal, int]]:
        """Yield the terminals next to one, with the index of the wire between; none behind an end."""
        if here in _ENDS:
            return
        for near, wire in whole.get(here, ()):
            if wire < 0 or self._runs(here, wire):
                yield near, wire
        for near in self._through.get(here, ()):
            yield near, -1

    def _runs(self, here: Terminal, index: int) -> bool:
        wire = self._trailer.wires[index]
        if wire.role is Role.BOND:
            return False
        return wire.role is not Role.RETURN or wire.start == here

    def fuse_between(self, here: Terminal, near: Terminal, guard: int | None) -> int | None:
        """Return the fuse passed last after a step inside a part; the one before it where there is none."""
        if here.part != near.part:
            return guard
        if here.part in self._parts:
            return self._parts[here.part]
        if here.part == FRONT_BOX:
            return self._ways.get(near, guard)
        return guard


def near_source() -> tuple[float, str, str]:
    """Return how far from its source a fuse may stand on bare wire, in metres, its source and how it is known."""
    fact = device_distance("33 CFR", "source of power", sheathed=False)
    return fact.value * METRES_PER_INCH, fact.source, fact.known


def is_stub(trailer: Trailer, reached: Reached) -> bool:
    """Tell whether a wire is the short bare end before its own fuse, which needs no thickness of its own."""
    return leads_to_fuse(trailer, reached) and trailer.wires[reached.wire].length_m <= near_source()[0] + 1e-9


def stubs_of_battery(trailer: Trailer, figures: Figures) -> tuple[Wire, ...]:
    """Return the stubs that the battery feeds with no fuse of their own circuit before them, by their numbers.

    Each is as short as `near_source` asks for by its length on record; a piece that is cut with tails is longer.
    """
    if trailer.battery is None:
        return ()
    found = {
        reached.wire
        for reached in reached_from(trailer, figures, BATTERY_PLUS)
        if is_stub(trailer, reached)
        and (
            reached.guard is None
            or figures.fuses[reached.guard].circuit != trailer.wires[reached.wire].circuit
        )
    }
    return tuple(trailer.wires[index] for index in sorted(found))


def leads_to_fuse(trailer: Trailer, reached: Reached) -> bool:
    """Tell whether a wire ends at a fuse or breaker in its path."""
    return reached.far.part in trailer.parts and trailer.parts[reached.far.part].kind in PROTECTORS


def thinnest_of(
    trailer: Trailer, figures: Figures, wires: Sequence[int], fuse: FuseFigures
) -> Thinnest | None:
    """Return the thinnest of some wires with the largest fuse it allows; None where no table has a row."""
    numbers = [trailer.wires[index].number for index in sorted(wires)]
    sized = [number for number in numbers if number in figures.wires]
    if not sized:
        return None
    number = min(sized, key=lambda n: by_area(figures.wires[n].size))
    size = figures.wires[number].size
    ceiling = ceiling_of(trailer, size, fuse)
    return None if ceiling is None else Thinnest(number, size, ceiling)


def ceiling_of(trailer: Trailer, size: Size, fuse: FuseFigures) -> Ceiling | None:
    """Return the largest rating of a fuse or breaker that a size allows, by the table that judges the trailer."""
    try:
        return fuse_ceiling(
            size,
            basis_of(trailer).insulation_c,
            judged_against(trailer),
            "breaker" if fuse.device == "breaker" else "fuse",
        )
    except NoRow:
        return None


def sources(trailer: Trailer) -> tuple[Terminal, ...]:
    """Return the live pole of every source, the battery's post first."""
    plus = [section.plus for section in trailer.sections if section.name != BATTERY]
    return (BATTERY_PLUS, *plus) if trailer.battery is not None else tuple(plus)


def guarded_wires(trailer: Trailer, figures: Figures) -> Mapping[int, tuple[int, ...]]:
    """Return for each fuse, by its place in the figures, the wires of its circuit that stand behind it."""
    found: dict[int, dict[int, None]] = {}
    for source in sources(trailer):
        for reached in reached_from(trailer, figures, source):
            if reached.guard is None or is_stub(trailer, reached):
                continue
            if trailer.wires[reached.wire].circuit == figures.fuses[reached.guard].circuit:
                found.setdefault(reached.guard, {})[reached.wire] = None
    return {guard: tuple(wires) for guard, wires in found.items()}


def ends_at(circuit: Circuit, part: str) -> int | None:
    """Return the place of the stop at which a circuit reaches a part; None when it does not."""
    return next((place for place, stop in enumerate(circuit.stops) if stop.part == part), None)
