"""A fuse is many times what its circuit takes.

What: a fuse above 10 A guards a circuit that takes less than a tenth of it.

Why: the fuse then guards the wire in the wall alone. The thin leads of a lamp or a meter, and its inside, can
burn before it opens.

Limit: ten times the load, above 10 A: common practice, with no source. The wire is a rule of its own.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      light: {fuse: 15 A, path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      light: {fuse: 3 A, path: [lamp: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.electrics.groups import basis_of
from builder.rules.finding import Remark
from builder.rules.mending import fuse_word, rating_of
from builder.rules.wording import amps, is_above, say
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import Trailer

TIMES = 10.0
ABOVE_A = 10.0

FAR_SAYS = (
    "the {rating} {device} of “{circuit}” is {times} times what flows there, {load}: it guards the wire alone"
)
SMALLER_HELP = "choose a smaller one: {word}: {smaller}"
SHELF_HELP = "add {smaller} to fuses on the shelf"
FAR_BASIS = "common practice"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every fuse that is far above its load, the battery's main fuse apart."""
    for fuse in figures.fuses:
        circuit = trailer.circuit(fuse.circuit)
        if fuse.rating_a is None or fuse.load_a <= 0 or circuit.kind is CircuitKind.BATTERY:
            continue
        if not (is_above(fuse.rating_a, ABOVE_A) and is_above(fuse.rating_a, TIMES * fuse.load_a)):
            continue
        smaller = rating_of(trailer, fuse, max(fuse.needed_a, basis_of(trailer).smallest_fuse_a))
        if smaller is None or not is_above(fuse.rating_a, smaller):
            continue
        help_ = SMALLER_HELP if fuse.given else SHELF_HELP
        yield Remark(
            origin=fuse.origin or circuit.origin,
            message=say(
                FAR_SAYS,
                rating=amps(fuse.rating_a),
                device=fuse.device,
                circuit=circuit.name,
                times=int(fuse.rating_a / fuse.load_a),
                load=amps(fuse.load_a),
            ),
            help=say(help_, word=fuse_word(trailer, fuse), smaller=amps(smaller)),
            known="practice",
            basis=FAR_BASIS,
            circuit=circuit.number,
        )
