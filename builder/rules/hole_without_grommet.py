"""Wires pass sheet metal or the body's skin without a grommet.

What: the file says that there is no grommet where the wires of a chase pass sheet metal, or where they leave the body
through its skin.

Why: the edge of a hole in metal cuts through insulation as the trailer shakes, and the wire shorts to the metal. In
wood it rubs, and water gets in.

Limit: in metal framing a bushing or grommet is in the hole before the cable (NEC 300.4(B)(1), quoted); open wire has
3/8 in of clearance or a grommet (FAA AC 43.13-1B, 11-115, read). For a skin of wood it is common practice, and *worth
knowing*.

Walls open: a grommet before the wires go in.

Walls closed: a split grommet where the hole can be reached; else new wire that stays in sight.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {groove: {through: [front box, lamp], passes sheet at: lamp, grommets: no}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {groove: {through: [front box, lamp], passes sheet at: lamp, grommets: yes}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.routes.passings import Passing
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import say
from builder.trailer.model import Trailer
from builder.trailer.places import Chase

SHEET_SAYS = "the wires of “{chase}” pass sheet metal at “{place}” without a grommet"
SKIN_SAYS = "the wires of “{chase}” pass the body's skin at “{place}” without a grommet"
GROMMET_HELP = "put a grommet or a bushing into the hole before the wires go in, and write grommets: yes"
GROMMET_CLOSED_HELP = (
    "where the hole can be reached, put a split grommet round the wires, and write grommets: yes; where it cannot, lay "
    "new wire where it stays in sight"
)
SHEET_BASIS = "NEC 300.4(B)(1); FAA AC 43.13-1B, 11-115"
SKIN_BASIS = "common practice"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each hole in sheet metal or skin of a chase that has no grommets, as the file says."""
    for hole in figures.laid.passings:
        for name in hole.chases:
            chase = trailer.geometry.chases[name]
            if chase.fittings.grommets is False:
                yield _remark(chase, hole)


def _remark(chase: Chase, hole: Passing) -> Remark:
    values = {"chase": chase.name, "place": " – ".join(hole.places)}
    return Remark(
        origin=chase.fittings.written["grommets"],
        message=say(SHEET_SAYS if hole.sheet else SKIN_SAYS, **values),
        help=WayOut(GROMMET_HELP, GROMMET_CLOSED_HELP),
        known="quoted" if hole.sheet else "practice",
        basis=SHEET_BASIS if hole.sheet else SKIN_BASIS,
        level=None if hole.sheet else Level.WORTH,
    )
