"""A circuit hangs on a fuse that is too large for its wire.

What: a circuit leaves from the battery's line, or runs to the front box, and has no fuse of its own. The
fuse before it, most often the main fuse, is larger than its wire allows.

Why: in a short circuit the thin wire carries all that the large fuse lets through. It glows long before
that fuse opens.

Limit: FAA AC 43.13-1B Table 11-3 by wire size (read), unless the file names another table with
``check against``. The first 7 in before the circuit's own fuse do not count (33 CFR 183.455(b)(1), read). A
circuit with a fuse of its own that stands further away is a *should fix*. Wires that only the car feeds have
their fuse in the car, and a solar module gives no more than its wire bears: neither is judged here.

Walls open: a fuse where the circuit begins or ends, or thicker wire.

Walls closed: a fuse where the circuit begins or ends, and where the load is above it, a part that takes less.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 5 in, front box: 4 ft], fuse: 30 A, size: 8 AWG}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG]}
    parts: {alarm: {kind: alarm, draws: 80 mA}}
    circuits:
      alarm: {from: main fuse, path: [alarm: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 5 in, front box: 4 ft], fuse: 30 A, size: 8 AWG}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG]}
    parts: {alarm: {kind: alarm, draws: 80 mA}}
    circuits:
      alarm: {from: main fuse, fuse: 3 A, path: [alarm: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.electrics.figures import Figures, FuseFigures
from builder.electrics.groups import basis_of
from builder.rules.closed_walls import NOTHING_HELP, new_wire, weaker_on_wires
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.guarding import (
    Reached,
    Thinnest,
    ceiling_of,
    ends_at,
    is_stub,
    leads_to_fuse,
    near_source,
    reached_from,
    thinnest_of,
)
from builder.rules.mending import first_size, rating_of, rating_up_to
from builder.rules.wording import amps, is_above, length, say
from builder.trailer.circuits import Circuit
from builder.trailer.model import BATTERY, BATTERY_PLUS, FRONT_BOX, Trailer
from builder.trailer.size import Size
from builder.trailer.wires import Role

NO_FUSE_SAYS = (
    "“{circuit}” has no fuse of its own: the {rating} {fuse} before it is larger than its wire {wire} ({size}) "
    "allows: {ceiling}"
)
FAR_SAYS = (
    "the fuse of “{circuit}” stands far along: up to it the {rating} {fuse} is larger than its wire {wire} "
    "({size}) allows: {ceiling}"
)
FUSE_HELP = "give it a fuse of its own at its start: fuse: {own}"
END_HELP = "let a fuse stand where it ends, as in path: […, {circuit} fuse: 3 ft, {end}: 5 in]"
THICKER_HELP = "put thicker wire in place of {wire}: size: {thicker}"
NEARER_HELP = (
    "let at most {near} of wire lead to its fuse, or put thicker wire in place of {wire}: size: {thicker}"
)
FUSE_AND_WEAKER_HELP = "give it a fuse of its own at its start: fuse: {lower}; it needs more, so {weaker}"
NEARER_CLOSED_HELP = "let at most {near} of wire lead to its fuse"
FAR_BASIS = "common practice: a fuse stands where the wire gets thinner"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every circuit whose wire the fuse of another circuit alone protects, and does not fit."""
    if trailer.battery is None:
        return
    hanging: dict[tuple[int, int], list[Reached]] = {}
    for reached in reached_from(trailer, figures, BATTERY_PLUS):
        if reached.guard is None or is_stub(trailer, reached):
            continue
        circuit = trailer.wires[reached.wire].circuit
        if circuit != figures.fuses[reached.guard].circuit:
            hanging.setdefault((circuit, reached.guard), []).append(reached)
    for (number, guard), some in sorted(hanging.items()):
        if all(trailer.wires[reached.wire].role is Role.RETURN for reached in some):
            continue  # a return that circuits share: the wire's own circuit is fed through its own fuse
        bare = [reached.wire for reached in some if not leads_to_fuse(trailer, reached)]
        late = [reached.wire for reached in some if leads_to_fuse(trailer, reached)]
        judged = _Case(trailer, figures, trailer.circuit(number), figures.fuses[guard])
        yield from judged.without(bare) or judged.far(late)


