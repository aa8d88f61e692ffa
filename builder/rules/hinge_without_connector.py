"""Wires pass a hinge with no connector at it.

What: wires run through a hinge loop, and no connector stands at one of the loop's two places.

Why: a hatch or a door has to come off one day, for a new seal or a bent hinge. Without a connector its wires are cut
then. And a wire that breaks at the hinge, where wires break first, is mended inside the wall.

Limit: the paths and places of the file; that a hatch has a connector at its hinge is common practice.

Walls open: a connector at the hinge, on the way to what is on the hatch.

Walls closed: the same, put into the wires where the loop can be reached.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 4 ft}, rib: {back: 6 ft, up: 4 ft}, lamp: {back: 6 ft 1 in, up: 4 ft}}
    chases:
      groove: {through: [front box, rib]}
      loop: {kind: hinge loop, through: [rib, lamp], slack: 8 in, where: at the hatch}
    parts: {lamp: {kind: lamp, draws: 3 W}, hatch plug: {kind: bar, place: rib}}
    circuits:
      lamp: {path: [hatch plug: 6 ft, lamp: 9 in]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 4 ft}, rib: {back: 6 ft, up: 4 ft}, lamp: {back: 6 ft 1 in, up: 4 ft}}
    chases:
      groove: {through: [front box, rib]}
      loop: {kind: hinge loop, through: [rib, lamp], slack: 8 in, where: at the hatch}
    parts: {lamp: {kind: lamp, draws: 3 W}, hatch plug: {kind: connector, ways: 2, place: rib}}
    circuits:
      lamp: {path: [hatch plug: 6 ft, lamp: 9 in]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.routes.network import Stretch
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import say
from builder.trailer.model import Trailer
from builder.trailer.parts import Form
from builder.trailer.places import Chase, ChaseKind
from builder.trailer.wires import Wire

BARE_SAYS = "wires pass “{loop}” with no connector at it, so that nothing can be parted there: {wires}"
BARE_HELP = (
    "let a connector stand at one of its places, in the path before what hangs there, as in hinge plug: {{kind: "
    "connector, ways: {count}, place: {place}}}"
)
BARE_CLOSED_HELP = (
    "put a connector into the wires where the loop can be reached, and write it into the path, as in hinge plug: "
    "{{kind: connector, ways: {count}, place: {place}}}"
)
BARE_BASIS = "a hatch has a connector at its hinge, common practice"
_MOST = 8


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each hinge loop with wires that no connector at it parts."""
    wires = {wire.number: wire for wire in (*trailer.wires, *trailer.spares)}
    for chase in trailer.geometry.chases.values():
        if chase.kind is not ChaseKind.HINGE:
            continue
        inside = figures.runs.inside.get(Stretch(chase.name, 0), ())
        bare = [number for number in inside if not _parted(trailer, chase, wires[number])]
        if bare:
            values = {
                "loop": chase.name,
                "wires": ", ".join(bare[:_MOST]) + (" …" if len(bare) > _MOST else ""),
                "count": len(bare),
                "place": chase.through[0],
            }
            yield Remark(
                origin=chase.origin,
                message=say(BARE_SAYS, **values),
                help=WayOut(say(BARE_HELP, **values), say(BARE_CLOSED_HELP, **values)),
                known="practice",
                basis=BARE_BASIS,
            )


def _parted(trailer: Trailer, chase: Chase, wire: Wire) -> bool:
    """Tell whether a wire ends in a connector at one of a loop's places."""
    for end in (wire.start.part, wire.end.part):
        part, stand = trailer.parts.get(end), trailer.geometry.stands.get(end)
        if (
            part is not None
            and part.form is Form.THROUGH
            and stand is not None
            and stand.place in chase.through
        ):
            return True
    return False
