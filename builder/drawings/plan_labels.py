"""Where names, numbers and letters stand on a drawing to scale: on no other text, and inside the drawing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from math import cos, dist, hypot, pi, sin

from builder.drawings.rect import Rect
from builder.drawings.text_width import text_width

Point = tuple[float, float]
NAME_HEIGHT, PLATE_HEIGHT = 14.0, 17.0
DOT = 7.0
"""Half of the room that a place's own mark takes."""
_LEADER = 3.0
"""A plate further than this from what it stands for is joined to it by a line."""
_ROUND, _WIDEN, _FURTHEST = 16, 9.0, 40
_FURTHER = 6
"""So many rings further out a plate may stand for its line to be seen as a whole."""
_A_RING = 0.04
"""A ring further out is worth so much of the line that is seen."""
Line = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Plate:
    """A number or letter on a plate: its lines of text, its room, and where the line to it begins; None for none."""

    lines: tuple[str, ...]
    room: Rect
    leader: Point | None = None


@dataclass(slots=True)
class Labels:
    """The room of a drawing: ``within`` bounds it on three sides, and it may grow downwards.

    ``taken`` are texts and marks, which nothing may lie on; ``lines`` are those that names keep clear of, and
    ``leaders`` those of plates, which are to be seen as a whole.
    """

    within: Rect
    taken: list[Rect] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    leaders: list[Line] = field(default_factory=list)

    def is_free(self, room: Rect) -> bool:
        """Tell whether a room is inside the drawing and nothing is there yet."""
        inside = self.within.x <= room.x and room.right <= self.within.right and self.within.y <= room.y
        return inside and not any(room.meets(taken) for taken in self.taken)

    def name(self, at: Point, text: str, size: float) -> Rect | None:
        """Take room for a name beside a point and off all lines; None where there is none."""
        width = text_width(text, size, bold=True)
        x, y = at
        high = NAME_HEIGHT
        beside = (
            (x + DOT, y - high / 2),
            (x - DOT - width, y - high / 2),
            (x - width / 2, y - DOT - high),
            (x - width / 2, y + DOT),
            (x + DOT - 2, y - DOT - high + 2),
            (x - DOT - width + 2, y - DOT - high + 2),
            (x + DOT - 2, y + DOT - 2),
            (x - DOT - width + 2, y + DOT - 2),
        )
        for left, top in beside:
            room = Rect(left, top, width, high)
            low = room.bottom <= self.within.bottom
            if low and self.is_free(room) and not any(clipped(*one, room) for one in self.lines):
                self.taken.append(room)
                return room
        return None

    def plate(self, at: Point, lines: tuple[str, ...], others: Sequence[Point] = ()) -> Plate:
        """Take room for a plate as near as there is any to a point, or to one of ``others`` that stand for the same.

        Somewhat further out where only there its line is seen as a whole. It is always found: below everything else at
        last.
        """
        size = plate_size(lines)
        best: tuple[float, Point, Rect] | None = None
        last = _FURTHEST
        for ring, spot, room in _around((at, *others), size):
            if ring > last:
                break
            if not self.is_free(room):
                continue
            last = min(last, ring + _FURTHER)
            hidden = self._hidden(spot, room)
            costs = hidden + _A_RING * ring
            if best is None or costs < best[0]:
                best = costs, spot, room
            if not hidden:
                break
        if best is not None:
            return self._take(best[1], lines, best[2])
        below = max((taken.bottom for taken in self.taken), default=self.within.y) + 2
        x = min(max(at[0] - size[0] / 2, self.within.x), self.within.right - size[0])
        return self._take(at, lines, Rect(x, below, *size))

    def _hidden(self, at: Point, room: Rect) -> float:
        """Return which share of the line to a plate is hidden, and add those that the plate hides of others."""
        leader = at, _middle(room)
        hidden = (taken for taken in self.taken if dist(at, _middle(taken)) > _LEADER)
        return sum(_share(one, room) for one in self.leaders) + sum(
            _share(leader, taken, room) for taken in hidden
        )

    def _hides(self, room: Rect) -> bool:
        return any(clipped(*leader, room) for leader in self.leaders)

    def on_line(self, middles: Iterable[Point], lines: tuple[str, ...]) -> Plate | None:
        """Take room for a plate whose middle is one of some points; None where none of them is free."""
        width, height = plate_size(lines)
        for x, y in middles:
            room = Rect(x - width / 2, y - height / 2, width, height)
            if room.bottom <= self.within.bottom and self.is_free(room) and not self._hides(room):
                return self._take((x, y), lines, room)
        return None

    def _take(self, at: Point, lines: tuple[str, ...], room: Rect) -> Plate:
        self.taken.append(room)
        away = hypot(
            max(room.x - at[0], 0.0, at[0] - room.right), max(room.y - at[1], 0.0, at[1] - room.bottom)
        )
        if away <= _LEADER:
            return Plate(lines, room)
        self.leaders.append((at, _middle(room)))
        self.lines.append(self.leaders[-1])
        return Plate(lines, room, at)


def plate_size(lines: Sequence[str]) -> tuple[float, float]:
    """Return width and height of a plate in CSS pixels."""
    width = max(text_width(line, 11, bold=True) for line in lines) + 8
    return max(width, PLATE_HEIGHT), PLATE_HEIGHT + (len(lines) - 1) * 13.0


def _middle(room: Rect) -> Point:
    return room.x + room.width / 2, room.y + room.height / 2


def _share(leader: Line, room: Rect, plate: Rect | None = None) -> float:
    """Return which share of the line to a plate lies in a room; what the plate itself hides is no part of it."""
    part = clipped(*leader, room) if _near(leader, room) else None
    if part is None:
        return 0.0
    own = clipped(*leader, plate) if plate is not None else None
    return dist(*part) / max(dist(*leader) - (dist(*own) if own is not None else 0.0), 1.0)


def _near(line: Line, room: Rect) -> bool:
    """Tell whether a line can reach into a room at all: whether what holds it meets the room."""
    (one_x, one_y), (other_x, other_y) = line
    beside = max(one_x, other_x) < room.x or min(one_x, other_x) > room.right
    return not (beside or max(one_y, other_y) < room.y or min(one_y, other_y) > room.bottom)


def _around(points: Sequence[Point], size: tuple[float, float]) -> Iterator[tuple[int, Point, Rect]]:
    """Yield rooms round some points, further and further out, each with its ring and the point it is round."""
    width, height = size
    for ring in range(1, _FURTHEST):
        out = _WIDEN * ring
        for at in points:
            for turn in range(_ROUND):
                angle = 2 * pi * turn / _ROUND
                x = at[0] + cos(angle) * (out + width / 2)
                y = at[1] + sin(angle) * (out + height / 2)
                yield ring, at, Rect(x - width / 2, y - height / 2, width, height)


def clipped(start: Point, end: Point, room: Rect) -> tuple[Point, Point] | None:
    """Return the part of a straight line that lies within a rectangle; None where none does.

    Liang and Barsky's clipping, common practice.
    """
    low, high = 0.0, 1.0
    for axis, (least, most) in enumerate(((room.x, room.right), (room.y, room.bottom))):
        along = end[axis] - start[axis]
        if along == 0:
            if not least <= start[axis] <= most:
                return None
            continue
        one, other = (least - start[axis]) / along, (most - start[axis]) / along
        low, high = max(low, min(one, other)), min(high, max(one, other))
    if low > high:
        return None

    def at(share: float) -> Point:
        return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])

    return at(low), at(high)
