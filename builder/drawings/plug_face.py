"""The tow plug's contacts: at their places on the trailer's half where a source tells them, else as a list.

A plug and its socket are mirror images of each other, so a face is always the trailer's half seen from the back,
where the wires go in. Where no source tells the places, the contacts stand in the order of the numbers moulded
beside them, and the words say so.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from html import escape
from math import cos, pi, sin
from typing import Literal

from builder.drawings.circuit_wires import wires_shown
from builder.drawings.graph import Tag
from builder.drawings.shapes import box, circle, number
from builder.drawings.sheet import EDGE, ROW, WIDTH, Sheet, plate, plate_width
from builder.drawings.text_width import text_width, wrapped
from builder.drawings.wording import Words
from builder.electrics.figures import Figures
from builder.tables.tow_plugs import PlugContact, PlugFace, PlugPattern
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.plug_functions import functions_here

_MARK_X, _LABEL_X = EDGE + 10, 48.0
_RING, _BODY, _CONTACT = 74.0, 92.0, 13.0
_LINE, _PLATE = 13.0, 22.0
_FURTHER = 15.0
"""How far a further line of a contact in the list stands below the one before."""
_MIDDLE = WIDTH / 2

Wires = Mapping[str, tuple[str, ...]]


def plug_face(trailer: Trailer, figures: Figures, words: Words) -> str:
    """Return the contacts of the trailer's plug as one line of SVG; empty where it has none."""
    if trailer.tow_plug is None:
        return ""
    pattern = trailer.tow_plug.pattern
    wires: Wires = {at.pin: at.wires for at in figures.landings if at.part == TOW_PLUG}
    told = {c.pin: _told(trailer, c, wires.get(c.pin, ()), words) for c in pattern.contacts}
    page = Sheet([], wires_shown(trailer, figures))
    for one in (pattern, pattern.second):
        if one is not None:
            of_one = tuple(c for c in pattern.contacts if bool(c.plug) == bool(one.beside))
            _half(page, one, {c.number: told[c.pin] for c in of_one})
    return page.framed("wd-plug", words.plug_title)


def _half(page: Sheet, pattern: PlugPattern, told: Mapping[int, _Told]) -> None:
    """Draw one plug under its name: a face where a source tells one, else a list."""
    page.heading(pattern.second.beside if pattern.second else pattern.name)
    if pattern.face is None:
        _list(page, list(told.values()))
        return
    (_row if pattern.face.shape == "row" else _ring)(page, pattern.face, told)


@dataclass(frozen=True, slots=True)
class _Told:
    """What is said beside a contact: its number, its short mark, its function, the wires on it."""

    number: str
    mark: str
    function: str
    ground: bool
    wires: tuple[str, ...]
    joint: str

    def lines(self, room: float) -> tuple[str, ...]:
        joint = wrapped(self.joint, room, 11, most=2) if self.joint else ()
        return (*wrapped(self.function, room, 11, most=5), *joint)

    def height(self, room: float) -> float:
        return _LINE * (len(self.lines(room)) + bool(self.mark)) + _PLATE * len(self.wires)


def _told(trailer: Trailer, contact: PlugContact, wires: tuple[str, ...], words: Words) -> _Told:
    function = _function(trailer, contact, words)
    said = function if wires else words.plug_free.format(function)
    joint = words.plug_joint if len(wires) > 1 else ""
    return _Told(str(contact.number), _mark(contact), said, contact.is_ground, wires, joint)


def _row(page: Sheet, face: PlugFace, told: Mapping[int, _Told]) -> None:
    """Draw contacts in a row, the ground with a collar, and below each what it is for."""
    pitch = (WIDTH - 2 * EDGE) / len(face.contacts)
    y = page.y + 24
    page.shapes.append(box(EDGE, page.y, WIDTH - 2 * EDGE, 48, "f", 10))
    page.y += 48 + 8
    for place, contact in enumerate(face.contacts):
        one, x = told[contact], EDGE + pitch * (place + 0.5)
        if one.ground:
            page.shapes.append(circle(x, y, _CONTACT + 5, "h"))
        page.shapes += _at(one, x, y)
        page.shapes += _block(one, (x, page.y, pitch - 6), "middle", page.wires)
    page.y += max(told[contact].height(pitch - 6) for contact in face.contacts) + 4


