"""What lands where, terminal by terminal in the order of the box's face, as it is crimped on and ticked off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from builder.electrics.figures import Figures, Landing
from builder.electrics.landings import studs_named
from builder.lists.ends import Fit, crimps
from builder.trailer.box_face import BoxFace, PieceName
from builder.trailer.landing_points import GROUND_SCREWS, SUPPLY_STUDS, StudSize
from builder.trailer.model import BATTERY, FRONT_BOX, GROUND_BAR, SUPPLY_BAR, Trailer
from builder.trailer.parts import Form, Terminal
from builder.trailer.size import Size, by_area

FACE: tuple[PieceName, ...] = ("supply bar", "fuse block", "strip", "ground bar")
"""The pieces of the front box in the order in which they are told where nobody measured it."""


@dataclass(frozen=True, slots=True)
class End:
    """One wire end that lands: its wire and size, what is crimped on it, and where its other end is.

    ``shared`` tells that another wire's terminal is on the same blade.
    """

    wire: str
    size: Size
    fit: Fit
    far: Terminal
    shared: bool = False


@dataclass(frozen=True, slots=True)
class Place:
    """One way, position, screw or stud, free where ``ends`` is empty; the ends stand as they go on.

    On a stud the thickest wire comes first, on a blade the terminal that takes a second one.

    ``place`` is its number, 0 where a terminal has but one. ``stud`` is the size that the file gives. ``spliced``
    tells that more wires meet here than it takes.
    """

    terminal: Terminal
    place: int
    ends: tuple[End, ...]
    stud: StudSize | None = None
    spliced: bool = False


@dataclass(frozen=True, slots=True)
class BoxPiece:
    """A piece of the front box, or a part, with its places in their order.

    ``count`` is how many places the file gives it, None where it does not count them. What lands beyond them has a
    place of its own number, which is not there.
    """

    name: str
    in_box: bool
    places: tuple[Place, ...]
    count: int | None = None

    @property
    def taken(self) -> int:
        """How many places have a wire."""
        return sum(bool(place.ends) for place in self.places)

    @property
    def free(self) -> int | None:
        """How many of the places that are there have none; None where nobody counted them."""
        return None if self.count is None else len(self.free_places)

    @property
    def free_places(self) -> tuple[int, ...]:
        """The numbers of the places that are there and have no wire."""
        return tuple(place.place for place in self.places if not place.ends)

    @property
    def beyond(self) -> tuple[int, ...]:
        """The numbers of the places with a wire that are not there; none where nobody counted them."""
        return tuple(
            place.place for place in self.places if self.count is not None and place.place > self.count
        )


def landing_sheet(trailer: Trailer, figures: Figures) -> tuple[BoxPiece, ...]:
    """Return the pieces of the front box from top to bottom of its face, then battery, bars and connectors."""
    ends = _ends(trailer, figures)
    box = (_box_piece(trailer, figures, name, ends) for name in face_order(trailer.box_face))
    return (*(piece for piece in box if piece.places), *_parts(trailer, figures, ends))


def box_piece(pieces: Sequence[BoxPiece], name: PieceName) -> BoxPiece | None:
    """Return the piece of the front box with this name; None where nothing is known of its places."""
    return next((piece for piece in pieces if piece.in_box and piece.name == name), None)


def face_order(face: BoxFace | None) -> tuple[PieceName, ...]:
    """Return the pieces of the box as one meets them on its face: row by row, each from the left.

    Pieces that lie beside each other are a row: the next one begins above the lower edge of the row's first. What was
    not measured comes last, in the order of `FACE`.
    """
    placed = [
        (piece.top_m, piece.left_m, name, piece.height_m)
        for name, piece in (face.pieces if face else {}).items()
        if piece.top_m is not None and piece.left_m is not None
    ]
    placed.sort()
    rows: list[list[tuple[float, float, PieceName, float]]] = []
    for one in placed:
        if rows and one[0] < rows[-1][0][0] + rows[-1][0][3]:
            rows[-1].append(one)
        else:
            rows.append([one])
    there = [one[2] for row in rows for one in sorted(row, key=lambda item: item[1])]
    return (*there, *(name for name in FACE if name not in there))


def _ends(trailer: Trailer, figures: Figures) -> Mapping[tuple[str, Terminal], End]:
    found = {}
    gets = crimps(trailer, figures)
    for wire in trailer.wires:
        size = figures.wires[wire.number].size
        for here, far in ((wire.start, wire.end), (wire.end, wire.start)):
            made = gets[wire.number, here]
            found[wire.number, here] = End(wire.number, size, made.fit, far, made.shared)
    return found


def _place(trailer: Trailer, at: Landing, number: int, ends: Mapping[tuple[str, Terminal], End]) -> Place:
    terminal = Terminal(at.part, at.pin)
    studs = trailer.studs.get(studs_named(terminal))
    there = [ends[wire, terminal] for wire in at.wires]
    on_stud = there and there[0].fit is Fit.RING
    order = sorted(there, key=lambda end: -by_area(end.size) if on_stud else _onto(end))
    return Place(terminal, number, tuple(order), studs.size if studs else None, at.splice)


def _onto(end: End) -> int:
    """Return what ends on one blade are sorted by: the plain terminal is pushed onto one that takes it."""
    return int(end.fit is not Fit.FOR_TWO)


def _box_piece(
    trailer: Trailer, figures: Figures, name: PieceName, ends: Mapping[tuple[str, Terminal], End]
) -> BoxPiece:
    words = {"supply bar": "supply", "fuse block": "way", "strip": "strip", "ground bar": "screw"}
    landed = {}
    for at in figures.landings:
        kind, _, number = at.place.partition(" ")
        if at.part == FRONT_BOX and kind == words[name]:
            landed[int(number or 0)] = at
    count = _count(trailer, name)
    terminal = Terminal(FRONT_BOX, _PINS.get(name, name))
    return BoxPiece(name, True, tuple(_filled(trailer, terminal, landed, count, ends)), count)


def _filled(
    trailer: Trailer,
    terminal: Terminal,
    landed: Mapping[int, Landing],
    count: int | None,
    ends: Mapping[tuple[str, Terminal], End],
) -> Iterator[Place]:
    """Yield places by their numbers, free ones too; the only one of a terminal, without a number, alone.

    Of those beyond ``count`` only what something landed on is yielded. Where nobody counted them, all up to the last
    one in use are there.
    """
    studs = trailer.studs.get(studs_named(terminal))
    there = count if count is not None else max(landed, default=0)
    numbers = {0} if 0 in landed else {*range(1, there + 1), *landed}
    for n in sorted(numbers):
        if n in landed:
            yield _place(trailer, landed[n], n, ends)
        else:
            free = Terminal(FRONT_BOX, f"way {n}") if terminal.pin == "fuse block" else terminal
            yield Place(free, n, (), studs.size if studs else None)


_PINS = {SUPPLY_STUDS: SUPPLY_BAR.pin, GROUND_SCREWS: GROUND_BAR.pin}


def _count(trailer: Trailer, name: PieceName) -> int | None:
    box = trailer.front_box
    if box is None:
        return None
    studs = trailer.studs.get(SUPPLY_STUDS)
    counts = {
        "supply bar": studs.count if studs else None,
        "fuse block": box.fuse_ways,
        "strip": box.strip,
        "ground bar": box.ground_bar,
    }
    return counts[name]


def _parts(
    trailer: Trailer, figures: Figures, ends: Mapping[tuple[str, Terminal], End]
) -> Iterator[BoxPiece]:
    """Yield the battery, then bars and what else has studs in the file, then connectors, each in the file's order."""
    joins = [p.name for p in trailer.parts.values() if p.kind == "bar" or p.name in trailer.studs]
    plugs = [p.name for p in trailer.parts.values() if p.form is Form.THROUGH and p.name not in joins]
    for name in (BATTERY, *joins, *plugs):
        landed = [at for at in figures.landings if at.part == name]
        if landed:
            yield BoxPiece(name, False, tuple(_numbered(trailer, landed, ends)))


def _numbered(
    trailer: Trailer, landed: Sequence[Landing], ends: Mapping[tuple[str, Terminal], End]
) -> Iterator[Place]:
    """Yield the places of a part: each side of a bar with its studs, free ones too, a connector's ways in order."""
    for pin, same in groupby(sorted(landed, key=lambda at: _pin_order(at.pin)), key=lambda at: at.pin):
        found = {int(at.place.removeprefix(pin).strip() or 0): at for at in same}
        studs = trailer.studs.get(landed[0].part)
        count = studs.count if studs else None
        yield from _filled(trailer, Terminal(landed[0].part, pin), found, count, ends)


def _pin_order(pin: str) -> tuple[int, str]:
    """Return what a terminal of a part is sorted by: its number before its words, so that way 2 is before way 10."""
    digits = "".join(sign for sign in pin if sign.isascii() and sign.isdigit())[:6]
    return int(digits or 0), pin
