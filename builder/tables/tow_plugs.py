"""Tow plugs: what each contact of a pattern is for, and the colour, size, return and fuse that are usual."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import Literal

from builder.tables.table import Known, NoRow, Row, load_table

Side = Literal["left", "right"]

FUNCTIONS = (
    "tail", "marker", "plate", "left tail", "right tail", "left stop", "left turn", "right stop",
    "right turn", "stop", "reverse", "fog", "brake", "battery", "switched supply", "ground", "reserved",
)  # fmt: skip
"""Every word that a contact's functions are made of."""

PRACTICE = "common practice"
"""What stands in place of a standard where a plug has none."""

_WITH_TAIL = ("marker", "plate", "clearance", "identification", "front position")
_WITHOUT_SIDE = ("tail", *_WITH_TAIL)


@dataclass(frozen=True, slots=True)
class PlugContact:
    """One contact of a tow plug.

    ``label`` is the mark or the short name of the trade. ``functions`` are words of `FUNCTIONS`; a
    combined contact has several. ``base`` and ``tracer`` are colour words of the plug's own standard,
    ``other_base`` the colour of another scheme of the trade; all are empty where there is none. ``size``
    is a gauge or an area as ``size_unit`` says. ``return_contact`` is the number of the ground contact
    that serves it. ``car_fuse_a`` is the usual range of the fuse in the car, in ampere. The ``_known``
    marks say how each is known and are None where there is nothing to know; ``known`` is for the
    functions and the return. ``plug`` is the short name of a second plug that it is on, and empty on the first.
    ``first`` is that of the first plug where a second stands beside it, and else empty.
    """

    number: int
    label: str
    functions: tuple[str, ...]
    base: str
    tracer: str
    other_base: str
    size_unit: Literal["AWG", "mm2"] | None
    size: str
    return_contact: int | None
    car_fuse_a: tuple[float, float] | None
    known: Known
    colour_known: Known | None
    other_known: Known | None
    size_known: Known | None
    fuse_known: Known | None
    note: str
    plug: str = ""
    first: str = ""

    @property
    def pin(self) -> str:
        """How a terminal names it: its number, behind the short name of a second plug, as in ``12S 4``."""
        return f"{self.plug} {self.number}".strip()

    @property
    def said(self) -> str:
        """How a reader is told of it: of two plugs each contact behind the short name of its own, as in ``12N 4``."""
        return f"{self.plug or self.first} {self.number}".strip()

    @property
    def is_ground(self) -> bool:
        """Whether the contact is a return."""
        return "ground" in self.functions


@dataclass(frozen=True, slots=True)
class PlugFace:
    """Where the contacts of a plug stand, on the trailer's half seen from the back, where the wires go in.

    ``contacts`` are numbers along a ``row``, or round a ``ring`` clockwise from the top with ``centre`` inside it.
    """

    shape: Literal["row", "ring"]
    contacts: tuple[int, ...]
    centre: int | None
    source: str
    known: Known


@dataclass(frozen=True, slots=True)
class PlugPattern:
    """A tow plug: its contacts in contact order, the standard behind it and where it is used.

    ``countries`` are two-letter codes of ISO 3166 (``EU`` for the European Union). ``face`` is None where no
    source tells where the contacts stand, ``unmarked`` tells that no numbers may be moulded on it (common practice).
    ``beside`` names the plug that one stands beside as a second; it is empty for a plug that feeds a trailer by itself.
    ``second`` is the plug beside this one, whose contacts then follow this one's.
    """

    name: str
    standard: str
    countries: tuple[str, ...]
    contacts: tuple[PlugContact, ...]
    source: str
    known: Known
    face: PlugFace | None = None
    beside: str = ""
    unmarked: bool = False
    second: PlugPattern | None = None

    @property
    def first_mark(self) -> str:
        """The short name of the plug that a second one stands beside; empty where there is no second."""
        return self.second.beside.rpartition(" ")[2] if self.second else ""

    @property
    def mark(self) -> str:
        """The short name that tells its contacts from those of the plug it stands beside, such as ``12S``."""
        return self.name.rpartition(" ")[2]

    def contact(self, at: int | str) -> PlugContact:
        """Return the contact of a number on the first plug, or of a pin; raises `NoRow` where there is none."""
        for contact in self.contacts:
            if contact.pin == str(at):
                return contact
        raise NoRow(f"the {self.name} plug has no contact {at}")

    def ground_of(self, contact: PlugContact) -> PlugContact:
        """Return the ground contact that serves a contact: its own, else the first there is.

        Args:
            contact: one of this plug, or of the one beside it.

        """
        grounds = [one for one in self.contacts if one.is_ground]
        own = [one for one in grounds if (one.plug, one.number) == (contact.plug, contact.return_contact)]
        return (own or grounds)[0]

    def several_grounds(self, contact: PlugContact) -> bool:
        """Tell whether the plug that a contact is on has more grounds than one."""
        return sum(one.is_ground for one in self.contacts if one.plug == contact.plug) > 1

    @property
    def has_combined_signals(self) -> bool:
        """Whether stop and turn of a side share one contact (SAE J1239, SAE J2863)."""
        return any({"left stop", "left turn"} <= set(contact.functions) for contact in self.contacts)

    def contact_for(self, function: str, side: Side | None = None) -> PlugContact | None:
        """Return the contact that feeds a lamp or part of this function, or None where there is none.

        ``function`` is what the part shows or is: tail, marker, plate, clearance, identification, front
        position, stop, turn, reverse, fog, brake, battery, switched supply or ground (the first one). What burns
        with the tail lamps and has no contact of its own rides with the tail contact of its side; where tail is
        split and no side is given it is the left one. A stop or turn lamp without a side has no contact where the
        plug knows them by side only, for that contact would flash with one turn.
        """
        for contact in self.contacts:
            if function in contact.functions and not any("tail" in word for word in contact.functions):
                return contact
        wanted = "tail" if function in _WITH_TAIL else function
        sides: tuple[str, ...] = (side,) if side else ()
        if side is None and wanted in _WITHOUT_SIDE:
            sides = ("left",)
        for word in (wanted, *(f"{side_word} {wanted}" for side_word in sides)):
            for contact in self.contacts:
                if word in contact.functions:
                    return contact
        return None


