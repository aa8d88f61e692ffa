"""What the contacts of the tow plug do on this trailer, in the words of the place where it runs."""

from __future__ import annotations

from collections.abc import Collection

from builder.tables.tow_plugs import PlugContact
from builder.trailer.model import Trailer

BESIDES = ("front position", "clearance", "identification")
"""What lamps show on the contact of another function, since plugs have none for it."""

AMERICAN = ("US", "CA", "other")
"""Countries where an earth is called a ground, an indicator a turn lamp, a drawbar a tongue (common practice)."""

_ELSEWHERE = {
    "left turn": "left indicator", "right turn": "right indicator", "turn": "indicator", "ground": "earth",
}  # fmt: skip


def functions_here(trailer: Trailer, contact: PlugContact) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what a contact of the tow plug does on this trailer, and what else the standard lets it do.

    A contact that feeds no road lamp does all that the standard says.
    """
    return among(
        contact, {what for lamp in trailer.road_lamps for what, at in lamp.contacts if at == contact.pin}
    )


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
    return function if country in AMERICAN else _ELSEWHERE.get(function, function)


def functions_said(trailer: Trailer, contact: PlugContact) -> str:
    """Return what a contact does on this trailer, as one line in the words of its country."""
    return ", ".join(said_in(trailer.identity.country, one) for one in functions_here(trailer, contact)[0])
