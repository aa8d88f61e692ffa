"""Wires run near something hot.

What: the file says that a chase with wires in it runs beside something that gets hot.

Why: insulation ages in the heat and goes hard, and a warm wire bears less current than these figures take it to.

Limit: common practice. How far wires stay from a heater, a flue or a cooker is said in the papers of that part; no
figure of ours.

Walls open: another way for the wires, a shield, or wire that bears more heat.

Walls closed: a shield from the side of the hot part, or new wire that stays in sight.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {groove: {through: [front box, lamp], near heat: flue of the heater}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {groove: {through: [front box, lamp], where: under the bed}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import say
from builder.trailer.model import Trailer

HEAT_SAYS = "the wires in “{chase}” run near this: {what}"
HEAT_HELP = (
    "lead them another way, or shield them as the papers of the hot part say; where they stay, take a wire that bears "
    "more heat"
)
HEAT_CLOSED_HELP = (
    "shield them as the papers of the hot part say, from its side; or lay new wire where it stays in sight, away from "
    "it"
)
HEAT_BASIS = "common practice; the papers of the hot part decide"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each chase with wires that runs near heat."""
    used = {stretch.chase for stretch in figures.runs.inside}
    for chase in trailer.geometry.chases.values():
        told = chase.fittings
        if told.near_heat and chase.name in used:
            values = {"chase": chase.name, "what": told.near_heat}
            message = say(HEAT_SAYS, **values)
            yield Remark(
                told.written["near heat"],
                message,
                WayOut(HEAT_HELP, HEAT_CLOSED_HELP),
                "practice",
                HEAT_BASIS,
            )
