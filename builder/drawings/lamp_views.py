"""The trailer from behind and from its left side, to scale, with its road lamps and reflectors at their heights.

Only what the file gives both measures of is drawn; the outline is the width, the length and the road, and nothing
is guessed of the body between them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from html import escape

from builder.drawings.shapes import box, circle, line, number, path
from builder.drawings.sheet import EDGE, WIDTH, Sheet
from builder.drawings.text_width import text_width
from builder.drawings.wording import Words
from builder.electrics.lamps_required import built_in_at
from builder.quantities import show_length
from builder.tables.wire_colours import screen_colour
from builder.trailer.model import Identity, Reflector, RoadLamp, Trailer

_LABEL = 26.0
"""Width of a label with the number of a lamp, and the room it takes beside the next."""

_AXIS = 6.0
_DOT = 6.0
_LIGHTS = {"red": "red", "amber": "orange", "white": "white"}


class Sign(StrEnum):
    """How something stands in a view."""

    LAMP = "lamp"
    """A disc."""
    WITH_REFLECTOR = "lamp with a reflector"
    """A disc in a square."""
    REFLECTOR = "reflector"
    """A square."""
    TRIANGLE = "triangle"
    """A triangle, as the reflector is one."""


@dataclass(frozen=True, slots=True)
class _Spot:
    """A lamp or reflector in a view: metres from the view's left end and above the road, and the colours it shows."""

    name: str
    x_m: float
    height_m: float
    colors: tuple[str, ...]
    sign: Sign


def rear_view(trailer: Trailer, words: Words) -> str:
    """Return the trailer seen from behind as one line of SVG; empty where its width or every place is unknown.

    Left is left, as for the driver: both look forward.
    """
    return _end_view(trailer, "rear", (words.rear_view, "wd-rear-view", words))


def front_view(trailer: Trailer, words: Words) -> str:
    """Return the trailer seen from ahead as one line of SVG; empty where its width or every place is unknown.

    Its left side is on the right, for who stands before it.
    """
    return _end_view(trailer, "front", (words.front_view, "wd-front-view", words))


def _end_view(trailer: Trailer, end: str, said: tuple[str, str, Words]) -> str:
    width = _width(trailer.identity)
    if width is None:
        return ""
    spots = _end_spots(trailer, end, width)
    if end == "front":
        spots = [replace(spot, x_m=width - spot.x_m) for spot in spots]
    return _view(trailer, spots, width, said)


def _end_spots(trailer: Trailer, end: str, width: float) -> list[_Spot]:
    """Return what is seen at one end, metres from the left side: a side marker and what reflects to the side is not."""
    lamps = [
        _Spot(lamp.name, x, lamp.height_m, _colors(lamp), _lamp_sign(lamp, built_in_at(lamp) == end))
        for lamp in trailer.road_lamps
        if lamp.at == end and set(lamp.shows) != {"marker"} and lamp.height_m is not None
        for x in _across(lamp, width)
    ]
    return lamps + [
        _Spot(one.name, x, one.height_m, (one.color,) if one.color else (), _sign(one))
        for one in trailer.reflectors
        if one.at == end and one.height_m is not None
        for x in _across(one, width)
    ]


def _side_spots(trailer: Trailer) -> list[_Spot]:
    """Return what the file places along the left side, metres from the front."""
    lamps = [
        _Spot(
            lamp.name,
            lamp.back_m,
            lamp.height_m,
            _colors(lamp),
            _lamp_sign(lamp, built_in_at(lamp).endswith("side")),
        )
        for lamp in trailer.road_lamps
        if lamp.side == "left" and lamp.back_m is not None and lamp.height_m is not None
    ]
    return lamps + [
        _Spot(one.name, one.back_m, one.height_m, (one.color,) if one.color else (), _sign(one))
        for one in trailer.reflectors
        if one.side == "left" and one.at.endswith("side")
        if one.back_m is not None and one.height_m is not None
    ]


