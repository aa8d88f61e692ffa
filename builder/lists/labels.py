"""What to write on the wires: one label for each end."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.trailer.model import FRONT_BOX, GROUND_BAR, SUPPLY_BAR, TOW_PLUG, Trailer
from builder.trailer.parts import Terminal
from builder.trailer.plug_functions import AMERICAN
from builder.trailer.wires import Role, Wire

SIGN_M = 0.0022
"""What a letter 3 mm high takes of a label's length, with the gap behind it (common practice)."""
_TOLD = ("in", "out", "common", "traveller", "coil", "contact")
"""What the terminals are called of which a part has several for wires of one kind."""
_FIRST = (FRONT_BOX, TOW_PLUG)
_EARTH_BAR = "earth bar"
"""The ground bar where roads and trailers are not American, as on the pages (common practice)."""


@dataclass(frozen=True, slots=True)
class Label:
    """One end of one wire: its number, where the label goes (``here``), the far end, and what the wire is for.

    ``side`` is ``start`` or ``end``; ``circuit`` is 0 and ``circuit_name`` the spare's own name for a spare wire.
    ``bar`` is what the country calls the ground bar.
    """

    wire: str
    side: str
    here: Terminal
    far: Terminal
    role: Role
    circuit: int
    circuit_name: str
    bar: str = GROUND_BAR.pin

    @property
    def texts(self) -> tuple[str, ...]:
        """What to write in one line: all of it, then without what the wire is for, then the number alone.

        An end in the front box is told by its terminal, any other by its part and, where that has several for wires
        of one kind, by the terminal too; where there is no room for that, by the part.
        """
        part, terminal = self._far_end
        far = f"{part} {terminal}" if terminal else part
        sign = {Role.FEED: " +", Role.RETURN: " −"}.get(self.role, "")
        short = (f"{self.wire} → {part}",) if terminal else ()
        return f"{self.wire} {self.circuit_name}{sign} → {far}", f"{self.wire} → {far}", *short, self.wire

    @property
    def _far_end(self) -> tuple[str, str]:
        """The far end in words: its part, and its terminal where the part alone does not tell it."""
        part, pin = self.far.part, self.far.pin
        if self.role is Role.SPARE:
            return part, ""
        if part == FRONT_BOX:
            return self.bar if pin == GROUND_BAR.pin else pin, ""
        if part == TOW_PLUG:
            return part, pin
        if pin.startswith("way "):
            return part, pin.removesuffix(" in").removesuffix(" out")
        return part, pin if pin.partition(" ")[0] in _TOLD else ""

    def text(self, label_m: float | None) -> str:
        """Return the longest of its texts that a label of a length in metres holds, all of it where none is told."""
        fitting = (words for words in self.texts if label_m is None or text_m(words) <= label_m)
        return next(fitting, self.wire)


def text_m(words: str) -> float:
    """Return how much of a label's length some words take, in metres."""
    return len(words) * SIGN_M


def labels(trailer: Trailer) -> tuple[Label, ...]:
    """Return every label by the place of its end: front box, tow plug, then parts by name; spare wires last.

    At one place the terminals stand in their own order, so that labels are handed out along a block or a bar.
    """
    found = [label for wire in trailer.wires for label in _both(trailer, wire)]
    ranks = {way.start.pin: way.way for way in trailer.circuits if way.way is not None}
    order = {wire.number: place for place, wire in enumerate(trailer.wires)}
    found.sort(key=lambda one: (_place(one.here, ranks), order[one.wire], one.side))
    spare = [label for wire in trailer.spares for label in _both(trailer, wire)]
    return (*found, *spare)


def _both(trailer: Trailer, wire: Wire) -> tuple[Label, Label]:
    name = wire.start.pin if wire.role is Role.SPARE else trailer.circuit(wire.circuit).name
    ends = (("start", wire.start, wire.end), ("end", wire.end, wire.start))
    bar = GROUND_BAR.pin if trailer.identity.country in AMERICAN else _EARTH_BAR
    start, end = (
        Label(wire.number, side, here, far, wire.role, wire.circuit, name, bar) for side, here, far in ends
    )
    return start, end


def _place(at: Terminal, ways: Mapping[str, int | None]) -> tuple[int, str, int, int, str]:
    """Return what a terminal is sorted by: the part, in the box the kind of terminal, then its number."""
    part = _FIRST.index(at.part) if at.part in _FIRST else len(_FIRST)
    if at.part != FRONT_BOX:
        digits = "".join(sign for sign in at.pin if sign.isdigit())[:6]
        return part, at.part.casefold(), 0, int(digits) if digits.isascii() and digits else 0, at.pin
    kinds = {SUPPLY_BAR.pin: 0, GROUND_BAR.pin: 3}
    way = ways.get(at.pin) or 0
    return part, "", kinds.get(at.pin, 1 if way else 2), way, at.pin
