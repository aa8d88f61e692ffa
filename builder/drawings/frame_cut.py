"""The body cut at a frame, to scale: its outline there, and every hole that a chase has in the frame."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from builder.drawings.plan_key import scale_bar
from builder.drawings.plan_labels import Labels
from builder.drawings.rect import Rect
from builder.drawings.shapes import box, circle, line, number
from builder.drawings.sheet import EDGE, WIDTH, whole
from builder.drawings.text_width import wrapped
from builder.drawings.wording import Words
from builder.quantities.showing import System
from builder.routes.framing import FrameHoles, FramePassed
from builder.trailer.body import Body
from builder.trailer.model import Trailer
from builder.trailer.outline import Point, extents, pieces_of, points_of, spans

_HIGHEST = 260.0
"""How high the cut is drawn at most, in CSS pixels."""
_AROUND = 26.0
"""Room round it for the numbers of holes at its edge."""
_HOLE = 3.5
_INSIDE_M = 1e-4
"""A frame at the very edge of the body, or a slip of the tape outside it, is cut so far inside it."""


@dataclass(frozen=True, slots=True)
class FrameCut:
    """One frame with the holes in it, numbered from 1 in their order, and its one line of SVG."""

    holes: FrameHoles
    svg: str


def frame_cuts(trailer: Trailer, frames: tuple[FrameHoles, ...], words: Words) -> tuple[FrameCut, ...]:
    """Return the cut at each frame; none where the file has no outline of the body.

    A frame at the body's very edge is cut just inside it.

    An upright frame is seen from behind, so that left is left; a level one from above, the front to the left.
    """
    body = trailer.geometry.body
    if body is None:
        return ()
    units: System = "metric" if trailer.identity.units == "metric" else "feet"
    return tuple(
        FrameCut(frame, _drawn(body, frame, (words, units), place))
        for place, frame in enumerate(frames, start=1)
    )


def _drawn(body: Body, frame: FrameHoles, told: tuple[Words, System], place: int) -> str:
    words, units = told
    rooms = _rooms(body, frame)
    left, right, top, low = extents([corner for room in rooms for corner in room])
    px = min((WIDTH - 2 * EDGE - 2 * _AROUND) / (right - left), _HIGHEST / (low - top))
    title = words.frame_cut if frame.upright else words.frame_cut_level
    shapes, y = [], EDGE
    for part in wrapped(title, WIDTH - 2 * EDGE, 11, most=4):
        y += 15
        shapes.append(f'<text class="wd-m" x="{number(EDGE)}" y="{number(y)}">{escape(part)}</text> ')
    x0, y0 = (WIDTH - (right - left) * px) / 2 - left * px, y + _AROUND - top * px

    def at(point: Point) -> Point:
        return x0 + point[0] * px, y0 + point[1] * px

    for one, other in rooms:
        (x, y_), (x_end, y_end) = at(one), at(other)
        shapes.append(box(x, y_, x_end - x, y_end - y_, "s", 0))
    bottom = y0 + low * px + _AROUND
    labels = Labels(Rect(4, y, WIDTH - 8, bottom - y))
    spots = [at(_seen(hole, upright=frame.upright)) for hole in frame.holes]
    labels.taken += [Rect(x - 5, y_ - 5, 10, 10) for x, y_ in spots]
    texts = []
    for count, (hole, spot) in enumerate(zip(frame.holes, spots, strict=True), start=1):
        shapes.append(circle(*spot, _HOLE, "f").removesuffix("/>") + f' data-hole="{escape(hole.chase)}"/>')
        plate = labels.plate(spot, (str(count),))
        room = plate.room
        middle = room.x + room.width / 2
        if plate.leader is not None:
            shapes.append(line(*plate.leader, middle, room.y + room.height / 2, "ld"))
        texts.append(box(room.x, room.y, room.width, room.height, "pl", 3))
        texts.append(
            f'<text class="wd-nr" x="{number(middle)}" y="{number(room.y + 12.5)}" text-anchor="middle">{count}</text> '
        )
    bar, end = scale_bar(bottom, px, units, words)
    return whole([*shapes, *texts, *bar], (WIDTH, end + EDGE), f"frame-{place}", title)


def _rooms(body: Body, frame: FrameHoles) -> list[tuple[Point, Point]]:
    """Return the inside of the body where a frame stands, as rectangles on the sheet: upper left and lower right."""
    outline, half = points_of(pieces_of(body.profile)), body.width_m / 2
    front, rear, under, top = extents(outline)
    if frame.back_m is not None:
        at_m = min(max(frame.back_m, front + _INSIDE_M), rear - _INSIDE_M)
        return [((-half, -high), (half, -low)) for low, high in spans(outline, at_m, 0)]
    at_m = min(max(frame.up_m or 0.0, under + _INSIDE_M), top - _INSIDE_M)
    return [((near, -half), (far, half)) for near, far in spans(outline, at_m, 1)]


def _seen(hole: FramePassed, *, upright: bool) -> Point:
    back_m, right_m, up_m = hole.point_m
    return (right_m, -up_m) if upright else (back_m, -right_m)