def _ring(page: Sheet, face: PlugFace, told: Mapping[int, _Told]) -> None:
    """Draw contacts round a ring, clockwise from the top, and beside each what it is for."""
    turn = 2 * pi / len(face.contacts)
    wide, out = WIDTH - 2 * EDGE, _BODY + 5
    room = _MIDDLE - EDGE - out
    y = page.y + told[face.contacts[0]].height(wide) + 6 + _BODY
    page.shapes.append(circle(_MIDDLE, y, _BODY, "f"))
    low = y + _BODY
    sides: dict[Literal["start", "end"], list[tuple[float, _Told]]] = {"start": [], "end": []}
    for place, contact in enumerate(face.contacts):
        one, across, up = told[contact], sin(place * turn), cos(place * turn)
        page.shapes += _at(one, _MIDDLE + _RING * across, y - _RING * up)
        if abs(across) < 0.01:
            top = page.y if up > 0 else low + 6
            page.shapes += _block(one, (_MIDDLE, top, wide), "middle", page.wires)
            low = max(low, top + one.height(wide))
        else:
            sides["start" if across > 0 else "end"].append((y - _RING * up, one))
    for anchor, blocks in sides.items():
        below = -1.0
        for middle, one in sorted(blocks, key=lambda block: block[0]):
            top = max(middle - one.height(room) / 2, below)
            x = _MIDDLE + (out if anchor == "start" else -out)
            page.shapes += _block(one, (x, top, room), anchor, page.wires)
            below = top + one.height(room) + 4
            low = max(low, below)
    if face.centre is not None:
        one = told[face.centre]
        page.shapes += _at(one, _MIDDLE, y)
        bare = replace(one, mark="")
        page.shapes += _block(
            bare, (_MIDDLE, y + _CONTACT + 1, 2 * (_RING - _CONTACT) - 20), "middle", page.wires
        )
    page.y = low + 4


def _at(one: _Told, x: float, y: float) -> list[str]:
    """Draw a contact with its number in it, dashed where nothing lands on it."""
    said = (
        f'<text class="wd-n" x="{number(x)}" y="{number(y + 4.5)}" text-anchor="middle">{one.number}</text> '
    )
    return [circle(x, y, _CONTACT, "f" if one.wires else "o"), said]


def _block(
    one: _Told,
    at: tuple[float, float, float],
    anchor: Literal["start", "middle", "end"],
    wires: Mapping[str, Tag],
) -> list[str]:
    """Write mark, function and wires of a contact below each other; ``at`` is x, the upper edge and the room."""
    x, y, room = at
    lines = [(one.mark, "n")] if one.mark else []
    lines += [(line, "m") for line in one.lines(room)]
    shapes = []
    for said, name in lines:
        y += _LINE
        place = f'x="{number(x)}" y="{number(y - 2.5)}" text-anchor="{anchor}"'
        shapes.append(f'<text class="wd-{name}" {place}>{escape(said)}</text> ')
    share = {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
    for wire in one.wires:
        shapes.append(plate(x - share * plate_width(wire), y + 1, wire, wires))
        y += _PLATE
    return shapes


def _list(page: Sheet, told: Sequence[_Told]) -> None:
    """Draw the contacts one below the other, in the order of their numbers."""
    plates_x = _LABEL_X + max(text_width(one.mark, 12, bold=True) for one in told) + 8
    for one in told:
        _contact(page, one, plates_x)


def _contact(page: Sheet, one: _Told, plates_x: float) -> None:
    """Draw one contact of the list: its number in a ring, its mark, its wires and its function."""
    page.shapes.append(circle(_MARK_X, page.y + 14, 11, "f" if one.wires else "o"))
    page.text(_MARK_X - text_width(one.number, 12, bold=True) / 2, one.number, "n")
    page.text(_LABEL_X, one.mark, "n")
    x = max(page.plates(plates_x, one.wires, WIDTH - 120) + 4, plates_x + 54)
    for line in one.lines(WIDTH - EDGE - x):
        page.text(x, line, "m")
        page.y += _FURTHER
    page.y += ROW - _FURTHER


def _mark(contact: PlugContact) -> str:
    """Return the short mark of a contact, such as 58R; nothing where its label is a plain word or several."""
    plain = contact.label in contact.functions or " " in contact.label
    return "" if plain else contact.label


def _function(trailer: Trailer, contact: PlugContact, words: Words) -> str:
    """Return what a contact is for on this trailer; of several grounds, which contacts each serves."""
    told = contact.is_ground and (" " in contact.label or contact.label == "earth")
    return contact.label if told else words.functions(functions_here(trailer, contact)[0])


__all__ = ["plug_face"]
