"""What comes back to one ground contact of the tow plug is too much for its one conductor, or dims the lamps.

What: everything that comes back to one ground contact is added up, in each state of the car: lights on; lights, brake
and left turn; everything on. Where several wires land on the contact, the sum is above what its one conductor carries;
or lamps share it with a supply or brakes, and it loses more than lamps should lose in their ground.

Why: a plug has one ground contact for lamps, charging and brakes, and its cable one conductor from there. A hot
contact corrodes, and what it loses dims every lamp that shares it.

Limit: the current that 33 CFR 183.425 Table 5 (read) gives the conductor which the plug's standard or its use gives
this contact; no rating of the contact itself was found. At most 0.2 V lost in the ground of lamps, common practice.
Too much current is a *should fix*, too much drop worth knowing.

Walls open: less at a time, another plug, or a cable with more copper in its ground.

Walls closed: less at a time, or another plug; its cable runs on behind the front wall.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 100 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    tow plug: {pattern: 7-way blade, to front box: 7 ft}
    wire: {on the shelf: [10 AWG, 8 AWG], insulation: 60 C}
    parts: {heater: {kind: heater, draws: 28 A}, left brake: {kind: brake magnet}, right brake: {kind: brake magnet}}
    circuits:
      heater: {from: tow plug battery, path: [line fuse: 5 in, heater: 2 ft]}
      brakes: {from: tow plug brake, path: [left brake: 12 ft, right brake: 5 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 100 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    tow plug: {pattern: 7-way blade, to front box: 7 ft}
    wire: {on the shelf: [10 AWG, 8 AWG], insulation: 60 C}
    parts: {heater: {kind: heater, draws: 5 A}, left brake: {kind: brake magnet}, right brake: {kind: brake magnet}}
    circuits:
      heater: {from: tow plug battery, path: [line fuse: 5 in, heater: 2 ft]}
      brakes: {from: tow plug brake, path: [left brake: 12 ft, right brake: 5 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.electrics.figures import Figures
from builder.electrics.plug_grounds import PlugGround
from builder.electrics.plug_states import STATES
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import amps, amps_up, is_above, say, volts
from builder.tables.plug_limits import GROUND_DROP_V
from builder.trailer.model import TowPlug, Trailer

IN_STATE = {
    STATES[0]: "with the lights on",
    STATES[1]: "with the lights on, the brake and one turn lamp",
    STATES[2]: "with everything on",
}
LOAD_SAYS = (
    "{state} {load} comes back to ground contact {contact} of the tow plug, from contacts {serves}: its conductor, "
    "{size}, carries {most}"
)
DROP_SAYS = (
    "{state} {load} comes back to ground contact {contact} of the tow plug, from contacts {serves}: its conductor, "
    "{size}, loses {drop}, and the lamps on it grow dimmer by that"
)
GROUND_HELP = (
    "let less come back there at a time: a charger that takes less, or a plug with a ground contact of its own for the "
    "supply, as a 13-pin has; ask for a cable with a thicker ground"
)
GROUND_CLOSED_HELP = (
    "let less come back there at a time: a charger that takes less, or a plug with a ground contact of its own for the "
    "supply, as a 13-pin has"
)
LOAD_BASIS = "33 CFR 183.425 Table 5 for the conductor that is usual at this contact"
DROP_BASIS = "0.2 V in the ground of lamps, common practice"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every ground contact to which more comes back than its conductor carries or should lose."""
    plug = trailer.tow_plug
    for ground in figures.plug_grounds if plug is not None else ():
        if plug is None or ground.size is None or ground.bears_a is None:
            continue
        # one wire alone is judged as every wire is
        over = _first(ground.amps, ground.bears_a) if len(ground.wires) > 1 else None
        dim = _first(ground.drop_v, GROUND_DROP_V) if ground.dims_lamps else None
        if over is not None:
            yield _remark(plug, ground, over, Level.SHOULD)
        elif dim is not None:
            yield _remark(plug, ground, dim, Level.WORTH)


def _first(values: Mapping[str, float], limit: float) -> str | None:
    """Return the first state in which a value is above its limit."""
    return next((state for state in STATES if is_above(values[state], limit)), None)


def _remark(plug: TowPlug, ground: PlugGround, state: str, level: Level) -> Remark:
    load = level is Level.SHOULD
    return Remark(
        origin=plug.half(plug.pattern.contact(ground.pin)).origin,
        message=say(
            LOAD_SAYS if load else DROP_SAYS,
            state=IN_STATE[state],
            load=amps_up(ground.amps[state]),
            contact=plug.said(ground.pin),
            serves=", ".join(plug.said(pin) for pin in ground.serves),
            size=ground.size,
            most=amps(ground.bears_a or 0.0),
            drop=volts(ground.drop_v[state]),
        ),
        help=WayOut(say(GROUND_HELP), say(GROUND_CLOSED_HELP)),
        known="practice",
        basis=LOAD_BASIS if load else DROP_BASIS,
        level=level,
    )
