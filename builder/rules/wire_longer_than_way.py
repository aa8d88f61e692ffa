"""A wire is written much longer than its way.

What: the length that the file gives for a wire is more than a quarter and a foot and a half longer than the way
through the chases, with all that is added to it. On a line past parts without a place, such as a fuse behind the tow
plug, all its lengths together are.

Why: it may run another way than the drawings show, and then a screw meets it where nobody looks for it. Or a length
is a slip, and every drop that is worked out from it is too large.

Limit: a quarter and 18 in (460 mm) beyond the way (common practice).

Walls open: the way that it is to take, or the length that it is to have.

Walls closed: the length that it has; where it lies, photos tell.

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
      lamp: {path: [lamp: 13 ft]}

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
from builder.routes.fits import is_long, written
from builder.routes.spans import Span, spans
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import length, length_up, say
from builder.trailer.model import Trailer
from builder.trailer.origin import Origin

LONG_SAYS = (
    "wire {wire} from “{start}” to “{end}” is written as {given}, and its way with all that is added is {way}"
)
LONG_HELP = (
    "if it runs another way, name the chases it takes, as in through: [{chase}]; if the length is a slip, "
    "write {way}"
)
LONG_CLOSED_HELP = (
    "if the length is a slip, write {way}; else its way is not the one on record, and photos from before the walls "
    "were closed tell which"
)
SPAN_SAYS = (
    "wires {wires} from “{start}” to “{end}” are written as {given} together, and their way with all that is added is "
    "{way}"
)
SPAN_HELP = (
    "if they run another way, name the chases they take, as in through: [{chase}]; if a length is a slip, write {way} "
    "for them together"
)
SPAN_CLOSED_HELP = (
    "if a length is a slip, write {way} for them together; else their way is not the one on record, and photos from "
    "before the walls were closed tell which"
)
LONG_BASIS = "the way through the chases of the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each written length that is far longer than the way of its wire, or of several together."""
    told: set[Origin] = set()
    for span in spans(trailer):
        if span.is_long and span.wires[-1].origin not in told:
            told |= {wire.origin for wire in span.wires}
            yield _of_span(trailer, span)
    for wire in written(trailer):
        run = figures.runs.runs.get(wire.number)
        if run is None or wire.origin in told:
            continue
        if is_long(wire, run):
            told.add(wire.origin)
            values = {
                "wire": wire.number,
                "start": wire.start.part,
                "end": wire.end.part,
                "given": length(wire.length_m, trailer),
                "way": length_up(run.length_m, trailer),
                "chase": run.steps[0].stretch.chase,
            }
            yield Remark(
                origin=wire.origin,
                message=say(LONG_SAYS, **values),
                help=WayOut(say(LONG_HELP, **values), say(LONG_CLOSED_HELP, **values)),
                known="practice",
                basis=LONG_BASIS,
                circuit=wire.circuit or None,
            )


def _of_span(trailer: Trailer, span: Span) -> Remark:
    values = {
        "wires": ", ".join(wire.number for wire in span.wires),
        "start": span.start,
        "end": span.end,
        "given": length(span.written_m, trailer),
        "way": length_up(span.whole_m or 0.0, trailer),
        "chase": span.chases[0],
    }
    return Remark(
        origin=span.wires[-1].origin,
        message=say(SPAN_SAYS, **values),
        help=WayOut(say(SPAN_HELP, **values), say(SPAN_CLOSED_HELP, **values)),
        known="practice",
        basis=LONG_BASIS,
        circuit=span.wires[-1].circuit or None,
    )
