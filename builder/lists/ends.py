"""Every end of every wire: where it lands, and what is crimped on it there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from builder.electrics.figures import Figures
from builder.electrics.landings import studs_named
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import BATTERY, FRAME, FRONT_BOX, GROUND_BAR, SUPPLY_BAR, TOW_PLUG, Trailer
from builder.trailer.parts import CONTACTS, RELAY, Form, Part, Terminal
from builder.trailer.size import Size, by_area
from builder.trailer.wires import Wire


class Fit(StrEnum):
    """What an end of a wire gets where it lands. Common practice; the build file names no terminals."""

    RING = "ring"
    """A ring terminal: under a screw or on a stud."""
    PUSH_ON = "push-on"
    """A push-on blade terminal: fuse blocks, switches, relays."""
    FOR_TWO = "push-on for two"
    """A push-on blade terminal that takes a second one: of several wires on one blade all but one have it."""
    STRIP = "strip"
    """A fork or a ferrule, as the strip takes."""
    PLUG = "plug"
    """Nothing to buy: it lands in the tow plug's own contact."""
    CONTACT = "contact"
    """A contact of a connector."""
    SPLICE = "splice"
    """A splice: to other wires, or to a part's own leads."""
    OWN = "own"
    """As the part takes, which the build file does not tell."""


PUSHED_ON = (*CONTACTS, RELAY)
"""Parts that mostly have blades. Common practice."""

_BOX_PLACES = {GROUND_BAR.pin: "ground bar", SUPPLY_BAR.pin: "supply bar"}
_PLACES = {BATTERY: "battery post", FRAME: "frame bolt"}


@dataclass(frozen=True, slots=True)
class WireEnd:
    """One end of a wire: ``side`` is ``start`` or ``end``; it lands ``here``, its other end ``far``."""

    wire: Wire
    side: str
    here: Terminal
    far: Terminal
    size: Size


@dataclass(frozen=True, slots=True)
class Fitting:
    """What an end gets; ``place`` is a word for the screw, stud or blade where more than one kind is usual.

    ``stud`` is its size where the file gives it. ``shared`` tells that another wire's terminal is on the same blade.
    """

    fit: Fit
    place: str = ""
    stud: str = ""
    shared: bool = False


def wire_ends(trailer: Trailer, figures: Figures) -> Iterator[WireEnd]:
    """Yield both ends of every wire, the spare ones left out: those land nowhere."""
    for wire in trailer.wires:
        size = figures.wires[wire.number].size
        yield WireEnd(wire, "start", wire.start, wire.end, size)
        yield WireEnd(wire, "end", wire.end, wire.start, size)


def ends_at(trailer: Trailer, figures: Figures) -> Mapping[Terminal, tuple[WireEnd, ...]]:
    """Return the wire ends at each terminal, terminals in the order in which the wires come to them."""
    found: dict[Terminal, list[WireEnd]] = {}
    for end in wire_ends(trailer, figures):
        found.setdefault(end.here, []).append(end)
    return {terminal: tuple(ends) for terminal, ends in found.items()}


def fitting(trailer: Trailer, terminal: Terminal) -> Fitting:
    """Return what an end gets at a terminal: a ring where the file tells of studs, else by common practice."""
    usual = _usual(trailer, terminal)
    studs = trailer.studs.get(studs_named(terminal))
    if studs is None or usual.fit in (Fit.SPLICE, Fit.CONTACT, Fit.PLUG):
        return usual
    place = usual.place if usual.fit is Fit.RING else "stud"
    return Fitting(Fit.RING, place, str(studs.size) if studs.size else "")


def crimps(trailer: Trailer, figures: Figures) -> Mapping[tuple[str, Terminal], Fitting]:
    """Return what each end of each wire gets, by the wire's number and the terminal.

    Of several wires on one blade the thickest has a plain terminal, the others one that takes a second one. Where
    several meet at a contact of a connector, which takes one end, each gets the splice that joins them with a short
    piece to the contact (common practice).
    """
    found = {}
    for terminal, ends in ends_at(trailer, figures).items():
        fit = fitting(trailer, terminal)
        if fit.fit is Fit.CONTACT and len(ends) > 1:
            fit = replace(fit, fit=Fit.SPLICE)
        for place, end in enumerate(sorted(ends, key=lambda end: -by_area(end.size))):
            if fit.fit is Fit.PUSH_ON and len(ends) > 1:
                found[end.wire.number, terminal] = replace(
                    fit, fit=Fit.FOR_TWO if place else fit.fit, shared=True
                )
            else:
                found[end.wire.number, terminal] = fit
    return found


def _usual(trailer: Trailer, terminal: Terminal) -> Fitting:
    part = trailer.parts.get(terminal.part)
    if terminal.part == FRONT_BOX:
        return _in_the_box(terminal.pin)
    if terminal.part == TOW_PLUG:
        return Fitting(Fit.PLUG)
    if part is None:
        return Fitting(Fit.RING, _PLACES.get(terminal.part, "frame bolt"))
    return _on_a_part(part)


def _on_a_part(part: Part) -> Fitting:
    if part.form is Form.THROUGH:
        return Fitting(Fit.CONTACT)
    if part.kind == "splice" or part.lead_length_m is not None:
        return Fitting(Fit.SPLICE)
    if part.kind in ("bar", "isolating switch"):
        return Fitting(Fit.RING, part.kind)
    return Fitting(Fit.PUSH_ON, "switch or relay") if part.kind in PUSHED_ON else Fitting(Fit.OWN)


def _in_the_box(pin: str) -> Fitting:
    if pin.startswith("way "):
        return Fitting(Fit.PUSH_ON, "fuse block")
    if pin.startswith("strip: "):
        return Fitting(Fit.STRIP)
    return Fitting(Fit.RING, _BOX_PLACES.get(pin, "supply bar"))


def thickest(ends: tuple[WireEnd, ...]) -> Size:
    """Return the size of the thickest of some wire ends."""
    return max((end.size for end in ends), key=by_area)


def is_core(wire: Wire, trailer: Trailer) -> bool:
    """Tell whether a wire is a core of the plug's cable: what road lamps have between the plug and the front box."""
    ends = {wire.start.part, wire.end.part}
    return ends == {TOW_PLUG, FRONT_BOX} and trailer.circuit(wire.circuit).kind is CircuitKind.TOW
