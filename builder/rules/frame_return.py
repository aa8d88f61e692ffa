"""The frame is used as a return.

What: a ``return: frame`` sends current back through the trailer's frame; from a hatch or a door, through the metal of
its hinge as well.

Why: bolts and hinges corrode, the return gets weak, and lamps glow dimly or through one another. Finding
the bad joint takes hours. A hinge moves, so that its joint is never the same twice.

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
from builder.trailer.circuits import Circuit
from builder.trailer.model import FRAME, Trailer
from builder.trailer.places import ChaseKind
from builder.trailer.wires import Role

FRAME_SAYS = "“{circuit}” uses the frame as its return"
FRAME_HELP = "run a ground wire back to the front box: take return: frame out"
FRAME_CLOSED_HELP = (
    "run a ground wire back to the front box where it stays in sight, or use a spare wire: take return: frame "
    "out"
)
HINGE_SAYS = (
    "“{circuit}” sends the current of “{part}” back through the metal of the hinge, "
    "since its return is the frame"
)
HINGE_HELP = (
    "run a ground wire beside its feed through “{loop}”, back to the front box: take return: frame out"
)
HINGE_CLOSED_HELP = (
    "run a ground wire past the hinge and back to the front box where it stays in sight: "
    "take return: frame out"
)
FRAME_BASIS = "common practice; NEC 552.10(B)(1) allows a metal frame"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every circuit with a return that ends at the frame; a hinge on the way is named."""
    framed: dict[int, list[str]] = {}
    for wire in trailer.wires:
        if wire.role is Role.RETURN and wire.end.part == FRAME:
            framed.setdefault(wire.circuit, []).append(wire.start.part)
    for number in sorted(framed):
        circuit = trailer.circuit(number)
        hung = beyond_hinges(trailer, figures, circuit)
        part = next((name for name in framed[number] if name in hung), None)
        values = {"circuit": circuit.name, "part": part, "loop": hung.get(part or "")}
        yield Remark(
            origin=circuit.origin,
            message=say(FRAME_SAYS if part is None else HINGE_SAYS, **values),
            help=WayOut(FRAME_HELP, FRAME_CLOSED_HELP)
            if part is None
            else WayOut(say(HINGE_HELP, **values), say(HINGE_CLOSED_HELP)),
            known="practice",
            basis=FRAME_BASIS,
            circuit=circuit.number,
        )


def beyond_hinges(trailer: Trailer, figures: Figures, circuit: Circuit) -> dict[str, str]:
    """Return the parts of a circuit that move with a hatch or door, each with the hinge loop on its way.

    They are those whose way from the circuit's start passes a hinge loop, and does not come back through it.
    """
    chases = trailer.geometry.chases
    passed: dict[str, list[str]] = {}
    for wire in trailer.wires:
        run = figures.runs.runs.get(wire.number)
        if wire.circuit == circuit.number and wire.role is not Role.RETURN and run is not None:
            names = [step.stretch.chase for step in run.steps]
            passed[wire.end.part] = [name for name in names if chases[name].kind is ChaseKind.HINGE]
    open_: list[dict[str, None]] = []
    for stop in circuit.stops:
        before = open_[stop.parent] if stop.parent >= 0 else {}
        through = passed.get(stop.part, ())
        now = dict.fromkeys(
            name for name in (*before, *through) if (name in before) != (through.count(name) % 2 == 1)
        )
        open_.append(now)
    return {stop.part: list(found)[-1] for stop, found in zip(circuit.stops, open_, strict=True) if found}