class _Case:
    """One circuit that hangs on one fuse."""

    def __init__(self, trailer: Trailer, figures: Figures, circuit: Circuit, fuse: FuseFigures) -> None:
        self._trailer, self._figures, self._circuit, self._fuse = trailer, figures, circuit, fuse

    def without(self, wires: Sequence[int]) -> tuple[Remark, ...]:
        """Return a remark when a wire without a fuse of its own is too thin for the fuse before it."""
        thinnest = self._too_thin(wires)
        if thinnest is None:
            return ()
        return (
            Remark(
                origin=self._circuit.origin,
                message=self._say(NO_FUSE_SAYS, thinnest),
                help=WayOut(self._say(self._way_out(thinnest), thinnest), self._closed(thinnest)),
                known=thinnest.ceiling.known,
                basis=thinnest.ceiling.source,
                circuit=self._circuit.number,
            ),
        )

    def far(self, wires: Sequence[int]) -> tuple[Remark, ...]:
        """Return a remark when the wire up to the circuit's own fuse is long and too thin for the fuse before it."""
        thinnest = self._too_thin(wires)
        if thinnest is None:
            return ()
        number = thinnest.wire
        origin = next(wire.origin for wire in self._trailer.wires if wire.number == number)
        return (
            Remark(
                origin=origin,
                message=self._say(FAR_SAYS, thinnest),
                help=WayOut(self._say(NEARER_HELP, thinnest), self._say(NEARER_CLOSED_HELP, thinnest)),
                known="practice",
                basis=FAR_BASIS,
                level=Level.SHOULD,
                circuit=self._circuit.number,
            ),
        )

    def _too_thin(self, wires: Sequence[int]) -> Thinnest | None:
        thinnest = thinnest_of(self._trailer, self._figures, wires, self._fuse)
        rating = self._fuse.rating_a
        if thinnest is None or rating is None or not is_above(rating, thinnest.ceiling.amps):
            return None
        return thinnest

    def _say(self, sentence: str, thinnest: Thinnest) -> str:
        return say(
            sentence,
            circuit=self._circuit.name,
            rating=amps(self._fuse.rating_a or 0.0),
            fuse=self._fuse.name,
            wire=thinnest.wire,
            size=thinnest.size,
            ceiling=amps(thinnest.ceiling.amps),
            own=amps(self._own_rating() or 0.0),
            end=self._end(),
            thicker=first_size(self._trailer, [thinnest.size], self._bears),
            near=length(near_source()[0], self._trailer),
        )

    def _way_out(self, thinnest: Thinnest) -> str:
        if self._end():
            return END_HELP
        own = self._own_rating()
        return THICKER_HELP if own is None or is_above(own, thinnest.ceiling.amps) else FUSE_HELP

    def _closed(self, thinnest: Thinnest) -> str:
        """Return the way out that leaves the wire as it is: a fuse that it bears, and less behind it."""
        open_ = self._way_out(thinnest)
        if open_ != THICKER_HELP:
            return self._say(open_, thinnest)
        made = self._figures.circuits[self._circuit.number]
        lower = rating_up_to(self._fuse, thinnest.ceiling.amps)
        if lower is None:
            thicker = first_size(self._trailer, [thinnest.size], self._bears)
            return new_wire(self._trailer, thicker) if thicker is not None else NOTHING_HELP
        excess_a = made.load_current_a - lower * basis_of(self._trailer).fuse_loading
        weaker = weaker_on_wires(self._trailer, self._figures, {thinnest.wire}, excess_a)
        return say(FUSE_AND_WEAKER_HELP, lower=amps(lower), weaker=weaker)

    def _end(self) -> str:
        """Return the source at which the circuit ends, where its fuse has to be; empty when it ends at a load."""
        return next((end for end in (BATTERY, FRONT_BOX) if ends_at(self._circuit, end) is not None), "")

    def _own_rating(self) -> float | None:
        """Return the smallest usual rating that carries the circuit for hours and lets it start, in amperes."""
        basis = basis_of(self._trailer)
        made = self._figures.circuits[self._circuit.number]
        return rating_of(
            self._trailer,
            self._fuse,
            max(made.load_current_a / basis.fuse_loading, made.starting_current_a, basis.smallest_fuse_a),
        )

    def _bears(self, size: Size) -> bool:
        ceiling = ceiling_of(self._trailer, size, self._fuse)
        return ceiling is not None and not is_above(self._fuse.rating_a or 0.0, ceiling.amps)
