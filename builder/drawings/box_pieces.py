"""What is on a piece of the front box: fuses in their ways, positions of a strip, screws of a bar."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape
from itertools import pairwise

from builder.drawings.fuse_shape import fuse_shape
from builder.drawings.graph import Tag
from builder.drawings.rect import Rect, Room
from builder.drawings.shapes import circle, number
from builder.drawings.sheet import plate, plate_width
from builder.drawings.text_width import cut, text_width, visible
from builder.electrics.figures import FuseFigures
from builder.trailer.box_face import Piece

_LINE = 13.0
_FUSE, _LEAST_FUSE = (44.0, 20.0), 9.0
_NAMED, _BETWEEN = 60.0, 4.0
_STEPS = (1, 5, 10, 20, 50, 100)
_DOT = 5.0


@dataclass(frozen=True, slots=True)
class Place:
    """A way, a position or a screw: its number, what it is for, its fuse where it has one, the wires on it."""

    number: str
    name: str
    fuse: FuseFigures | None
    wires: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Around:
    """What lies around a piece: the room that is left, where texts must stay within, each wire's colours."""

    room: Room
    within: Rect
    wires: Mapping[str, Tag]


def cells(piece: Piece, rect: Rect, count: int) -> list[Rect]:
    """Return the room of each place of a piece in the order of their numbers: rows run along its longer side."""
    rows = min(piece.rows, max(count, 1))
    columns = -(-count // rows)
    lying = rect.width >= rect.height
    long, short = (rect.width, rect.height) if lying else (rect.height, rect.width)
    found = []
    for place in range(count):
        row, column = (place % rows, place // rows) if piece.across else divmod(place, columns)
        along, over = column * long / columns, row * short / rows
        x, y = (along, over) if lying else (over, along)
        w, h = (long / columns, short / rows) if lying else (short / rows, long / columns)
        found.append(Rect(rect.x + x, rect.y + y, w, h))
    return found


def draw_ways(piece: Piece, rect: Rect, ways: Sequence[Place], around: Around) -> list[str]:
    """Draw each way with its number and its fuse, and its circuit and wires where there is room for them."""
    found = [cell.inset(2) for cell in cells(piece, rect, len(ways))]
    if not found:
        return []
    said = max(text_width(way.number, 12, bold=True) for way in ways)
    if found[0].height < _LINE or found[0].width < said + _LEAST_FUSE + 5:
        small = [Rect(cell.x, cell.y, max(cell.width, 1), max(cell.height, 1)) for cell in found]
        shapes = [fuse_shape(cell, way.fuse) for way, cell in zip(ways, small, strict=True)]
        bare = [Place(way.number, way.name, way.fuse, ()) for way in ways]
        return shapes + _beside(rect, list(zip(bare, found, strict=True)), around)
    longest = max(_length(way) for way in ways)
    shapes = []
    for way, cell in zip(ways, found, strict=True):
        named = cell.height >= 20 + _LINE and cell.width >= _NAMED
        width, height = min(_FUSE[0], cell.width - said - 5), min(_FUSE[1], cell.height)
        fuse = Rect(cell.x + said + 4, cell.y + (0 if named else (cell.height - height) / 2), width, height)
        shapes += _way(way, cell, fuse, named=named)
        beside = Rect(fuse.right + 4, fuse.y, longest, 20)
        below = Rect(cell.x, fuse.bottom + _LINE, longest, 20)
        at = next((spot for spot in (beside, *([below] if named else [])) if cell.holds(spot)), None)
        if at is not None:
            shapes += [
                plate(spot.x, spot.y, wire, around.wires)
                for wire, spot in _side_by_side(way.wires, at.x, at.y)
            ]
    return shapes


def _way(way: Place, cell: Rect, fuse: Rect, *, named: bool) -> list[str]:
    """Draw a way's number, its fuse and, where there is room for it, the name of its circuit below."""
    x, y = number(fuse.x - 3), number(fuse.y + fuse.height / 2 + 4.5)
    shapes = [
        f'<text class="wd-n" x="{x}" y="{y}" text-anchor="end">{way.number}</text> ',
        fuse_shape(fuse, way.fuse),
    ]
    if named:
        shown = escape(cut(visible(way.name), cell.width - 2, 11))
        at = f'x="{number(cell.x + 1)}" y="{number(fuse.bottom + 10.5)}"'
        shapes.append(f'<text class="wd-m" {at}>{shown}</text> ')
    return shapes


def _length(way: Place) -> float:
    """Return how long the plates of a way's wires are, side by side."""
    return sum(plate_width(wire) + _BETWEEN for wire in way.wires)


def draw_places(piece: Piece, rect: Rect, places: Sequence[Place], around: Around) -> list[str]:
    """Draw the positions of a strip or the screws of a bar, filled where a wire lands.

    Their numbers stand beside them, and the wires too where there is room for all of a row.
    """
    found = cells(piece, rect, len(places))
    if not found:
        return []
    radius = max(0.8, min(_DOT, 0.36 * min(found[0].width, found[0].height)))
    shapes = [
        circle(cell.x + cell.width / 2, cell.y + cell.height / 2, radius, "k" if place.wires else "h")
        for place, cell in zip(places, found, strict=True)
    ]
    return shapes + _beside(rect, list(zip(places, found, strict=True)), around)


def _beside(rect: Rect, placed: Sequence[tuple[Place, Rect]], around: Around) -> list[str]:
    """Write the numbers of the outer rows of a piece beside it, and their wires where there is room."""
    lying = rect.width >= rect.height
    rows: dict[float, list[tuple[Place, Rect]]] = {}
    for place, cell in placed:
        rows.setdefault(round(cell.y if lying else cell.x, 1), []).append((place, cell))
    first, last = rows[min(rows)], rows[max(rows)]
    if len(rows) == 1:
        return _row(first, rect, around, after=True) or _row(first, rect, around, after=False)
    return _row(first, rect, around, after=False) + _row(last, rect, around, after=True)


def draw_bar(rect: Rect, wires: Sequence[str], around: Around) -> list[str]:
    """Draw the metal of a supply bar, and its wires beside or below it where there is room."""
    metal = rect.inset(min(3.0, min(rect.width, rect.height) / 4))
    x, y, width, height = (number(each) for each in (metal.x, metal.y, metal.width, metal.height))
    shapes = [f'<rect class="wd-k" x="{x}" y="{y}" width="{width}" height="{height}"/>']
    for start in ((rect.right + 6, rect.y + rect.height / 2 - 10), (rect.x, rect.bottom + 3)):
        plates = _plated(_side_by_side(wires, *start), around)
        if plates:
            return shapes + plates
    return shapes


def _side_by_side(wires: Sequence[str], x: float, y: float) -> list[tuple[str, Rect]]:
    """Return where the plates of some wires lie beside each other."""
    spots = []
    for wire in wires:
        spots.append((wire, Rect(x, y, plate_width(wire), 20)))
        x += plate_width(wire) + _BETWEEN
    return spots


def _plated(spots: Sequence[tuple[str, Rect]], around: Around) -> list[str]:
    """Draw plates where there is room for all of them; nothing where there is not."""
    rects = [spot for _, spot in spots]
    apart = all(not one.meets(other) for one, other in pairwise(rects))
    if not apart or not around.room.take(rects, around.within):
        return []
    return [plate(spot.x, spot.y, wire, around.wires) for wire, spot in spots]


def _row(row: Sequence[tuple[Place, Rect]], rect: Rect, around: Around, *, after: bool) -> list[str]:
    """Write the numbers of a row below or right of a piece (``after``), or above or left; nothing without room."""
    lying = rect.width >= rect.height
    widest = max(text_width(place.number, 11) for place, _ in row)
    spots = []
    for place, cell in _told(row, (widest if lying else _LINE) + 3, lying=lying):
        width, (x, y) = text_width(place.number, 11), (cell.x + cell.width / 2, cell.y + cell.height / 2)
        beyond = (
            (x - width / 2, rect.bottom + 1 if after else rect.y - _LINE - 1)
            if lying
            else (rect.right + 3 if after else rect.x - width - 3, y - _LINE / 2)
        )
        spots.append((place.number, Rect(*beyond, width, _LINE)))
    if not around.room.take([spot for _, spot in spots], around.within):
        return []
    numbers = [
        f'<text class="wd-m" x="{number(spot.x)}" y="{number(spot.y + 10.5)}">{said}</text> '
        for said, spot in spots
    ]
    if not after:
        return numbers
    start = rect.bottom + _LINE + 2 if lying else rect.right + widest + 9
    return numbers + _row_of_plates(row, start, around, lying=lying)


def _row_of_plates(
    row: Sequence[tuple[Place, Rect]], start: float, around: Around, *, lying: bool
) -> list[str]:
    """Draw the wires of a row beside its numbers: all of them, or none where one would meet another."""
    spots: list[tuple[str, Rect]] = []
    for place, cell in row:
        if lying:
            middle = cell.x + cell.width / 2
            widths = [plate_width(wire) for wire in place.wires]
            spots += [
                (wire, Rect(middle - width / 2, start + 22 * down, width, 20))
                for down, (wire, width) in enumerate(zip(place.wires, widths, strict=True))
            ]
        else:
            spots += _side_by_side(place.wires, start, cell.y + cell.height / 2 - 10)
    return _plated(spots, around)


def _told(row: Sequence[tuple[Place, Rect]], pitch: float, *, lying: bool) -> list[tuple[Place, Rect]]:
    """Return the places of a row whose numbers are written, none nearer to the next than a pitch."""
    apart = row[0][1].width if lying else row[0][1].height
    step = next((step for step in _STEPS if step * apart >= pitch), len(row))
    last = len(row) - 1
    chosen = [0]
    for place in range(1, last):
        round_one = int(row[place][0].number) % step == 0
        if round_one and (place - chosen[-1]) * apart >= pitch and (last - place) * apart >= pitch:
            chosen.append(place)
    if last and last * apart >= pitch:
        chosen.append(last)
    return [row[place] for place in chosen]
