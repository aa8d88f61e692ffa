"""The plug's cable enters the body through an open hole.

What: the file says that the hole where the tow plug's cable enters the body is not sealed, that nothing holds the
cable there, or that it has no drip loop.

Why: water runs along the cable into the wall, where nobody sees it, and rots it. A pull on the plug tears wires from
their landings.

Limit: common practice: a sealed hole, a strain relief, and a loop that hangs lower than the hole just before it.
Nothing is said where the file says nothing.

Failing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 6 ft}
    places:
      tow plug: {ahead: 3 ft, up: 0 in}
      front wall: {back: 0 in, up: 1 ft}
      rear lamp left: {back: 7 ft, left: 2 ft, up: 1 ft}
      rear lamp right: {back: 7 ft, right: 2 ft, up: 1 ft}
      front box: {back: 1 ft, up: 1 ft}
    chases:
      tongue: {through: [tow plug, front wall, front box], sealed: yes, drip loop: no}
      left: {through: [front box, rear lamp left]}
      right: {through: [front box, rear lamp right]}
    body:
      width: 5 ft
      profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
    road lamps: {rear lamp: {shows: [tail, stop, turn], side: both, wire: 8 ft}}

Passing example::

    format: 1
    build: {name: Example, country: US}
    tow plug: {pattern: 4-way flat, to front box: 6 ft}
    places:
      tow plug: {ahead: 3 ft, up: 0 in}
      front wall: {back: 0 in, up: 1 ft}
      rear lamp left: {back: 7 ft, left: 2 ft, up: 1 ft}
      rear lamp right: {back: 7 ft, right: 2 ft, up: 1 ft}
      front box: {back: 1 ft, up: 1 ft}
    chases:
      tongue: {through: [tow plug, front wall, front box], sealed: yes, drip loop: yes}
      left: {through: [front box, rear lamp left]}
      right: {through: [front box, rear lamp right]}
    body:
      width: 5 ft
      profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
    road lamps: {rear lamp: {shows: [tail, stop, turn], side: both, wire: 8 ft}}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.wording import say
from builder.trailer.model import Trailer

SEALED_SAYS = "the hole of “{chase}” where the plug's cable enters the body is not sealed"
SEALED_HELP = "seal the hole round the cable, and write sealed: yes"
STRAIN_SAYS = "nothing holds the plug's cable where it enters the body in “{chase}”"
STRAIN_HELP = "hold the cable on both sides of the hole, and write strain relief: yes"
DRIP_SAYS = "the plug's cable has no drip loop where it enters the body in “{chase}”"
DRIP_HELP = "let the cable hang lower than the hole just before it, and write drip loop: yes"
ENTRY_BASIS = "common practice"
_TOLD = {
    "sealed": (SEALED_SAYS, SEALED_HELP),
    "strain relief": (STRAIN_SAYS, STRAIN_HELP),
    "drip loop": (DRIP_SAYS, DRIP_HELP),
}


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each thing that the file says is missing where the plug's cable enters the body."""
    for hole in figures.laid.passings:
        if not (hole.plug and hole.skin):
            continue
        for name in hole.chases:
            told = trailer.geometry.chases[name].fittings
            for word, answer in (
                ("sealed", told.sealed),
                ("strain relief", told.strain_relief),
                ("drip loop", told.drip_loop),
            ):
                if answer is False:
                    says, help_ = _TOLD[word]
                    yield Remark(told.written[word], say(says, chase=name), help_, "practice", ENTRY_BASIS)
