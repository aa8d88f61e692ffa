"""Which wires go through which hole of the front box, and how full each hole is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.routes.fill import fill_share, still_fits, wire_diameter_mm
from builder.routes.runs import Runs
from builder.tables.installation import conduit_fill_limit
from builder.trailer.circuits import CircuitKind
from builder.trailer.landing_points import EntryHole
from builder.trailer.model import BATTERY, FRONT_BOX, Trailer, WireShelf
from builder.trailer.size import Size
from builder.trailer.spare_ends import in_front_box
from builder.trailer.wires import Role, Wire


@dataclass(frozen=True, slots=True)
class HoleFill:
    """One hole of the front box with the wires through it: the share of its area that they take, in percent.

    ``fill_percent`` is None where the diameter of a wire is not known, of a size in ``unsized``. ``limit_percent`` is
    that of the table for as many; ``more`` tells how many further wires of the smallest size of the shelf, ``more_of``,
    go through within it. ``thickest_mm`` is the largest diameter.
    """

    name: str
    wires: tuple[str, ...]
    bore_mm: float
    fill_percent: float | None
    limit_percent: float
    limit_source: str
    unsized: tuple[Size, ...] = ()
    thickest_mm: float = 0.0
    more: int | None = None
    more_of: Size | None = None


@dataclass(frozen=True, slots=True)
class Entries:
    """All holes in the order of the file, and the wires that no hole takes."""

    holes: tuple[HoleFill, ...] = ()
    without: tuple[str, ...] = ()


def entries(trailer: Trailer, runs: Runs, sizes: Mapping[str, Size]) -> Entries:
    """Return how full the holes of the front box are; ``sizes`` are those of all wires by number.

    A wire goes through the first hole that names something of it, else through the one that takes the rest. The same
    limits count as in a conduit, NEC Chapter 9 Table 1; for a hole in a box that is common practice.
    """
    if not trailer.holes:
        return Entries()
    inside: dict[str, list[str]] = {hole.name: [] for hole in trailer.holes}
    without = []
    for wire in leaving(trailer):
        hole = _hole_of(trailer, runs, wire)
        if hole is None:
            without.append(wire.number)
        else:
            inside[hole.name].append(wire.number)
    return Entries(
        tuple(_filled(hole, inside[hole.name], sizes, trailer.shelf) for hole in trailer.holes),
        tuple(without),
    )


def leaving(trailer: Trailer) -> tuple[Wire, ...]:
    """Return the wires with one end in the front box, the spare ones too, whose ends are free text."""
    return tuple(
        wire
        for wire in (*trailer.wires, *trailer.spares)
        if _in_the_box(wire, wire.start.part) != _in_the_box(wire, wire.end.part)
    )


def _in_the_box(wire: Wire, end: str) -> bool:
    return in_front_box(end) if wire.role is Role.SPARE else end == FRONT_BOX


def _hole_of(trailer: Trailer, runs: Runs, wire: Wire) -> EntryHole | None:
    names = _names_of(trailer, runs, wire)
    named = next((hole for hole in trailer.holes if names.intersection(hole.takes)), None)
    return named or next((hole for hole in trailer.holes if not hole.takes), None)


def _names_of(trailer: Trailer, runs: Runs, wire: Wire) -> frozenset[str]:
    """Return by what a hole may name a wire: its circuit, the parts at its ends, the chase that it begins in."""
    ends = {wire.start.part, wire.end.part} - {FRONT_BOX}
    pairs = {end.removesuffix(side) for end in ends for side in (" left", " right")}
    if wire.role is Role.SPARE:
        own = {wire.start.pin}
    else:
        circuit = trailer.circuit(wire.circuit)
        line = circuit.kind is CircuitKind.BATTERY and wire.role is not Role.BOND
        own = {circuit.name, *([BATTERY] if line else [])}
    return frozenset({*ends, *pairs, *own, *_chases_at_box(trailer, runs, wire)})


def _chases_at_box(trailer: Trailer, runs: Runs, wire: Wire) -> frozenset[str]:
    """Return the chase that a wire lies in next to the front box; nothing where nobody knows its run."""
    run = runs.runs.get(wire.number)
    stand = trailer.geometry.stands.get(FRONT_BOX)
    if run is None or stand is None or not run.steps:
        return frozenset()
    chases = trailer.geometry.chases
    return frozenset(
        step.stretch.chase
        for step in (run.steps[0], run.steps[-1])
        if stand.place in chases[step.stretch.chase].through[step.stretch.number : step.stretch.number + 2]
    )


def _filled(hole: EntryHole, wires: Sequence[str], sizes: Mapping[str, Size], shelf: WireShelf) -> HoleFill:
    bore_mm = hole.bore_m * 1000
    known = {size: wire_diameter_mm(size, shelf) for size in dict.fromkeys(sizes[wire] for wire in wires)}
    limit = conduit_fill_limit(max(len(wires), 1))
    unsized = tuple(size for size, mm in known.items() if mm is None)
    diameters = [mm for wire in wires if (mm := known[sizes[wire]]) is not None]
    smallest = shelf.sizes[0]
    other_mm = wire_diameter_mm(smallest, shelf)
    tells_more = not unsized and other_mm is not None
    return HoleFill(
        name=hole.name,
        wires=tuple(wires),
        bore_mm=bore_mm,
        fill_percent=None if unsized else fill_share(diameters, bore_mm),
        limit_percent=limit.value,
        limit_source=limit.source,
        unsized=unsized,
        thickest_mm=max(diameters, default=0.0),
        more=still_fits(diameters, bore_mm, other_mm or 0.0) if tells_more else None,
        more_of=smallest if tells_more else None,
    )
