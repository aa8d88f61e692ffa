"""The holes in the walls of the front box, on its face to scale: where their middles were measured."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

from builder.drawings.rect import Rect, Room
from builder.drawings.shapes import number
from builder.drawings.text_width import text_width, visible
from builder.trailer.landing_points import EntryHole

_WALL, _LINE, _GAP = 5.0, 15.0, 4.0
"""How thick a wall is drawn where a hole is in it, how high a name is, and how far it stands from its hole."""


@dataclass(frozen=True, slots=True)
class DrawnHole:
    """A hole on the face: its mark, and its name where there is room for it."""

    name: str
    rect: Rect
    svg: str
    named: str


def draw_holes(holes: Sequence[EntryHole], inside: Rect, px: float, room: Room) -> Iterator[DrawnHole]:
    """Yield the holes whose place is known, ``px`` pixels a metre: in a side wall a gap, in the back wall a ring."""
    for hole in holes:
        rect = _rect(hole, inside, px)
        if rect is None:
            continue
        said = visible(hole.name)
        spot = next(
            (one for one in _spots(hole, rect, text_width(said, 11)) if room.take([one], inside)), None
        )
        at = f'x="{number(spot.x)}" y="{number(spot.y + 11)}"' if spot else ""
        named = f'<text class="wd-m" {at}>{escape(said)}</text> ' if spot else ""
        yield DrawnHole(said, rect, _mark(hole, rect), named)


def _rect(hole: EntryHole, inside: Rect, px: float) -> Rect | None:
    """Return where a hole is drawn; None where its wall or its place in it is not known."""
    wide, x = hole.bore_m * px, inside.x + (hole.left_m or 0.0) * px
    y = inside.y + (hole.top_m or 0.0) * px
    if hole.wall == "back wall" and hole.left_m is not None and hole.top_m is not None:
        return Rect(x - wide / 2, y - wide / 2, wide, wide)
    if hole.wall in ("left wall", "right wall") and hole.top_m is not None:
        wall = inside.x if hole.wall == "left wall" else inside.right
        return Rect(wall - _WALL / 2, y - wide / 2, _WALL, wide)
    if hole.wall in ("upper wall", "lower wall") and hole.left_m is not None:
        wall = inside.y if hole.wall == "upper wall" else inside.bottom
        return Rect(x - wide / 2, wall - _WALL / 2, wide, _WALL)
    return None


def _mark(hole: EntryHole, rect: Rect) -> str:
    told = f'class="wd-f" data-hole="{escape(hole.name)}"'
    if hole.wall == "back wall":
        x, y, r = (
            number(each) for each in (rect.x + rect.width / 2, rect.y + rect.height / 2, rect.width / 2)
        )
        return f'<circle {told} cx="{x}" cy="{y}" r="{r}"/>'
    x, y, width, height = (number(each) for each in (rect.x, rect.y, rect.width, rect.height))
    return f'<rect {told} x="{x}" y="{y}" width="{width}" height="{height}"/>'


def _spots(hole: EntryHole, rect: Rect, width: float) -> Iterator[Rect]:
    """Yield where the name of a hole may stand, the likeliest first: inside the box beside it, then further in."""
    middle_x, middle_y = rect.x + rect.width / 2, rect.y + rect.height / 2
    for step in range(4):
        off = _GAP + step * _LINE
        if hole.wall == "left wall":
            yield Rect(rect.right + off, middle_y - _LINE / 2, width, _LINE)
        elif hole.wall == "right wall":
            yield Rect(rect.x - off - width, middle_y - _LINE / 2, width, _LINE)
        elif hole.wall == "upper wall":
            yield Rect(middle_x - width / 2, rect.bottom + off, width, _LINE)
        elif hole.wall == "lower wall":
            yield Rect(middle_x - width / 2, rect.y - off - _LINE, width, _LINE)
        else:
            yield Rect(rect.right + off, middle_y - _LINE / 2, width, _LINE)
            yield Rect(rect.x - off - width, middle_y - _LINE / 2, width, _LINE)
