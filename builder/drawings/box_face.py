"""The face of the front box, laid out by coordinates: fuse ways, supply, strip and ground bar with every landing.

It is a face to find one's way by, not a scale drawing: no published size fits every fuse block.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from html import escape

from builder.drawings.contrast import contrast_ratio
from builder.drawings.shapes import box, circle, line, number
from builder.drawings.text_width import cut, text_width, visible
from builder.drawings.wording import Words
from builder.electrics.figures import Figures, FuseFigures, Landing
from builder.tables.table import NoRow
from builder.tables.wire_colours import screen_colour
from builder.trailer.model import FRONT_BOX, GROUND_BAR, SUPPLY_BAR, Trailer

WIDTH = 340.0
_ROW, _SMALL_ROW, _EDGE = 30.0, 27.0, 12.0
_FUSE_X, _TAG_X, _NAME_X = 36.0, 92.0, 176.0
_INK, _PAPER = "#1f242b", "#ffffff"
_COLUMNS = 3

WayLink = Callable[[int], str]


@dataclass(slots=True)
class _Page:
    """What has been drawn so far, and how far down."""

    shapes: list[str]
    y: float = _EDGE

    def text(self, x: float, text: str, name: str = "m", *, room: float = 0.0) -> None:
        """Write a text on the row's middle line, cut where it is longer than its room."""
        said = visible(text)
        shown = cut(said, room, 12, bold=name == "n") if room else said
        self.shapes.append(
            f'<text class="wd-{name}" x="{number(x)}" y="{number(self.y + 19)}">{escape(shown)}</text>'
        )

    def heading(self, text: str) -> None:
        """Begin a block of the box."""
        self.y += 8
        self.text(_EDGE, text, "n")
        self.y += 26


def box_face(trailer: Trailer, figures: Figures, link: WayLink, words: Words) -> str:
    """Return the face of the front box as one line of SVG; empty where the trailer has none.

    ``link`` gives the address of the page of the circuit on a fuse way, by the way's number; empty for none.
    """
    if trailer.front_box is None:
        return ""
    landed = [at for at in figures.landings if at.part == FRONT_BOX]
    page = _Page([])
    _supply(page, [at for at in landed if at.pin == SUPPLY_BAR.pin], words)
    page.heading(words.face_ways)
    fuses = {fuse.way: fuse for fuse in figures.fuses if fuse.way is not None}
    wires = {at.place: at.wires for at in landed if at.place.startswith("way ")}
    for way in figures.ways:
        name = trailer.circuit(way.circuit).name if way.circuit is not None else words.face_spare
        _way(page, way.way, (name, link(way.way)), fuses.get(way.way), wires.get(f"way {way.way}", ()))
    strip = [at for at in landed if at.place.startswith("strip ")]
    if strip:
        page.heading(words.face_strip)
        _strip(page, strip)
    screws = [at for at in landed if at.pin == GROUND_BAR.pin]
    if screws:
        page.heading(words.ground_bar)
        _screws(page, screws)
    return _framed(page, words)


def _framed(page: _Page, words: Words) -> str:
    height = page.y + _EDGE
    frame = box(3, 3, WIDTH - 6, height - 6, "p", 8)
    size = f"0 0 {number(WIDTH)} {number(height)}"
    style = f"width:100%;max-width:{number(WIDTH * 1.25)}px;height:auto"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="wd" role="group"'
        f' viewBox="{size}" aria-labelledby="wd-box-title" style="{style}">'
        f'<title id="wd-box-title">{escape(words.face_title)}</title>{frame}{"".join(page.shapes)}</svg>'
    )


def _supply(page: _Page, landed: Sequence[Landing], words: Words) -> None:
    if not landed:
        return
    page.text(_EDGE, words.supply_bar, "n")
    page.shapes.append(line(_FUSE_X + 60, page.y + 14, WIDTH - _EDGE, page.y + 14, "b"))
    page.y += _ROW
    _tags(page, _FUSE_X + 60, landed[0].wires, WIDTH - _EDGE)
    page.y += _ROW


