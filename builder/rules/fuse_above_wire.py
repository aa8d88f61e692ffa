"""A fuse is larger than its wire allows.

What: the rating that the file gives a fuse or breaker is above what the thinnest wire behind it allows: wires of
other circuits too, where its current flows on through them, as on a return that two circuits share.

Why: the fuse is there for the wire. A wire that carries more than it bears gets hot inside a closed wall,
where nobody sees it, and the fuse stays whole.

Limit: FAA AC 43.13-1B Table 11-3 by wire size (read), unless the file names another table with
``check against``; a size without a row there by 33 CFR 183.425 Table 5 at the column of its insulation (read).

Walls open: a smaller fuse, or thicker wire.

Walls closed: a smaller fuse, and where the load is above it, a part that takes less.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft, size: 10 AWG}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG]}
    parts: {fan: {kind: fan, draws: 3 A}}
    circuits:
      fan: {fuse: 15 A, size: 16 AWG, path: [fan: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft, size: 10 AWG}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG]}
    parts: {fan: {kind: fan, draws: 3 A}}
    circuits:
      fan: {fuse: 10 A, size: 16 AWG, path: [fan: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.electrics.figures import Figures, FuseFigures
from builder.electrics.groups import basis_of
from builder.rules.closed_walls import NOTHING_HELP, new_wire, weaker_on_wires
from builder.rules.finding import Remark, WayOut
from builder.rules.guarding import Thinnest, ceiling_of, guarded_wires, thinnest_of
from builder.rules.mending import first_size, fuse_word, rating_up_to
from builder.rules.wording import amps, is_above, say
from builder.trailer.model import Trailer
from builder.trailer.size import Size

TOO_LARGE_SAYS = (
    "the {rating} {device} of “{circuit}” is larger than its wire {wire} ({size}) allows: {ceiling}"
)
SMALLER_HELP = "use a smaller one: {word}: {lower}"
SMALLER_OR_THICKER_HELP = (
    "use a smaller one: {word}: {lower}; or put thicker wire in place of {wire}: size: {size}"
)
THICKER_HELP = "the load needs it, so put thicker wire in place of {wire}: size: {size}"
SPLIT_HELP = "part the circuit in two, each with a smaller fuse"
WEAKER_HELP = "use a smaller one: {word}: {lower}; the load needs more, so {weaker}"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every given rating above what the thinnest wire behind it allows."""
    behind = guarded_wires(trailer, figures)
    for place, fuse in enumerate(figures.fuses):
        if not fuse.given or fuse.rating_a is None:
            continue
        thinnest = _thinnest(trailer, figures, behind.get(place, ()), fuse)
        if thinnest is None or not is_above(fuse.rating_a, thinnest.ceiling.amps):
            continue
        circuit = trailer.circuit(fuse.circuit)
        yield Remark(
            origin=fuse.origin or circuit.origin,
            message=say(
                TOO_LARGE_SAYS,
                rating=amps(fuse.rating_a),
                device=fuse.device,
                circuit=circuit.name,
                wire=thinnest.wire,
                size=thinnest.size,
                ceiling=amps(thinnest.ceiling.amps),
            ),
            help=_way_out(trailer, figures, fuse, thinnest),
            known=thinnest.ceiling.known,
            basis=thinnest.ceiling.source,
            circuit=circuit.number,
        )


def _thinnest(trailer: Trailer, figures: Figures, wires: Sequence[int], fuse: FuseFigures) -> Thinnest | None:
    """Return the thinnest of a fuse's own wires and of those of other circuits that its current flows on through."""
    circuits = {wire.number: wire.circuit for wire in trailer.wires}
    ceiling = ceiling_of(trailer, fuse.thinnest, fuse)
    if circuits[fuse.thinnest_wire] != fuse.circuit and ceiling is not None:
        return Thinnest(fuse.thinnest_wire, fuse.thinnest, ceiling)
    return thinnest_of(trailer, figures, wires, fuse)


def _way_out(trailer: Trailer, figures: Figures, fuse: FuseFigures, thinnest: Thinnest) -> WayOut:
    def bears(size: Size) -> bool:
        ceiling = ceiling_of(trailer, size, fuse)
        return ceiling is not None and not is_above(fuse.rating_a or 0.0, ceiling.amps)

    lower = rating_up_to(fuse, thinnest.ceiling.amps)
    carries = lower is not None and not is_above(fuse.load_a, lower)
    size = first_size(trailer, [thinnest.size], bears)
    sentence = {
        (True, True): SMALLER_OR_THICKER_HELP,
        (True, False): SMALLER_HELP,
        (False, True): THICKER_HELP,
        (False, False): SPLIT_HELP,
    }[carries, size is not None]
    words = {"word": fuse_word(trailer, fuse), "lower": amps(lower or 0.0)}
    weaker = weaker_on_wires(
        trailer, figures, {thinnest.wire}, fuse.load_a - (lower or 0.0) * basis_of(trailer).fuse_loading
    )
    if carries:
        closed = say(SMALLER_HELP, **words)
    elif lower is not None:
        closed = say(WEAKER_HELP, weaker=weaker, **words)
    else:
        closed = new_wire(trailer, size) if size is not None else NOTHING_HELP
    return WayOut(say(sentence, wire=thinnest.wire, size=size, **words), closed)
