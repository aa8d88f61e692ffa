"""What is said to be behind a panel is not what the measures say.

What: a chase runs behind a panel and is not named under its “behind”, or is named there and does not run behind it.
Or a chase runs close before the panel, and the file does not say from which side it comes off: “from” tells.

Why: one of the two is wrong, so no screw length can be printed for the panel. Whoever drills by the wrong one meets a
wire.

Limit: the chases by the places of the file against the names under “behind”: a contradiction inside the file.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
    front box: {fuse ways: 4}
    places:
      front box: {back: 1 ft, right: 2 ft, up: 2 ft}
      lamp: {back: 7 ft, right: 2 ft, up: 2 ft}
      low front: {back: 0 in, right: 22 in, up: 0 in}
      low rear: {back: 8 ft, right: 22 in, up: 0 in}
      high rear: {back: 8 ft, right: 22 in, up: 4 ft}
      high front: {back: 0 in, right: 22 in, up: 4 ft}
      battery: {back: 1 ft, left: 2 ft, up: 1 ft}
    chases: {groove: {through: [front box, lamp]}}
    panels:
      right lining: {corners: [low front, low rear, high rear, high front], behind: nothing}
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
      low front: {back: 0 in, right: 22 in, up: 0 in}
      low rear: {back: 8 ft, right: 22 in, up: 0 in}
      high rear: {back: 8 ft, right: 22 in, up: 4 ft}
      high front: {back: 0 in, right: 22 in, up: 4 ft}
      battery: {back: 1 ft, left: 2 ft, up: 1 ft}
    chases: {groove: {through: [front box, lamp]}}
    panels:
      right lining: {corners: [low front, low rear, high rear, high front], behind: groove}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.routes.panels import Open
from builder.rules.finding import Remark
from builder.rules.wording import say
from builder.trailer.model import Trailer
from builder.trailer.places import Panel

NAMED_SAYS = "“{chase}” runs behind “{panel}” by its places, and is not named under its “behind”"
NAMED_HELP = "add it, as in behind: [{all}], or measure the places again"
THERE_SAYS = "“{chase}” is named behind “{panel}”, and does not run there by its places"
THERE_HELP = "take it out, or measure the places of the chase and the corners of the panel again"
BEFORE_SAYS = "close to “{panel}”, on the side towards the middle of the trailer, wires may run: in {chases}"
BEFORE_HELP = (
    "say from which side the panel comes off: from: inside where that is the side towards the middle, from: outside "
    "where it is the other, as under an open hatch"
)
AS_BASIS = "the places, the corners and the names of the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each chase that a panel names wrongly or does not name, and one for those close before it."""
    for view in figures.panels:
        panel = trailer.geometry.panels[view.panel.name]
        missing = dict(view.missing)
        before = missing.get(Open.BEFORE, ()) if panel.behind is not None else ()
        for name in missing.get(Open.NOT_NAMED, ()):
            every = ", ".join(dict.fromkeys([*(panel.behind or ()), name]))
            yield _remark(panel, say(NAMED_SAYS, chase=name, panel=panel.name), say(NAMED_HELP, all=every))
        for name in missing.get(Open.NOT_THERE, ()):
            if name not in before:
                yield _remark(panel, say(THERE_SAYS, chase=name, panel=panel.name), THERE_HELP)
        if before:
            names = " and ".join(f"“{name}”" for name in before)
            yield _remark(panel, say(BEFORE_SAYS, chases=names, panel=panel.name), BEFORE_HELP)


def _remark(panel: Panel, message: str, way_out: str) -> Remark:
    return Remark(origin=panel.origin, message=message, help=way_out, known="file", basis=AS_BASIS)
