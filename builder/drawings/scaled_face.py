"""The front box as one sees it with its lid open, to scale by what its maker measured.

Fuses show their colours and ratings, ways and screws their numbers; the landings stand beside it by the same
numbers, since a wire's number has no room beside a screw. What does not fit at a size that can be read is left off.
"""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from builder.drawings.box_holes import draw_holes
from builder.drawings.box_pieces import Around, Place, draw_bar, draw_places, draw_ways
from builder.drawings.circuit_wires import wires_shown
from builder.drawings.rect import Rect, Room
from builder.drawings.shapes import box, line, number
from builder.drawings.sheet import WIDTH, whole
from builder.drawings.text_width import text_width, wrapped
from builder.drawings.wording import Words
from builder.electrics.figures import Figures
from builder.quantities.showing import System, show_measure
from builder.trailer.box_face import BoxFace, Piece, PieceName
from builder.trailer.model import FRONT_BOX, GROUND_BAR, SUPPLY_BAR, Trailer

WIDE = 600.0
"""As wide as leaves its smallest letters, 11 px, 9 pt high where it fills a sheet of A4 or letter."""
_EDGE, _LINE = 6.0, 15.0
_TALLEST = {WIDTH: 480.0, WIDE: 600.0}
"""How high the box may be drawn, in CSS pixels: with its scale it must fit a sheet, a small one the narrow form."""
_MARKS = {
    "feet": tuple(inches * 0.0254 for inches in (12, 6, 4, 3, 2, 1, 0.5)),
    "metric": (0.3, 0.2, 0.1, 0.05, 0.02, 0.01),
}
"""Round lengths that a scale may show, in metres."""
_LONGEST_MARK = 0.4
"""The share of the box's width that a scale may take: the same length in both forms."""
_STEP = 4
"""By how much the search for room goes on, in CSS pixels."""


@dataclass(frozen=True, slots=True)
class ScaledFace:
    """The box to scale: ``svg`` is one line.

    ``loose`` are the pieces whose size is known and not their place, ``unmeasured`` those of no known size.
    """

    svg: str
    loose: tuple[PieceName, ...]
    unmeasured: tuple[PieceName, ...]


def scaled_face(trailer: Trailer, figures: Figures, words: Words, width: float = WIDTH) -> ScaledFace | None:
    """Return the front box to scale, drawn no wider than a width in CSS pixels, `WIDTH` or `WIDE`.

    None where the build file has no measures of it.
    """
    face = trailer.box_face
    if face is None or not face.pieces or trailer.front_box is None:
        return None
    px = min((width - 2 * _EDGE) / face.width_m, _TALLEST[width] / face.height_m)
    drawn = _Drawn(trailer, figures, words, px)
    inside = Rect(_EDGE, _EDGE, face.width_m * px, face.height_m * px)
    drawn.shapes.append(box(inside.x, inside.y, inside.width, inside.height, "p", 4))
    rects = drawn.layout(face, inside)
    for name, rect in rects.items():
        top, bottom = inside.bottom + 2, rect.bottom + _LINE
        within = inside if inside.holds(rect) else Rect(0, top, width, bottom - top)
        drawn.piece(name, face.pieces[name], rect, within)
    drawn.holes(inside)
    y = max([inside.bottom, *(rect.bottom + _LINE for rect in rects.values() if not inside.holds(rect))])
    y = drawn.scale(y + _EDGE, face, width)
    svg = whole(
        drawn.shapes, (width, y), "wd-scaled-wide" if width == WIDE else "wd-scaled", words.face_scaled
    )
    loose = tuple(name for name, piece in face.pieces.items() if piece.left_m is None)
    return ScaledFace(svg, loose, tuple(name for name in used_pieces(figures) if name not in face.pieces))


def used_pieces(figures: Figures) -> tuple[PieceName, ...]:
    """Return the pieces of the front box that something lands on, from the supply on."""
    landed = [at for at in figures.landings if at.part == FRONT_BOX]
    there: tuple[tuple[PieceName, bool], ...] = (
        ("supply bar", any(at.pin == SUPPLY_BAR.pin for at in landed)),
        ("fuse block", bool(figures.ways)),
        ("strip", any(at.place.startswith("strip ") for at in landed)),
        ("ground bar", any(at.pin == GROUND_BAR.pin for at in landed)),
    )
    return tuple(name for name, used in there if used)


