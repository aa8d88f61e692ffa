"""How large a fuse in the car may be for each contact of the tow plug that feeds something."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.groups import Basis
from builder.electrics.network import LoadPath
from builder.electrics.protection import (
    fuse_ceiling,
    fuse_min_rating,
    judged_against,
    next_standard_rating,
)
from builder.tables.table import NoRow
from builder.tables.tow_plugs import PlugContact
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.parts import Terminal
from builder.trailer.size import Size

GUARDS = ("fuse", "breaker")


@dataclass(frozen=True, slots=True)
class PlugFeed:
    """One contact of the tow plug that the car feeds, and what guards its wires up to the trailer's first fuse.

    ``pin`` names it as a terminal does. ``wire`` is the one of those wires that bears the smallest fuse, ``size`` its
    size and ``wires_fuse_a`` that fuse, in ampere, by the table that the build's fuses are judged by. ``line`` tells
    that they are a line of the trailer's own, which a ready-made cable joins by a core: ``core`` is the size that this
    usually has, ``core_fuse_a`` the largest fuse for it; None where there is no such line, or no size is known.
    ``usual_fuse_a`` is the usual range of the fuse in the car, None where none is known. ``needed_a`` is the least
    rating in ampere of a fuse that carries for hours all that the contact feeds at once.
    """

    pin: str
    wire: str
    size: Size
    wires_fuse_a: float
    line: bool
    core: Size | None
    core_fuse_a: float | None
    usual_fuse_a: tuple[float, float] | None
    needed_a: float

    @property
    def largest_fuse_a(self) -> float:
        """The largest fuse in the car that its wires, and a usual core before them, bear."""
        return min(self.wires_fuse_a, self.core_fuse_a or self.wires_fuse_a)

    @property
    def starves(self) -> bool:
        """Whether the largest fuse that a usual core bears is too small for what flows through it for hours."""
        return self.core_fuse_a is not None and self.needed_a > self.core_fuse_a

    @property
    def fitting_fuse_a(self) -> float | None:
        """The smallest rating that is usual in the car, bears what flows and guards the wires; None where none does."""
        if self.usual_fuse_a is None:
            return None
        try:
            rating_a = next_standard_rating(max(self.needed_a, self.usual_fuse_a[0]), "blade regular")
        except NoRow:
            return None
        return rating_a if rating_a <= min(self.wires_fuse_a, self.usual_fuse_a[1]) else None

    @property
    def may_be_too_large(self) -> bool:
        """Whether a usual fuse in the car can be larger than that."""
        return self.usual_fuse_a is not None and self.usual_fuse_a[1] > self.largest_fuse_a


def plug_feeds(
    trailer: Trailer,
    paths: Sequence[LoadPath],
    currents: Sequence[float],
    sizes: Mapping[int, Size],
    basis: Basis,
) -> tuple[PlugFeed, ...]:
    """Return every contact of the tow plug that feeds something, in contact order.

    ``paths`` and ``currents`` are the loads and what each takes in amperes, ``sizes`` those of the wires by index. A
    contact without a row for any of its wires in the table of fuses is left out. Source: Kirchhoff's current law tells
    which wires a short circuit behind the contact flows through; what a fuse may be for them stands in the table that
    the build's fuses are judged by.
    """
    if trailer.tow_plug is None:
        return ()
    found = []
    for contact in trailer.tow_plug.pattern.contacts:
        here = [n for n, path in enumerate(paths) if path.load.section == f"{TOW_PLUG} {contact.pin}"]
        wires = dict.fromkeys(index for n in here for index in _unguarded(trailer, paths[n]))
        borne = _least(trailer, {index: sizes[index] for index in wires if index in sizes}, basis)
        if borne is None:
            continue
        index, wires_a = borne
        line = _is_line(trailer, contact)
        core = Size(contact.size_unit, contact.size) if line and contact.size_unit is not None else None
        core_a = _largest_a(trailer, core, basis) if core is not None else None
        found.append(
            PlugFeed(
                contact.pin,
                trailer.wires[index].number,
                sizes[index],
                wires_a,
                line,
                core if core_a is not None else None,
                core_a,
                contact.car_fuse_a,
                fuse_min_rating(sum(currents[n] for n in here), basis.fuse_loading),
            )
        )
    return tuple(found)


def _unguarded(trailer: Trailer, path: LoadPath) -> Iterator[int]:
    """Yield the wires of a load, by index, that the car's fuse alone guards.

    Those on the way out as far as the first fuse of the trailer; where there is none, those on the way back too.
    """
    for index in path.feeds:
        yield index
        part = trailer.parts.get(trailer.wires[index].end.part)
        if part is not None and part.kind in GUARDS:
            return
    yield from path.returns


def _least(trailer: Trailer, sizes: Mapping[int, Size], basis: Basis) -> tuple[int, float] | None:
    """Return the wire that bears the smallest fuse, the first of several, and that fuse in ampere."""
    borne = list(_each(trailer, sizes.items(), basis))
    return min(borne, key=lambda one: one[1]) if borne else None


def _each(trailer: Trailer, sizes: Iterable[tuple[int, Size]], basis: Basis) -> Iterator[tuple[int, float]]:
    for index, size in sizes:
        amps = _largest_a(trailer, size, basis)
        if amps is not None:
            yield index, amps


def _largest_a(trailer: Trailer, size: Size, basis: Basis) -> float | None:
    try:
        return fuse_ceiling(size, basis.insulation_c, judged_against(trailer)).amps
    except NoRow:
        return None


def _is_line(trailer: Trailer, contact: PlugContact) -> bool:
    """Tell whether a line of the trailer's own starts at a contact: its wires are no cores of the plug's cable."""
    lines = (one.start for one in trailer.circuits if one.kind is CircuitKind.FROM)
    return Terminal(TOW_PLUG, contact.pin) in lines
