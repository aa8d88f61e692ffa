"""A fuse as it looks from above: its body in the colour of its rating, with the rating on it."""

from __future__ import annotations

from builder.drawings.contrast import contrast_ratio
from builder.drawings.rect import Rect
from builder.drawings.shapes import box, number
from builder.drawings.text_width import text_width
from builder.electrics.figures import FuseFigures
from builder.tables.table import NoRow
from builder.tables.wire_colours import screen_colour

_INK, _PAPER = "#1f242b", "#ffffff"


def fuse_shape(at: Rect, fuse: FuseFigures | None) -> str:
    """Draw a fuse within a rectangle; an empty way as a dashed outline.

    The rating is left off where it does not fit: no letter is smaller than what can be read.
    """
    if fuse is None or fuse.rating_a is None:
        return box(at.x, at.y, at.width, at.height, "o", 3)
    try:
        body = screen_colour(fuse.color) if fuse.color and fuse.color != "clear" else _PAPER
    except NoRow:
        body = _PAPER
    ink = max((_INK, _PAPER), key=lambda tone: contrast_ratio(body, tone))
    shape = (
        f'<rect x="{number(at.x)}" y="{number(at.y)}" width="{number(at.width)}" height="{number(at.height)}"'
        f' rx="3" fill="{body}" stroke="{_INK}" stroke-width="1.4"/>'
    )
    said = f"{fuse.rating_a:g} A"
    if at.height < 14 or at.width < text_width(said, 11, bold=True) + 2:
        return shape
    x, y = at.x + at.width / 2, at.y + at.height / 2 + 5
    return (
        f'{shape}<text x="{number(x)}" y="{number(y)}" text-anchor="middle" class="wd-nr" style="fill:{ink}">'
        f"{said}</text> "
    )
