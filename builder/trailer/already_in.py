"""Which wires are in the trailer already, as far as the file says so: they are not cut and pulled again."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.trailer.bays import EVERYTHING
from builder.trailer.model import Trailer
from builder.trailer.wires import Role

PULLED, MEASURED = "pulled", "measured"


def already_in(trailer: Trailer) -> Mapping[str, str]:
    """Return by its number why each wire counts as in.

    Its circuit or spare is told as pulled, a spare that is pulled stands for it, or it was measured.
    """
    measured = {one.about for one in trailer.changes if one.kind == "wire" and "length" in one.words}
    told = {one.name for one in trailer.pulled}
    circuits = {circuit.number: circuit.name for circuit in trailer.circuits}
    found = {}
    for wire in (*trailer.wires, *trailer.spares):
        name = wire.start.pin if wire.role is Role.SPARE else circuits[wire.circuit]
        if EVERYTHING in told or name in told or wire.number in trailer.in_already:
            found[wire.number] = PULLED
        elif wire.number in measured:
            found[wire.number] = MEASURED
    return found


def piece_in(wires: Iterable[str], known: Mapping[str, str]) -> str:
    """Return why a piece of some wires counts as in; empty where one of its wires does not."""
    reasons = {known.get(wire, "") for wire in wires}
    if "" in reasons:
        return ""
    return PULLED if PULLED in reasons else MEASURED
