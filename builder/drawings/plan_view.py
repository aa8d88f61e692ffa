"""One view of the trailer to scale: body, ways, bundles and places, drawn by coordinates."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from html import escape
from itertools import pairwise
from math import dist

from builder.drawings.plan_key import beside
from builder.drawings.plan_labels import DOT, NAME_HEIGHT, Labels, Plate, Point, clipped
from builder.drawings.plan_lines import BIG, panel_shape, place_dot, ring, trace_shapes, way_shapes
from builder.drawings.plan_seen import Bundle, Seen, Spot, Way
from builder.drawings.rect import Rect
from builder.drawings.shapes import box, line, number
from builder.drawings.text_width import text_width, visible
from builder.drawings.wording import Words
from builder.trailer.views import Trace

SIDE, ABOVE = 36.0, 26.0
"""Room round the trailer for names, in CSS pixels."""
_SHORT = 6.0
"""A way shorter than this on the sheet runs towards the reader, or nearly so."""
_NEAR = 9.0
"""Places nearer than this to each other on the sheet share one plate."""
_OFF = 18.0
"""How far from a panel's edge the middle of its plate stands, where there is no room on it."""
_A_ROW = 4
_FEW = 3
"""Up to so many wires of a bundle are named on the drawing itself."""
_NAME_SIZE, _SMALL = 12.0, 11.0
_WIDEST_NAME = 140.0
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)


@dataclass(frozen=True, slots=True)
class Frame:
    """How metres become CSS pixels: ``px`` a metre, and where the view's own zero stands on the sheet.

    ``room`` is what the part of the trailer takes that is drawn.
    """

    px: float
    zero: Point
    room: Rect

    def at(self, point: Point) -> Point:
        """Return where a point of the view stands on the sheet."""
        return self.zero[0] + point[0] * self.px, self.zero[1] + point[1] * self.px


@dataclass(slots=True)
class Drawn:
    """A view on the way: its shapes, what is named on it, and what is left to the list beneath it."""

    frame: Frame
    labels: Labels
    words: Words
    shapes: list[str] = field(default_factory=list)
    texts: list[str] = field(default_factory=list)
    numbered: list[Spot] = field(default_factory=list)
    lettered: list[Bundle] = field(default_factory=list)
    unnamed: list[str] = field(default_factory=list)
    unnamed_blocks: list[str] = field(default_factory=list)
    kinds: dict[str, None] = field(default_factory=dict)

    @property
    def bottom(self) -> float:
        """Where the drawing ends, in CSS pixels."""
        return max([self.frame.room.bottom + ABOVE / 2, *(taken.bottom + 4 for taken in self.labels.taken)])


def draw_view(seen: Seen, frame: Frame, words: Words, sheet_width: float) -> Drawn:
    """Return a view drawn into its frame; what lies outside the frame's room is left to another part."""
    top = frame.room.y - ABOVE
    within = Rect(4.0, top, sheet_width - 8.0, frame.room.bottom + ABOVE - top)
    drawn = Drawn(frame, Labels(within), words)
    inner = [shape for trace in seen.traces for shape in trace_shapes(trace, frame.at, frame.px)]
    drawn.kinds |= dict.fromkeys(trace.what for trace in seen.traces if trace.what != "outline")
    drawn.shapes.append(_cut_to(frame.room, inner))
    drawn.shapes += [panel_shape(one.name, [frame.at(point) for point in one.ring]) for one in seen.panels]
    drawn.kinds |= dict.fromkeys(["panel"] if seen.panels else [])
    drawn.labels.lines += [one for trace in seen.traces for one in _pieces(trace, frame)]
    spots = [spot for spot in seen.spots if _shows(frame.room, frame.at(spot.at))]
    drawn.labels.taken += [_mark(frame.at(spot.at)) for spot in spots]
    pieces = _ways(drawn, seen.ways)
    for bundle, found in pieces.items():
        _bundle(drawn, bundle, found)
    _spots(drawn, spots)
    _panels(drawn, seen)
    _openings(drawn, seen)
    return drawn


