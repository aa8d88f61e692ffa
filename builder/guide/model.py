"""What a guide is made of: suspects, steps with their meter points, outcomes, leaves."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.trailer.parts import Terminal


class Symptom(StrEnum):
    """What the owner sees."""

    DEAD = "dead"
    """Something, or several things together, do not work at all."""
    DIM = "dim"
    """They work, but weakly, or come and go."""
    FUSE = "fuse"
    """A fuse opens again."""
    CHARGE = "charge"
    """The battery is not charged by one of its sources."""
    WRONG = "wrong"
    """A road lamp lights with the wrong function."""


class StepKind(StrEnum):
    """What is done in one step."""

    OTHERS = "others"
    """See what else is dead; nothing is touched."""
    SWITCH = "switch"
    """Turn on what works the thing, and off what would take it away."""
    PUSH = "push"
    """Push a connector or the tow plug home, and look at its contacts."""
    BATTERY = "battery"
    """See whether the battery is low: read it while it works something."""
    FUSE = "fuse"
    """Look at a fuse."""
    BREAKER = "breaker"
    """Set a breaker back once."""
    CLICK = "click"
    """Listen to a relay."""
    VOLTS = "volts"
    """Measure a voltage that must be there."""
    DROP = "drop"
    """Measure a voltage that must be all but gone, along a wire or through a contact."""
    RISE = "rise"
    """See whether a charge lifts the voltage: read with its source off, then on."""
    UNPLUG = "unplug"
    """Take every supply of the circuit off, and take its fuse out."""
    OHMS = "ohms"
    """Measure a resistance that must not be there; only after every supply is off."""
    FUNCTIONS = "functions"
    """Have somebody in the car switch on one function after the other."""


class Reads(StrEnum):
    """How a step ends."""

    ALSO = "also"
    """The things named are dead too."""
    ONLY = "only"
    """Nothing else is dead."""
    WORKS = "works"
    DEAD = "dead"
    WHOLE = "whole"
    OPEN = "open"
    CLICKS = "clicks"
    SILENT = "silent"
    ENOUGH = "enough"
    LESS = "less"
    WITHIN = "within"
    ABOVE = "above"
    RISES = "rises"
    STAYS = "stays"
    DONE = "done"
    NOTHING = "nothing"
    """The meter shows the sign for an open line; or, in a step with a ``normal_ohm``, that much or more."""
    TOUCHING = "touching"
    """The meter shows no more than with its probes touching each other."""
    FAINT = "faint"
    """Further lamps glow or flash along."""
    INSTEAD = "instead"
    """Another lamp lights in the place of the right one."""


class Cause(StrEnum):
    """What kind of thing a suspect is."""

    OFF = "off"
    BATTERY = "battery"
    SUPPLY = "supply"
    CAR = "car"
    CAR_GROUND = "car ground"
    """The wire in the car from the socket's ground contact to its body; a contact of the tow plug names it."""
    PLUG = "plug"
    CONTACT = "plug contact"
    FUSE = "fuse"
    HOLDER = "holder"
    """The place that a fuse sits in; of a breaker its own contact."""
    BREAKER = "breaker"
    SWITCH = "switch"
    WIRE = "wire"
    TRAVELLERS = "travellers"
    HOUSING = "housing"
    WAY = "way"
    JOINT = "joint"
    RELAY_CONTACT = "relay contact"
    """The one that closes with the coil; with a terminal, the rest contact."""
    COIL = "coil"
    CONVERTER = "converter"
    LOAD = "load"
    MIXED = "mixed"
    """Wires changed over at the plug, the strip or a connector."""
    ELSE = "else"
    """None of those named: two faults at once, or one that comes and goes. With a part: that lamp as a whole."""


@dataclass(frozen=True, slots=True, order=True)
class Suspect:
    """One thing that can be at fault.

    ``part`` is its part's name, ``pin`` the terminal or way where the part has several, ``wires`` the numbers
    of the wires it stands for. A wire stands for its two ends as well.
    """

    cause: Cause
    part: str = ""
    pin: str = ""
    wires: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, order=True)
class Thing:
    """What an owner calls dead: a part on a circuit; of a road lamp ``what`` names the functions of that circuit."""

    circuit: int
    part: str
    what: str = ""


@dataclass(frozen=True, slots=True)
class Supply:
    """A supply that feeds a circuit, and ``how`` it is taken off.

    ``name`` is the part that is worked: for a battery its isolating switch, if that parts it. ``how`` is
    a word: isolating switch, minus post, pull (the tow plug or the shore lead), cover.
    """

    kind: str
    name: str
    how: str


@dataclass(frozen=True, slots=True)
class Point:
    """Where a probe of the meter goes.

    ``wire`` is the number of the wire that lands there. ``beyond`` tells what is touched instead of the terminal
    itself: ``socket`` its mate in the car's socket, ``car`` bare metal of the car, ``frame`` of the trailer's frame.
    """

    terminal: Terminal
    wire: str = ""
    beyond: str = ""


@dataclass(frozen=True, slots=True)
class Outcome:
    """One way a step ends, and where to go: ``to`` is the id of a step or leaf of the guide, or of another guide.

    ``things`` are those that the reading speaks of.
    """

    reads: Reads
    to: str
    things: tuple[Thing, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """One step: what is done, where both probes go, what they must read, what must be on or unplugged before.

    ``least_v`` is the least voltage that is good, rounded down to a tenth; ``least_of`` names the part across which
    the meter shows that least voltage, where no number can be told beforehand. ``most_v`` is the most, rounded up to
    two figures; a reading with a minus sign counts by its size. ``parts`` names what is handled (a switch, a
    connector, a relay), ``off`` the switches that must be off, ``fuse`` a fuse of the figures. ``load_a`` is the
    current that a drop was worked out for, with everything on, in amperes. ``normal_ohm`` is what the parts themselves
    have behind the probe in an ohms step, None where an open line is normal.
    """

    id: str
    kind: StepKind
    outcomes: tuple[Outcome, ...]
    parts: tuple[str, ...] = ()
    off: tuple[str, ...] = ()
    fuse: str = ""
    red: Point | None = None
    black: Point | None = None
    least_v: float | None = None
    least_of: str = ""
    most_v: float | None = None
    load_a: float | None = None
    normal_ohm: float | None = None
    unplug: tuple[Supply, ...] = ()


@dataclass(frozen=True, slots=True)
class Leaf:
    """Where a guide ends: one suspect, or a group that no step here can part; ``retest`` is the step to repeat."""

    id: str
    suspects: tuple[Suspect, ...]
    retest: str = ""


@dataclass(frozen=True, slots=True)
class Guide:
    """One guide.

    ``circuit`` is the circuit on whose page it stands, None for what several circuits share. ``things`` are dead
    (or dim) together, ``tried`` is the one that the readings are taken with. ``suspects`` are all that can be at
    fault, ``unplug`` what feeds the circuit, ``longest`` the number of steps in the worst case. ``off`` are switches
    that must be off for the thing that is tried, since a relay at rest feeds it. ``alarms`` hang on what the guide
    mends: their own test, and not a lamp on them, proves that they work again.
    """

    id: str
    symptom: Symptom
    circuit: int | None
    things: tuple[Thing, ...]
    tried: Thing | None
    suspects: tuple[Suspect, ...]
    steps: tuple[Step, ...]
    leaves: tuple[Leaf, ...]
    unplug: tuple[Supply, ...]
    longest: int
    fuse: str = ""
    off: tuple[str, ...] = ()
    alarms: tuple[str, ...] = ()
