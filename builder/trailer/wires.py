"""Wires, the loads they serve and the links inside parts."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.trailer.color import Color
from builder.trailer.origin import Origin
from builder.trailer.parts import Draw, Terminal
from builder.trailer.size import Size


class Role(StrEnum):
    """What a conductor is there for."""

    FEED = "feed"
    RETURN = "return"
    TRAVELLER = "traveller"
    BOND = "bond"
    SPARE = "spare"


@dataclass(frozen=True, slots=True)
class Leg:
    """A piece of a wire's way from one part to the next, away from the supply; ``past`` names chases and places."""

    start: str
    end: str
    past: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Wire:
    """One conductor from terminal to terminal.

    ``number`` is the circuit's number and a letter (``4A``). A feed starts at its supply and ends at the
    part it serves; a return starts at the part and ends towards the supply. ``length_m`` counts this one
    conductor, in metres; ``length_source`` says whether it was written, added up from written lengths, worked out
    from the way it takes, or assumed. ``size`` is the size that the file gives, None where it is to be chosen.
    ``through`` holds the words of ``through:`` as they were written. ``legs`` leads along the parts that it passes,
    away from the supply. ``draft`` is False once the number was issued to this wire for ever; ``issued_size`` is the
    size that it had then, None where that was not kept.
    ``where`` is what a spare wire's maker says of where its ends lie.
    """

    number: str
    circuit: int
    role: Role
    start: Terminal
    end: Terminal
    length_m: float
    length_source: str
    color: Color
    origin: Origin
    size: Size | None = None
    through: tuple[str, ...] = ()
    legs: tuple[Leg, ...] = ()
    draft: bool = True
    issued_size: Size | None = None
    where: str = ""


BREAKAWAY = "breakaway"
"""``what`` of a brake magnet's second load: fed by the breakaway's supply, when the plug is out."""
CHARGED = "charged from "
"""Begins ``what`` of a load that is a battery being charged; the section that charges it follows."""


@dataclass(frozen=True, slots=True)
class Load:
    """Something that draws current between two terminals, from one supply.

    ``what`` tells the loads of one part apart: empty for the part itself, else ``coil``, ``own draw``,
    ``input``, `BREAKAWAY`, a road-lamp function, or `CHARGED` with the section that charges a battery. ``section``
    names the electrical section it is on. ``draw`` is None for the input of a converter, whose current follows from
    what its output carries.
    """

    part: str
    what: str
    circuit: int
    plus: Terminal
    minus: Terminal
    section: str
    draw: Draw | None
    origin: Origin

    @property
    def charged_from(self) -> str:
        """The section that charges this load, which is then a battery; empty for all that takes."""
        return self.what.removeprefix(CHARGED) if self.what.startswith(CHARGED) else ""


@dataclass(frozen=True, slots=True)
class Link:
    """Two terminals of one part that are joined inside it when everything is on."""

    a: Terminal
    b: Terminal


@dataclass(frozen=True, slots=True)
class Section:
    """A stretch of the system with one voltage: it begins at the two poles of a source.

    ``volts`` is its nominal voltage. ``fed_by`` names the converter or charger whose output it is; empty
    for a battery, a plug contact, a solar module or a converter from shore power.
    """

    name: str
    plus: Terminal
    minus: Terminal
    volts: float
    fed_by: str = ""