def _cut_to(room: Rect, shapes: Sequence[str]) -> str:
    """Return shapes of the sheet cut off where the room of the drawing ends, a little beyond it for thick lines."""
    x, y, width, height = room.x - 4, room.y - 4, room.width + 8, room.height + 8
    at = " ".join(number(value) for value in (x, y, width, height))
    return (
        f'<svg x="{number(x)}" y="{number(y)}" width="{number(width)}" height="{number(height)}" viewBox="{at}"'
        ' aria-hidden="true">' + "".join(shapes) + "</svg>"
    )


def _pieces(trace: Trace, frame: Frame) -> Iterator[tuple[Point, Point]]:
    """Yield outlines, openings, edges and blocks in straight pieces, which names keep clear of."""
    if trace.what in ("outline", "opening", "edge", "block"):
        for start, end in trace.straight_pieces():
            yield frame.at(start), frame.at(end)


def _shows(room: Rect, at: Point) -> bool:
    slack = 0.01
    return room.x - slack <= at[0] < room.right + slack and room.y - slack <= at[1] <= room.bottom + slack


def _mark(at: Point) -> Rect:
    return Rect(at[0] - DOT + 1, at[1] - DOT + 1, 2 * DOT - 2, 2 * DOT - 2)


def _ways(drawn: Drawn, ways: Sequence[Way]) -> dict[Bundle, list[tuple[Point, Point]]]:
    """Draw every way as far as it lies in the room; return the pieces of each bundle that are long enough to name."""
    found: dict[Bundle, list[tuple[Point, Point]]] = {}
    room = drawn.frame.room
    for way in ways:
        start, end = drawn.frame.at(way.start), drawn.frame.at(way.end)
        piece = clipped(start, end, Rect(room.x - 0.1, room.y - 0.1, room.width + 0.2, room.height + 0.2))
        if piece is None:
            continue
        if dist(start, end) < _SHORT:
            drawn.shapes.append(ring(way, start))
            drawn.kinds["towards"] = None
        else:
            drawn.shapes.append(way_shapes(way, *piece))
            drawn.labels.lines.append(piece)
            drawn.kinds[way.bundle.kind.value] = None
            found.setdefault(way.bundle, []).append(piece)
        if not way.bundle.wires and not way.bundle.mains:
            drawn.kinds["empty"] = None
    return found


def _bundle(drawn: Drawn, bundle: Bundle, pieces: Sequence[tuple[Point, Point]]) -> None:
    """Put a bundle's letter on it, with its wires where they are few and there is room."""
    start, end = max(pieces, key=lambda piece: round(dist(*piece), 3))
    points = [
        (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])) for share in _ALONG
    ]
    told = bundle.mark
    held = []
    if bundle.wires:
        few = len(bundle.wires) <= _FEW
        held.append(
            " ".join(bundle.wires) if few else drawn.words.plan_wires.format(len(bundle.wires) + bundle.again)
        )
    held += beside(bundle, drawn.words)
    if held:
        told += ": " + ", ".join(held)
    for said in dict.fromkeys((told, bundle.mark)):
        plate = drawn.labels.on_line(points, (said,))
        if plate is not None:
            break
    else:
        plate = drawn.labels.plate(points[0], (bundle.mark,), points[1:])
    _plate(drawn, plate, "wd-pw")
    drawn.lettered.append(bundle)


def _spots(drawn: Drawn, spots: Sequence[Spot]) -> None:
    """Draw every place; its name beside it where there is room, else its number."""
    at = drawn.frame.at
    for spot in spots:
        drawn.shapes.append(place_dot(spot, at(spot.at)))
        big = set(spot.parts) & set(BIG)
        drawn.kinds |= dict.fromkeys(sorted(big) or ["part" if spot.parts else "place"])
    later: list[list[Spot]] = []
    for group in _groups(drawn, spots):
        alone = group[0]
        name = visible(alone.name)
        plain = len(group) == 1 and set(alone.parts) <= {alone.name} and not alone.waiting
        fits = plain and text_width(name, _NAME_SIZE, bold=True) <= _WIDEST_NAME
        room = drawn.labels.name(at(alone.at), name, _NAME_SIZE) if fits else None
        if room is None:
            later.append(group)
        else:
            drawn.texts.append(_text(room, name, "wd-n wd-ha"))
    for group in later:
        marks = [spot.mark for spot in group]
        lines = tuple(", ".join(marks[n : n + _A_ROW]) for n in range(0, len(marks), _A_ROW))
        _plate(drawn, drawn.labels.plate(at(group[0].at), lines), "wd-pl")
        drawn.numbered += group


