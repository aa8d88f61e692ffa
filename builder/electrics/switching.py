"""What a switch must be rated for: its load, and how hard that load is on contacts."""

from __future__ import annotations

from collections.abc import Sequence

from builder.electrics.figures import SwitchFigures
from builder.electrics.network import LoadPath
from builder.electrics.protection import switch_min_rating
from builder.trailer.model import Trailer
from builder.trailer.parts import BREAKAWAY_SWITCH, CONTACTS, RELAY, Law
from builder.trailer.wires import Load

SWITCHES = (*CONTACTS, "dimmer", RELAY, BREAKAWAY_SWITCH)
"""What has a rating to be chosen by; a receiver's is its maker's affair."""
MOTORS = ("fan", "pump")


def load_kind(trailer: Trailer, load: Load) -> str:
    """Return how a load counts for a switch: motor, inductive (a coil), lamp (a filament) or resistive.

    Source: the kinds of FAA AC 43.13-1B Table 11-4 (read); an LED lamp has no filament and counts as resistive.
    """
    part = trailer.parts.get(load.part)
    if load.what == "coil":
        return "inductive"
    if part is not None and part.kind in MOTORS:
        return "motor"
    if part is not None and part.kind == "lamp" and load.draw is not None and load.draw.law is Law.RESISTANCE:
        return "lamp"
    return "resistive"


def switch_figures(
    trailer: Trailer, paths: Sequence[LoadPath], currents: Sequence[float]
) -> tuple[SwitchFigures, ...]:
    """Return for every switch the current through it with everything on, and the least rating it needs, in amperes.

    Each load counts with the factor of its kind, and the parts are added. Source: FAA AC 43.13-1B Table 11-4, read.
    """
    found = []
    for part in trailer.parts.values():
        if part.kind not in SWITCHES:
            continue
        through = [
            (path.load, current_a)
            for path, current_a in zip(paths, currents, strict=True)
            if any(trailer.wires[wire].start.part == part.name for wire in path.feeds)
        ]
        if not through:
            continue
        found.append(
            SwitchFigures(
                name=part.name,
                circuit=through[0][0].circuit,
                load_a=sum(current_a for _, current_a in through),
                least_rating_a=sum(switch_min_rating(a, load_kind(trailer, load)) for load, a in through),
            )
        )
    return tuple(found)