class _Drawn:
    """A drawing on the way: what is on it, what room is taken, and how many pixels a metre has."""

    def __init__(self, trailer: Trailer, figures: Figures, words: Words, px: float) -> None:
        self.trailer, self.figures, self.words, self.px = trailer, figures, words, px
        self.shapes: list[str] = []
        self.room = Room()
        self.nameless: list[tuple[float, str]] = []
        self.units: System = "metric" if trailer.identity.units == "metric" else "feet"
        self.wires = wires_shown(trailer, figures)

    def layout(self, face: BoxFace, inside: Rect) -> dict[PieceName, Rect]:
        """Return where each piece is drawn, and take that room: first those whose place was measured."""
        rects: dict[PieceName, Rect] = {}
        below = inside.bottom
        for name, piece in sorted(face.pieces.items(), key=lambda one: one[1].left_m is None):
            width, height = piece.width_m * self.px, piece.height_m * self.px
            if piece.left_m is not None and piece.top_m is not None:
                rect = Rect(
                    inside.x + piece.left_m * self.px, inside.y + piece.top_m * self.px, width, height
                )
            else:
                found = self._free(width, height, inside)
                rect = found or Rect(_EDGE, below + 2 * _LINE, width, height)
                below = below if found else rect.bottom + _LINE
            self.room.taken.append(rect)
            rects[name] = rect
        return rects

    def _free(self, width: float, height: float, inside: Rect) -> Rect | None:
        """Return room for a piece inside the box with some about it, or None where there is none."""
        over, beside = _LINE + 2, 30.0
        for down in range(int(inside.height / _STEP) + 1):
            for along in range(int(inside.width / _STEP) + 1):
                x, y = inside.x + 4 + along * _STEP, inside.y + 2 + down * _STEP
                wanted = Rect(x, y, width + beside, height + 2 * over)
                if inside.holds(wanted) and not any(wanted.meets(taken) for taken in self.room.taken):
                    return Rect(x, y + over, width, height)
        return None

    def piece(self, name: PieceName, piece: Piece, rect: Rect, within: Rect) -> None:
        """Draw a piece with what is on it, its name and its numbers beside it where there is room.

        One whose place was not measured has a dashed edge.
        """
        edge = "o" if piece.left_m is None else "p"
        self.shapes.append(box(rect.x, rect.y, rect.width, rect.height, edge, 2))
        if not self._name(self._called(name), rect, within):
            self.nameless.append((rect.y, self._called(name)))
        around = Around(self.room, within, self.wires)
        if name == "supply bar":
            landed = [
                wire
                for at in self.figures.landings
                if at.part == FRONT_BOX and at.pin == SUPPLY_BAR.pin
                for wire in at.wires
            ]
            self.shapes += draw_bar(rect, landed, around)
        elif name == "fuse block":
            self.shapes += draw_ways(piece, rect, self._ways(), around)
        else:
            self.shapes += draw_places(piece, rect, self._places(name), around)

    def holes(self, inside: Rect) -> None:
        """Draw the holes of the box whose place is known, with their names where there is room."""
        for hole in draw_holes(self.trailer.holes, inside, self.px, self.room):
            self.shapes += [hole.svg, hole.named]
            if not hole.named:
                self.nameless.append((hole.rect.y, hole.name))

    def _called(self, name: PieceName) -> str:
        words = self.words
        return {
            "supply bar": words.supply_bar,
            "fuse block": words.face_block,
            "strip": words.face_strip_name,
            "ground bar": words.ground_bar,
        }[name]

    def _name(self, said: str, rect: Rect, within: Rect) -> bool:
        """Write the name of a piece above it, below it or beside it; tell whether there was room for it."""
        width = text_width(said, 12, bold=True)
        middle = rect.y + rect.height / 2 - _LINE / 2
        for x, y in (
            (rect.x, rect.y - _LINE),
            (rect.x, rect.bottom),
            (rect.right - width, rect.y - _LINE),
            (rect.right - width, rect.bottom),
            (rect.right + 4, middle),
            (rect.x - width - 4, middle),
        ):
            if self.room.take([Rect(x, y, width, _LINE)], within):
                self.shapes.append(
                    f'<text class="wd-n" x="{number(x)}" y="{number(y + 11.5)}">{escape(said)}</text> '
                )
                return True
        return False

    def _ways(self) -> list[Place]:
        fuses = {fuse.way: fuse for fuse in self.figures.fuses if fuse.way is not None}
        landed = {at.place: at.wires for at in self.figures.landings if at.part == FRONT_BOX}
        return [
            Place(
                str(way.way),
                self.trailer.circuit(way.circuit).name if way.circuit is not None else self.words.face_spare,
                fuses.get(way.way),
                landed.get(f"way {way.way}", ()),
            )
            for way in self.figures.ways
        ]

    def _places(self, name: PieceName) -> list[Place]:
        """Return the positions of the strip or the screws of the ground bar, free ones too."""
        if self.trailer.front_box is None:
            return []
        strip = name == "strip"
        there = self.trailer.front_box.strip if strip else self.trailer.front_box.ground_bar
        kind = "strip" if strip else "screw"
        landed = {at.place: at.wires for at in self.figures.landings if at.part == FRONT_BOX}
        last = max((int(place.split()[1]) for place in landed if place.startswith(f"{kind} ")), default=0)
        return [
            Place(str(n), "", None, landed.get(f"{kind} {n}", ()))
            for n in range(1, max(there or 0, last) + 1)
        ]

    def scale(self, y: float, face: BoxFace, width: float) -> float:
        """Draw a length to measure by, with what it is and how large the box is inside; return where that ends."""
        marks = _MARKS[self.units]
        mark = next((m for m in marks if m <= _LONGEST_MARK * face.width_m), marks[-1])
        x, end, at = _EDGE + 2, _EDGE + 2 + mark * self.px, y + 8
        self.shapes += [line(x, at, end, at), line(x, at - 5, x, at + 5), line(end, at - 5, end, at + 5)]
        told = [show_measure(metres, self.units) for metres in (mark, face.width_m, face.height_m)]
        said = [self.words.face_scale.format(*told)]
        if self.nameless:
            names = [name for _, name in sorted(self.nameless)]
            said.append(self.words.face_nameless.format(", ".join(names)))
        at += 3
        for text in said:
            for part in wrapped(text, width - 2 * x, 11, most=4):
                at += _LINE
                self.shapes.append(
                    f'<text class="wd-m" x="{number(x)}" y="{number(at)}">{escape(part)}</text> '
                )
        return at + _EDGE
