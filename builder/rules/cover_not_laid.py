"""Nobody can tell where a skin or panel lies.

What: the corners of a skin or panel lie in one line, or in no plane and in no strip of planes, do not follow each
other round it, or leave open which of its sides is inside. Or a skin has no corners, and no wall that it lies on.

Why: what is behind it is then not known: no distance to a wire, and no screw length for it.

Limit: a corner lies further outside the plane than a tape measure may be off, 10 mm (3/8 in) (common practice).
A skin without corners is worth knowing of where chases lie in the walls.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
    front box: {fuse ways: 4}
    places:
      front box: {back: 1 ft, right: 2 ft, up: 2 ft}
      lamp: {back: 7 ft, right: 2 ft, up: 2 ft}
      low front: {back: 0 in, right: 26 in, up: 0 in}
      low rear: {back: 8 ft, right: 26 in, up: 0 in}
      high rear: {back: 8 ft, right: 26 in, up: 4 ft}
      high front: {back: 0 in, right: 16 in, up: 4 ft}
      battery: {back: 1 ft, left: 2 ft, up: 1 ft}
    chases: {groove: {through: [front box, lamp]}}
    skins:
      right wall: {corners: [low front, low rear, high rear, high front], fasteners go in: 1/2 in}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
    front box: {fuse ways: 4}
    places:
      front box: {back: 1 ft, right: 2 ft, up: 2 ft}
      lamp: {back: 7 ft, right: 2 ft, up: 2 ft}
      low front: {back: 0 in, right: 26 in, up: 0 in}
      low rear: {back: 8 ft, right: 26 in, up: 0 in}
      high rear: {back: 8 ft, right: 26 in, up: 4 ft}
      high front: {back: 0 in, right: 26 in, up: 4 ft}
      battery: {back: 1 ft, left: 2 ft, up: 1 ft}
    chases: {groove: {through: [front box, lamp]}}
    skins:
      right wall: {corners: [low front, low rear, high rear, high front], fasteners go in: 1/2 in}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.routes.faces import Unclear
from builder.rules.finding import Level, Remark
from builder.rules.wording import say
from builder.trailer.model import Trailer
from builder.trailer.origin import Origin

PLANE_SAYS = "the corners of “{cover}” lie in no plane, nor in a strip of planes"
PLANE_HELP = "measure its corners again; name those of a bent one along one edge and back along the other"
ORDER_SAYS = "the corners of “{cover}” do not follow each other round it"
ORDER_HELP = "name them in the order in which you come to them when you walk round it"
LINE_SAYS = "the corners of “{cover}” lie in one line, or at one point"
LINE_HELP = "name its corners all round it, each once, or measure them again"
INSIDE_SAYS = "which side of “{cover}” is inside cannot be told: the middle of the trailer is at its face"
INSIDE_HELP = "add the skins on the other sides of the trailer, with their corners"
BARE_SAYS = (
    "nobody can tell which wires lie behind “{cover}”: it has no corners and lies on no wall of the body"
)
BARE_HELP = (
    "name the places at its corners, corners: [upper left, upper right, lower right, lower left], "
    "or, with the outline under body, the wall it covers, lies on: left wall"
)
LAID_BASIS = "the corners of the file"
_TOLD = {
    Unclear.IN_NO_PLANE: (PLANE_SAYS, PLANE_HELP),
    Unclear.IN_ONE_LINE: (LINE_SAYS, LINE_HELP),
    Unclear.OUT_OF_ORDER: (ORDER_SAYS, ORDER_HELP),
    Unclear.NO_INSIDE: (INSIDE_SAYS, INSIDE_HELP),
    Unclear.NO_CORNERS: (BARE_SAYS, BARE_HELP),
}


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each skin or panel that cannot be laid out."""
    geometry = trailer.geometry
    for name, why in figures.clearances.unclear:
        if why is not Unclear.NO_CORNERS or geometry.chases:
            yield _remark(name, why, geometry.skins[name].origin)
    for view in figures.panels:
        if view.unclear is not None:
            yield _remark(view.panel.name, view.unclear, view.panel.origin)


def _remark(name: str, why: Unclear, origin: Origin) -> Remark:
    says, help_ = _TOLD[why]
    return Remark(
        origin=origin,
        message=say(says, cover=name),
        help=help_,
        known="file",
        basis=LAID_BASIS,
        level=Level.WORTH if why is Unclear.NO_CORNERS else None,
    )
