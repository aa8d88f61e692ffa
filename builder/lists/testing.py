"""The shape of the test sheet: what to measure, between which points, and what to expect."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.trailer.parts import Terminal

LEADS_OHM = 0.1
"""What a meter's leads and the touch of its probes add to a small resistance. Common practice."""

SAME_V = 0.1
"""Two readings of one cheap meter that differ by less are the same. Common practice."""


class Group(StrEnum):
    """When a test is made, in the order of the work: dead tests before live ones (BS 7671 model forms, quoted)."""

    DEAD = "dead"
    """Everything unplugged: nothing is live."""
    WIRES = "wires"
    """Wire by wire, before the walls are closed."""
    BARE = "bare"
    """Each wire against the ground and its neighbours, with no part joined: before and after the skins go on."""
    SHORTS = "shorts"
    """Feed against return with all parts joined, before the first fuse and the battery."""
    ENDS = "ends"
    """The ends that land on nothing, insulated before any supply is joined."""
    BATTERY = "battery"
    """The battery is joined, no circuit on yet."""
    CIRCUIT = "circuit"
    """Each circuit, with its fuse in."""
    ROAD = "road"
    """The road lamps, contact by contact of the plug."""
    CHARGING = "charging"
    """What charges the battery."""
    LAST = "last"
    """What is still off or out goes back."""


DEAD_GROUPS = (Group.DEAD, Group.WIRES, Group.BARE, Group.SHORTS, Group.ENDS)
"""The tests that are made with every supply taken off."""


