"""Wires that serve nothing any more and may still lie in a wall."""

from __future__ import annotations

import re

from builder.trailer.ledger import IssuedWire, number_order
from builder.trailer.model import Trailer
from builder.trailer.wires import Wire


def left_wires(trailer: Trailer) -> tuple[IssuedWire, ...]:
    """Return the wires that were taken out of the build file while walls were closed, in the order of their numbers.

    One that stands under ``spares``, its number in its name, is a spare wire again and no longer among them.
    """
    if trailer.ledger is None:
        return ()
    gone = frozenset(trailer.gone) if trailer.identity.walls_closed else frozenset()
    again = frozenset(number for spare in trailer.spares for number in _words(spare))
    left = [
        wire
        for wire in trailer.ledger.wires
        if (wire.left or wire.number in gone) and wire.number not in again
    ]
    return tuple(sorted(left, key=lambda wire: number_order(wire.number)))


def _words(spare: Wire) -> list[str]:
    return re.findall(r"[0-9A-Z]+", spare.start.pin.upper())
