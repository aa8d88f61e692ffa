"""What a switch must be rated for: its load, and how hard that load is on contacts."""

from __future__ import annotations

from collections.abc import Sequence

from builder.electrics.figures import Figures, SwitchFigures
from builder.electrics.network import LoadPath
from builder.electrics.protection import switch_min_rating
from builder.trailer.model import Trailer
from builder.trailer.parts import BREAKAWAY_SWITCH, CONTACTS, ISOLATOR, RELAY, Law, Part
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


def line_rating_a(trailer: Trailer, figures: Figures, part: Part) -> float:
    """Return what an isolating switch, or any switch in the battery's own line, has to bear in amperes; 0 for others.

    That is what its fuse lets pass, not only what flows with everything on. Common practice.
    """
    behind = [wire for wire in trailer.wires if wire.start.part == part.name]
    line = trailer.battery_line
    in_line = line is not None and any(wire.circuit == line.number for wire in behind)
    if part.kind != ISOLATOR and not (in_line and part.kind in SWITCHES):
        return 0.0
    circuits = {wire.circuit for wire in behind}
    flows = [figures.wires[wire.number].current_a for wire in behind if wire.number in figures.wires]
    passed = [fuse.rating_a or 0.0 for fuse in figures.fuses if fuse.circuit in circuits]
    return max([*flows, *passed], default=0.0)
