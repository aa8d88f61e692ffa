"""What to buy: the shape of the shopping list, and all of it put together."""

from __future__ import annotations

from dataclasses import dataclass

from builder.lists.ways_needed import WayItem
from builder.trailer.color import Color
from builder.trailer.size import Size


@dataclass(frozen=True, slots=True)
class Stretch:
    """What one circuit adds to a kind of wire: its wires, their length and their tails, in metres.

    ``circuit`` is 0 for the spare wires, which belong to none.
    """

    circuit: int
    wires: tuple[str, ...]
    length_m: float
    tails_m: float


@dataclass(frozen=True, slots=True)
class WireItem:
    """One kind of wire of the build, lengths in metres.

    ``other`` is the second colour of pair cable, None for single wire. ``spare_m`` is what is cut beyond lengths and
    tails. Of all this ``in_m`` is in the trailer already, ``stock_m`` is cut from what is in stock, and ``buy_m`` is
    the rest, rounded up to whole feet or metres.
    """

    id: str
    color: Color
    other: Color | None
    size: Size
    wired_m: float
    tails_m: float
    spare_m: float
    in_m: float
    stock_m: float
    buy_m: float
    stretches: tuple[Stretch, ...]

    @property
    def need_m(self) -> float:
        """What the whole build takes, in metres."""
        return self.wired_m + self.tails_m + self.spare_m


@dataclass(frozen=True, slots=True)
class Item:
    """Things that are counted.

    ``section`` and ``kind`` are words for the page; ``size``, ``place``, ``stud``, ``series``, ``color``,
    ``rating_a`` and ``ways`` are empty or None where they say nothing. ``least_rating_a`` is what a switch must bear,
    ``takes_a`` what a part draws by the file, ``gives_a`` or ``gives_w`` what a supply or charger delivers, in amperes
    or watts, ``gives_v`` at which voltage by the file, ``gives_least_a`` what flows out of a converter, a controller or
    the most loaded of the ``ways_used`` outputs of a receiver with everything on. ``for_v`` is the voltage that a
    coil, a receiver or a load without a known draw is for, ``module_w`` what the solar modules of a controller give.
    ``capacity_ah`` is what a breakaway battery holds. ``reflector`` tells that a lamp must have one built in,
    ``waits`` what the file says of a part that is not there yet.
    ``bore_m`` is that of the hole that a grommet goes into, ``loop_m`` how wide the loop of a clip is, ``across_m`` how
    far a strap reaches across wires that lie flat, in metres. ``wide_m``, ``high_m`` and ``thick_m`` are the
    measures of a piece of wood, the first two those of the room inside the front box. The ``size`` of a plate is how
    thick it is. ``conductors`` counts the wires and leads that a splice takes;
    of a connector ``ways_used`` counts the ways in use. ``used`` is what is built in, ``spare`` what is bought beyond,
    ``stock`` what is there already and is used up. ``wires`` and ``names`` tell where the number comes from;
    ``alone`` are those of the wires that a splice joins to a core of a ready-made plug cable.
    """

    id: str
    section: str
    kind: str
    used: int
    spare: int = 0
    stock: int = 0
    size: str = ""
    place: str = ""
    stud: str = ""
    series: str = ""
    color: str = ""
    rating_a: float | None = None
    least_rating_a: float | None = None
    takes_a: float | None = None
    gives_a: float | None = None
    gives_w: float | None = None
    gives_v: float | None = None
    gives_least_a: float | None = None
    for_v: float | None = None
    module_w: float | None = None
    capacity_ah: float | None = None
    ways: int | None = None
    ways_used: int | None = None
    conductors: int | None = None
    bore_m: float | None = None
    loop_m: float | None = None
    across_m: float | None = None
    wide_m: float | None = None
    high_m: float | None = None
    thick_m: float | None = None
    reflector: bool = False
    waits: str = ""
    wires: tuple[str, ...] = ()
    alone: tuple[str, ...] = ()
    names: tuple[str, ...] = ()

    @property
    def need(self) -> int:
        """How many have to be there to do the work."""
        return self.used + self.spare

    @property
    def buy(self) -> int:
        """How many are bought: never fewer than none."""
        return max(0, self.need - self.stock)


@dataclass(frozen=True, slots=True)
class SharedTerminal:
    """A blade that more than one wire lands on: a way of the fuse block or a pin of a switch."""

    part: str
    pin: str
    wires: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Shopping:
    """The whole list; ``open_ends`` are wire ends for which nothing is bought before a look at the part."""

    wire: tuple[WireItem, ...]
    ways: tuple[WayItem, ...]
    items: tuple[Item, ...]
    open_ends: tuple[Item, ...]
    shared: tuple[SharedTerminal, ...]

    def section(self, name: str) -> tuple[Item, ...]:
        """Return the items of one section, in their order."""
        return tuple(item for item in self.items if item.section == name)
