"""A fastener of a skin reaches a wire.

What: the fasteners of a skin go in as deep as the wires that lie behind it, by the measures of the file.

Why: a screw through the insulation joins the wire to the frame or to another wire, often months later and out of
sight. Its fuse may not open, and the wall gets hot.

Limit: the tip or the shank comes to the line between the places of the chase, into the bore of a conduit, or closer to
that line than half of the thickest wire (arithmetic on the file; diameters from makers' data sheets, quoted). Nothing
is told where steel plates of 1/16 in lie along the chase: NEC 300.4(A) (quoted) asks for them where wires lie near the
face. Plates over bored holes alone leave the wires bare between the frames, and a plate under a hinge loop does not
count: none can lie over what moves.

Walls open: shorter fasteners, a deeper way for the wires, or plates over them; none at all where a hinge loop moves.

Walls closed: shorter fasteners, one by one from outside; where none is short enough, new wire that stays in sight.

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
      high front: {back: 0 in, right: 26 in, up: 4 ft}
      battery: {back: 1 ft, left: 2 ft, up: 1 ft}
    chases: {groove: {through: [front box, lamp]}}
    skins:
      right wall: {corners: [low front, low rear, high rear, high front], fasteners go in: 2 in}
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
      right wall: {corners: [low front, low rear, high rear, high front], fasteners go in: 3/4 in}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.electrics.figures import Figures
from builder.routes.skins import Clearance
from builder.rules.covering import is_loop, longest, measure, of_clearance, plated
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import say
from builder.trailer.model import Trailer

REACH_SAYS = (
    "the fasteners of “{skin}” go in {go}, and reach the wires in “{chase}” between “{start}” and “{end}”, whose line "
    "is {depth} behind its face"
)
SHORTER_HELP = (
    "let the fasteners go in {most} at most, or lead the chase deeper; where it cannot be avoided, lay steel plates "
    "over the wires and write plate: {plate} under “{chase}”{without}"
)
DEEPER_HELP = (
    "lead the chase deeper or another way; where it cannot be avoided, lay steel plates over the wires and write "
    "plate: {plate} under “{chase}”{without}"
)
SHORTER_CLOSED_HELP = (
    "with every supply unplugged, take out the fasteners of “{skin}” there and put in ones that go in {most} at most; "
    "have the wires there tested before they are used again"
)
OUTSIDE_CLOSED_HELP = (
    "leave the wires there unused: lay new wire where it stays in sight, and write its way under through; no fastener "
    "of “{skin}” is short enough"
)
LOOP_HELP = (
    "set the fasteners of “{skin}” where the loop never comes, open or shut, or lead it further behind the face; a "
    "plate does not count over what moves"
)
LOOP_CLOSED_HELP = (
    "with every supply unplugged, take out the fasteners of “{skin}” where the loop hangs or moves, and put none back "
    "there; a plate does not count over what moves"
)
REACH_BASIS = "the places, the corners and the fasteners of the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each skin and chase where a fastener reaches a wire, for the stretch it reaches furthest."""
    for one in worst_by_chase(figures):
        if one.reaches and not plated(trailer, one):
            yield _remark(trailer, one, longest(trailer, figures, one.skin))


def worst_by_chase(figures: Figures) -> list[Clearance]:
    """Return what is nearest for each skin and chase."""
    worst: dict[tuple[str, str], Clearance] = {}
    for one in figures.clearances.found:
        key = one.skin, one.tube.stretch.chase
        if key not in worst or _order(one) < _order(worst[key]):
            worst[key] = one
    return list(worst.values())


def way_out(trailer: Trailer, one: Clearance, values: Mapping[str, str]) -> WayOut:
    """Return the way out for fasteners that come too near: ``values`` tells of ``most`` how long they may be.

    It is empty where none fits. A hinge loop is kept clear of, however short they are.
    """
    sentences = (SHORTER_HELP, SHORTER_CLOSED_HELP) if values["most"] else (DEEPER_HELP, OUTSIDE_CLOSED_HELP)
    if is_loop(trailer, one):
        sentences = LOOP_HELP, LOOP_CLOSED_HELP
    return WayOut(*(say(sentence, **values) for sentence in sentences))


def _order(one: Clearance) -> tuple[bool, float, float]:
    return not one.reaches, one.line_m if one.left_m is None else one.left_m, one.depth_m


def _remark(trailer: Trailer, one: Clearance, most: str) -> Remark:
    skin = trailer.geometry.skins[one.skin]
    values = {
        **of_clearance(trailer, one),
        "go": measure(skin.fasteners_m, trailer),
        "depth": measure(max(one.depth_m, 0.0), trailer),
        "most": most,
    }
    return Remark(
        origin=skin.origin,
        message=say(REACH_SAYS, **values),
        help=way_out(trailer, one, values),
        known="file" if one.line_m <= 0 else "quoted",
        basis=REACH_BASIS,
        wires=one.tube.wires,
    )
