"""Which wires a contact of the tow plug goes on by, through which connectors and splices, and to what they lead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.parts import Form, Terminal
from builder.trailer.wires import Wire

ENDS = (Form.LOAD, Form.SECTION)
"""What a wire from the plug is there for: nothing is followed through it."""


@dataclass(frozen=True, slots=True)
class Leg:
    """One wire on a way, and the terminal that it leads to, seen from the plug."""

    wire: str
    to: Terminal


@dataclass(frozen=True, slots=True)
class Way:
    """A way up to where it branches, or to its end; ``onward`` are the ways that go on from there."""

    legs: tuple[Leg, ...]
    onward: tuple[Way, ...] = ()


def plug_ways(trailer: Trailer, pin: str) -> tuple[Way, ...]:
    """Return the ways of the wires that land on a contact, one for each of them, with all that branches from it.

    ``pin`` is how a terminal names the contact: its number, behind the short name of a second plug.
    Feeds are followed towards what they serve, returns back towards what they serve: both are seen from the plug.
    A way ends where wires branch, and at a lamp or any other part that takes the current; where a wire goes on from
    a lamp's terminal, the next way begins there. Nothing lands on the contact: no way.
    """
    at = Terminal(TOW_PLUG, pin)
    found = []
    for wire in trailer.wires:
        if at in (wire.start, wire.end):
            same = [one for one in trailer.wires if (one.circuit, one.role) == (wire.circuit, wire.role)]
            found.append(_Walk(trailer, same).way(wire, at))
    return tuple(found)


class _Walk:
    """The wires of one circuit and one role, by the points that they join."""

    def __init__(self, trailer: Trailer, wires: list[Wire]) -> None:
        self.trailer = trailer
        self.joined = _joined(trailer)
        self.seen: set[str] = set()
        self.at: dict[Terminal, list[Wire]] = {}
        for wire in wires:
            for end in (wire.start, wire.end):
                self.at.setdefault(self._point(end), []).append(wire)

    def way(self, wire: Wire, here: Terminal) -> Way:
        """Return the way that a wire begins at a terminal, with all that branches from it; no wire twice."""
        legs: list[Leg] = []
        while True:
            self.seen.add(wire.number)
            here = wire.end if self._point(wire.start) == self._point(here) else wire.start
            legs.append(Leg(wire.number, here))
            onward = [one for one in self.at[self._point(here)] if one.number not in self.seen]
            if len(onward) != 1 or self._is_end(here):
                break
            wire = onward[0]
        return Way(tuple(legs), tuple(self.way(one, here) for one in onward if one.number not in self.seen))

    def _point(self, terminal: Terminal) -> Terminal:
        return self.joined.get(terminal, terminal)

    def _is_end(self, terminal: Terminal) -> bool:
        part = self.trailer.parts.get(terminal.part)
        return part is not None and part.form in ENDS


def _joined(trailer: Trailer) -> Mapping[Terminal, Terminal]:
    """Return for every terminal that is joined to another inside its part the first of them.

    What takes current is left as it is: its feed does not go on as its return.
    """
    first: dict[Terminal, Terminal] = {}
    for link in trailer.links:
        part = trailer.parts.get(link.a.part)
        if part is None or part.form in ENDS:
            continue
        one, other = first.get(link.a, link.a), first.get(link.b, link.b)
        first |= {at: one for at, to in first.items() if to == other} | {link.a: one, link.b: one}
    return first
