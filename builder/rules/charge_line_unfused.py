"""A charge line that both ends can feed has a fuse at one end only.

What: a path runs from the tow plug to the battery, or to the front box, with no charger between, and no fuse stands
near the plug.

Why: the car feeds this wire from one end and the battery from the other. A fuse at the battery opens for the battery
alone; into a short circuit the car goes on feeding. How large the car's fuse is, and whether it is there at all, no
trailer knows.

Limit: a fuse within 18 in of where a supply joins the trailer's circuits (NEC 552.10(E)(4), quoted: park trailers).
The other end is judged by the rules on the battery's fuse and on circuits without a fuse of their own. A charger keeps
the battery's current off the car's side: that wire has one feeding end, and its fuse is in the car.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    tow plug: {pattern: 7-way blade, to front box: 7 ft}
    circuits:
      charge line: {from: tow plug battery, size: 8 AWG, path: [battery fuse: 9 ft, battery: 5 in]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    tow plug: {pattern: 7-way blade, to front box: 7 ft}
    circuits:
      charge line: {from: tow plug battery, size: 8 AWG, path: [car-side fuse: 1 ft, battery fuse: 8 ft, battery: 5 in]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.battery_fuse import first_fuse
from builder.rules.finding import Remark
from builder.rules.guarding import METRES_PER_INCH, ends_at
from builder.rules.wording import is_above, length, say
from builder.tables.protection import device_distance
from builder.trailer.circuits import Circuit
from builder.trailer.model import BATTERY, FRONT_BOX, TOW_PLUG, Trailer
from builder.trailer.parts import Form

NONE_SAYS = "the car and the battery can both feed “{circuit}”, and no fuse stands at the plug's end"
FAR_SAYS = (
    "the car and the battery can both feed “{circuit}”, and its first fuse is {far} of wire from the plug: {most} is "
    "the most"
)
FUSE_HELP = (
    "put one within {most} of the plug as well, as in path: [car-side fuse: {example}, …]; a dc charger on the path "
    "does without"
)
FUSE_BASIS = "{source}: {most}; what fuse the car has its own manual says"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:  # noqa: ARG001 - every rule takes both
    """Yield a remark for every line from the car to the battery that has no charger, and no fuse near the plug."""
    row = device_distance("NEC", "park trailer low voltage supply", sheathed=False)
    most_m = row.value * METRES_PER_INCH
    for circuit in trailer.circuits:
        if circuit.start.part != TOW_PLUG or not _fed_from_both_ends(trailer, circuit):
            continue
        fuse = first_fuse(trailer, circuit)
        if fuse is not None and not is_above(fuse.far_m, most_m):
            continue
        most = length(most_m, trailer)
        yield Remark(
            origin=circuit.origin if fuse is None else fuse.origin,
            message=say(NONE_SAYS, circuit=circuit.name)
            if fuse is None
            else say(FAR_SAYS, circuit=circuit.name, far=length(fuse.far_m, trailer), most=most),
            help=say(FUSE_HELP, most=most, example="1 ft" if trailer.identity.units == "feet" else "30 cm"),
            known=row.known,
            basis=say(FUSE_BASIS, source=row.source, most=most),
            circuit=circuit.number,
        )


def _fed_from_both_ends(trailer: Trailer, circuit: Circuit) -> bool:
    ends = any(ends_at(circuit, end) is not None for end in (BATTERY, FRONT_BOX))
    parts = (trailer.parts.get(stop.part) for stop in circuit.stops)
    return ends and not any(part is not None and part.form is Form.SECTION for part in parts)
