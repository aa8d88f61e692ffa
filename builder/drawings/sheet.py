"""A face drawn row by row: a sheet of phone width with headings, texts, and wires' numbers on plates."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape

from builder.drawings.graph import Tag
from builder.drawings.shapes import box, casing, core, number
from builder.drawings.text_width import cut, text_width, visible

WIDTH, EDGE = 340.0, 12.0
ROW, SMALL_ROW = 30.0, 27.0
_WIRE = 12.0
"""How much of a plate its length of wire takes."""


@dataclass(slots=True)
class Sheet:
    """What has been drawn so far, and how far down; ``wires`` tells each wire's colours by its number.

    ``width`` is that of the whole sheet in CSS pixels.
    """

    shapes: list[str]
    wires: Mapping[str, Tag]
    y: float = EDGE
    width: float = WIDTH

    def text(self, x: float, text: str, name: str = "m", *, room: float = 0.0) -> None:
        """Write a text on the row's middle line, cut where it is longer than its room.

        A blank follows it, so that two texts beside each other stay two words to who hears or copies them.
        """
        said = visible(text)
        shown = cut(said, room, 12, bold=name == "n") if room else said
        self.shapes.append(
            f'<text class="wd-{name}" x="{number(x)}" y="{number(self.y + 19)}">{escape(shown)}</text> '
        )

    def heading(self, text: str) -> None:
        """Begin a block."""
        self.y += 8
        self.text(EDGE, text, "n")
        self.y += 26

    def plates(self, x: float, wires: Sequence[str], end: float) -> float:
        """Draw the numbers of wires on plates beside each other, each with a length of its wire.

        A further row begins where one is full. Returns where the last plate ends.
        """
        first = x
        for wire in wires:
            width = plate_width(wire)
            if x > first and x + width > end:
                x = first
                self.y += SMALL_ROW
            self.shapes.append(plate(x, self.y + 4, wire, self.wires))
            x += width + 4
        return x

    def framed(self, prefix: str, title: str) -> str:
        """Return all as one line of SVG in a frame; ``prefix`` begins its id, ``title`` is read aloud."""
        height = self.y + EDGE
        frame = box(3, 3, self.width - 6, height - 6, "p", 8)
        return whole([frame, *self.shapes], (self.width, height), prefix, title)


def plate_width(wire: str) -> float:
    """Return how wide the plate of a wire's number is, in CSS pixels."""
    return text_width(wire, 11, bold=True) + 10 + _WIRE


def plate(x: float, y: float, wire: str, wires: Mapping[str, Tag]) -> str:
    """Draw the number of a wire on a plate, 20 px high, with a length of the wire; x and y are its upper left."""
    drawn = box(x, y, plate_width(wire), 20, "p", 3)
    tag = wires.get(wire)
    if tag is not None:
        d = f"M{number(x + 8)} {number(y + 0.5)}V{number(y + 19.5)}"
        drawn += casing(d) + core(d, tag.base, tag.tracer)
    said = f'<text class="wd-nr" x="{number(x + 5 + _WIRE)}" y="{number(y + 14)}">{escape(wire)}</text> '
    return drawn + said


def whole(shapes: Sequence[str], size: tuple[float, float], prefix: str, title: str) -> str:
    """Return shapes as one line of SVG of a width and height; ``prefix`` begins its id, ``title`` is read aloud."""
    width, height = size
    style = f"width:100%;max-width:{number(width * 1.25)}px;height:auto"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="wd" role="group"'
        f' viewBox="0 0 {number(width)} {number(height)}" aria-labelledby="{prefix}-title" style="{style}">'
        f'<title id="{prefix}-title">{escape(title)}</title>{"".join(shapes)}</svg>'
    )
