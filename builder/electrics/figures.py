"""Every computed value of a trailer, immutable; keys and fields end in their unit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.electrics.box_sides import BoxSide
from builder.electrics.braking import BrakeFigures
from builder.electrics.charging import ChargingFigures
from builder.electrics.drops import DropStep
from builder.electrics.entry_holes import Entries
from builder.electrics.lamps_required import LampsRequired
from builder.electrics.plug_feeds import PlugFeed
from builder.electrics.plug_grounds import PlugGround
from builder.electrics.plug_states import ContactState
from builder.routes.bays_held import BayHeld
from builder.routes.fill import StretchFill
from builder.routes.hinges import HingeLoop
from builder.routes.laid import Laid
from builder.routes.near_walls import NearSkin, NearWall
from builder.routes.panels import PanelView
from builder.routes.runs import Runs
from builder.routes.skins import Clearances
from builder.routes.tubes import Tube
from builder.trailer.color import Color
from builder.trailer.model import Assumption, Trailer
from builder.trailer.origin import Origin
from builder.trailer.size import Size
from builder.trailer.wires import Load, Role

SHAPE_VERSION = 1
"""Raised when a key of the figures changes its meaning or goes away."""


@dataclass(frozen=True, slots=True)
class WireFigures:
    """One wire: its size with the reason, resistance (with the table and copper temperature), current and limits.

    ``ampacity_a`` is the table's figure times the two factors; ``bundle`` counts the wires that carry current
    side by side; ``drop_v`` is over this one wire with everything on.
    """

    number: str
    size: Size
    size_given: bool
    area_mm2: float
    resistance_ohm: float
    temperature_c: float
    resistance_source: str
    current_a: float
    ampacity_a: float
    table_ampacity_a: float
    ambient_factor: float
    bundle_factor: float
    bundle: int
    ampacity_source: str
    drop_v: float


@dataclass(frozen=True, slots=True)
class LoadFigures:
    """One load: current at nominal voltage, the drop by hand with each step, and what is left of the supply.

    ``drop_v`` counts from the supply to the load and back; ``circuit_drop_v`` only the wires of its circuit.
    ``lowest_v`` is the supply when low, ``left_v`` what reaches the load then; ``works_from_v`` None if unknown.
    """

    load: Load
    current_a: float
    starting_a: float
    steps: tuple[DropStep, ...]
    drop_v: float
    circuit_drop_v: float
    drop_percent: float
    advice_percent: float | None
    lowest_v: float
    left_v: float
    works_from_v: float | None
    works_from_given: bool


@dataclass(frozen=True, slots=True)
class FuseFigures:
    """One fuse or breaker: what flows through it, what it must carry, what its wires allow, and the choice.

    ``reason`` is a word: load, start, smallest, main (the largest fuse behind it), twice (twice that one), given,
    none. ``needed_a`` is the least rating for the load; ``ceiling_a`` the limit of the thinnest wire by the table
    it is judged against; ``choice_ceiling_a`` the lowest of all tables. ``rating_a`` is None when no rating fits.
    """

    name: str
    circuit: int
    way: int | None
    device: str
    series: str
    rating_a: float | None
    given: bool
    origin: Origin | None
    load_a: float
    starting_a: float
    needed_a: float
    thinnest: Size
    thinnest_wire: str
    ceiling_a: float
    ceiling_source: str
    ceiling_known: str
    choice_ceiling_a: float
    choice_source: str
    reason: str
    color: str


@dataclass(frozen=True, slots=True)
class HandFormula:
    """The textbook formula for a size: its constant, inputs and answer.

    ``length`` is in ``length_unit`` (ft out and back, or m one way), ``area`` in ``area_unit``; ``size`` None
    when no size at hand is big enough.
    """

    formula: str
    constant: float
    current_a: float
    length: float
    length_unit: str
    area: float
    area_unit: str
    size: Size | None


@dataclass(frozen=True, slots=True)
class SizeChoice:
    """How the size of a group of circuits was chosen.

    ``smallest`` is the smallest size on the shelf that fits by itself, ``chosen`` the one taken after the kinds
    of wire were counted over the build. ``reason`` is a word: drop, ampacity, fuse, smallest, kinds, none, given,
    or kept where closed walls hold what was issued.
    ``next_smaller_drop_v`` is the worst drop with the next smaller size, None if there is none.
    ``pencil`` is the textbook formula beside it, ``pencil_differs`` the word for why the two differ.
    """

    circuits: tuple[int, ...]
    chosen: Size
    smallest: Size
    reason: str
    fits: bool
    aim_v: float
    worst_drop_v: float
    next_smaller: Size | None
    next_smaller_drop_v: float | None
    pencil: HandFormula
    pencil_differs: str


@dataclass(frozen=True, slots=True)
class CircuitFigures:
    """One circuit: what it takes, its worst drop, its size and its fuse."""

    number: int
    load_current_a: float
    starting_current_a: float
    worst_drop_v: float
    worst_drop_percent: float
    worst_load: str
    size: SizeChoice
    loads: tuple[LoadFigures, ...]
    fuse: FuseFigures | None


@dataclass(frozen=True, slots=True)
class SwitchFigures:
    """One switch: the current through it with everything on, and the rating it needs at least, in amperes."""

    name: str
    circuit: int
    load_a: float
    least_rating_a: float


@dataclass(frozen=True, slots=True)
class SupplyFigures:
    """One section: nominal and lowest voltage and what it carries with everything on."""

    name: str
    nominal_v: float
    lowest_v: float
    current_a: float


@dataclass(frozen=True, slots=True)
class Landing:
    """What lands on one terminal of a box, plug or connector: the wires in number order.

    ``place`` names the screw, way or contact; ``splice`` tells that more wires meet here than it takes.
    """

    part: str
    pin: str
    place: str
    wires: tuple[str, ...]
    splice: bool = False


@dataclass(frozen=True, slots=True)
class WayFigures:
    """One way of the fuse block: its circuit, or None where it is spare."""

    way: int
    circuit: int | None


@dataclass(frozen=True, slots=True)
class PlugContactFigures:
    """One contact of the tow plug in use: function, colour, current with everything on, circuit."""

    number: int
    function: str
    color: str
    current_a: float
    circuit: int | None
    known: str
    plug: str = ""

    @property
    def pin(self) -> str:
        """How a terminal names the contact: see `PlugContact.pin`."""
        return f"{self.plug} {self.number}".strip()


@dataclass(frozen=True, slots=True)
class DayUse:
    """One part's share of a day, in ampere-hours of the battery, low, usual and high."""

    part: str
    current_a: float
    hours: tuple[float, float, float]
    use_ah: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Drain:
    """A part that takes current in amperes with every switch off.

    ``stays`` tells that it still does with the isolating switch off, or with the main fuse out where there is no
    such switch.
    """

    part: str
    circuit: int
    current_a: float
    stays: bool


