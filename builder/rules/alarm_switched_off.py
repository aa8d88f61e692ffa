"""An alarm goes dead with a switch.

What: a gas, smoke or carbon monoxide alarm gets its current through the isolating switch, or through another
switch, dimmer, receiver or relay, and no other way.

Why: whoever switches everything off for the night, or leaves the trailer with the heater on, sleeps without the
alarm, and nothing tells him. An alarm is always on.

Limit: common practice. An alarm starts before the isolating switch, behind a small fuse of its own.

Walls open: a circuit of its own.

Walls closed: new wire that stays in sight, or an alarm with a battery of its own.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 5 in, isolating switch: 1 ft, front box: 2 ft]}
    front box: {fuse ways: 4}
    parts: {gas alarm: {kind: alarm, draws: 80 mA}}
    circuits:
      gas alarm: {fuse: 3 A, path: [gas alarm: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 5 in, isolating switch: 1 ft, front box: 2 ft]}
    front box: {fuse ways: 4}
    parts: {gas alarm: {kind: alarm, draws: 80 mA}}
    circuits:
      gas alarm: {from: main fuse, fuse: 3 A, path: [gas alarm: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.electrics.network import Back, Neighbours, neighbours, reach, with_converters
from builder.rules.finding import Remark, WayOut
from builder.rules.guarding import PROTECTORS
from builder.rules.wording import amps, say
from builder.tables.assumptions import defaults
from builder.trailer.model import BATTERY, BATTERY_PLUS, FRONT_BOX, Trailer
from builder.trailer.parts import ISOLATOR, SWITCHING, Terminal
from builder.trailer.wires import Load

OFF_SAYS = "“{alarm}” is dead when “{switch}” is off"
ALONE_SAYS = "“{alarm}” hangs on “{supply}” alone, and is dead without it"
BEFORE_HELP = (
    "let it start before the isolating switch, in a circuit of its own under circuits: "
    "from: {start}, fuse: {fuse}"
)
OWN_HELP = "give it a circuit of its own under circuits, without a switch: fuse: {fuse}, path: [{alarm}: …]"
BEFORE_CLOSED_HELP = (
    "lay new wire to it where it stays in sight, from before the isolating switch: from: {start}, fuse: {fuse}; or fit "
    "an alarm with a battery of its own, and take this one out"
)
OWN_CLOSED_HELP = (
    "lay new wire to it where it stays in sight, a circuit of its own without a switch: fuse: {fuse}, path: [{alarm}: "
    "…]; or fit an alarm with a battery of its own, and take this one out"
)
ALWAYS_BASIS = "an alarm is always on, common practice"
SWITCHES = (ISOLATOR, *SWITCHING)


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:  # noqa: ARG001 - every rule takes both
    """Yield a remark for every alarm that the battery feeds through something that switches it off."""
    if trailer.battery is None:
        return
    graph = with_converters(trailer, neighbours(trailer))
    whole = reach(graph, BATTERY_PLUS)
    always = reach(_without_switches(trailer, graph), BATTERY_PLUS)
    for load in trailer.loads:
        part = trailer.parts.get(load.part)
        if part is None or part.kind != "alarm" or load.what:
            continue
        start = trailer.circuit(load.circuit).start.part
        if load.plus not in whole and start != FRONT_BOX:
            yield _remark(trailer, load, say(ALONE_SAYS, alarm=load.part, supply=start), isolated=True)
        if load.plus not in whole:
            continue
        if load.plus not in always:
            switches = _switches_on_the_way(trailer, whole, load.plus)
            isolated = any(trailer.parts[name].kind == ISOLATOR for name in switches)
            said = say(OFF_SAYS, alarm=load.part, switch=switches[0])
            yield _remark(trailer, load, said, isolated=isolated)


def _without_switches(trailer: Trailer, graph: Neighbours) -> Neighbours:
    names = {part.name for part in trailer.parts.values() if part.kind in SWITCHES}
    return {
        here: tuple(step for step in near if here.part not in names or step[0].part != here.part)
        for here, near in graph.items()
    }


def _switches_on_the_way(trailer: Trailer, back: Back, here: Terminal) -> list[str]:
    """Return the names of what switches on the way from the battery to a terminal, the first one first."""
    found: list[str] = []
    step = back[here]
    while step is not None:
        near, wire = step
        part = trailer.parts.get(near.part)
        if wire < 0 and part is not None and part.kind in SWITCHES and part.name not in found:
            found.append(part.name)
        step = back[near]
    return found[::-1]


def _remark(trailer: Trailer, load: Load, said: str, *, isolated: bool) -> Remark:
    sentences = (BEFORE_HELP, BEFORE_CLOSED_HELP) if isolated else (OWN_HELP, OWN_CLOSED_HELP)
    values = {
        "alarm": load.part,
        "start": _before_the_isolator(trailer),
        "fuse": amps(defaults()["smallest fuse"].value),
    }
    return Remark(
        origin=load.origin,
        message=said,
        help=WayOut(*(say(sentence, **values) for sentence in sentences)),
        known="practice",
        basis=ALWAYS_BASIS,
        circuit=load.circuit,
    )


def _before_the_isolator(trailer: Trailer) -> str:
    """Return the last fuse of the battery's line before its isolating switch; the battery where there is none."""
    line = trailer.battery_line
    start = BATTERY
    for stop in line.stops if line is not None else ():
        part = trailer.parts.get(stop.part)
        if part is None or part.kind == ISOLATOR:
            break
        if part.kind in PROTECTORS:
            start = part.name
    return start
