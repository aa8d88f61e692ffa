"""The breakaway does not reach a brake that the car works.

What: a breakaway switch or battery is among the parts, and its circuit does not end where the brakes are wired, or
leaves a magnet out that the plug's contact feeds.

Why: a trailer that comes loose is stopped by the brakes that this battery reaches, and by no others. One braked wheel
alone pulls it to the side.

Limit: the file itself. Local rules on brakes come first; setting and testing brakes is the work of people trained for
it.

Walls open: an end at a splice or a magnet of the brakes.

Walls closed: the same, at one that can be reached under the floor.

Failing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 7-way blade, to front box: 7 ft}
    brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}
    parts:
      breakaway battery: {kind: breakaway battery}
      breakaway switch: {kind: breakaway switch}
      left brake: {kind: brake magnet}
      right brake: {kind: brake magnet}
    circuits:
      brakes: {from: tow plug brake, size: 10 AWG, path: [left brake: 12 ft, right brake: 5 ft]}
      breakaway: {from: breakaway battery, fuse: 20 A, size: 10 AWG, path: [breakaway switch: 1 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 7-way blade, to front box: 7 ft}
    brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}
    parts:
      breakaway battery: {kind: breakaway battery}
      breakaway switch: {kind: breakaway switch}
      left brake: {kind: brake magnet}
      right brake: {kind: brake magnet}
    circuits:
      brakes: {from: tow plug brake, size: 10 AWG, path: [left brake: 12 ft, right brake: 5 ft]}
      breakaway: {from: breakaway battery, fuse: 20 A, size: 10 AWG, path: [breakaway switch: 1 ft, left brake: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.braking import breakaway_line, fed_by_breakaway
from builder.electrics.figures import Figures
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import say
from builder.trailer.model import Trailer
from builder.trailer.parts import BRAKE_MAGNET, BREAKAWAY_BATTERY

REACH_SAYS = "“{circuit}” does not reach {names}, which the car brakes"
REACH_HELP = (
    "let it end at a splice or a magnet on the path of the brakes, as in breakaway: {{from: breakaway battery, "
    "fuse: 20 A, path: [breakaway switch: 1 ft, brake splice: 10 ft]}}"
)
REACH_CLOSED_HELP = (
    "let it end at a splice or a magnet of the brakes that can be reached under the floor, with wire that stays in "
    "sight, as in breakaway: {{from: breakaway battery, fuse: 20 A, path: [breakaway switch: 1 ft, brake splice: 10 "
    "ft]}}"
)
SWITCH_SAYS = "“{circuit}” starts at the breakaway battery, and no breakaway switch stands on its path"
SWITCH_HELP = "put one behind the fuse, with breakaway switch: {{kind: breakaway switch}} under parts"
FILE_BASIS = "the paths in the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark where the breakaway's circuit has no switch, and where it leaves a magnet of the brakes out."""
    line = breakaway_line(trailer)
    if line is None:
        yield from _no_switch(trailer)
        return
    brakes = figures.brakes.circuit if figures.brakes is not None else None
    wired = {load.part for load in trailer.loads if load.circuit == brakes}
    magnets = [name for name, part in trailer.parts.items() if part.kind == BRAKE_MAGNET and name in wired]
    left_out = [name for name in magnets if name not in fed_by_breakaway(trailer)]
    if left_out:
        yield Remark(
            origin=line.origin,
            message=say(REACH_SAYS, circuit=line.name, names=" and ".join(f"“{name}”" for name in left_out)),
            help=WayOut(say(REACH_HELP), say(REACH_CLOSED_HELP)),
            known="file",
            basis=FILE_BASIS,
            circuit=line.number,
        )


def _no_switch(trailer: Trailer) -> Iterator[Remark]:
    """Yield a remark for a circuit from the breakaway battery without a switch: the brakes would hold all the time."""
    for circuit in trailer.circuits:
        part = trailer.parts.get(circuit.start.part)
        if part is not None and part.kind == BREAKAWAY_BATTERY:
            yield Remark(
                origin=circuit.origin,
                message=say(SWITCH_SAYS, circuit=circuit.name),
                help=say(SWITCH_HELP),
                known="file",
                basis=FILE_BASIS,
                circuit=circuit.number,
            )
