"""The landings of the front box row by row: fuse ways, supply, strip and ground bar with every wire.

It is not to scale; ``scaled_face`` draws the box by its maker's measures, with the same numbers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from html import escape

from builder.drawings.circuit_wires import wires_shown
from builder.drawings.fuse_shape import fuse_shape
from builder.drawings.rect import Rect
from builder.drawings.shapes import box, circle, line
from builder.drawings.sheet import EDGE, ROW, Sheet
from builder.drawings.text_width import visible
from builder.drawings.wording import Words
from builder.electrics.figures import Figures, FuseFigures, Landing
from builder.trailer.model import FRONT_BOX, GROUND_BAR, SUPPLY_BAR, Trailer

_FUSE_X, _TAG_X, _NAME_X = 36.0, 92.0, 176.0
_COLUMNS, _SMALL_ROW = 3, 24.5
_WIDTH = 306.0
"""As wide as leaves its smallest letters, 11 px, 9 pt high where two of them share a sheet of A4 or letter."""
_TALLEST = 770.0
"""What a sheet of paper shows at full size beside its caption, in CSS pixels."""

WayLink = Callable[[int], str]


def box_face(trailer: Trailer, figures: Figures, link: WayLink, words: Words) -> tuple[str, ...]:
    """Return the face of the front box as one line of SVG, as two where one would not fit a sheet of paper.

    Nothing where the trailer has none. The second holds the strip and the ground bar.

    ``link`` gives the address of the page of the circuit on a fuse way, by the way's number; empty for none.
    """
    if trailer.front_box is None:
        return ()
    landed = [at for at in figures.landings if at.part == FRONT_BOX]
    page = Sheet([], wires_shown(trailer, figures), width=_WIDTH)
    _supply(page, [at for at in landed if at.pin == SUPPLY_BAR.pin], words)
    page.heading(words.face_ways)
    fuses = {fuse.way: fuse for fuse in figures.fuses if fuse.way is not None}
    wires = {at.place: at.wires for at in landed if at.place.startswith("way ")}
    for way in figures.ways:
        name = trailer.circuit(way.circuit).name if way.circuit is not None else words.face_spare
        _way(page, way.way, (name, link(way.way)), fuses.get(way.way), wires.get(f"way {way.way}", ()))
    one = Sheet(list(page.shapes), page.wires, page.y, _WIDTH)
    _bars(one, landed, words)
    if one.y <= _TALLEST:
        return (one.framed("wd-box", words.face_title),)
    rest = Sheet([], page.wires, width=_WIDTH)
    _bars(rest, landed, words)
    return (page.framed("wd-box", words.face_title), rest.framed("wd-bars", words.face_bars))


def _bars(page: Sheet, landed: Sequence[Landing], words: Words) -> None:
    """Draw the strip and the ground bar, where there are landings on them."""
    strip = [at for at in landed if at.place.startswith("strip ")]
    if strip:
        page.heading(words.face_strip)
        _strip(page, strip)
    screws = [at for at in landed if at.pin == GROUND_BAR.pin]
    if screws:
        page.heading(words.ground_bar)
        _screws(page, screws)


def _supply(page: Sheet, landed: Sequence[Landing], words: Words) -> None:
    if not landed:
        return
    page.text(EDGE, words.supply_bar, "n")
    page.shapes.append(line(_FUSE_X + 60, page.y + 14, _WIDTH - EDGE, page.y + 14, "b"))
    page.y += ROW
    page.plates(_FUSE_X + 60, tuple(wire for at in landed for wire in at.wires), _WIDTH - EDGE)
    page.y += ROW


def _way(
    page: Sheet, way: int, named: tuple[str, str], fuse: FuseFigures | None, wires: tuple[str, ...]
) -> None:
    name, address = named
    page.text(EDGE, str(way), "n")
    page.shapes.append(fuse_shape(Rect(_FUSE_X, page.y + 4, 44, 20), fuse))
    right = page.plates(_TAG_X, wires, _WIDTH - 60)
    x = max(_NAME_X, right + 6)
    page.text(x, name, "m", room=_WIDTH - EDGE - x)
    if address:
        target = box(EDGE - 6, page.y + 2, _WIDTH - 2 * EDGE + 12, 26, "h0", 3)
        page.shapes.append(f'<a href="{escape(address)}" aria-label="{escape(visible(name))}">{target}</a>')
    page.y += ROW


def _strip(page: Sheet, landed: Sequence[Landing]) -> None:
    """Draw the positions one below the other; those of one function are joined by a bridge at their left."""
    before = ""
    for at in landed:
        if at.pin == before:
            page.shapes.append(line(EDGE + 26, page.y - 6, EDGE + 26, page.y + 7, "b"))
        page.text(EDGE, at.place.removeprefix("strip "), "n")
        page.shapes.append(circle(EDGE + 26, page.y + 14, 5))
        right = page.plates(_FUSE_X + 14, at.wires, _WIDTH - EDGE)
        if at.pin != before:
            x = max(_NAME_X, right + 6)
            page.text(x, at.pin.removeprefix("strip: "), "m", room=_WIDTH - EDGE - x)
        before = at.pin
        page.y += _SMALL_ROW


def _screws(page: Sheet, landed: Sequence[Landing]) -> None:
    """Draw the screws of the ground bar in rows, each with its wire."""
    pitch = (_WIDTH - 2 * EDGE) / _COLUMNS
    for place, at in enumerate(landed):
        x = EDGE + pitch * (place % _COLUMNS)
        page.text(x, at.place.removeprefix("screw "), "m")
        page.shapes.append(circle(x + 26, page.y + 14, 5))
        page.plates(x + 38, at.wires, x + pitch)
        if place % _COLUMNS == _COLUMNS - 1 or place == len(landed) - 1:
            page.y += _SMALL_ROW