@dataclass(frozen=True, slots=True)
class KindFigures:
    """What is known of batteries of this kind, from tables.

    ``rest`` holds pairs of percent full and voltage at rest, fullest first; empty where no table is good enough;
    ``unsure_percent`` tells how far a cheap meter misjudges by them how full a battery is.
    ``cold_percent`` is the share of the capacity left at 0 °C; ``freezes`` pairs of percent full and °C;
    ``charge_from_c`` the lowest temperatures for charging that makers give, lowest and highest; ``charger_a`` the
    least and the most current of a fitting charger; ``store_months`` how long it may stand before it wants a charge.
    """

    rest: tuple[tuple[float, float], ...]
    unsure_percent: float | None
    cold_percent: float
    freezes: tuple[tuple[float, float], ...]
    charge_from_c: tuple[float, float] | None
    charger_a: tuple[float, float] | None
    store_months: float | None


@dataclass(frozen=True, slots=True)
class EnergyFigures:
    """The battery: idle draw, weeks until half empty, a day's use, nights as a range, and what charges it.

    Three values stand for low, usual and high. ``idle_a`` is what flows with every switch off and the
    isolating switch on; ``off_a`` what still flows with the isolating switch off; each has its least and its most in
    ``idle_range_a`` and ``off_range_a``, by the range of what is assumed of its parts. ``waiting`` are the parts that
    would take from it and are not there yet: they, and what hangs on them, are not counted.
    """

    capacity_ah: float
    usable_ah: float
    idle_a: float
    off_a: float
    idle_range_a: tuple[float, float]
    off_range_a: tuple[float, float]
    idle_parts: tuple[str, ...]
    off_parts: tuple[str, ...]
    weeks_to_half: tuple[float, float]
    weeks_to_half_off: tuple[float, float]
    days: tuple[DayUse, ...]
    day_ah: tuple[float, float, float]
    nights: tuple[float, float]
    drains: tuple[Drain, ...]
    charging: tuple[ChargingFigures, ...]
    kind: KindFigures
    waiting: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HeadroomFigures:
    """How much more a circuit bears, in watts at the voltage of its supply, rounded down to two figures.

    ``part`` is the load at which the least is left. ``fuse_w`` is by the fuses before it, ``wire_w`` by what its
    wires bear, ``drop_w`` by what may be lost on them, ``switch_w`` by the ratings of the switches in its way that
    the file gives, None where it gives none. ``left_w`` is the least of them and ``limit`` its word: fuse, wire,
    switch, drop. ``fuse``, ``wire`` and ``switch`` (a connector counts as one) name those that leave the least; the
    last is empty where no rating is given. Each circuit is taken alone.
    """

    circuit: int
    part: str
    fuse_w: float
    wire_w: float
    drop_w: float
    switch_w: float | None
    left_w: float
    limit: str
    fuse: str
    wire: str
    switch: str


@dataclass(frozen=True, slots=True)
class CarriedFigures:
    """A part that passes current on, and what flows through all of it with everything on, in amperes."""

    part: str
    current_a: float


@dataclass(frozen=True, slots=True)
class NewFuse:
    """A fuse that a new circuit may have: its rating in amperes and the thinnest wire at hand that it protects."""

    rating_a: float
    size: Size


