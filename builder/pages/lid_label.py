"""The label inside the lid of the front box: a code, and three lines that help without it."""

from __future__ import annotations

from typing import Any

from builder.drawings.lid_code import fits_code, lid_code
from builder.pages.catalogue import catalogue
from builder.pages.view import View
from builder.pages.wiring import isolating_switch

PICTURE = "pictures/lid-code.svg"


def lid_words(view: View) -> str:
    """Return what the code holds: the manual's address, else the trailer's name and number and the content number."""
    address = view.trailer.identity.address
    return address if address and fits_code(address) else _named(view)


def _named(view: View) -> str:
    identity, say = view.trailer.identity, catalogue(view.language).gettext
    number = f" {say('no.')} {identity.number}" if identity.number else ""
    words = f"{identity.name}{number}, {say('content')} {view.edition.number}"
    # a name may be as long as its maker likes
    return words if fits_code(words) else f"{say('content')} {view.edition.number}"


def lid_label(view: View) -> dict[str, Any]:
    """Return what the template of the label is filled with."""
    trailer, isolator = view.trailer, isolating_switch(view.trailer)
    identity = trailer.identity
    return {
        "name": identity.name,
        "number": identity.number,
        "picture": PICTURE,
        "code_says": lid_words(view),
        "too_long": bool(identity.address) and lid_words(view) != identity.address,
        "switch": isolator.name if isolator else "",
        "switch_where": isolator.where if isolator else "",
        "battery": trailer.battery is not None,
        "battery_where": trailer.battery.where if trailer.battery else "",
        "kept": identity.manual_kept,
        "ask": identity.ask,
    }


def lid_files(view: View) -> dict[str, str]:
    """Return the picture of the code by its path."""
    title = catalogue(view.language).gettext("Code: %(words)s") % {"words": lid_words(view)}
    return {PICTURE: lid_code(lid_words(view), title)}