class Act(StrEnum):
    """What a hand does between two readings: each thing that was taken off or out is put back by one of these."""

    PARTS_ON = "parts on"
    """Every part is mounted and joined, but for the supplies that were taken off."""
    MATE = "mate"
    """Both halves of connectors are put together."""
    BREAKERS_ON = "breakers on"
    BREAKERS_OFF = "breakers off"
    WATER_IN = "water in"
    """Into the tanks of pumps, which wear out when they run dry (common practice)."""
    BATTERY_ON = "battery on"
    MINUS_OFF = "minus off"
    """Whatever hangs on the battery's minus post, so that a current can be read there."""
    MINUS_ON = "minus on"
    FUSES_IN = "fuses in"
    FUSES_OUT = "fuses out"
    ALL_IN = "all fuses in"
    """Every fuse, whatever it is for."""
    ALL_OUT = "all fuses out"
    """Every fuse but those of the battery's own line."""
    SWITCH_ON = "switch on"
    """The isolating switch."""
    BULBS_IN = "bulbs in"
    LEADS_ON = "leads on"
    """Of a breakaway battery."""
    WIRES_ON = "wires on"
    """Of a solar module."""
    COVER = "cover"
    UNCOVER = "uncover"
    SHORE_IN = "shore in"
    SHORE_OUT = "shore out"
    CAR_IN = "car in"
    CAR_OUT = "car out"
    TWELVE_ON = "12 V on"
    """A supply that stands for the car, on a contact of the tow plug."""
    TWELVE_OFF = "12 V off"


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do: to which fuses, parts or supplies; ``wires`` are those that are put back.

    ``dead`` tells of fuses that no supply reaches while a hand is at their holders.
    """

    act: Act
    names: tuple[str, ...] = ()
    wires: tuple[str, ...] = ()
    dead: bool = False


@dataclass(frozen=True, slots=True)
class Touch:
    """One end to touch while no part is joined, and all wires that a probe on it reaches."""

    wires: tuple[str, ...]
    at: Terminal


class Kind(StrEnum):
    """What a test asks."""

    JOIN = "join"
    """Nothing is measured: the steps are done, so that the next readings find what they need."""
    DONE = "done"
    """Nothing is measured: all is looked over once more, and nothing is left off or out."""

    NO_VOLTAGE = "no voltage"
    OPEN = "open"
    NO_SHORT = "no short"
    """As `OPEN`, where parts that no switch takes off are read as well."""
    WIRE = "wire"
    BARE = "bare"
    """As `OPEN`, with the probe on one end after the other."""
    BOND = "bond"
    INSULATED = "insulated"
    """Nothing is measured: the end of ``wire`` at ``part`` is insulated."""
    BATTERY = "battery"
    RESTED = "battery rested"
    """As `BATTERY`, where a table tells the voltage of a battery of its kind that rests half full."""
    ISOLATED = "isolated"
    SUPPLIED = "supplied"
    IDLE = "idle"
    IDLE_OFF = "idle off"
    WORKS = "works"
    SUPPLY = "supply"
    VOLTAGE = "voltage"
    FEED_DROP = "feed drop"
    RETURN_DROP = "return drop"
    ALARM = "alarm"
    """Nothing is measured: an alarm passes its own test."""
    FUSE_OUT = "fuse out"
    LAMPS = "lamps"
    SOURCE = "source"
    CHARGE = "charge"
    RISES = "rises"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the test sheet.

    ``red`` and ``black`` are where the probes go, None where nothing is measured between two points. ``least`` and
    ``most`` bound the reading in ``unit`` (V, A or ohm), ``about`` is what the figures expect; all are None where the
    answer is yes or no. A voltage at a load is bound with its supply at its nominal voltage, ``below`` volts under it
    at most. ``current_a`` is what flows while a drop is measured. ``parts`` are those that must work or stop, or that
    are on as well while a voltage is measured; ``fuse`` names the fuse of the test, ``wire`` and ``part`` what it is
    about (of a fuse that is probed, the wire on the contact that is meant), ``supply`` what feeds it. ``bulbs`` are
    the lamps whose bulbs are taken out for the test, ``steps`` what is done instead of a reading, or after it.
    ``toggles`` are the two-way and four-way switches on the way: which position is off cannot be seen without a
    supply. ``switches`` are turned on one after the other for a second reading, which then meets what is ``behind``
    them; ``touches`` are the ends that are read one after the other with no part joined. In a dead test a post of
    the battery stands for what was taken off it, a pole of a solar module for the wire that was taken off it.
    """

    group: Group
    kind: Kind
    circuit: int | None = None
    red: Terminal | None = None
    black: Terminal | None = None
    unit: str = ""
    least: float | None = None
    most: float | None = None
    about: float | None = None
    below: float | None = None
    current_a: float | None = None
    wire: str = ""
    part: str = ""
    fuse: str = ""
    supply: str = ""
    parts: tuple[str, ...] = ()
    bulbs: tuple[str, ...] = ()
    steps: tuple[Step, ...] = ()
    toggles: tuple[str, ...] = ()
    switches: tuple[str, ...] = ()
    behind: tuple[str, ...] = ()
    touches: tuple[Touch, ...] = ()


@dataclass(frozen=True, slots=True)
class PlugSupply:
    """What stands for the car while the road lamps are tested, in amperes.

    ``most_a`` is the most that flows on one contact, ``fuse_a`` the fuse in the supply's plus wire.
    """

    most_a: float
    fuse_a: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """All tests in the order in which they are made.

    ``unplug`` are the supplies to part from the trailer first: words ``battery`` and ``tow plug``, which stands for
    both plugs where there are two, and the names of solar modules and converters from shore power. ``fuses_out``
    tells that there are fuses to take out. ``plug_supply`` is None where no contact of a plug is tested, or no
    standard fuse carries its lamps.
    """

    unplug: tuple[str, ...]
    fuses_out: bool
    lines: tuple[Line, ...]
    plug_supply: PlugSupply | None = None

    def group(self, group: Group) -> tuple[tuple[int, Line], ...]:
        """Return the tests of a group, each with its number on the sheet, from 1."""
        return tuple((n, line) for n, line in enumerate(self.lines, start=1) if line.group is group)
