"""More wires land than there are terminals or connector ways.

What: the ground bar, the strip or a connector has fewer screws, positions or ways than wires land there.

Why: two wires under one screw work loose, and the second is found by nobody.

Limit: ``ground bar``, ``strip`` and ``ways`` of the file (the file itself).

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {hatch plug: {kind: connector, ways: 1}, lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [hatch plug: 6 ft, lamp: 2 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {hatch plug: {kind: connector, ways: 2}, lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [hatch plug: 6 ft, lamp: 2 ft]}
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.electrics.landings import ground_screws, strip_positions
from builder.rules.finding import Remark
from builder.rules.wording import say
from builder.trailer.model import FrontBox, Trailer
from builder.trailer.parts import Form, Part

GROUND_BAR_SAYS = "{needed} wires land on the ground bar, and its screws take {given}"
GROUND_BAR_HELP = "choose one with a screw for each wire: ground bar: {needed}"
GROUND_BAR_BASIS = "ground bar of the front box"
STRIP_SAYS = "the tow plug's wires take {needed} positions of the strip, and it has {given}"
STRIP_HELP = "choose a strip with at least as many: strip: {needed}"
STRIP_BASIS = "strip of the front box"
CONNECTOR_SAYS = "{needed} wires go through “{part}”, and its ways take {given}"
CONNECTOR_HELP = "choose a connector with a way for each wire, ways: {needed}, or add a second one"
CONNECTOR_BASIS = "ways of the connector"
_WAY = re.compile(r"way (\d+) in")


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for the ground bar, the strip and every connector that is too small."""
    if trailer.front_box is not None:
        yield from _front_box(trailer.front_box, figures)
    for part in trailer.parts.values():
        if part.form is Form.THROUGH and part.ways is not None:
            yield from _connector(part, part.ways, figures)


def _front_box(box: FrontBox, figures: Figures) -> Iterator[Remark]:
    screws, positions = ground_screws(figures.landings), strip_positions(figures.landings)
    if box.ground_bar is not None and screws > box.ground_bar:
        counts = {"needed": screws, "given": box.ground_bar}
        message, help_ = say(GROUND_BAR_SAYS, **counts), say(GROUND_BAR_HELP, **counts)
        yield Remark(box.origin, message, help_, "file", GROUND_BAR_BASIS)
    if box.strip is not None and positions > box.strip:
        counts = {"needed": positions, "given": box.strip}
        message, help_ = say(STRIP_SAYS, **counts), say(STRIP_HELP, **counts)
        yield Remark(box.origin, message, help_, "file", STRIP_BASIS)


def _connector(part: Part, ways: int, figures: Figures) -> Iterator[Remark]:
    pins = [_WAY.fullmatch(landing.pin) for landing in figures.landings if landing.part == part.name]
    taken = {int(pin[1]) for pin in pins if pin}
    if len(taken) > ways:
        values = {"needed": len(taken), "given": ways, "part": part.name}
        message, help_ = say(CONNECTOR_SAYS, **values), say(CONNECTOR_HELP, **values)
        yield Remark(part.origin, message, help_, "file", CONNECTOR_BASIS)