@cache
def plug_patterns() -> tuple[str, ...]:
    """Return the names of the tow plugs that feed a trailer by themselves, as the trade says them."""
    return tuple(row.cells["pattern"] for row in load_table("plug_patterns").rows if not row.cells["beside"])


@cache
def second_patterns() -> tuple[str, ...]:
    """Return the names of the plugs that stand beside another one as a second."""
    return tuple(row.cells["pattern"] for row in load_table("plug_patterns").rows if row.cells["beside"])


def beside(first: PlugPattern, second: PlugPattern) -> PlugPattern:
    """Return a plug with a second one beside it: the contacts of both, those of the second by its short name.

    Raises ValueError where the second does not stand beside the first.
    """
    if second.beside != first.name:
        raise ValueError(f"a {second.name} plug does not stand beside a {first.name} plug")
    own = tuple(replace(contact, first=first.mark) for contact in first.contacts)
    marked = tuple(replace(contact, plug=second.mark) for contact in second.contacts)
    return replace(
        first,
        name=f"{first.name} and {second.mark}",
        standard=f"{first.standard} and {second.standard}",
        contacts=(*own, *marked),
        face=None,
        second=second,
    )


@cache
def plug_pattern(name: str) -> PlugPattern:
    """Return the tow plug of this name.

    Raises `NoRow` for a name that is in neither `plug_patterns` nor `second_patterns`. Source: in the row, as
    marked there; usual sizes and fuses where marked are common practice.
    """
    row = load_table("plug_patterns").find(f"a plug called {name}", pattern=name)
    contacts = (contact for contact in load_table("plug_contacts").rows if contact.cells["pattern"] == name)
    return PlugPattern(
        name=name,
        standard=row.cells["standard"],
        countries=tuple(row.cells["countries"].split()),
        contacts=tuple(_contact(contact) for contact in contacts),
        source=row.source,
        known=row.known,
        face=_face(name),
        beside=row.cells["beside"],
        unmarked=row.cells["numbers"] == "none",
    )


def _face(name: str) -> PlugFace | None:
    """Return where a plug's contacts stand, or None. Source: in the row of ``plug_faces``, as marked there."""
    row = next((row for row in load_table("plug_faces").rows if row.cells["pattern"] == name), None)
    if row is None:
        return None
    cells = row.cells
    return PlugFace(
        shape="row" if cells["shape"] == "row" else "ring",
        contacts=tuple(int(number) for number in cells["contacts"].split()),
        centre=int(cells["centre"]) if cells["centre"] else None,
        source=row.source,
        known=row.known,
    )


def _contact(row: Row) -> PlugContact:
    cells = row.cells
    return PlugContact(
        number=int(cells["contact"]),
        label=cells["label"],
        functions=tuple(cells["functions"].split("|")),
        base=cells["base"],
        tracer=cells["tracer"],
        other_base=cells["other_base"],
        size_unit=_size_unit(cells["size_unit"]),
        size=cells["size"],
        return_contact=int(cells["return_contact"]) if cells["return_contact"] else None,
        car_fuse_a=_fuse_range(cells["car_fuse_low_a"], cells["car_fuse_high_a"]),
        known=row.known,
        colour_known=_known(cells["colour_known"]),
        other_known=_known(cells["other_known"]),
        size_known=_known(cells["size_known"]),
        fuse_known=_known(cells["fuse_known"]),
        note=cells["note"],
    )


def _size_unit(text: str) -> Literal["AWG", "mm2"] | None:
    match text:
        case "AWG" | "mm2":
            return text
        case "":
            return None
    raise ValueError(f"plug_contacts.csv: “{text}” is no unit of size")


def _fuse_range(low: str, high: str) -> tuple[float, float] | None:
    return (float(low), float(high)) if low and high else None


def _known(text: str) -> Known | None:
    match text:
        case "read" | "quoted" | "memory" | "practice":
            return text
        case "":
            return None
    raise ValueError(f"plug_contacts.csv: “{text}” does not say how it is known")
