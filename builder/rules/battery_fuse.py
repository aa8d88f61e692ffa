"""No fuse stands within reach of the battery.

What: a wire that the battery feeds has no fuse, or its first fuse is far from the post. The distance counts
along the wire.

Why: up to its fuse a battery wire is protected by nothing. Chafed through on the frame it glows, and sets
fire to what is near.

Limit: at the source, or within 7 in of it (33 CFR 183.455(b)(1), read: US boats); a fuse within 18 in is the
rule for park trailers (NEC 552.10(E)(4), quoted); within 72 in of a battery terminal only in a sheath (ABYC
E-11, quoted). No fuse at all, or one
beyond 72 in, is a *must fix*; one beyond 18 in a *should fix*; one beyond 7 in is worth knowing.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to front box: 4 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.electrics.figures import Figures
from builder.rules.finding import Level, Remark
from builder.rules.guarding import METRES_PER_INCH, PROTECTORS, ends_at, reached_from
from builder.rules.wording import is_above, length, say
from builder.tables.protection import device_distance
from builder.trailer.circuits import Circuit, CircuitKind, Stop
from builder.trailer.model import BATTERY, BATTERY_PLUS, Trailer
from builder.trailer.origin import Origin
from builder.trailer.parts import Form, Terminal

NONE_SAYS = "no fuse protects “{circuit}” at the battery"
FAR_SAYS = "the fuse of “{circuit}” is {far} of wire from the battery: {near} is the most"
BEYOND_SAYS = (
    "the fuse of “{circuit}” is {far} of wire from the battery: {near} is the most, and this is above {limit}"
)
LINE_HELP = (
    "put its fuse within {near} of the post: to main fuse: {example}, or in a path: [main fuse: {example}, …]"
)
START_HELP = "put {fuse} within {near} of the post: path: [{name}: {example}, …]"
END_HELP = "put {fuse} within {near} of the post: path: […, {name}: {before}, battery: {example}]"
NEAR_BASIS = "{source}: {near} of bare wire; a sheath allows {sheath}"
FAR_BASIS = "{source}: {limit}"


@dataclass(frozen=True, slots=True)
class FirstFuse:
    """The fuse next to the battery by its name, how far along the wire it is, in metres, and where the file says so."""

    name: str
    far_m: float
    origin: Origin


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every line that leaves or reaches the battery without a fuse close to it."""
    if trailer.battery is None:
        return
    bare = bare_ends(trailer, figures)
    for circuit in trailer.circuits:
        if circuit.start in bare:
            yield from _judge(trailer, circuit, first_fuse(trailer, circuit, bare[circuit.start]), START_HELP)
        elif ends_at(circuit, BATTERY) is not None:
            yield from _judge(trailer, circuit, last_fuse(trailer, circuit), END_HELP)


def bare_ends(trailer: Trailer, figures: Figures) -> dict[Terminal, float]:
    """Return where circuits may leave the battery before any fuse: the post, and parts of its line before one.

    Each with the length of wire up to it, in metres.
    """
    ends = {BATTERY_PLUS: 0.0}
    line = trailer.battery_line
    far = 0.0
    for reached in reached_from(trailer, figures, BATTERY_PLUS):
        wire = trailer.wires[reached.wire]
        if line is not None and reached.guard is None and wire.circuit == line.number:
            far += wire.length_m
            if reached.far.part in trailer.parts and trailer.parts[reached.far.part].kind not in PROTECTORS:
                ends[Terminal(reached.far.part, "out")] = far
    return ends


def first_fuse(trailer: Trailer, circuit: Circuit, before_m: float = 0.0) -> FirstFuse | None:
    """Return the first fuse of a circuit, over all its branches the farthest; None when a branch has none.

    ``before_m`` is the wire before the circuit's start, in metres.
    """
    far: list[float | None] = []
    fuses: list[FirstFuse] = []
    for stop in circuit.stops:
        before = before_m if stop.parent < 0 else far[stop.parent]
        reach = None if before is None else before + stop.length_m
        if reach is not None and _is_fuse(trailer, stop):
            fuses.append(FirstFuse(stop.part, reach, stop.origin))
            reach = None
        far.append(reach)
    parents = {stop.parent for stop in circuit.stops}
    if any(reach is not None and place not in parents for place, reach in enumerate(far)):
        return None
    return max(fuses, key=lambda fuse: fuse.far_m, default=None)


def last_fuse(trailer: Trailer, circuit: Circuit) -> FirstFuse | None:
    """Return the last fuse before the battery; None when there is none."""
    place = ends_at(circuit, BATTERY)
    far = 0.0
    while place is not None and place >= 0:
        stop = circuit.stops[place]
        if _is_fuse(trailer, stop):
            return FirstFuse(stop.part, far, stop.origin)
        if stop.part in trailer.parts and trailer.parts[stop.part].form is Form.SECTION:
            return None  # a fuse on the far side of a charger opens for the far side alone
        far += stop.length_m
        place = stop.parent
    return None


def _is_fuse(trailer: Trailer, stop: Stop) -> bool:
    return stop.part in trailer.parts and trailer.parts[stop.part].kind in PROTECTORS


def _judge(trailer: Trailer, circuit: Circuit, fuse: FirstFuse | None, way_out: str) -> Iterator[Remark]:
    rows = (
        device_distance("33 CFR", "source of power", sheathed=False),
        device_distance("NEC", "park trailer low voltage supply", sheathed=False),
        device_distance("ABYC", "battery terminal", sheathed=True),
    )
    limits_m = tuple(row.value * METRES_PER_INCH for row in rows)
    broken = -1 if fuse is None else _broken(fuse.far_m, limits_m)
    if fuse is not None and broken < 0:
        return
    fact = rows[max(broken, 0)]
    near = length(limits_m[0], trailer)
    limit = length(limits_m[max(broken, 0)], trailer)
    in_sheath = device_distance("33 CFR", "source of power", sheathed=True)
    sheath = length(in_sheath.value * METRES_PER_INCH, trailer)
    shown = {"source": fact.source, "near": near, "limit": limit, "sheath": sheath}
    says = NONE_SAYS if fuse is None else BEYOND_SAYS if broken > 0 else FAR_SAYS
    far = "" if fuse is None else length(fuse.far_m, trailer)
    yield Remark(
        origin=circuit.origin if fuse is None else fuse.origin,
        message=say(says, circuit=circuit.name, far=far, near=near, limit=limit),
        help=_help(trailer, circuit, (way_out, near), fuse),
        known=fact.known,
        basis=say(NEAR_BASIS if broken <= 0 else FAR_BASIS, **shown),
        level=Level.MUST if fuse is None else (Level.WORTH, Level.SHOULD, Level.MUST)[broken],
        circuit=circuit.number,
    )


def _broken(far_m: float, limits_m: Sequence[float]) -> int:
    """Return the place of the widest limit that a distance is above; -1 when it is within all."""
    return sum(is_above(far_m, limit_m) for limit_m in limits_m) - 1


def _help(trailer: Trailer, circuit: Circuit, shown: tuple[str, str], fuse: FirstFuse | None) -> str:
    """Return the way out: the fuse that is there moves nearer; where there is none, one is put in."""
    way_out, near = shown
    feet = trailer.identity.units == "feet"
    return say(
        LINE_HELP if circuit.kind is CircuitKind.BATTERY else way_out,
        fuse="a fuse" if fuse is None else f"“{fuse.name}”",
        name=f"{circuit.name} fuse" if fuse is None else fuse.name,
        near=near,
        example="5 in" if feet else "12 cm",
        before="2 ft" if feet else "60 cm",
    )