def _way(
    page: _Page, way: int, named: tuple[str, str], fuse: FuseFigures | None, wires: tuple[str, ...]
) -> None:
    name, address = named
    page.text(_EDGE, str(way), "n")
    page.shapes.append(_fuse(page.y, fuse))
    right = _tags(page, _TAG_X, wires, WIDTH - 80)
    x = max(_NAME_X, right + 6)
    page.text(x, name, "m", room=WIDTH - _EDGE - x)
    if address:
        target = box(_EDGE - 6, page.y + 2, WIDTH - 2 * _EDGE + 12, 26, "h0", 3)
        page.shapes.append(f'<a href="{escape(address)}" aria-label="{escape(visible(name))}">{target}</a>')
    page.y += _ROW


def _fuse(y: float, fuse: FuseFigures | None) -> str:
    """Draw a fuse in the colour of its body with its rating on it; an empty way as a dashed outline."""
    if fuse is None or fuse.rating_a is None:
        return box(_FUSE_X, y + 4, 44, 20, "o", 3)
    body = _PAPER
    try:
        body = screen_colour(fuse.color) if fuse.color and fuse.color != "clear" else _PAPER
    except NoRow:
        body = _PAPER
    ink = max((_INK, _PAPER), key=lambda tone: contrast_ratio(body, tone))
    return (
        f'<rect x="{number(_FUSE_X)}" y="{number(y + 4)}" width="44" height="20" rx="3" fill="{body}" '
        f'stroke="{_INK}" stroke-width="1.4"/>'
        f'<text x="{number(_FUSE_X + 22)}" y="{number(y + 19)}" text-anchor="middle" class="wd-nr" '
        f'style="fill:{ink}">{fuse.rating_a:g} A</text>'
    )


def _tags(page: _Page, x: float, wires: Sequence[str], end: float) -> float:
    """Draw the numbers of wires on plates beside each other, on a further row where one is full; return the end."""
    first = x
    for wire in wires:
        width = text_width(wire, 11, bold=True) + 10
        if x > first and x + width > end:
            x = first
            page.y += _SMALL_ROW
        page.shapes.append(box(x, page.y + 4, width, 20, "p", 3))
        page.shapes.append(
            f'<text class="wd-nr" x="{number(x + 5)}" y="{number(page.y + 18)}">{escape(wire)}</text>'
        )
        x += width + 4
    return x


def _strip(page: _Page, landed: Sequence[Landing]) -> None:
    """Draw the positions one below the other; those of one function are joined by a bridge at their left."""
    before = ""
    for at in landed:
        if at.pin == before:
            page.shapes.append(line(_EDGE + 26, page.y - 6, _EDGE + 26, page.y + 7, "b"))
        page.text(_EDGE, at.place.removeprefix("strip "), "n")
        page.shapes.append(circle(_EDGE + 26, page.y + 14, 5))
        right = _tags(page, _FUSE_X + 14, at.wires, WIDTH - _EDGE)
        if at.pin != before:
            x = max(_NAME_X, right + 6)
            page.text(x, at.pin.removeprefix("strip: "), "m", room=WIDTH - _EDGE - x)
        before = at.pin
        page.y += _SMALL_ROW


def _screws(page: _Page, landed: Sequence[Landing]) -> None:
    """Draw the screws of the ground bar in rows, each with its wire."""
    pitch = (WIDTH - 2 * _EDGE) / _COLUMNS
    for place, at in enumerate(landed):
        x = _EDGE + pitch * (place % _COLUMNS)
        page.text(x, at.place.removeprefix("screw "), "m")
        page.shapes.append(circle(x + 26, page.y + 14, 5))
        _tags(page, x + 38, at.wires, x + pitch)
        if place % _COLUMNS == _COLUMNS - 1 or place == len(landed) - 1:
            page.y += _SMALL_ROW