def _lamp_sign(lamp: RoadLamp, faces: bool) -> Sign:
    """Return the sign of a lamp; ``faces`` tells whether what may be built into it faces who looks."""
    return Sign.WITH_REFLECTOR if lamp.reflector and faces else Sign.LAMP


def _sign(one: Reflector) -> Sign:
    return Sign.TRIANGLE if one.triangle else Sign.REFLECTOR


def signs_shown(trailer: Trailer) -> frozenset[Sign]:
    """Return which signs the views of a trailer hold."""
    width = _width(trailer.identity)
    ends = [spot for end in ("front", "rear") for spot in _end_spots(trailer, end, width)] if width else []
    side = _side_spots(trailer) if trailer.identity.length_m is not None else []
    return frozenset(spot.sign for spot in (*ends, *side))


def not_drawn(trailer: Trailer) -> tuple[str, ...]:
    """Return the lamps and reflectors that no view shows, because the file lacks one of their measures."""
    width = _width(trailer.identity)
    lamps = [
        lamp.name
        for lamp in trailer.road_lamps
        if lamp.height_m is None
        or not (
            (
                lamp.at in ("rear", "front")
                and width is not None
                and set(lamp.shows) != {"marker"}
                and _across(lamp, width)
            )
            or (lamp.back_m is not None and lamp.side in ("left", "right"))
        )
    ]
    return (*lamps, *(one.name for one in trailer.reflectors if not _is_placed(one, width)))


def _is_placed(one: Reflector, width: float | None) -> bool:
    """Tell whether the file says enough of a reflector to draw it at an end or on a side."""
    if one.height_m is None:
        return False
    if one.at.endswith("side"):
        return one.back_m is not None and one.side in ("left", "right")
    return width is not None and bool(_across(one, width))


def side_view(trailer: Trailer, words: Words) -> str:
    """Return the trailer seen from its left side, front to the left; empty where its length or every place is unknown.

    The right side is its mirror image where lamps come in pairs.
    """
    length = trailer.identity.length_m
    if length is None:
        return ""
    return _view(trailer, _side_spots(trailer), length, (words.side_view, "wd-side-view", words))


def _width(identity: Identity) -> float | None:
    widths = [width for width in (identity.width_m, identity.width_over_fenders_m) if width is not None]
    return max(widths, default=None)


def _across(one: RoadLamp | Reflector, width: float) -> tuple[float, ...]:
    """Return how far from the left edge something is, seen from behind; nothing where the file does not say it."""
    if one.side == "middle":
        return (width / 2,)
    if one.in_m is None:
        return ()
    return (one.in_m,) if one.side == "left" else (width - one.in_m,)


def _colors(lamp: RoadLamp) -> tuple[str, ...]:
    return tuple(dict.fromkeys(lamp.shines[function] for function in lamp.shows if function in lamp.shines))


def _view(trailer: Trailer, spots: Sequence[_Spot], wide_m: float, said: tuple[str, str, Words]) -> str:
    """Draw spots above the road, each joined to its number, and the list that the numbers stand for."""
    if not spots:
        return ""
    title, prefix, words = said
    order = sorted(spots, key=lambda spot: (spot.x_m, -spot.height_m, spot.name))
    page = Sheet([], {})
    page.heading(title)
    left, right = EDGE + 8, WIDTH - EDGE - 8
    scale = (right - left) / wide_m
    top = page.y + _LABEL + 26
    road = top + max(spot.height_m for spot in spots) * scale
    _frame(page, (left, right, top, road))
    for place, (spot, label) in enumerate(
        zip(order, _label_places(order, scale, left), strict=True), start=1
    ):
        x, y = left + spot.x_m * scale, road - spot.height_m * scale
        page.shapes.append(path(f"M{label} {page.y + _LABEL}L{x} {y - _DOT}", "h"))
        page.shapes.append(_dot(x, y, spot))
        _label(page, label, place)
    page.y = road + 18
    units = "feet" if trailer.identity.units == "feet" else "metric"
    _scale_bar(page, scale, units, left)
    for place, spot in enumerate(order, start=1):
        height = words.above_road.format(show_length(spot.height_m, "feet" if units == "feet" else "metric"))
        page.text(EDGE, str(place), "n")
        page.text(EDGE + 26, spot.name, "n", room=WIDTH - 2 * EDGE - 30 - text_width(height, 11))
        page.text(WIDTH - EDGE - text_width(height, 11), height)
        if spot.sign is Sign.WITH_REFLECTOR:
            page.y += 16
            page.text(EDGE + 26, words.with_reflector)
        page.y += 22
    return page.framed(prefix, title)


