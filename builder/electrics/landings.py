"""What lands where: every terminal of the front box, the tow plug and the connectors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.electrics.figures import Landing, PlugContactFigures, WayFigures
from builder.electrics.seats import issued_order, seated
from builder.tables.studs import MOST_WIRES
from builder.trailer.landing_points import GROUND_SCREWS, SUPPLY_STUDS
from builder.trailer.model import BATTERY, FRONT_BOX, GROUND_BAR, SUPPLY_BAR, TOW_PLUG, Trailer
from builder.trailer.parts import Form, Terminal

MANY_STUDS = 2
"""From so many studs on each has a number."""


@dataclass(frozen=True, slots=True)
class StudLoad:
    """What lands on the studs of one terminal: the wires of each stud in use, and how many one of them takes.

    ``name`` is that of the entry in the file, ``count`` how many studs there are; ``given`` tells that ``most`` is the
    file's.
    """

    name: str
    terminal: Terminal
    on_each: tuple[tuple[str, ...], ...]
    count: int
    most: int
    given: bool

    @property
    def wires(self) -> tuple[str, ...]:
        """All wires, stud by stud."""
        return tuple(wire for wires in self.on_each for wire in wires)

    @property
    def fullest(self) -> tuple[str, ...]:
        """The wires of the stud that has most of them."""
        return max(self.on_each, key=len, default=())


def landings(trailer: Trailer) -> tuple[Landing, ...]:
    """Return every landing, front box first: supply, ways, strip, ground bar; then plug, then parts in name order.

    On the ground bar each wire has a screw of its own, where the file does not say that one takes more. A strip
    position takes one wire a side, so a contact that feeds several wires takes as many positions, bridged. Where the
    file counts the studs of a supply bar, or of a part that joins wires, they are shared out among these.
    """
    at: dict[Terminal, list[str]] = {}
    for wire in trailer.wires:
        at.setdefault(wire.start, []).append(wire.number)
        at.setdefault(wire.end, []).append(wire.number)
    found: list[Landing] = []
    if SUPPLY_BAR in at:
        found += _on_studs(trailer, SUPPLY_BAR, at[SUPPLY_BAR], SUPPLY_STUDS)
    found += _ways(trailer, at)
    found += _strip(trailer, at)
    found += _ground(trailer, at.get(GROUND_BAR, ()))
    for terminal in sorted(t for t in at if t.part != FRONT_BOX):
        if terminal.part in trailer.studs:
            found += _on_studs(trailer, terminal, at[terminal], terminal.part)
        else:
            found.append(_other(trailer, terminal, at[terminal]))
    return tuple(found)


def most_wires(trailer: Trailer, name: str) -> int:
    """Return how many wires one stud or screw of a thing takes: as the file has it, else a screw one, a stud four.

    Source: common practice, see `MOST_WIRES`.
    """
    told = trailer.studs.get(name)
    if told is not None and told.most is not None:
        return told.most
    return 1 if name == GROUND_SCREWS else int(MOST_WIRES.value)


def studs_named(terminal: Terminal) -> str:
    """Return the name under which the file tells of the studs of a terminal."""
    if terminal.part != FRONT_BOX:
        return terminal.part
    return {SUPPLY_BAR.pin: SUPPLY_STUDS, GROUND_BAR.pin: GROUND_SCREWS}.get(terminal.pin, "")


def stud_loads(trailer: Trailer, found: Sequence[Landing]) -> tuple[StudLoad, ...]:
    """Return what lands on the studs that are judged, terminal by terminal.

    These are the things that the file tells of, and the battery's two posts. Of a ground bar whose screws take one
    wire each its own rule tells.
    """
    loads = []
    for terminal in dict.fromkeys(Terminal(at.part, at.pin) for at in found):
        name = studs_named(terminal)
        most = most_wires(trailer, name)
        told = trailer.studs.get(name)
        if (told is None and name != BATTERY) or (name == GROUND_SCREWS and most == 1):
            continue
        on_each = tuple(at.wires for at in found if (at.part, at.pin) == (terminal.part, terminal.pin))
        count = len(on_each) if name == GROUND_SCREWS else (told.count if told else None) or 1
        loads.append(
            StudLoad(name, terminal, on_each, count, most, told is not None and told.most is not None)
        )
    return tuple(loads)


def _on_studs(trailer: Trailer, terminal: Terminal, numbers: Sequence[str], name: str) -> list[Landing]:
    """Return the landings on the studs of a thing: one for all where it has no more than one."""
    told = trailer.studs.get(name)
    if told is None or told.count is None or told.count < MANY_STUDS:
        return [Landing(terminal.part, terminal.pin, terminal.pin, tuple(numbers))]
    most = max(MANY_STUDS, most_wires(trailer, name))
    return [
        Landing(terminal.part, terminal.pin, f"{terminal.pin} {stud}", wires)
        for stud, wires in seated(trailer, terminal, numbers, told.count, most).items()
    ]


def _ground(trailer: Trailer, numbers: Sequence[str]) -> list[Landing]:
    count = trailer.front_box.ground_bar if trailer.front_box else None
    screws = seated(trailer, GROUND_BAR, numbers, count, most_wires(trailer, GROUND_SCREWS))
    return [Landing(FRONT_BOX, GROUND_BAR.pin, f"screw {screw}", wires) for screw, wires in screws.items()]


def _ways(trailer: Trailer, at: dict[Terminal, list[str]]) -> list[Landing]:
    ways = sorted((c.way, c.start) for c in trailer.circuits if c.way is not None)
    return [Landing(FRONT_BOX, start.pin, f"way {way}", tuple(at.get(start, ()))) for way, start in ways]


def _strip(trailer: Trailer, at: dict[Terminal, list[str]]) -> list[Landing]:
    """Return the landings on the strip: the positions of a contact lie beside each other, so that they are bridged.

    Contacts in use when numbers were issued come first, and of a contact the wires that were issued then: a new
    contact moves no other. A new wire on a contact takes the position behind its others, and moves contacts behind.
    """
    issued = issued_order(trailer)

    def order(number: str) -> int:
        return issued.get(number, len(issued))

    cores = {wire.number for wire in trailer.wires if TOW_PLUG in (wire.start.part, wire.end.part)}
    contacts = [
        terminal for terminal in at if terminal.part == FRONT_BOX and terminal.pin.startswith("strip: ")
    ]
    found = []
    position = 0
    for terminal in sorted(contacts, key=lambda contact: min(map(order, at[contact]))):
        incoming = [number for number in at[terminal] if number in cores]
        outgoing = sorted((number for number in at[terminal] if number not in cores), key=order)
        for place in range(max(1, len(outgoing))):
            position += 1
            wires = (*(incoming if place == 0 else ()), *outgoing[place : place + 1])
            found.append(Landing(FRONT_BOX, terminal.pin, f"strip {position}", wires))
    return found


def _other(trailer: Trailer, terminal: Terminal, numbers: Sequence[str]) -> Landing:
    part = trailer.parts.get(terminal.part)
    spliced = terminal.part == TOW_PLUG and len(numbers) > 1  # a contact takes one end
    if part is not None and len(numbers) > 1:
        spliced = part.form is Form.THROUGH or part.lead_length_m is not None
    return Landing(terminal.part, terminal.pin, terminal.pin, tuple(numbers), splice=spliced)


def strip_positions(found: Sequence[Landing]) -> int:
    """Return how many strip positions the landings take."""
    return sum(landing.part == FRONT_BOX and landing.place.startswith("strip ") for landing in found)


def ground_screws(found: Sequence[Landing]) -> int:
    """Return how many screws of the ground bar the landings take."""
    return sum(landing.part == FRONT_BOX and landing.pin == GROUND_BAR.pin for landing in found)


def supply_wires(found: Sequence[Landing]) -> int:
    """Return how many wire ends land on the supply bar of the front box."""
    return sum(
        len(landing.wires)
        for landing in found
        if (landing.part, landing.pin) == (SUPPLY_BAR.part, SUPPLY_BAR.pin)
    )


def strip_groups(found: Sequence[Landing]) -> tuple[tuple[int, int, str], ...]:
    """Return what of the strip is bridged: first and last position of each group of more than one, and its contact."""
    taken: dict[str, list[int]] = {}
    for landing in found:
        if landing.part == FRONT_BOX and landing.place.startswith("strip "):
            taken.setdefault(landing.pin, []).append(int(landing.place.removeprefix("strip ")))
    return tuple((min(at), max(at), pin.removeprefix("strip: ")) for pin, at in taken.items() if len(at) > 1)


def way_figures(trailer: Trailer) -> tuple[WayFigures, ...]:
    """Return every way of the fuse block in order, spare ones too, and last the ways beyond it that are taken."""
    taken = {circuit.way: circuit.number for circuit in trailer.circuits if circuit.way is not None}
    count = trailer.front_box.fuse_ways if trailer.front_box else 0
    return tuple(WayFigures(way, taken.get(way)) for way in sorted({*range(1, count + 1), *taken}))


def plug_figures(trailer: Trailer, wires_a: Sequence[float]) -> tuple[PlugContactFigures, ...]:
    """Return every contact of the tow plug in contact order, with its current in amperes with everything on."""
    if trailer.tow_plug is None:
        return ()
    found = []
    for contact in trailer.tow_plug.pattern.contacts:
        terminal = Terminal(TOW_PLUG, contact.pin)
        here = [i for i, wire in enumerate(trailer.wires) if terminal in (wire.start, wire.end)]
        circuits = [trailer.wires[i].circuit for i in here]
        found.append(
            PlugContactFigures(
                number=contact.number,
                function=", ".join(contact.functions) if not contact.is_ground else contact.label,
                color=f"{contact.base} with {contact.tracer}" if contact.tracer else contact.base,
                current_a=sum(wires_a[i] for i in here),
                circuit=circuits[0] if circuits else None,
                known=contact.known,
                plug=contact.plug,
            )
        )
    return tuple(found)
