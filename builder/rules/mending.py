"""What a way out names: the next size that mends a drop, the size that bears a fuse, the fuse that carries a load."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from builder.electrics.conductors import resistance_ohm_per_m
from builder.electrics.figures import Figures, FuseFigures, LoadFigures
from builder.electrics.fusing import FuseSpot, fuse_spots, series_of
from builder.electrics.protection import next_standard_rating
from builder.tables.gauges import TRADE_GAUGES, metric_areas_mm2
from builder.tables.protection import fuse_series
from builder.tables.table import NoRow, number_text
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.size import Size, by_area
from builder.trailer.wires import Wire


def sizes_above(trailer: Trailer, area_mm2: float) -> tuple[Size, ...]:
    """Return the sizes above an area in mm²: those on the shelf, then the usual ones; smallest first in each."""
    shelf = trailer.shelf.sizes
    usual: Iterable[Size]
    if shelf and shelf[0].kind == "mm2":
        usual = (Size("mm2", number_text(area)) for area in metric_areas_mm2())
    else:
        usual = (Size("AWG", gauge) for gauge in TRADE_GAUGES)
    every = (*shelf, *(size for size in usual if size not in shelf))
    return tuple(size for size in every if by_area(size) > area_mm2 * (1 + 1e-9))


def first_size(trailer: Trailer, above: Iterable[Size], mends: Callable[[Size], bool]) -> Size | None:
    """Return the first size that is above the thinnest of some and mends what is wrong; None when none does."""
    least = min((by_area(size) for size in above), default=0.0)
    return next((size for size in sizes_above(trailer, least) if mends(size)), None)


def own_size(trailer: Trailer, wire: Wire) -> bool:
    """Tell whether a wire has a size of its own in the path, which the circuit's ``size:`` would not change."""
    return wire.size is not None and wire.size != trailer.circuit(wire.circuit).size


def way_to_less_drop(
    trailer: Trailer, figures: Figures, load: LoadFigures, most_v: float
) -> tuple[str, Size | None]:
    """Return which wires to make thicker so that a load loses at most ``most_v`` volts, and their size.

    The word is ``circuit``, ``lamps`` (all road lamps), ``line`` (the battery's own), ``items`` (the circuit with
    those items of its path that give a size of their own); empty, without a size, where no size mends it.
    """
    number = load.load.circuit
    own = size_for_drop(trailer, figures, load, most_v, number)
    if own is not None:
        return "lamps" if trailer.circuit(number).kind is CircuitKind.TOW else "circuit", own
    line = trailer.battery_line
    size = None if line is None else size_for_drop(trailer, figures, load, most_v, line.number)
    if size is not None:
        return "line", size
    every = size_for_drop(trailer, figures, load, most_v, number, own_too=True)
    if every is None:
        return "", None
    return "lamps" if trailer.circuit(number).kind is CircuitKind.TOW else "items", every


def size_for_drop(
    trailer: Trailer,
    figures: Figures,
    load: LoadFigures,
    most_v: float,
    circuit: int,
    *,
    own_too: bool = False,
) -> Size | None:
    """Return the size for a circuit that leaves a load with at most ``most_v`` volts lost; None when none does.

    Wires of other circuits count at the smallest size that may be chosen for them, and wires with a size of
    their own stay unless ``own_too``: so the answer holds when the file is read again.
    """
    wires = {wire.number: wire for wire in trailer.wires}
    changed = [
        wires[step.wire]
        for step in load.steps
        if wires[step.wire].circuit in _together(trailer, circuit)
        and (own_too or not own_size(trailer, wires[step.wire]))
        and not is_plug_cable(trailer, wires[step.wire])
    ]
    if not changed:
        return None
    numbers = {wire.number for wire in changed}

    def mends(size: Size) -> bool:
        try:
            return _drop_v(figures, load, wires, dict.fromkeys(numbers, size)) <= most_v * (1 - 1e-9)
        except NoRow:
            return False

    return first_size(trailer, (figures.wires[number].size for number in numbers), mends)


def is_plug_cable(trailer: Trailer, wire: Wire) -> bool:
    """Tell whether a wire is one of the tow plug's cable, whose sizes are not ours to choose.

    A line of its own from a contact of the plug, such as a charge line, is not.
    """
    at_plug = TOW_PLUG in (wire.start.part, wire.end.part)
    return at_plug and trailer.circuit(wire.circuit).kind is CircuitKind.TOW


def _together(trailer: Trailer, circuit: int) -> frozenset[int]:
    """Return the circuits that are wired in one size with one: all road lamps are."""
    if trailer.circuit(circuit).kind is not CircuitKind.TOW:
        return frozenset({circuit})
    return frozenset(c.number for c in trailer.circuits if c.kind is CircuitKind.TOW)


def _drop_v(
    figures: Figures, load: LoadFigures, wires: Mapping[str, Wire], changed: Mapping[str, Size]
) -> float:
    total = 0.0
    for step in load.steps:
        made = figures.wires[step.wire]
        size = changed.get(step.wire, made.size)
        if step.wire not in changed and not made.size_given:
            size = figures.circuits[wires[step.wire].circuit].size.smallest
        ohm_per_m = resistance_ohm_per_m(size, made.temperature_c).ohm_per_m
        total += step.current_a * ohm_per_m * wires[step.wire].length_m
    return total


def rating_of(trailer: Trailer, fuse: FuseFigures, least_a: float) -> float | None:
    """Return the standard rating for a fuse's place of at least so many amperes; None where all are below."""
    for series in series_of(trailer, spot_of(trailer, fuse)):
        try:
            return next_standard_rating(least_a, series)
        except NoRow:
            continue
    return None


def rating_up_to(fuse: FuseFigures, most_a: float) -> float | None:
    """Return the largest standard rating of a fuse's series of at most so many amperes; None when all are above."""
    return max((fact.value for fact in fuse_series(fuse.series) if fact.value <= most_a), default=None)


def spot_of(trailer: Trailer, fuse: FuseFigures) -> FuseSpot:
    """Return the place in the trailer that a fuse's figures belong to."""
    return next(s for s in fuse_spots(trailer) if s.circuit.number == fuse.circuit and s.name == fuse.name)


def fuse_word(trailer: Trailer, fuse: FuseFigures) -> str:
    """Return the word of the file that sets a fuse: ``rating`` of its part, else ``fuse`` of its circuit."""
    part = trailer.parts.get(fuse.name) if fuse.way is None else None
    return "rating" if part is not None and part.rating_a is not None else "fuse"
