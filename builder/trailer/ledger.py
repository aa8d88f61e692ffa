"""The ledger of a trailer: which number was issued to which wire, for ever."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from builder.trailer.origin import NOWHERE, Origin
from builder.trailer.parts import Terminal
from builder.trailer.size import Size

Group = Literal["circuits", "tow plug", "battery"]
"""Where a circuit comes from: written under ``circuits``, a contact of the tow plug, the battery's own line."""
Use = Literal["feed", "return", "bond"]
"""What a wire is for, as it tells two wires between the same parts apart."""


def number_order(number: str) -> tuple[int, int, str]:
    """Return what the number of a wire or a spare wire is sorted by: 2A before 10A, 1Z before 1AA, S2 before S10."""
    digits = "".join(sign for sign in number if sign.isdigit())
    letters = "".join(sign for sign in number if not sign.isdigit())
    return (int(digits or 0), len(letters), letters)


@dataclass(frozen=True, slots=True)
class IssuedCircuit:
    """A circuit that has its number; ``way`` is its fuse way at that time, None where it starts elsewhere."""

    number: int
    group: Group
    name: str
    way: int | None = None
    retired: bool = False


@dataclass(frozen=True, slots=True)
class IssuedWire:
    """A wire that has its number.

    ``start`` and ``end`` are kept without what other wires decide: the number of a fuse way, of a connector's way,
    of a plug's contact. ``behind`` names the parts that a wire at a connector serves beyond it. ``size`` is the size
    that it was issued with, None where that was not kept. ``left`` tells of a retired wire that it may still lie in a
    wall, which was closed when its number was retired.
    """

    number: str
    use: Use
    start: Terminal
    end: Terminal
    behind: tuple[str, ...] = ()
    retired: bool = False
    size: Size | None = None
    left: bool = False


@dataclass(frozen=True, slots=True)
class IssuedSpare:
    """A spare wire that has its number, by its name in the build file."""

    number: str
    name: str
    retired: bool = False


@dataclass(frozen=True, slots=True)
class Ledger:
    """All numbers that were ever issued for one trailer, which ``name`` and ``number`` tell from others.

    ``wires`` stand in the order in which they were issued, those of one time by number.
    ``origin`` is the place in the ledger's file where the trailer is named.
    """

    name: str
    number: str
    circuits: tuple[IssuedCircuit, ...] = ()
    wires: tuple[IssuedWire, ...] = ()
    spares: tuple[IssuedSpare, ...] = ()
    origin: Origin = NOWHERE
