"""Contacts of the tow plug that cars wire for different things behind a socket of the same form."""

from __future__ import annotations

from typing import Any

from builder.electrics.adapters import own_doubts
from builder.pages.view import View


def doubts_told(view: View) -> list[dict[str, Any]]:
    """Return a row for each contact in use that is not for the same thing in every car, in contact order.

    ``functions`` are what it is for here, ``instead`` what else some cars have there (common practice). ``lock_out``
    tells that it may work what releases the brakes of the trailer while the driver brakes.
    """
    trailer, plug = view.trailer, view.trailer.tow_plug
    if plug is None:
        return []
    surge = trailer.brakes is not None and trailer.brakes.kind == "surge"
    found: dict[str, dict[str, Any]] = {}
    for one in own_doubts(trailer):
        row = found.setdefault(
            one.contact, {"number": plug.said(one.contact), "functions": [], "instead": one.instead}
        )
        row["functions"].append(one.function)
        row["lock_out"] = "reverse" in row["functions"] and "brake" in one.instead and surge
    return [found[contact.pin] for contact in plug.pattern.contacts if contact.pin in found]
