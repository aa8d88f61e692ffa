"""No ring terminal at hand is made for the stud that a wire lands on.

What: the file says which ring terminals are at hand for a size of wire, and wires of that size land on a stud or screw
of another size.

Why: a ring with a small hole does not go on. One with a large hole presses on too little metal, and gets warm.

Limit: the sizes of stud and of rings in the file (the file itself). Sizes that one ring is sold for go together, such
as M6 and 1/4 in (common practice). Rings that are all too large are a *should fix*.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG], rings: {16 AWG: No. 6}}
    terminal studs: {ground bar: {size: No. 8}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG], rings: {16 AWG: M4}}
    terminal studs: {ground bar: {size: No. 8}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.electrics.figures import Figures
from builder.electrics.landings import studs_named
from builder.rules.finding import Level, Remark
from builder.rules.wording import say
from builder.trailer.landing_points import Studs, StudSize
from builder.trailer.model import Trailer
from builder.trailer.parts import Terminal
from builder.trailer.size import Size

SMALL_SAYS = "the rings at hand for {size} ({rings}) do not go on the {stud} studs of “{name}”: {wires}"
LARGE_SAYS = "the rings at hand for {size} ({rings}) are too wide for the {stud} studs of “{name}”: {wires}"
MIXED_SAYS = (
    "of the rings at hand for {size} those for {smaller} do not go on the {stud} studs of “{name}”, and those for "
    "{larger} are too wide for them: {wires}"
)
RING_HELP = "get rings for {stud}, and write them too, as in rings: {{{size}: [{rings}, {stud}]}}"
RING_BASIS = "sizes of stud and of rings in the file; which go together is common practice"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each size of wire on a thing whose studs none of the rings at hand is made for."""
    landed: dict[tuple[str, Size], list[str]] = {}
    for at in figures.landings:
        name = studs_named(Terminal(at.part, at.pin))
        for wire in at.wires if name in trailer.studs else ():
            landed.setdefault((name, figures.wires[wire].size), []).append(wire)
    for (name, size), wires in landed.items():
        studs, rings = trailer.studs[name], trailer.shelf.rings.get(size, ())
        if studs.size is not None and rings and studs.size.ring not in {one.ring for one in rings}:
            yield _remark(studs, studs.size, (size, rings), wires)


def _remark(
    studs: Studs, stud: StudSize, made: tuple[Size, Sequence[StudSize]], wires: Sequence[str]
) -> Remark:
    size, rings = made
    smaller = [one for one in rings if one.ring < stud.ring]
    larger = [one for one in rings if one not in smaller]
    small = not larger
    values = {
        "size": size,
        "rings": ", ".join(map(str, rings)),
        "smaller": ", ".join(map(str, smaller)),
        "larger": ", ".join(map(str, larger)),
        "stud": stud,
        "name": studs.name,
        "wires": ", ".join(dict.fromkeys(wires)),
    }
    return Remark(
        origin=studs.size_origin or studs.origin,
        message=say(SMALL_SAYS if small else MIXED_SAYS if smaller else LARGE_SAYS, **values),
        help=say(RING_HELP, **values),
        known="file" if small else "practice",
        basis=RING_BASIS,
        level=None if small else Level.SHOULD,
    )
