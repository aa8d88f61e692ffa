"""What the contacts of the tow plug do on this trailer, in the words of the place where it runs."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from builder.tables.tow_plugs import PlugContact
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.parts import BRAKE_MAGNET, Terminal

BESIDES = ("front position", "clearance", "identification")
"""What lamps show on the contact of another function, since plugs have none for it."""

EITHER = frozenset({"brake", "reverse"})
"""What one contact of a 5-way flat plug is for, one or the other as the car has it (common practice)."""

AMERICAN = ("US", "CA", "other")
"""Countries where an earth is called a ground, an indicator a turn lamp, a drawbar a tongue (common practice)."""

_SIDES = frozenset({"left", "right"})
_ANYWHERE = {
    "battery": "power from the car", "switched supply": "power from the car while its key is on",
    "brake": "electric brakes", "reserved": "kept for later use",
}  # fmt: skip
_ELSEWHERE = {
    "left turn": "left indicator", "right turn": "right indicator", "turn": "indicator", "ground": "earth",
    "stop": "brake lamp", "left stop": "left brake lamp", "right stop": "right brake lamp",
    "reverse": "reversing lamp", "marker": "side marker",
}  # fmt: skip
_ON_LAMPS = {"turn": "indicator", "stop": "brake", "reverse": "reversing", "marker": "side marker"}


def functions_here(trailer: Trailer, contact: PlugContact) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what a contact of the tow plug does on this trailer, and what else the standard lets it do.

    A contact that feeds no road lamp does all that the standard says; where that is brakes or reversing, as the car has
    it, what hangs on it tells.
    """
    shown = {what for lamp in trailer.road_lamps for what, at in lamp.contacts if at == contact.pin}
    if not shown and set(contact.functions) >= EITHER:
        shown = _fed(trailer, contact)
    return among(contact, shown)


def _fed(trailer: Trailer, contact: PlugContact) -> set[str]:
    """Return ``brake`` where a contact feeds the magnets of brakes, ``reverse`` where it feeds anything else."""
    here = Terminal(TOW_PLUG, contact.pin)
    stops = [stop for circuit in trailer.circuits if circuit.start == here for stop in circuit.stops]
    kinds = {trailer.parts[stop.part].kind for stop in stops if stop.part in trailer.parts}
    return {"brake" if BRAKE_MAGNET in kinds else "reverse"} if kinds else set()


def among(contact: PlugContact, shown: Collection[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what a contact does where its lamps show these functions, and what else the standard lets it do.

    What lamps show besides, such as a front position lamp on the tail lamps' contact, stands last.
    """
    used = tuple(one for one in contact.functions if one.split()[-1] in shown)
    known = {one.split()[-1] for one in contact.functions}
    here = (*used, *(one for one in BESIDES if one in shown and one not in known))
    if not here:
        return contact.functions, ()
    return here, tuple(one for one in contact.functions if one not in used)


def said_in(country: str, function: str) -> str:
    """Return the word for a contact's function where the trailer runs: indicator for turn outside America."""
    known = _ANYWHERE if country in AMERICAN else _ANYWHERE | _ELSEWHERE
    return known.get(function, function)


def shown_in(country: str, what: str) -> str:
    """Return what a road lamp shows, such as ``stop, turn``, in the words of the place where the trailer runs."""
    if country in AMERICAN:
        return what
    return re.sub(r"\w+", lambda word: _ON_LAMPS.get(word[0], word[0]), what)


def contact_mark(trailer: Trailer, contact: PlugContact) -> str:
    """Return what stands beside a contact's number: its mark, such as 58R, else what it does on this trailer."""
    if contact.is_ground or contact.label.isupper() or contact.label[0].isdigit():
        return contact.label
    return functions_said(trailer, contact)


def functions_said(trailer: Trailer, contact: PlugContact) -> str:
    """Return what a contact does on this trailer, as one line in the words of its country."""
    return line_of(contact, functions_here(trailer, contact)[0], trailer.identity.country)


def line_of(contact: PlugContact, functions: Sequence[str], country: str) -> str:
    """Return functions of a contact as one line in the words of a country.

    Where the contact is for one side and none of them says so, as with side markers on the left tail lamp's contact,
    the first one does: so no two contacts are called alike.
    """
    own = {one.split()[0] for one in contact.functions} & _SIDES
    said = [said_in(country, one) for one in functions]
    if len(own) == 1 and not any(one.split()[0] in _SIDES for one in functions):
        said[0] = f"{own.pop()} {said[0]}"
    return ", ".join(said)
