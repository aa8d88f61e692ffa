"""What is built in round the wires and counted: clips and straps, steel plates, bridges, wood for backing blocks."""

from __future__ import annotations

import math

from builder.electrics.figures import Figures
from builder.electrics.landings import strip_groups
from builder.lists.plates import plate_size, wants_plates
from builder.lists.shopping import Item
from builder.trailer.model import Trailer
from builder.trailer.prices import CLIP, STRAP, in_mm


def plate_items(trailer: Trailer, figures: Figures) -> tuple[Item, ...]:
    """Return the steel plates over holes near an edge by their thickness: one for every hole in a frame.

    A hole wants one where the file has plates over the holes of a chase that leads to it, or leaves less wood than
    the rule asks for (NEC 300.4(A), quoted). ``names`` tell the chases, and how many of each.
    """
    chases, found = trailer.geometry.chases, dict[str, dict[str, int]]()
    for one in figures.laid.frames:
        chase = next((chases[name] for name in one.chases if wants_plates(chases[name])), None)
        if chase is not None:
            counts = found.setdefault(plate_size(chase.plate_m, trailer.identity.units), {})
            counts[chase.name] = counts.get(chase.name, 0) + 1
    return tuple(
        Item(
            id=f"steel plate {size}",
            section="plates",
            kind="steel plate",
            used=sum(counts.values()),
            size=size,
            names=tuple(f"{name}: {count}" for name, count in counts.items()),
        )
        for size, counts in sorted(found.items())
    )


def support_items(trailer: Trailer, figures: Figures) -> tuple[Item, ...]:
    """Return the clips for loose wires by their loop, and the straps over wires that lie flat by their width.

    The widest first; one whose wires have no known diameter stands before them, without a size. Clips in stock have
    no size: they are taken off the smallest first, which a clip of any size is likeliest to be. They hold nothing
    that lies flat.
    """
    found: dict[tuple[bool, float], dict[str, int]] = {}
    for one in figures.laid.loops:
        size_mm = math.inf if one.wide_m is None else round(one.wide_m * 1000, 1)
        counts = found.setdefault((one.flat, size_mm), {})
        counts[one.chase] = counts.get(one.chase, 0) + one.count
    left, stock = trailer.stock.clips, dict[tuple[bool, float], int]()
    for key in sorted(found):
        stock[key] = min(left, sum(found[key].values())) if not key[0] else 0
        left -= stock[key]
    return tuple(
        _support(key, found[key], stock[key]) for key in sorted(found, key=lambda key: (key[0], -key[1]))
    )


def _support(key: tuple[bool, float], counts: dict[str, int], stock: int) -> Item:
    flat, size_mm = key
    kind, wide_m = STRAP if flat else CLIP, None if size_mm == math.inf else size_mm / 1000
    return Item(
        id=kind if wide_m is None else f"{kind} {in_mm(wide_m)}",
        section="supports",
        kind=kind,
        used=sum(counts.values()),
        stock=stock,
        loop_m=None if flat else wide_m,
        across_m=wide_m if flat else None,
        names=tuple(f"{name}: {count}" for name, count in counts.items()),
    )


def to_measure(trailer: Trailer, figures: Figures) -> tuple[str, ...]:
    """Return the chases through frames of which the file has neither plates nor the wood that is left to an edge."""
    chases = trailer.geometry.chases
    passing = dict.fromkeys(name for one in figures.laid.frames for name in one.chases)
    return tuple(
        name for name in passing if chases[name].plate_m is None and chases[name].fittings.edge_m is None
    )


def to_count(trailer: Trailer, figures: Figures) -> tuple[str, ...]:
    """Return the chases whose holes want plates, and of which the file does not tell what frames they pass."""
    passing = {name for one in figures.laid.frames for name in one.chases}
    chases = trailer.geometry.chases.values()
    return tuple(chase.name for chase in chases if wants_plates(chase) and chase.name not in passing)


def bridge_items(figures: Figures) -> tuple[Item, ...]:
    """Return the bridges of the terminal strip: in each group one less than it has positions.

    A bridge joins two positions side by side; one for a whole group does as well. Common practice.
    """
    groups = strip_groups(figures.landings)
    if not groups:
        return ()
    used = sum(last - first for first, last, _ in groups)
    names = tuple(f"strip {first} to {last}" for first, last, _ in groups)
    return (Item("bridge", "bridges", "bridge", used=used, names=names),)


def block_items(trailer: Trailer) -> tuple[Item, ...]:
    """Return the wood for backing blocks, pieces of one size together, the largest first."""
    found: dict[tuple[float, float, float | None], list[str]] = {}
    for block in trailer.geometry.blocks.values():
        sides = max(block.wide_m, block.high_m), min(block.wide_m, block.high_m)
        found.setdefault((*sides, block.thick_m), []).append(block.name)
    order = sorted(found, key=lambda size: (-size[0], -size[1], -(size[2] or 0.0)))
    return tuple(
        Item(
            id=f"backing block {number}",
            section="blocks",
            kind="backing block",
            used=len(found[size]),
            wide_m=size[0],
            high_m=size[1],
            thick_m=size[2],
            names=tuple(found[size]),
        )
        for number, size in enumerate(order, start=1)
    )
