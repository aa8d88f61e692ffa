"""Parts and the terminals that conductors land on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.trailer.origin import Origin

CONTACTS = ("switch", "two-way switch", "four-way switch")
"""Kinds that are bare contacts, worked by hand."""
ELECTRONIC = ("dimmer", "receiver")
"""Kinds that are worked by hand as well, and let nothing through while they have no supply themselves."""
HAND_WORKED = (*CONTACTS, *ELECTRONIC)
"""Kinds that somebody works to turn a part on and off."""
BRAKE_MAGNET, BREAKAWAY_SWITCH, BREAKAWAY_BATTERY = "brake magnet", "breakaway switch", "breakaway battery"
"""Kinds of the brakes: the switch closes when its pin is pulled out, and the battery then holds the magnets."""
CHARGE_LIMITER = "charge limiter"
"""A kind that lets no more than its rating into a battery, with no change of voltage."""
RELAY, ISOLATOR = "relay", "isolating switch"
SOLAR_MODULE, SHORE_CONVERTER = "solar module", "shore converter"
"""Kinds of what gives current besides the battery and the car: one in daylight, one from a cable of mains."""
SWITCHING = (*HAND_WORKED, RELAY)
"""Kinds that part a circuit while they are off; the isolating switch parts all of them."""


class Law(StrEnum):
    """How the current of a load follows its voltage."""

    POWER = "constant power"
    CURRENT = "constant current"
    RESISTANCE = "resistive"


class Form(StrEnum):
    """What a part does to the feed and the return that reach it."""

    LOAD = "load"
    """Feed and return land on it, and go on from its terminals when it is not the last."""
    GATE = "gate"
    """Only the feed is cut; the return passes by unbroken."""
    TRAVELLER = "traveller"
    """A two-way or four-way switch: the feed runs doubled between the first and the last."""
    THROUGH = "through"
    """A connector: feed and return are both cut and take one way each."""
    JOINT = "joint"
    """A splice or a bar: feed joins feed, return joins return."""
    SECTION = "section"
    """A converter or charger: one electrical section ends and another begins."""
    RELAY = "relay"
    """A coil at the end of a path, a contact in the middle of one."""
    SUPPLY = "supply"
    """Battery, tow plug, solar module, charger or converter from shore power."""
    BOX = "box"
    """The front box."""


@dataclass(frozen=True, slots=True, order=True)
class Terminal:
    """Where a conductor lands: the part's name and the name of the pin."""

    part: str
    pin: str

    def __str__(self) -> str:
        """Return ``part: pin``, for people."""
        return f"{self.part}: {self.pin}"


@dataclass(frozen=True, slots=True)
class Draw:
    """What a part takes: ``value`` watts at ``at_v`` volts, or ``value`` amperes at that voltage.

    ``assumption`` names the assumption that the value rests on; empty when the file gives it.
    """

    value: float
    unit: str
    law: Law
    at_v: float = 12.0
    assumption: str = ""


STRIP_LOSS = "loss along a lamp strip"
"""The general assumption that the far end of a lamp strip rests on."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the trailer, as the file has it with the blanks of its kind filled in.

    ``kind`` is a word of the part-kind table. ``ways`` counts the ways of a connector, ``rating_a`` is the
    rating in amperes of a fuse, a breaker, what switches, or each way of a connector, ``gives_w``/``gives_a``
    and ``gives_v`` tell what a supply or a charger delivers (``gives_v_assumption`` names the assumption that the
    voltage rests on; empty when the file gives it), ``efficiency`` (0 to 1) ties the two sides of a
    converter. ``works_from_v`` is the lowest voltage it works at, in volts; None when neither the file nor the
    table of kinds knows one. ``lit_length_m`` is the length of a strip that is sold by length, in metres.
    """

    name: str
    kind: str
    form: Form
    origin: Origin
    where: str = ""
    draw: Draw | None = None
    lit_length_m: float | None = None
    idle_a: float = 0.0
    idle_assumption: str = ""
    own_switch: bool = False
    outputs: tuple[str, ...] = ()
    ways: int | None = None
    works_from_v: float | None = None
    works_from_assumption: str = ""
    rating_a: float | None = None
    gives_w: float | None = None
    gives_a: float | None = None
    gives_v: float | None = None
    gives_v_assumption: str = ""
    efficiency: float = 1.0
    lead_length_m: float | None = None
    leads_come_out: str = ""
    opening: str = ""
    note: str = ""
    waiting: str = ""
