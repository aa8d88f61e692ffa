"""The frame is used as a return.

What: a ``return: frame`` sends current back through the trailer's frame.

Why: bolts and hinges corrode, the return gets weak, and lamps glow dimly or through one another. Finding
the bad joint takes hours.

Limit: NEC 552.10(B)(1) allows a metal frame as return (quoted); the trade's cure for lamp faults is a ground
wire (common practice). So it is a *should fix*.

Walls open: a ground wire beside the feed.

Walls closed: a ground wire that stays in sight, or a spare wire that is in already.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft, frame bond: 8 AWG}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {return: frame, path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft, frame bond: 8 AWG}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark, WayOut
from builder.rules.wording import say
from builder.trailer.model import FRAME, Trailer
from builder.trailer.wires import Role

FRAME_SAYS = "“{circuit}” uses the frame as its return"
FRAME_HELP = "run a ground wire back to the front box: take return: frame out"
FRAME_CLOSED_HELP = (
    "run a ground wire back to the front box where it stays in sight, or use a spare wire: take return: frame "
    "out"
)
FRAME_BASIS = "common practice; NEC 552.10(B)(1) allows a metal frame"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:  # noqa: ARG001 - every rule takes both
    """Yield a remark for every circuit with a return that ends at the frame."""
    framed = {w.circuit for w in trailer.wires if w.role is Role.RETURN and w.end.part == FRAME}
    for number in sorted(framed):
        circuit = trailer.circuit(number)
        yield Remark(
            origin=circuit.origin,
            message=say(FRAME_SAYS, circuit=circuit.name),
            help=WayOut(FRAME_HELP, FRAME_CLOSED_HELP),
            known="practice",
            basis=FRAME_BASIS,
            circuit=circuit.number,
        )
