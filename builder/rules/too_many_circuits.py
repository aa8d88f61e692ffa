"""There are more circuits than fuse ways.

What: a circuit takes a way that the fuse block of the front box does not have.

Why: two circuits on one fuse are no longer what this manual says.

Limit: ``fuse ways`` of the front box (the file itself).

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 1}
    parts: {fan: {kind: fan, draws: 1 A}, lamp: {kind: lamp, draws: 3 W}}
    circuits:
      fan: {path: [fan: 6 ft]}
      lamp: {path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 2}
    parts: {fan: {kind: fan, draws: 1 A}, lamp: {kind: lamp, draws: 3 W}}
    circuits:
      fan: {path: [fan: 6 ft]}
      lamp: {path: [lamp: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.wording import say
from builder.trailer.model import Trailer

WAY_SAYS = "“{circuit}” takes fuse way {way}, and the fuse block has {ways}"
WAYS_HELP = "choose a block with fuse ways: {needed}, or put two small circuits on one fuse as branches"
WAYS_BASIS = "fuse ways of the front box"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every circuit whose way is beyond the fuse block."""
    box = trailer.front_box
    if box is None:
        return
    needed = max((way.way for way in figures.ways), default=0)
    for circuit in trailer.circuits:
        if circuit.way is not None and circuit.way > box.fuse_ways:
            yield Remark(
                origin=circuit.origin,
                message=say(WAY_SAYS, circuit=circuit.name, way=circuit.way, ways=box.fuse_ways),
                help=say(WAYS_HELP, needed=needed),
                known="file",
                basis=WAYS_BASIS,
                circuit=circuit.number,
            )
