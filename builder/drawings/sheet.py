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
    """What has been drawn so far, and how far down; ``wires`` tells each wire's colours by its number."""

    shapes: list[str]
    wires: Mapping[str, Tag]
    y: float = EDGE

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
            width = text_width(wire, 11, bold=True) + 10 + _WIRE
            if x > first and x + width > end:
                x = first
                self.y += SMALL_ROW
            self.shapes.append(box(x, self.y + 4, width, 20, "p", 3))
            tag = self.wires.get(wire)
            if tag is not None:
                d = f"M{number(x + 8)} {number(self.y + 4.5)}V{number(self.y + 23.5)}"
                self.shapes.append(casing(d) + core(d, tag.base, tag.tracer))
            self.shapes.append(
                f'<text class="wd-nr" x="{number(x + 5 + _WIRE)}" y="{number(self.y + 18)}">{escape(wire)}</text> '
            )
            x += width + 4
        return x

    def framed(self, prefix: str, title: str) -> str:
        """Return all as one line of SVG in a frame; ``prefix`` begins its id, ``title`` is read aloud."""
        height = self.y + EDGE
        frame = box(3, 3, WIDTH - 6, height - 6, "p", 8)
        size = f"0 0 {number(WIDTH)} {number(height)}"
        style = f"width:100%;max-width:{number(WIDTH * 1.25)}px;height:auto"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="wd" role="group"'
            f' viewBox="{size}" aria-labelledby="{prefix}-title" style="{style}">'
            f'<title id="{prefix}-title">{escape(title)}</title>{frame}{"".join(self.shapes)}</svg>'
        )
