"""A conduit holds more wire than it should.

What: the wires that run through a stretch of a conduit take a larger share of its inside area than the table allows
for as many, or they do not go in at all. Or the conduit has no ``bore:``, and nobody can tell (*worth knowing*).

Why: wires that are pulled through a full conduit tear their insulation, and none of them can be drawn out again.

Limit: NEC Chapter 9 Table 1: 53 % of the inside area for one wire (read), 31 % for two (read), 40 % for three and more
(quoted), with the outside diameters that the file gives, else those of makers' data sheets (quoted): GXL for AWG sizes,
ISO 6722 thin wall for metric ones. Above 100 %, or where one wire is as thick as the bore, it is a *must fix*
(arithmetic on the file).

Walls open: a larger conduit, or another way for some of its wires.

Walls closed: no more wires in it; what can be drawn out runs where it stays in sight.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {tube: {through: [front box, lamp], kind: conduit, bore: 1/4 in}}
    wire: {on the shelf: [16 AWG]}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, up: 2 ft}, lamp: {back: 7 ft, up: 2 ft}}
    chases: {tube: {through: [front box, lamp], kind: conduit, bore: 3/8 in}}
    wire: {on the shelf: [16 AWG]}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures, every_size
from builder.routes.fill import StretchFill, least_bore_mm, wire_diameter_mm
from builder.routes.network import Stretch
from builder.rules.covering import bore_up
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import is_above, percent_up, say
from builder.trailer.model import Trailer
from builder.trailer.places import Chase, ChaseKind

FULL_SAYS = (
    "{count} wires take {share} of “{chase}” between “{start}” and “{end}”, and the table allows {limit}"
)
ONE_FULL_SAYS = (
    "one wire takes {share} of “{chase}” between “{start}” and “{end}”, and the table allows {limit}"
)
OVER_SAYS = (
    "the wires in “{chase}” between “{start}” and “{end}” do not go in: they take {share} of its inside area"
)
FULL_HELP = "use a conduit with a bore of {bore} at least, or lead some of the wires another way: {wires}"
FULL_CLOSED_HELP = (
    "draw no more wire in there; where some can still be drawn out, lay them where they stay in sight, and write their "
    "way under through: {wires}"
)
NO_BORE_SAYS = (
    "“{chase}” is a conduit without its bore in the file: the wires in it ({count}) ask for {bore} at least"
)
NO_BORE_HELP = "choose one that wide, or wider, and write its inside diameter, as in bore: {bore}"
NO_BORE_CLOSED_HELP = (
    "measure its inside diameter at an end that can be reached, and write it, as in bore: {bore}; where it is "
    "narrower, draw no more wire in there"
)
UNSIZED_SAYS = (
    "“{chase}” is a conduit without its bore in the file: nobody can tell how full its {count} wires make it"
)
UNSIZED_HELP = (
    "write its inside diameter, as in bore: 1 in, and under wire the outside diameters of the sizes that no table "
    "has: {sizes}"
)
NO_BORE_BASIS = "NEC Chapter 9 Table 1; outside diameters of the file, else from makers' data sheets"
FULL_BASIS = "{source}; outside diameters of the file, else from makers' data sheets"
ALL = 100.0


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each conduit that is too full, where it is fullest, and for each without a bore."""
    for chase in trailer.geometry.chases.values():
        if chase.kind is ChaseKind.CONDUIT and chase.bore_m is None and chase.takes_wires:
            yield from _no_bore(trailer, figures, chase)
    worst: dict[str, StretchFill] = {}
    for one in figures.fills:
        if one.fill_percent is None or not is_above(one.fill_percent, one.limit_percent):
            continue
        before = worst.get(one.stretch.chase)
        if before is None or one.fill_percent > (before.fill_percent or 0.0):
            worst[one.stretch.chase] = one
    for one in worst.values():
        yield _remark(trailer, one, one.fill_percent or 0.0)


def _remark(trailer: Trailer, one: StretchFill, share: float) -> Remark:
    chase = trailer.geometry.chases[one.stretch.chase]
    beyond = share > ALL or one.thickest_mm >= one.bore_mm
    values = {
        "count": len(one.laid),
        "chase": chase.name,
        "start": chase.through[one.stretch.number],
        "end": chase.through[one.stretch.number + 1],
        "share": percent_up(share),
        "limit": f"{one.limit_percent:g} %",
        "bore": bore_up(one.bore_mm * (share / one.limit_percent) ** 0.5, trailer),
        "wires": ", ".join(one.wires),
    }
    says = OVER_SAYS if beyond else FULL_SAYS if len(one.laid) > 1 else ONE_FULL_SAYS
    return Remark(
        origin=chase.bore_origin or chase.origin,
        message=say(says, **values),
        help=WayOut(say(FULL_HELP, **values), say(FULL_CLOSED_HELP, **values)),
        known="quoted",
        basis=say(FULL_BASIS, source=one.limit_source),
        level=Level.MUST if beyond else None,
    )


def _no_bore(trailer: Trailer, figures: Figures, chase: Chase) -> Iterator[Remark]:
    """Yield a remark for a conduit with wires in it and without a bore: what the stretch with most in it asks for."""
    sizes = every_size(trailer, figures.wires)
    laid = [figures.runs.laid(Stretch(chase.name, number)) for number in range(len(chase.through) - 1)]
    held = [[sizes[wire] for wire in wires] for wires in laid if wires]
    if not held:
        return
    known = {size: wire_diameter_mm(size, trailer.shelf) for here in held for size in here}
    unsized = [str(size) for size, mm in known.items() if mm is None]
    least_mm = max(least_bore_mm([known[size] or 0.0 for size in here]) for here in held)
    values = {
        "chase": chase.name,
        "count": max(map(len, held)),
        "bore": bore_up(least_mm, trailer),
        "sizes": ", ".join(unsized),
    }
    told = WayOut(say(NO_BORE_HELP, **values), say(NO_BORE_CLOSED_HELP, **values))
    yield Remark(
        origin=chase.origin,
        message=say(UNSIZED_SAYS if unsized else NO_BORE_SAYS, **values),
        help=say(UNSIZED_HELP, **values) if unsized else told,
        known="quoted",
        basis=NO_BORE_BASIS,
        level=Level.WORTH,
    )
