"""The whole trailer, resolved."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.tables.tow_plugs import PlugContact, PlugPattern
from builder.trailer.bays import ClosedBay, Pulled
from builder.trailer.box_face import BoxFace
from builder.trailer.changes import Change
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.color import Color
from builder.trailer.landing_points import EntryHole, Studs, StudSize
from builder.trailer.ledger import Ledger
from builder.trailer.origin import Origin
from builder.trailer.parts import Part, Terminal
from builder.trailer.places import Geometry
from builder.trailer.prices import Price
from builder.trailer.size import Size
from builder.trailer.stock import Stock
from builder.trailer.wires import Link, Load, Section, Wire

FRONT_BOX = "front box"
BATTERY = "battery"
TOW_PLUG = "tow plug"
SECOND_PLUG = "second plug"
FRAME = "frame"
WALLS_OPEN = "walls open"
WALLS_CLOSED = "walls closed"
SUPPLY_BAR = Terminal(FRONT_BOX, "supply")
GROUND_BAR = Terminal(FRONT_BOX, "ground bar")
BATTERY_PLUS = Terminal(BATTERY, "+")
BATTERY_MINUS = Terminal(BATTERY, "−")


@dataclass(frozen=True, slots=True)
class Assumption:
    """Something the file leaves out and the tool filled in, or a default that the file replaced.

    ``value``, ``low`` and ``high`` are in ``unit``; ``known`` says how the value is known (read, quoted,
    memory, practice). ``replaced`` is True when ``assume:`` in the file set the value.
    """

    id: str
    about: str
    value: float
    unit: str
    low: float
    high: float
    reason: str
    known: str
    replaced: bool = False
    origin: Origin | None = None


@dataclass(frozen=True, slots=True)
class Identity:
    """Who and what: the names a page carries.

    ``numbers_issued`` is where the file says that its wire numbers are issued, None where it does not. ``address`` is
    where the manual is online, ``manual_kept`` where its print lies, ``ask`` who knows the wiring; each may be empty.
    """

    name: str
    number: str
    country: str
    stage: str
    units: str
    paper: str
    description: str = ""
    length_m: float | None = None
    width_m: float | None = None
    gross_mass_kg: float | None = None
    width_over_fenders_m: float | None = None
    numbers_issued: Origin | None = None
    address: str = ""
    manual_kept: str = ""
    ask: str = ""

    @property
    def walls_closed(self) -> bool:
        """Whether skins hide the wires: then none of them can be changed for another."""
        return self.stage == WALLS_CLOSED


@dataclass(frozen=True, slots=True)
class Battery:
    """The house battery; ``capacity_ah`` in ampere-hours."""

    chemistry: str
    capacity_ah: float
    origin: Origin
    where: str = ""
    box: str = ""


@dataclass(frozen=True, slots=True)
class FrontBox:
    """The front box: ``fuse_ways`` counts its ways; bar and strip counts are None where not given."""

    fuse_ways: int
    fuse_format: str
    origin: Origin
    where: str = ""
    ground_bar: int | None = None
    strip: int | None = None
    fuses_on_shelf_a: tuple[float, ...] = ()
    check_against: str = ""
    ways_origin: Origin | None = None


@dataclass(frozen=True, slots=True)
class TowPlug:
    """The tow plug and the length of its cable to the front box, in metres.

    Where a ``second`` plug is beside it, ``pattern`` has the contacts of both; the pattern of ``second`` is its own.
    """

    pattern: PlugPattern
    cable_length_m: float
    origin: Origin
    where: str = ""
    second: TowPlug | None = None

    @property
    def names(self) -> str:
        """The short names of both plugs; empty where there is one."""
        return f"{self.pattern.first_mark}, {self.second.pattern.mark}" if self.second is not None else ""

    @property
    def kept(self) -> str:
        """Where it is kept, as the file has it; of two plugs each behind its short name."""
        if self.second is None:
            return self.where
        told = ((self.pattern.first_mark, self.where), (self.second.pattern.mark, self.second.where))
        return "; ".join(f"{mark}: {where}" for mark, where in told if where)

    def said(self, pin: str) -> str:
        """Return how a reader is told of the contact of a pin: see `PlugContact.said`."""
        return self.pattern.contact(pin).said

    def half(self, contact: PlugContact) -> TowPlug:
        """Return the plug that a contact is on: this one, or the second."""
        return self.second if contact.plug and self.second is not None else self


@dataclass(frozen=True, slots=True)
class RoadLamp:
    """One road lamp on one side: the functions it shows and the contact that feeds each of them.

    ``at`` is front, middle or rear, and empty where neither the file nor the functions tell. ``shines`` gives
    the colour of each function that the file gives one for. Lengths are in metres, None where not given:
    ``height_m`` of its middle above the road, ``in_m`` from the outermost side, ``back_m`` from the foremost
    point. ``count`` lamps alike are in the one housing; ``bulbs`` are
    the names of its filament bulbs, each once, and ``bulb_of`` tells which of them shows a function.
    """

    name: str
    shows: tuple[str, ...]
    side: str
    contacts: tuple[tuple[str, str], ...]
    origin: Origin
    at: str = ""
    shines: Mapping[str, str] = field(default_factory=dict)
    height_m: float | None = None
    in_m: float | None = None
    back_m: float | None = None
    count: int = 1
    reflector: bool = False
    on_hatch: bool = False
    bulbs: tuple[str, ...] = ()
    bulb_of: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Reflector:
    """One reflector on one side; ``at`` is front, rear, front side, middle side or rear side.

    Lengths are in metres, None where not given: ``height_m`` of its middle above the road, ``in_m`` from the
    outermost side, ``back_m`` from the foremost point.
    """

    name: str
    at: str
    side: str
    color: str
    origin: Origin
    height_m: float | None = None
    in_m: float | None = None
    triangle: bool = False
    back_m: float | None = None


@dataclass(frozen=True, slots=True)
class Brakes:
    """The brakes as the file has them: ``kind`` is electric or surge, ``breakaway_ah`` None where not given."""

    kind: str
    drum: str
    magnets: int
    breakaway_ah: float | None
    where: str
    done_by: str
    origin: Origin


@dataclass(frozen=True, slots=True)
class Mains:
    """The mains (shore power) installation as the file has it: never designed here."""

    what: str
    done_by: str
    origin: Origin


@dataclass(frozen=True, slots=True)
class WireShelf:
    """The wire at hand: ``sizes`` smallest first, ``insulation_c`` in °C, ``sold_as`` pair or single.

    ``diameters_mm`` are outside diameters that the maker measured, by size; ``label_m`` is the length of a label in
    metres, None where not told; ``rings`` are the ring terminals at hand, by size of wire the studs they are for.
    """

    sizes: tuple[Size, ...]
    insulation_c: float
    insulation_given: bool
    sold_as: str
    feed: Color
    ground: Color
    origin: Origin
    diameters_mm: Mapping[Size, float] = field(default_factory=dict)
    label_m: float | None = None
    rings: Mapping[Size, tuple[StudSize, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Trailer:
    """Everything the build file says, resolved: what each later room starts from.

    ``assumed`` holds the assumptions met while reading, ``assume`` the replacements that the file gives, by
    assumption id. Parts are keyed by name; circuits stand in number order, wires in circuit and letter order.
    ``gone`` holds the numbers of the ledger whose wires are no more, ``ledger`` is None where no number was issued.
    ``pulled`` tells whose wires are in, ``closed_bays`` which bays are closed.
    ``changes`` tells what was done otherwise than planned; all else is as built then, and ``plan`` as it was planned.
    Of a trailer with an option in it ``optional`` names that one's parts, and ``in_already`` the numbers of its wires
    for which a spare stands that is pulled.
    ``options`` are what may come later: nothing else here knows of them.
    """

    identity: Identity
    battery: Battery | None
    front_box: FrontBox | None
    tow_plug: TowPlug | None
    shelf: WireShelf
    parts: Mapping[str, Part]
    circuits: tuple[Circuit, ...]
    wires: tuple[Wire, ...]
    loads: tuple[Load, ...]
    links: tuple[Link, ...]
    sections: tuple[Section, ...]
    road_lamps: tuple[RoadLamp, ...] = ()
    reflectors: tuple[Reflector, ...] = ()
    mains: Mains | None = None
    brakes: Brakes | None = None
    spares: tuple[Wire, ...] = ()
    assumed: tuple[Assumption, ...] = ()
    assume: Mapping[str, tuple[float, Origin]] = field(default_factory=dict)
    unwired: tuple[str, ...] = ()
    stock: Stock = field(default_factory=Stock)
    box_face: BoxFace | None = None
    studs: Mapping[str, Studs] = field(default_factory=dict)
    holes: tuple[EntryHole, ...] = ()
    geometry: Geometry = field(default_factory=Geometry)
    ledger: Ledger | None = None
    gone: tuple[str, ...] = ()
    changes: tuple[Change, ...] = ()
    pulled: tuple[Pulled, ...] = ()
    closed_bays: tuple[ClosedBay, ...] = ()
    prices: tuple[Price, ...] = ()
    plan: Trailer | None = None
    options: tuple[Option, ...] = ()
    optional: tuple[str, ...] = ()
    in_already: tuple[str, ...] = ()

    @property
    def draft_numbers(self) -> tuple[str, ...]:
        """The numbers of wires and spare wires that are not issued yet."""
        return tuple(wire.number for wire in (*self.wires, *self.spares) if wire.draft)

    @property
    def battery_line(self) -> Circuit | None:
        """The circuit that is the battery's own line to the front box; None where the trailer has none."""
        return next((circuit for circuit in self.circuits if circuit.kind is CircuitKind.BATTERY), None)

    def circuit(self, number: int) -> Circuit:
        """Return the circuit of a number; raises KeyError when there is none."""
        for circuit in self.circuits:
            if circuit.number == number:
                return circuit
        raise KeyError(number)


@dataclass(frozen=True, slots=True)
class Option:
    """What may come later, or another version of what is there.

    ``trailer`` is the whole trailer with it in, its wires numbered like today's. ``parts`` and ``circuits`` name what
    the option writes itself, ``spares`` are the spare wires that it takes.
    """

    name: str
    origin: Origin
    trailer: Trailer
    parts: tuple[str, ...] = ()
    circuits: tuple[str, ...] = ()
    spares: tuple[Wire, ...] = ()
    note: str = ""