def _frame(page: Sheet, at: tuple[float, float, float, float]) -> None:
    """Draw the road and, dashed, the two ends that the measures reach."""
    left, right, top, road = at
    page.shapes += [line(left - _AXIS, road, right + _AXIS, road)]
    page.shapes += [line(x, top - 12, x, road, "d") for x in (left, right)]


def _label_places(order: Sequence[_Spot], scale: float, left: float) -> list[float]:
    """Return where each number stands: above its spot, moved aside as little as keeps numbers apart."""
    least, most = EDGE + _LABEL / 2, WIDTH - EDGE - _LABEL / 2
    places: list[float] = []
    for spot in order:
        wanted = max(left + spot.x_m * scale, least)
        places.append(max(wanted, places[-1] + _LABEL) if places else wanted)
    for place in range(len(places) - 1, -1, -1):
        limit = most if place == len(places) - 1 else places[place + 1] - _LABEL
        places[place] = min(places[place], limit)
    return places


def _label(page: Sheet, x: float, place: int) -> None:
    text = str(place)
    page.shapes.append(box(x - _LABEL / 2 + 2, page.y + 2, _LABEL - 4, 22, "p", 4))
    page.shapes.append(
        f'<text class="wd-n" x="{number(x - text_width(text, 12, bold=True) / 2)}" y="{number(page.y + 17)}">'
        f"{escape(text)}</text> "
    )


def _dot(x: float, y: float, spot: _Spot) -> str:
    """Return the sign of a spot in its colour; of a lamp's two colours each fills one half of the disc."""
    styles = [f' style="fill:{screen_colour(_LIGHTS[color])}"' for color in spot.colors[:2]] or [""]
    if spot.sign is Sign.TRIANGLE:
        return path(f"M{x - 7} {y + 6}L{x} {y - 7}L{x + 7} {y + 6}Z", "f", styles[0])
    if spot.sign is Sign.REFLECTOR:
        return box(x - _DOT, y - _DOT, 2 * _DOT, 2 * _DOT).replace("/>", f"{styles[0]}/>")
    disc = circle(x, y, _DOT, "f").replace("/>", f"{styles[0]}/>")
    half = f"M{x} {y - _DOT}A{_DOT} {_DOT} 0 0 1 {x} {y + _DOT}Z"
    disc += path(half, "f", styles[1]) if len(styles) > 1 else ""
    around = _DOT + 3.5
    frame = box(x - around, y - around, 2 * around, 2 * around)
    return frame + disc if spot.sign is Sign.WITH_REFLECTOR else disc


def _scale_bar(page: Sheet, scale: float, units: str, left: float) -> None:
    """Draw how long one foot or one half metre is."""
    metres, said = (0.3048, "1 ft") if units == "feet" else (0.5, "0.5 m")
    end = left + metres * scale
    page.shapes += [line(left, page.y, end, page.y), line(left, page.y - 4, left, page.y + 4)]
    page.shapes.append(line(end, page.y - 4, end, page.y + 4))
    page.y -= 14
    page.text(end + 8, said)
    page.y += 36