@dataclass(frozen=True, slots=True)
class WireChange:
    """A wire that was made otherwise than planned: its length in metres, size and colour, and what was planned.

    The ways are the chases that it runs through, in their order; empty where nobody can tell.
    """

    number: str
    length_m: float
    planned_length_m: float
    size: str
    planned_size: str
    color: Color
    planned_color: Color
    way: tuple[str, ...] = ()
    planned_way: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LampChange:
    """What a road lamp takes for what it shows, in amperes, where another one was fitted than planned."""

    lamp: str
    shows: str
    current_a: float
    planned_current_a: float


@dataclass(frozen=True, slots=True)
class KeptSize:
    """A wire in a closed wall whose size, as it was issued, is not the one that would be chosen ``today``."""

    number: str
    size: Size
    today: Size


@dataclass(frozen=True, slots=True)
class CircuitChange:
    """A circuit that changes belong to: what it takes, its worst drop and its fuse, as built and as planned.

    A fuse is None where the circuit has none in the trailer.
    """

    number: int
    current_a: float
    planned_current_a: float
    drop_v: float
    planned_drop_v: float
    fuse_a: float | None
    planned_fuse_a: float | None


@dataclass(frozen=True, slots=True)
class OptionWire:
    """A wire that an option adds: from where to where, its length in metres and its size.

    ``spare`` is the number of the spare wire that stands for it; empty where the wire has still to be laid.
    """

    number: str
    circuit: int
    start: str
    end: str
    role: Role
    length_m: float
    size: Size
    spare: str = ""


@dataclass(frozen=True, slots=True)
class OptionCircuit:
    """A circuit that an option adds, or on which it adds something; ``today`` is None for one that it adds.

    ``left_w`` is what more the circuit bears with the option in it, None where no figure can be worked out.
    """

    made: CircuitFigures
    today: CircuitFigures | None
    way: int | None
    left_w: float | None


@dataclass(frozen=True, slots=True)
class OptionFigures:
    """What may come later, judged as if it were there: all figures of the trailer with it, and what it adds.

    ``trailer`` has the wires that are there in the size they have today. ``gone`` are numbers of today's wires that it
    has no use for, ``short`` spare wires that reach none of its wires, ``elsewhere`` those with another end than
    the wire that they stand for, with that one's number. ``ways_free`` counts the fuse ways that are free
    today, ``ways_needed`` those it takes; ``main`` is the battery's fuse with it, None where there is none.
    """

    name: str
    trailer: Trailer
    figures: Figures
    circuits: tuple[OptionCircuit, ...]
    wires: tuple[OptionWire, ...]
    gone: tuple[str, ...]
    short: tuple[str, ...]
    elsewhere: tuple[tuple[str, str], ...]
    ways_free: int
    ways_needed: int
    main: FuseFigures | None
    today_main: FuseFigures | None


@dataclass(frozen=True, slots=True)
class Figures:
    """All of it; wires and circuits by number."""

    wires: Mapping[str, WireFigures]
    circuits: Mapping[int, CircuitFigures]
    fuses: tuple[FuseFigures, ...]
    switches: tuple[SwitchFigures, ...]
    supplies: tuple[SupplyFigures, ...]
    ways: tuple[WayFigures, ...]
    landings: tuple[Landing, ...]
    plug: tuple[PlugContactFigures, ...]
    energy: EnergyFigures | None
    assumptions: tuple[Assumption, ...]
    headroom: tuple[HeadroomFigures, ...] = ()
    new_fuses: tuple[NewFuse, ...] = ()
    lamps_required: LampsRequired | None = None
    plug_states: tuple[ContactState, ...] = ()
    plug_grounds: tuple[PlugGround, ...] = ()
    plug_feeds: tuple[PlugFeed, ...] = ()
    brakes: BrakeFigures | None = None
    carried: tuple[CarriedFigures, ...] = ()
    runs: Runs = field(default_factory=Runs)
    fills: tuple[StretchFill, ...] = ()
    clearances: Clearances = field(default_factory=Clearances)
    panels: tuple[PanelView, ...] = ()
    hinges: tuple[HingeLoop, ...] = ()
    laid: Laid = field(default_factory=Laid)
    kept_sizes: tuple[KeptSize, ...] = ()
    tubes: tuple[Tube, ...] = ()
    near_walls: tuple[NearWall, ...] = ()
    near_skins: tuple[NearSkin, ...] = ()
    bays: tuple[BayHeld, ...] = ()
    entries: Entries = field(default_factory=Entries)
    box_sides: tuple[BoxSide, ...] = ()
    wire_changes: tuple[WireChange, ...] = ()
    circuit_changes: tuple[CircuitChange, ...] = ()
    lamp_changes: tuple[LampChange, ...] = ()
    options: tuple[OptionFigures, ...] = ()


def every_size(trailer: Trailer, wires: Mapping[str, WireFigures]) -> dict[str, Size]:
    """Return the size of every wire by its number; a spare one has that of the file, else the shelf's smallest."""
    spares = {wire.number: wire.size or trailer.shelf.sizes[0] for wire in trailer.spares}
    return {number: made.size for number, made in wires.items()} | spares
