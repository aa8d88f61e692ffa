"""Three wires may jam in a conduit.

What: three wires run through a conduit whose bore is about three times their diameter. In a bend they can lie in one
row then, and wedge.

Why: wedged wires tear while they are pulled, and nobody sees it.

Limit: a bore of 2.8 to 3.2 times the diameter of the wires, NEC Chapter 9 Table 1 informational note 2 (quoted);
diameters from makers' data sheets (quoted), the mean of the three where they differ (common practice).

Walls open: a fourth wire, or another bore.

Walls closed: no pulling at the three; a fourth wire where it goes in.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {tube: {through: [front box, lamp], kind: conduit, bore: 9.5 mm}}
    wire: {on the shelf: [16 AWG]}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
    spares:
      second feed: {from: front box, to: lamp, wire: 9 ft}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {tube: {through: [front box, lamp], kind: conduit, bore: 10 mm}}
    wire: {on the shelf: [16 AWG]}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
    spares:
      second feed: {from: front box, to: lamp, wire: 9 ft}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import say
from builder.trailer.model import Trailer

JAM_SAYS = (
    "the three wires in “{chase}” between “{start}” and “{end}” may jam: its bore is {ratio} times "
    "their diameter"
)
JAM_HELP = (
    "draw a fourth, spare wire in with them, or use another bore: below 2.8 or above 3.2 times their diameter"
)
JAM_CLOSED_HELP = "draw none of the three out or along; a fourth, spare wire drawn in later ends it"
JAM_BASIS = "NEC Chapter 9 Table 1, informational note 2"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each conduit in which three wires may jam: for its first such stretch."""
    told: set[str] = set()
    for one in figures.fills:
        if not one.jams or one.ratio is None or one.stretch.chase in told:
            continue
        told.add(one.stretch.chase)
        chase = trailer.geometry.chases[one.stretch.chase]
        values = {
            "chase": chase.name,
            "start": chase.through[one.stretch.number],
            "end": chase.through[one.stretch.number + 1],
            "ratio": f"{one.ratio:.1f}",
        }
        yield Remark(
            origin=chase.bore_origin or chase.origin,
            message=say(JAM_SAYS, **values),
            help=WayOut(JAM_HELP, JAM_CLOSED_HELP),
            known="quoted",
            basis=JAM_BASIS,
        )
