"""The contacts of the tow plug one below the other, each with its mark, what it is for and the wires on it.

No published drawing of a plug's face is among our tables, and a plug and its socket are mirror images of each
other; so the contacts stand in the order of the numbers moulded beside them, and the words say so.
"""

from __future__ import annotations

from builder.drawings.circuit_wires import wires_shown
from builder.drawings.shapes import circle
from builder.drawings.sheet import EDGE, ROW, WIDTH, Sheet
from builder.drawings.text_width import text_width
from builder.drawings.wording import Words
from builder.electrics.figures import Figures
from builder.tables.tow_plugs import PlugContact
from builder.trailer.model import TOW_PLUG, Trailer

_MARK_X, _LABEL_X = EDGE + 10, 48.0


def plug_face(trailer: Trailer, figures: Figures, words: Words) -> str:
    """Return the contacts of the trailer's plug as one line of SVG; empty where it has none."""
    if trailer.tow_plug is None:
        return ""
    wires = {at.pin: at.wires for at in figures.landings if at.part == TOW_PLUG}
    page = Sheet([], wires_shown(trailer, figures))
    page.heading(trailer.tow_plug.pattern.name)
    contacts = trailer.tow_plug.pattern.contacts
    plates_x = _LABEL_X + max(text_width(_mark(contact), 12, bold=True) for contact in contacts) + 8
    for contact in contacts:
        _contact(page, contact, wires.get(str(contact.number), ()), (plates_x, words))
    return page.framed("wd-plug", words.plug_title)


def _contact(page: Sheet, contact: PlugContact, wires: tuple[str, ...], at: tuple[float, Words]) -> None:
    """Draw one contact: its number in a ring, dashed where nothing lands on it, then its wires and its function."""
    number, (plates_x, words) = str(contact.number), at
    page.shapes.append(circle(_MARK_X, page.y + 14, 11, "f" if wires else "o"))
    page.text(_MARK_X - text_width(number, 12, bold=True) / 2, number, "n")
    page.text(_LABEL_X, _mark(contact), "n")
    x = max(page.plates(plates_x, wires, WIDTH - 120) + 4, plates_x + 54)
    function = _function(contact)
    said = function if wires else words.plug_free.format(function)
    page.text(x, said, "m", room=WIDTH - EDGE - x)
    page.y += ROW


def _mark(contact: PlugContact) -> str:
    """Return the short mark of a contact, such as 58R; nothing where its label is a plain word or several."""
    plain = contact.label in contact.functions or " " in contact.label
    return "" if plain else contact.label


def _function(contact: PlugContact) -> str:
    """Return what a contact is for; of several grounds, which contacts each serves."""
    several = contact.is_ground and " " in contact.label
    return contact.label if several else ", ".join(contact.functions)


__all__ = ["plug_face"]
