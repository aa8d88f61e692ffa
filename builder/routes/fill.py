"""How full each stretch of a conduit is, whether wires may jam in it, and what still goes in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil, sqrt

from builder.routes.network import Stretch
from builder.routes.runs import Runs
from builder.tables.installation import (
    GXL,
    INCH_M,
    THIN_WALL,
    conduit_fill_limit,
    jam_ratio,
    outside_diameter,
)
from builder.tables.table import Fact, NoRow
from builder.trailer.model import WireShelf
from builder.trailer.places import Chase, Geometry
from builder.trailer.size import Size

MOST_MORE = 99
"""More wires than that nobody pulls into a conduit."""
JAMS = 3
"""How many wires may jam: the table speaks of three."""


@dataclass(frozen=True, slots=True)
class StretchFill:
    """One stretch of a conduit with the wires in it: the share of its inside area that they take, in percent.

    ``fill_percent`` is None where the diameter of a wire is not known; ``unsized`` has the sizes concerned.
    ``limit_percent`` is that of the table for as many wires. ``ratio`` is the bore over the mean diameter where there
    are three of them, else None; ``jams`` tells that it is between the table's two figures. ``more`` is how many
    further wires of the size ``more_of`` go in within the limit; ``room`` tells the same of each size of the shelf.
    ``thickest_mm`` is the largest diameter. A wire that passes a stretch twice counts twice, and
    ``again`` has it once more; a stretch without wires is 0 % full.
    """

    stretch: Stretch
    wires: tuple[str, ...]
    bore_mm: float
    fill_percent: float | None
    limit_percent: float
    limit_source: str
    unsized: tuple[Size, ...] = ()
    ratio: float | None = None
    jams: bool = False
    more: int | None = None
    more_of: Size | None = None
    thickest_mm: float = 0.0
    room: tuple[tuple[Size, int], ...] = ()
    again: tuple[str, ...] = ()

    @property
    def laid(self) -> tuple[str, ...]:
        """What lies side by side: its wires, each as often as it passes."""
        return (*self.wires, *self.again)


def wire_diameter(size: Size) -> Fact | None:
    """Return the outside diameter of an insulated wire in mm, or None where no table has one.

    AWG sizes as GXL (nominal), metric ones as ISO 6722 thin wall (greatest). Source: makers' data sheets, quoted;
    0.35 mm² from memory. Other insulation is thicker or thinner.
    """
    kind = GXL if size.kind == "AWG" else THIN_WALL
    try:
        return outside_diameter(kind, size.value)
    except NoRow:
        return None


def wire_diameter_mm(size: Size, shelf: WireShelf) -> float | None:
    """Return the outside diameter of an insulated wire in mm: as its maker measured it, else as `wire_diameter` has it.

    None where neither is known.
    """
    if size in shelf.diameters_mm:
        return shelf.diameters_mm[size]
    fact = wire_diameter(size)
    return fact.value if fact is not None else None


def fill_share(diameters_mm: Sequence[float], bore_mm: float) -> float:
    """Return the share of a bore's area that round wires take, in percent: the squares of their diameters over its own.

    Raises ValueError where the bore is not above zero. Source: NEC Chapter 9 Table 1 (areas), arithmetic.
    """
    if bore_mm <= 0:
        raise ValueError("a conduit has a bore above zero")
    return 100.0 * sum(diameter * diameter for diameter in diameters_mm) / (bore_mm * bore_mm)


def least_bore_mm(diameters_mm: Sequence[float]) -> float:
    """Return the least inside diameter that some round wires may fill: as many as there are, within the limit for them.

    0 without any. Source: NEC Chapter 9 Table 1, quoted, and `fill_share` turned round; for a hole in wood or metal it
    is common practice.
    """
    if not diameters_mm:
        return 0.0
    squares = sum(diameter * diameter for diameter in diameters_mm)
    return sqrt(100.0 * squares / conduit_fill_limit(len(diameters_mm)).value)


def least_hole_m(sizes: Sequence[Size], shelf: WireShelf, units: str) -> float | None:
    """Return the least hole for some wires in metres, rounded up as it is printed; None without any.

    None too where the diameter of one is not known. Source: `least_bore_mm`.
    """
    known = [wire_diameter_mm(size, shelf) for size in sizes]
    diameters = [mm for mm in known if mm is not None]
    if not diameters or len(diameters) < len(known):
        return None
    return up_to_a_mark(least_bore_mm(diameters) / 1000, units)


def up_to_a_mark(metres: float, units: str) -> float:
    """Return a least measure rounded up to an eighth of an inch or a millimetre, as a tape and drills have them."""
    step_m = INCH_M / 8 if units == "feet" else 0.001
    return ceil(metres / step_m - 1e-6) * step_m


def jamming_ratio(diameters_mm: Sequence[float], bore_mm: float) -> float | None:
    """Return the bore over the mean diameter of three wires; None where there are more or fewer of them.

    Source: NEC Chapter 9 Table 1 informational note 2, quoted; the mean of unequal wires is common practice.
    """
    if len(diameters_mm) != JAMS:
        return None
    return bore_mm * JAMS / sum(diameters_mm)


def may_jam(ratio: float | None) -> bool:
    """Tell whether three wires of this ratio of bore to diameter may jam: 2.8 to 3.2, both included (quoted)."""
    if ratio is None:
        return False
    row = jam_ratio(JAMS)
    return row.low <= ratio <= row.high


def still_fits(diameters_mm: Sequence[float], bore_mm: float, other_mm: float) -> int:
    """Return how many further wires of one diameter go in within the limit for as many; none where it is past that.

    The limits are those of NEC Chapter 9 Table 1: 53 % for one, 31 % for two, 40 % for three and more; so a third
    wire may go in where a second alone does not. Counts up to `MOST_MORE`.
    """
    fitting = 0
    for more in range(1, MOST_MORE + 1):
        wires = [*diameters_mm, *[other_mm] * more]
        share = fill_share(wires, bore_mm)
        if share > 100.0:
            break
        if share <= conduit_fill_limit(len(wires)).value:
            fitting = more
    return fitting


def fill(
    geometry: Geometry, runs: Runs, sizes: Mapping[str, Size], shelf: WireShelf
) -> tuple[StretchFill, ...]:
    """Return every stretch of a conduit with a bore, in the order of the file; one for mains alone is left out.

    ``sizes`` are those of all wires by number. Further wires are counted in the smallest size of the ``shelf``; a
    diameter that the maker measured counts before that of a table.
    """
    return tuple(
        _stretch(
            chase,
            stretch,
            (runs.inside.get(stretch, ()), runs.again.get(stretch, ())),
            sizes,
            shelf,
        )
        for chase in geometry.chases.values()
        if chase.bore_m is not None and chase.takes_wires
        for stretch in (Stretch(chase.name, number) for number in range(len(chase.through) - 1))
    )


def _stretch(
    chase: Chase,
    stretch: Stretch,
    held: tuple[tuple[str, ...], tuple[str, ...]],
    every_size: Mapping[str, Size],
    shelf: WireShelf,
) -> StretchFill:
    wires, again = held
    sizes = [every_size[wire] for wire in (*wires, *again)]
    bore_mm = (chase.bore_m or 0.0) * 1000
    known = [wire_diameter_mm(size, shelf) for size in sizes]
    limit = conduit_fill_limit(max(len(sizes), 1))
    unsized = tuple(dict.fromkeys(size for size, mm in zip(sizes, known, strict=True) if mm is None))
    if unsized:
        return StretchFill(stretch, wires, bore_mm, None, limit.value, limit.source, unsized, again=again)
    diameters = [mm for mm in known if mm is not None]
    others = ((size, wire_diameter_mm(size, shelf)) for size in shelf.sizes)
    room = tuple((size, still_fits(diameters, bore_mm, mm)) for size, mm in others if mm is not None)
    first = next((more for size, more in room if size == shelf.sizes[0]), None)
    ratio = jamming_ratio(diameters, bore_mm)
    return StretchFill(
        stretch=stretch,
        wires=wires,
        bore_mm=bore_mm,
        fill_percent=fill_share(diameters, bore_mm),
        limit_percent=limit.value,
        limit_source=limit.source,
        ratio=ratio,
        jams=may_jam(ratio),
        more=first,
        more_of=shelf.sizes[0] if first is not None else None,
        thickest_mm=max(diameters, default=0.0),
        room=room,
        again=again,
    )
