"""A way of a connector carries more than it bears.

What: with everything on, the current through one way of a connector is above the rating that the file gives its
ways.

Why: the contact gets hot, its spring goes soft, and it gets hotter still, until the housing melts. The way that
takes the returns of several parts is the first.

Limit: ``rating`` of the connector, which is that of each of its ways (the file itself). It is a *must fix* when
the loads that the file states are above it by themselves; with assumed ones it is a *should fix*.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {hatch plug: {kind: connector, ways: 4, rating: 3 A}, heater: {kind: heater, draws: 5 A}}
    circuits:
      heater: {path: [hatch plug: 3 ft, heater: 3 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {hatch plug: {kind: connector, ways: 4, rating: 10 A}, heater: {kind: heater, draws: 5 A}}
    circuits:
      heater: {path: [hatch plug: 3 ft, heater: 3 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.carrying import way_flows
from builder.electrics.figures import Figures
from builder.rules.finding import Level, Remark
from builder.rules.loading import stated_on_wire_a
from builder.rules.wording import amps, amps_up, is_above, say
from builder.trailer.model import Trailer
from builder.trailer.parts import Form

WAY_SAYS = "{way} of “{part}” carries {load} with everything on, and each of its ways bears {rating}"
WAY_HELP = "choose a connector whose ways bear more, rating: {load}, or let less hang on that way"
RATING_BASIS = "the rating in the file, and what hangs on the way"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every connector with a way above its rating: the way that carries most."""

    def flows(number: str) -> float:
        return figures.wires[number].current_a if number in figures.wires else 0.0

    def stated(number: str) -> float:
        return stated_on_wire_a(trailer, figures, number)

    on_ways, surely_on_ways = way_flows(trailer, flows), way_flows(trailer, stated)
    for part in trailer.parts.values():
        if part.form is not Form.THROUGH or part.rating_a is None:
            continue
        loads, stated_a = on_ways.get(part.name, {}), surely_on_ways.get(part.name, {})
        surely = [way for way, current_a in stated_a.items() if is_above(current_a, part.rating_a)]
        sure = bool(surely)  # a way that is surely above comes before one that only may carry more
        way = max(surely or loads, key=lambda name: loads[name], default="")
        if way and is_above(loads[way], part.rating_a):
            yield Remark(
                origin=part.origin,
                message=say(
                    WAY_SAYS, way=way, part=part.name, load=amps_up(loads[way]), rating=amps(part.rating_a)
                ),
                help=say(WAY_HELP, load=amps_up(loads[way])),
                known="file" if sure else "practice",
                basis=RATING_BASIS,
                level=Level.MUST if sure else Level.SHOULD,
            )
