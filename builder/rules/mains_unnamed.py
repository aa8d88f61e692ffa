"""There is mains, and nobody is named who did it.

What: the file has mains or a converter from shore power, without ``done by``.

Why: mains can kill. A buyer must know who put it in, and where the paper of the test is. This tool never
plans mains.

Limit: common practice; local codes and licensed people decide.

Failing example::

    format: 1
    build: {name: Example, country: US}
    mains: {what: inlet and one socket}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps: {rear lamp: {shows: [tail, stop, turn], side: both, wire: 9 ft}}

Passing example::

    format: 1
    build: {name: Example, country: US}
    mains: {what: inlet and one socket, done by: licensed electrician; test sheet in the document folder}
    tow plug: {pattern: 4-way flat, to front box: 7 ft}
    road lamps: {rear lamp: {shows: [tail, stop, turn], side: both, wire: 9 ft}}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.wording import say
from builder.trailer.model import Trailer
from builder.trailer.parts import SHORE_CONVERTER

MAINS_SAYS = "the trailer has mains, and nobody is named who did it"
MAINS_HELP = (
    "have it done or tested by a licensed person, and write who it was: done by: licensed electrician"
)
CONVERTER_SAYS = "“{part}” is fed by mains, and nobody is named who did it"
CONVERTER_HELP = (
    "have it done or tested by a licensed person, and add mains: {{what: …, done by: licensed electrician}}"
)
MAINS_BASIS = "common practice; local codes and licensed people decide"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:  # noqa: ARG001 - every rule takes both
    """Yield a remark when mains, or a part that needs it, has nobody who did it."""
    if trailer.mains is not None:
        if not trailer.mains.done_by.strip():
            yield Remark(trailer.mains.origin, MAINS_SAYS, MAINS_HELP, "practice", MAINS_BASIS)
        return
    for part in trailer.parts.values():
        if part.kind == SHORE_CONVERTER:
            message = say(CONVERTER_SAYS, part=part.name)
            yield Remark(part.origin, message, say(CONVERTER_HELP), "practice", MAINS_BASIS)
