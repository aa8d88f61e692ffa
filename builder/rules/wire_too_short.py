"""A wire is written shorter than its way.

What: the length that the file gives for a wire is less than the way from the one end to the other through the
chases, with the rise at both ends and the slack that the file gives for a hinge loop. On a line past parts without a
place, such as a fuse behind the tow plug, all its lengths together are less than the way between the two parts that
have one. Where no chase leads there, the straight distance counts.

Why: a wire that is cut to this length does not reach, and a join inside a wall is found by nobody.

Limit: the way through the chases by the places of the file (arithmetic on the file). An inch is left for the tape
measure (common practice); the loop at the front box and an assumed slack do not count.

Walls open: a longer wire, or the way that it really takes.

Walls closed: the length that it really has, or new wire that stays in sight; none is joined inside a wall.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places:
      front box: {back: 1 ft, up: 2 ft}
      corner: {back: 1 ft, left: 2 ft, up: 2 ft}
      lamp: {back: 7 ft, left: 2 ft, up: 2 ft}
    chases: {groove: {through: [front box, corner, lamp]}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 7 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places:
      front box: {back: 1 ft, up: 2 ft}
      corner: {back: 1 ft, left: 2 ft, up: 2 ft}
      lamp: {back: 7 ft, left: 2 ft, up: 2 ft}
    chases: {groove: {through: [front box, corner, lamp]}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 9 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.routes.fits import is_short, reach_m, written
from builder.routes.runs import Run
from builder.routes.spans import Span, spans
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import length, length_up, say
from builder.trailer.model import Trailer
from builder.trailer.origin import Origin
from builder.trailer.wires import Wire

SHORT_SAYS = "wire {wire} from “{start}” to “{end}” is written as {given}, and its way is {way}"
SHORT_HELP = (
    "write {enough} at least; where it takes a shorter way, add the chase that it runs through, or measure the "
    "places again"
)
SHORT_CLOSED_HELP = (
    "if it reaches, the record is wrong: measure the places again, or write the length that it has, {enough} or "
    "so; if it does not, lay new wire where it stays in sight"
)
SPAN_SAYS = "wires {wires} from “{start}” to “{end}” are written as {given} together, and their way is {way}"
SPAN_HELP = (
    "write {enough} at least for them together; where they take a shorter way, add the chase that they run through, or "
    "measure the places again"
)
SPAN_CLOSED_HELP = (
    "if they reach, the record is wrong: measure the places again, or write the lengths that they have, {enough} or so "
    "together; if they do not, lay new wire where it stays in sight"
)
STRAIGHT_SAYS = (
    "{names} from “{start}” to “{end}” {are} written as {given}, and the straight distance is {way}"
)
STRAIGHT_BASIS = "the places of the file"
SHORT_BASIS = "the way through the chases: {chases}"
SAME_PLACE = "both ends are at one place"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each written length that is shorter than the way of its wire, or of several together."""
    told: set[Origin] = set()
    for span in spans(trailer):
        if span.is_short and span.wires[-1].origin not in told:
            told |= {wire.origin for wire in span.wires}
            yield _of_span(trailer, span)
    for wire in written(trailer):
        run = figures.runs.runs.get(wire.number)
        if run is None or wire.origin in told:
            continue
        if is_short(trailer, wire, run):
            told.add(wire.origin)
            yield _remark(trailer, wire, run, reach_m(trailer, run))


def _of_span(trailer: Trailer, span: Span) -> Remark:
    several = len(span.wires) > 1
    numbers = ", ".join(wire.number for wire in span.wires)
    values = {
        "wires": numbers,
        "names": f"wires {numbers}" if several else f"wire {numbers}",
        "are": "are together" if several else "is",
        "start": span.start,
        "end": span.end,
        "given": length(span.written_m, trailer),
        "way": length_up(span.least_m, trailer),
        "enough": length_up(span.least_m if span.whole_m is None else span.whole_m, trailer),
    }
    opened, closed = (SPAN_HELP, SPAN_CLOSED_HELP) if several else (SHORT_HELP, SHORT_CLOSED_HELP)
    straight = span.whole_m is None
    return Remark(
        origin=span.wires[-1].origin,
        message=say(STRAIGHT_SAYS if straight else SPAN_SAYS, **values),
        help=WayOut(say(opened, **values), say(closed, **values)),
        known="file",
        basis=STRAIGHT_BASIS if straight else say(SHORT_BASIS, chases=", ".join(span.chases) or SAME_PLACE),
        circuit=span.wires[-1].circuit or None,
        wires=tuple(wire.number for wire in span.wires),
    )


def _remark(trailer: Trailer, wire: Wire, run: Run, least_m: float) -> Remark:
    chases = ", ".join(dict.fromkeys(step.stretch.chase for step in run.steps))
    values = {
        "wire": wire.number,
        "start": wire.start.part,
        "end": wire.end.part,
        "given": length(wire.length_m, trailer),
        "way": length_up(least_m, trailer),
        "enough": length_up(run.length_m, trailer),
    }
    return Remark(
        origin=wire.origin,
        message=say(SHORT_SAYS, **values),
        help=WayOut(say(SHORT_HELP, **values), say(SHORT_CLOSED_HELP, **values)),
        known="file",
        basis=say(SHORT_BASIS, chases=chases or SAME_PLACE),
        circuit=wire.circuit or None,
        wires=(wire.number,),
    )
