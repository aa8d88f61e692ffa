"""One colour is a feed here and a return there.

What: wires of one colour are feeds and returns, in one system and where both land; or the returns of the house
have the colour of a feed of the tow plug, or the other way round; or a green-and-yellow wire carries current.

Why: whoever opens the box in ten years goes by the colours. Batteries are connected the wrong way round because
black was plus to one maker and minus to the next, and a part with the wrong polarity smokes at once.

Limit: common practice: one colour has one meaning within the house, and within the road lamps; where both land in
one place it is a *should fix*. Between the two systems it is worth knowing, since the colours of a tow plug are
not the maker's to choose. Base and tracer count together. Green-and-yellow is for protective conductors alone (IEC
60757:2021 5.1, quoted). What lies behind a switch is a feed, and so are the wires between two-way switches.

Walls open: wire in another colour.

Walls closed: sleeves in another colour over both ends of each of its wires; the file then has the colour of the
sleeves.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {feed: red, return: black}
    parts: {wall switch: {kind: switch}, lamp: {kind: lamp, draws: 3 W}}
    circuits:
      light: {path: [wall switch: 4 ft, lamp: {length: 6 ft, color: black}]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {feed: red, return: black}
    parts: {wall switch: {kind: switch}, lamp: {kind: lamp, draws: 3 W}}
    circuits:
      light: {path: [wall switch: 4 ft, lamp: {length: 6 ft, color: orange}]}
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.electrics.figures import Figures
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import say
from builder.tables.wire_colours import BOTH
from builder.trailer.circuits import CircuitKind
from builder.trailer.color import Color
from builder.trailer.model import FRAME, Trailer
from builder.trailer.origin import NOWHERE, Origin
from builder.trailer.wires import Role, Wire

MEET_SAYS = (
    "{colour} is a feed in “{feed}” (wire {feed_wire}) and a return in “{back}” (wire {back_wire}), and both land in "
    "“{place}”"
)
APART_SAYS = "{colour} is a feed in “{feed}” (wire {feed_wire}) and a return in “{back}” (wire {back_wire})"
ACROSS_SAYS = (
    "{colour} is a feed in “{feed}” (wire {feed_wire}) and a return in “{back}” (wire {back_wire}): the house and "
    "the tow plug differ, and both land in “{place}”"
)
SAFETY_SAYS = "wire {feed_wire} of “{feed}” is green-and-yellow and carries current"
FEED_HELP = "give the feed of “{feed}” another colour: color: {free}"
BACK_HELP = "give the returns of “{back}” another colour: return color: {free}"
SHELF_FEED_HELP = "give all feeds of the house another colour, feed: {free} under wire"
SHELF_BACK_HELP = "give all returns of the house another colour, return: {free} under wire"
ANY_HELP = "give one of the two a colour that no other wire there has, or name each wire at both ends"
FEED_CLOSED_HELP = "put {free} sleeves over both ends of each feed of “{feed}”, and write color: {free}"
BACK_CLOSED_HELP = (
    "put {free} sleeves over both ends of each return of “{back}”, and write return color: {free}"
)
SHELF_FEED_CLOSED_HELP = (
    "put {free} sleeves over both ends of each feed of the house, and write feed: {free} under wire"
)
SHELF_BACK_CLOSED_HELP = (
    "put {free} sleeves over both ends of each return of the house, and write return: {free} under wire"
)
ANY_CLOSED_HELP = "name each of the two at both ends, with sleeves in a colour that no other wire there has"
PRACTICE_BASIS = "one colour, one meaning: common practice"
SAFETY_BASIS = "IEC 60757:2021 5.1: green and yellow together mark a protective conductor"

FEED_COLOURS = ("red", "orange", "brown", "violet", "blue", "yellow", "pink", "grey", "turquoise")
BACK_COLOURS = ("black", "white", "blue", "grey")
_CLOSED = {
    FEED_HELP: FEED_CLOSED_HELP,
    BACK_HELP: BACK_CLOSED_HELP,
    SHELF_FEED_HELP: SHELF_FEED_CLOSED_HELP,
    SHELF_BACK_HELP: SHELF_BACK_CLOSED_HELP,
    ANY_HELP: ANY_CLOSED_HELP,
}
HOUSE, TOW = "house", "tow"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:  # noqa: ARG001 - every rule takes both
    """Yield a remark for every circuit with a colour that means the other pole elsewhere, and for each across."""
    for system in (HOUSE, TOW):
        yield from _within(trailer, system)
    yield from _across(trailer)
    yield from _protective(trailer)


def _wires(trailer: Trailer, system: str, *, back: bool) -> list[Wire]:
    """Return the feeds or the returns of one system; a bond carries no current."""
    tow = {circuit.number for circuit in trailer.circuits if circuit.kind is CircuitKind.TOW}
    roles = (Role.RETURN,) if back else (Role.FEED, Role.TRAVELLER)
    return [w for w in trailer.wires if w.role in roles and (w.circuit in tow) == (system == TOW)]


def _within(trailer: Trailer, system: str) -> Iterator[Remark]:
    feeds, backs = _wires(trailer, system, back=False), _wires(trailer, system, back=True)
    told: set[tuple[Color, int | None]] = set()
    for feed, back, place in _pairs(feeds, backs):
        help_, odd = _odd_one(trailer, system, feed, back)
        if (feed.color, odd) in told:
            continue
        told.add((feed.color, odd))
        origins = {
            SHELF_BACK_HELP: _shelf_origin(trailer),
            BACK_HELP: trailer.circuit(back.circuit).origin,
            FEED_HELP: _origin(trailer, feeds, feed),
        }
        free = _free(trailer, back=help_ != FEED_HELP)
        yield Remark(
            origin=origins[help_],
            message=_say(trailer, MEET_SAYS if place else APART_SAYS, feed, back, place),
            help=_help(trailer, help_, (feed, back), place, free),
            known="practice",
            basis=PRACTICE_BASIS,
            level=Level.SHOULD if place else Level.WORTH,
            circuit=odd,
        )


def _odd_one(trailer: Trailer, system: str, feed: Wire, back: Wire) -> tuple[str, int | None]:
    """Return the way out for two wires of one colour, with the circuit that is to change; None for all of them.

    A return that has the usual colour of feeds is the odd one; else the feed is.
    """
    shelf = trailer.shelf
    if system == TOW or feed.color != shelf.feed:
        return FEED_HELP, feed.circuit
    return (SHELF_BACK_HELP, None) if shelf.feed == shelf.ground else (BACK_HELP, back.circuit)


def _across(trailer: Trailer) -> Iterator[Remark]:
    """Yield a remark for each colour that is one pole in the house and the other at the tow plug, where they meet."""
    told: set[Color] = set()
    for system, other in ((HOUSE, TOW), (TOW, HOUSE)):
        house_back = system == TOW
        feeds, backs = _wires(trailer, system, back=False), _wires(trailer, other, back=True)
        for feed, back, place in _pairs(feeds, backs):
            if not place or feed.color in told:
                continue
            told.add(feed.color)
            house, same = (back, backs) if house_back else (feed, feeds)
            usual = house.color == (trailer.shelf.ground if house_back else trailer.shelf.feed)
            free = _free(trailer, back=house_back)
            of_one, of_all = (BACK_HELP, SHELF_BACK_HELP) if house_back else (FEED_HELP, SHELF_FEED_HELP)
            yield Remark(
                origin=_shelf_origin(trailer) if usual else _origin(trailer, same, house),
                message=_say(trailer, ACROSS_SAYS, feed, back, place),
                help=_help(trailer, of_all if usual else of_one, (feed, back), place, free),
                known="practice",
                basis=PRACTICE_BASIS,
                level=Level.WORTH,
            )


def _origin(trailer: Trailer, same: Sequence[Wire], wire: Wire) -> Origin:
    """Return where a wire has its colour from: its circuit, where all of the same pole have it, else its item."""
    whole = all(other.color == wire.color for other in same if other.circuit == wire.circuit)
    circuit = trailer.circuit(wire.circuit)
    return circuit.origin if whole and circuit.kind is not CircuitKind.TOW else wire.origin


def _pairs(feeds: Sequence[Wire], backs: Sequence[Wire]) -> Iterator[tuple[Wire, Wire, str]]:
    """Yield each feed with the returns of its colour, and the place where both land; those that meet stand first."""
    by_colour: dict[Color, list[Wire]] = {}
    for back in backs:
        by_colour.setdefault(back.color, []).append(back)
    apart: list[tuple[Wire, Wire, str]] = []
    for feed in feeds:
        for back in by_colour.get(feed.color, ()):
            place = _meet(feed, back)
            if place:
                yield feed, back, place
            else:
                apart.append((feed, back, ""))
    yield from apart


def _meet(one: Wire, other: Wire) -> str:
    """Return the part or box in which two wires land; empty where there is none."""
    places = {other.start.part, other.end.part} - {FRAME}
    return next((end.part for end in (one.end, one.start) if end.part in places), "")


def _protective(trailer: Trailer) -> Iterator[Remark]:
    told = set()
    for wire in trailer.wires:
        colours = {wire.color.base, wire.color.tracer}
        marked = BOTH in colours or colours == {"green", "yellow"}
        if not marked or wire.role is Role.BOND or wire.circuit in told:
            continue
        told.add(wire.circuit)
        back = wire.role is Role.RETURN
        free = _free(trailer, back=back)
        help_ = BACK_HELP if back else FEED_HELP
        same = [other for other in trailer.wires if (other.role is Role.RETURN) == back]
        yield Remark(
            origin=_origin(trailer, same, wire),
            message=_say(trailer, SAFETY_SAYS, wire, wire, ""),
            help=_help(trailer, help_, (wire, wire), "", free),
            known="quoted",
            basis=SAFETY_BASIS,
            circuit=wire.circuit,
        )


def _free(trailer: Trailer, *, back: bool) -> str:
    """Return a colour that no wire, and no contact of the tow plug, has for the other pole; empty when none is left."""
    taken = {
        str(w.color) for w in trailer.wires if (w.role is Role.RETURN) != back and w.role is not Role.BOND
    }
    for contact in trailer.tow_plug.pattern.contacts if trailer.tow_plug is not None else ():
        if contact.is_ground != back and contact.base:
            taken.add(str(Color(contact.base, contact.tracer)))
    return next((name for name in (BACK_COLOURS if back else FEED_COLOURS) if name not in taken), "")


def _shelf_origin(trailer: Trailer) -> Origin:
    """Return the heading of the wire at hand; where the file has none, that of the tow plug."""
    if trailer.shelf.origin == NOWHERE and trailer.tow_plug is not None:
        return trailer.tow_plug.origin
    return trailer.shelf.origin


def _help(trailer: Trailer, sentence: str, wires: tuple[Wire, Wire], place: str, free: str) -> WayOut:
    """Return the way out: another colour of wire, or of sleeves over its ends; where none is free, names."""
    open_ = sentence if free else ANY_HELP
    return WayOut(*(_say(trailer, one, *wires, place, free) for one in (open_, _CLOSED[open_])))


def _say(trailer: Trailer, sentence: str, feed: Wire, back: Wire, place: str, free: str = "") -> str:
    return say(
        sentence,
        colour=str(feed.color),
        feed=trailer.circuit(feed.circuit).name,
        feed_wire=feed.number,
        back=trailer.circuit(back.circuit).name,
        back_wire=back.number,
        place=place,
        free=free,
    )