def _groups(drawn: Drawn, spots: Sequence[Spot]) -> list[list[Spot]]:
    """Return the places that stand on one spot of the sheet together, in the order of the file."""
    groups: list[list[Spot]] = []
    for spot in spots:
        here = drawn.frame.at(spot.at)
        near = (group for group in groups if dist(here, drawn.frame.at(group[0].at)) < _NEAR)
        group = next(near, None)
        if group is None:
            groups.append([spot])
        else:
            group.append(spot)
    return groups


def _panels(drawn: Drawn, seen: Seen) -> None:
    """Put each panel's name on it, with how long a screw into it may be, or that nobody knows."""
    for panel in seen.panels:
        points = [drawn.frame.at(point) for point in panel.ring]
        middle = sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
        if not _shows(drawn.frame.room, middle):
            continue
        limit = drawn.words.plan_screw.format(panel.screw) if panel.screw else drawn.words.plan_no_screw
        lines = (visible(panel.name), limit)
        top, low = min(y for _, y in points) - _OFF, max(y for _, y in points) + _OFF
        plate = drawn.labels.on_line([(middle[0], y) for y in (middle[1], low, top)], lines)
        edges = [_between(*ends) for ends in pairwise([*points, points[0]])]
        _plate(drawn, plate or drawn.labels.plate(middle, lines, edges), "wd-pl")


def _openings(drawn: Drawn, seen: Seen) -> None:
    """Write the names of openings into them or beside them; those without room are left to the list."""
    for trace in seen.traces:
        if trace.what not in ("opening", "edge", "block"):
            continue
        points = [drawn.frame.at(point) for point in trace.points]
        if trace.what == "edge":
            middle = points[len(points) // 2] if len(points) > 2 else _between(points[0], points[-1])
        else:
            middle = _between(
                (min(x for x, _ in points), min(y for _, y in points)),
                (max(x for x, _ in points), max(y for _, y in points)),
            )
        name = visible(trace.name)
        width = text_width(name, _SMALL)
        if not _shows(drawn.frame.room, middle):
            continue
        spots = [(middle[0] - width / 2, middle[1] + dy) for dy in (-7, -24, 10, -40, 26)]
        rooms = (Rect(x, y, width, NAME_HEIGHT) for x, y in spots)
        room = next((room for room in rooms if _fits(drawn, room)), None)
        if room is None or width > _WIDEST_NAME:
            (drawn.unnamed_blocks if trace.what == "block" else drawn.unnamed).append(name)
        else:
            drawn.labels.taken.append(room)
            drawn.texts.append(_text(room, name, "wd-m wd-ha"))


def _fits(drawn: Drawn, room: Rect) -> bool:
    labels = drawn.labels
    low = room.bottom <= labels.within.bottom
    return low and labels.is_free(room) and not any(clipped(*one, room) for one in labels.lines)


def _between(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _plate(drawn: Drawn, plate: Plate, name: str) -> None:
    """Draw a plate with its text; its line goes under everything that is written."""
    room = plate.room
    middle = room.x + room.width / 2
    if plate.leader is not None:
        drawn.shapes.append(line(*plate.leader, middle, room.y + room.height / 2, "ld"))
    drawn.texts.append(box(room.x, room.y, room.width, room.height, name.removeprefix("wd-"), 3))
    for row, said in enumerate(plate.lines):
        y = room.y + 12.5 + row * 13
        drawn.texts.append(
            f'<text class="wd-nr" x="{number(middle)}" y="{number(y)}" text-anchor="middle">{escape(said)}</text> '
        )


def _text(room: Rect, said: str, name: str) -> str:
    return f'<text class="{name}" x="{number(room.x)}" y="{number(room.y + 11)}">{escape(said)}</text> '
