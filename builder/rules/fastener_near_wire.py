"""A wire lies near the fasteners of a skin.

What: less is left between the fasteners of a skin and the wires behind it than a tape measure may be off, or the wires
lie so near its face that a longer screw would reach them later.

Why: places are measured over frames and round corners, and wires do not lie quite straight. Whoever hangs a shelf next
year does not know how long the screws of the skin were.

Limit: the error of a tape measure, 10 mm (3/8 in), with all wires of the stretch side by side (common practice).
Wires nearer to the face than 1 1/4 in without steel plates of 1/16 in all along are *worth knowing*: NEC 300.4(A)
(quoted) asks for that much in the wooden frames of buildings. A hinge loop beside fasteners is *worth knowing* too: no
plate counts over what moves, and where it hangs no measure tells.

Walls open: shorter fasteners, a deeper way for the wires, or plates over them; none at all where a hinge loop moves.

Walls closed: shorter fasteners, one by one from outside, or plates on the face of the skin.

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
      right wall: {corners: [low front, low rear, high rear, high front], fasteners go in: 1 3/4 in}
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

from collections.abc import Iterator, Sequence

from builder.electrics.figures import Figures
from builder.routes.skins import Clearance
from builder.rules.covering import (
    is_loop,
    longest,
    measure,
    of_clearance,
    plate_written,
    plated,
    without_holes,
)
from builder.rules.fastener_reaches_wire import way_out, worst_by_chase
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import say
from builder.tables.installation import least_edge_m
from builder.trailer.model import Trailer

NEAR_SAYS = (
    "{left} is left between the fasteners of “{skin}” and the wires in “{chase}” between “{start}” and “{end}”, and "
    "the measures may be off by {unsure}"
)
NONE_SAYS = (
    "nothing is left between the fasteners of “{skin}” and the wires in “{chase}” between “{start}” and “{end}”, which "
    "may lie on any side of its line"
)
NEAR_BASIS = "the error of a tape measure"
FACE_SAYS = (
    "the wires in {chases} lie less than {least} behind the face of “{skin}”, with no steel plate between: a longer "
    "screw would reach them later"
)
FACE_HELP = (
    "lead them {least} behind the face, or lay steel plates over them and write plate: {plate} under each "
    "chase{without}"
)
FACE_CLOSED_HELP = (
    "drive nothing longer than its own fasteners into “{skin}” there; where something must be hung, lay steel "
    "plates on its face first, and write plate: {plate} where the file has those wires{without}"
)
FACE_BASIS = "NEC 300.4(A), for the wooden frames of buildings"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each skin and chase where little is left, and one for each skin with wires near its face."""
    at_face: dict[str, list[str]] = {}
    for one in worst_by_chase(figures):
        if one.left_m is None or one.through_m is not None or plated(trailer, one):
            continue
        if one.is_near and not one.reaches:
            yield _near(trailer, one, max(one.left_m, 0.0), longest(trailer, figures, one.skin))
        elif (
            not one.reaches
            and not is_loop(trailer, one)
            and one.depth_m - (one.tube.radius_m or 0.0) < least_edge_m() - 1e-9
        ):
            at_face.setdefault(one.skin, []).append(one.tube.stretch.chase)
    for skin, chases in at_face.items():
        yield _at_face(trailer, skin, chases)


def _near(trailer: Trailer, one: Clearance, left_m: float, most: str) -> Remark:
    values = {
        **of_clearance(trailer, one),
        "left": measure(left_m, trailer),
        "unsure": measure(one.unsure_m, trailer),
        "most": most,
    }
    return Remark(
        origin=trailer.geometry.skins[one.skin].origin,
        message=say(NEAR_SAYS if left_m > 0 else NONE_SAYS, **values),
        help=way_out(trailer, one, values),
        known="practice",
        basis=NEAR_BASIS,
        level=Level.WORTH if is_loop(trailer, one) else None,
    )


def _at_face(trailer: Trailer, skin: str, chases: Sequence[str]) -> Remark:
    values = {
        "skin": skin,
        "chases": " and ".join(f"“{name}”" for name in chases),
        "without": without_holes(trailer, *chases),
        "least": measure(least_edge_m(), trailer),
        "plate": plate_written(trailer),
    }
    return Remark(
        origin=trailer.geometry.skins[skin].origin,
        message=say(FACE_SAYS, **values),
        help=WayOut(say(FACE_HELP, **values), say(FACE_CLOSED_HELP, **values)),
        known="quoted",
        basis=FACE_BASIS,
        level=Level.WORTH,
    )
