"""How much room each node and each tag takes, texts wrapped."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from builder.drawings.graph import Graph, Node, Tag
from builder.drawings.symbol import Symbol
from builder.drawings.symbols import symbol
from builder.drawings.text_width import text_width, wrapped

NAME_SIZE, DETAIL_SIZE = 12.0, 11.0
NUMBER_SIZE, TAG_SIZE = 11.0, 10.5
NAME_LINE, DETAIL_LINE, TAG_LINE = 14.5, 13.5, 12.5
NOTE_LINE = 24.5
TAG_LEFT = 10.0
LANE = 18.0
GAP = 10.0
_TALL = 44.0
_UNDER_BAR = -11.0


@dataclass(frozen=True, slots=True)
class Style:
    """How wide a text may be, in CSS pixels, and on how many lines a tag stands."""

    text: float
    tag_lines: int


STYLES = (
    Style(200, 1), Style(160, 1), Style(130, 1), Style(110, 1), Style(96, 1), Style(110, 2), Style(96, 2),
    Style(84, 2), Style(74, 2), Style(66, 2), Style(58, 2),
)  # fmt: skip
"""From roomy to tight: the first that fits is taken."""

FOLDED = Style(84, 2)
"""The style that strips are filled with; each strip then takes the roomiest that fits."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text, its class (``n`` name, ``m`` muted, ``x`` leads on), and its base line from the top."""

    text: str
    name: str
    base: float


@dataclass(frozen=True, slots=True)
class Box:
    """A node's room around its axis, in CSS pixels; ``above`` and ``below`` count from the middle of its symbol."""

    node: Node
    symbol: Symbol
    tops: tuple[str, ...]
    bottoms: tuple[str, ...]
    lines: tuple[Line, ...]
    text_left: float
    text_top: float
    left: float
    right: float
    above: float
    below: float

    def port(self, pin: str, *, top: bool) -> float:
        """Return how far right of the axis a pin is."""
        pins, places = (self.tops, self.symbol.tops) if top else (self.bottoms, self.symbol.bottoms)
        place = pins.index(pin) if pin in pins else 0
        return places[place] if place < len(places) else 0.0


@dataclass(frozen=True, slots=True)
class Flag:
    """The room of a tag: its lines as (number, rest) pieces, its width and height in CSS pixels."""

    lines: tuple[tuple[str, str], ...]
    width: float
    height: float


def box_of(graph: Graph, node: Node, style: Style) -> Box:
    """Return the room of a node with its texts wrapped to the style's width."""
    tops, bottoms = graph.pins(node.key)
    drawn = symbol(node.kind, tops, bottoms)
    named = node.outputs.format(", ".join(pin.removeprefix("out ") for pin in bottoms if pin != "−"))
    lines, height, width = _lines(
        replace(node, details=(*node.details, named)) if named else node, style.text
    )
    over = drawn.right > _TALL
    text_left = 10.0 if over else drawn.right + 5
    half = drawn.height / 2
    text_top = -half - height - 4 if over else -height / 2
    ends = node.bar and not bottoms
    if ends:
        text_top = _UNDER_BAR
    return Box(
        node,
        drawn,
        tops,
        bottoms,
        lines,
        text_left,
        text_top,
        left=math.ceil(drawn.left),
        right=math.ceil(max(drawn.right, text_left + width)),
        above=0.0 if ends else max(half, -text_top),
        below=max(half, text_top + height),
    )


def _lines(node: Node, width: float) -> tuple[tuple[Line, ...], float, float]:
    """Return the lines of a node, their height and the width of the widest."""
    lines: list[Line] = []
    y = widest = 0.0
    texts = [(text, "n") for text in wrapped(node.name, width, NAME_SIZE, bold=True)]
    for detail in node.details:
        texts += [(text, "m") for text in wrapped(detail, width, DETAIL_SIZE)]
    for text, name in texts:
        pitch, size = (NAME_LINE, NAME_SIZE) if name == "n" else (DETAIL_LINE, DETAIL_SIZE)
        lines.append(Line(text, name, y + pitch - 3.5))
        y += pitch
        widest = max(widest, text_width(text, size, bold=name == "n"))
    if node.note:
        lines.append(Line(node.note, "x", y + 12.5))
        y += NOTE_LINE
        widest = max(widest, text_width(node.note, DETAIL_SIZE))
    return tuple(lines), y, widest


def flag_of(tag: Tag, style: Style) -> Flag:
    """Return the room of a tag: number, colour and size on one line, or the size on a second one."""
    if style.tag_lines == 1:
        lines: tuple[tuple[str, str], ...] = ((tag.number, f"{tag.color} {tag.size}".strip()),)
    else:
        lines = ((tag.number, tag.color), ("", tag.size)) if tag.size else ((tag.number, tag.color),)
    widths = [
        text_width(f"{number} ", NUMBER_SIZE, bold=True) * bool(number) + text_width(rest, TAG_SIZE)
        for number, rest in lines
    ]
    return Flag(lines, math.ceil(max(widths) + 12), 4.5 + TAG_LINE * len(lines))
