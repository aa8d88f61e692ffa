"""Circuits: what one fuse protects, with its switches, loads and return."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.trailer.origin import Origin
from builder.trailer.parts import Terminal
from builder.trailer.size import Size


class CircuitKind(StrEnum):
    """Where a circuit starts."""

    HOUSE = "house"
    """At its fuse in the front box."""
    FROM = "from"
    """At another part that the file names."""
    TOW = "tow"
    """At a contact of the tow plug; its fuse is in the car."""
    BATTERY = "battery"
    """The battery's own line to the front box, and the frame bond."""


@dataclass(frozen=True, slots=True)
class Stop:
    """One station of a circuit's path, in reading order.

    ``parent`` is the index of the stop before it, -1 at the circuit's start. ``as_coil`` marks the coil of
    a relay; ``length_m`` is the written length of the leg that leads here, in metres.
    """

    part: str
    parent: int
    length_m: float
    origin: Origin
    as_coil: bool = False
    output: str = ""


@dataclass(frozen=True, slots=True)
class Circuit:
    """One circuit.

    ``way`` is its fuse way in the front box, None when it starts elsewhere. ``fuse_part`` names the fuse or
    breaker part that protects it where it does not start at a way; empty when there is none in the trailer.
    ``given_fuse_a`` is the rating the file gives, in amperes. ``contact`` is the tow-plug contact number.
    ``size`` is the size the file gives for the whole circuit. ``way_origin`` is where the file asks for the way, None
    where it does not. ``issued_way`` is the way that the ledger has for it, None where it has none; ``draft`` is
    False once the number was issued to this circuit for ever. ``contact_name`` names a contact of the tow plug by all
    that its standard lets it do; ``name`` by what it does on this trailer.
    """

    number: int
    name: str
    kind: CircuitKind
    start: Terminal
    origin: Origin
    stops: tuple[Stop, ...] = ()
    way: int | None = None
    given_fuse_a: float | None = None
    fuse_origin: Origin | None = None
    fuse_part: str = ""
    contact: int | None = None
    size: Size | None = None
    note: str = ""
    way_origin: Origin | None = None
    issued_way: int | None = None
    draft: bool = True
    contact_name: str = ""

    @property
    def known_as(self) -> str:
        """What the ledger knows it by: its name; of a contact of the tow plug, what that can be for at all.

        So a lamp more on a contact changes its name and leaves its number.
        """
        return self.contact_name or self.name
