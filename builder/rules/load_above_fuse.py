"""A fuse is smaller than its load, or no fuse fits.

What: everything on the circuit together takes more than its fuse carries; or no rating at hand is at once
large enough for the load and small enough for the wire.

Why: such a fuse opens in use, most likely at night, and invites a larger one.

Limit: the load at 12.0 V with everything on, against the rating the file gives (arithmetic on the file). It
is a *must fix* when the loads that the file states are enough by themselves; with assumed ones it is a *should
fix*. A load above the share that a fuse carries for hours is worth knowing (80 %, common practice). Where the
tool chooses, no fuse fits when the wire allows less than the load needs, or when none at hand is between: the
circuit would be left without one, which is a *must fix*. A fuse that is within the table it is judged by, and
above a more cautious one, is a *should fix*.

Walls open: a larger fuse, and thicker wire where the wire does not bear it.

Walls closed: a larger fuse where the wire bears it; else a part that takes less.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [14 AWG]}
    parts: {fan: {kind: fan, draws: 3 A}, heater: {kind: heater, draws: 4 A}}
    circuits:
      fan: {fuse: 5 A, path: [fan: 6 ft, heater: 2 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [14 AWG]}
    parts: {fan: {kind: fan, draws: 3 A}, heater: {kind: heater, draws: 4 A}}
    circuits:
      fan: {fuse: 10 A, path: [fan: 6 ft, heater: 2 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures, FuseFigures
from builder.electrics.fusing import choose_rating
from builder.electrics.groups import basis_of
from builder.electrics.protection import lowest_ceiling
from builder.rules.closed_walls import either, new_wire, weaker_on_wires
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.guarding import ceiling_of
from builder.rules.loading import stated_load_a
from builder.rules.mending import first_size, fuse_word, rating_of, rating_up_to, spot_of
from builder.rules.wording import amps, amps_up, is_above, say
from builder.tables.table import NoRow
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import Trailer
from builder.trailer.size import Size
from builder.trailer.wires import Role

TOO_SMALL_SAYS = "“{circuit}” takes {load} with everything on, more than its {rating} {device} carries"
TOO_SMALL_BASIS = "the loads and the rating in the file"
ASSUMED_BASIS = "the rating in the file, and loads that are assumed"
CLOSE_SAYS = "“{circuit}” takes {load}, more than {share} of its {rating} {device}: it may open after hours"
CLOSE_BASIS = "a steady load is at most {share} of the rating, common practice"
NONE_FITS_SAYS = "no fuse fits “{circuit}”: it needs {needed}, and its wire {wire} ({size}) allows {ceiling}"
NONE_SO_LARGE_SAYS = "no {series} fuse is large enough for “{circuit}”: it needs {needed}"
NONE_AT_HAND_SAYS = (
    "no fuse at hand fits “{circuit}”: it needs {needed}, and its wire {wire} ({size}) allows {ceiling}"
)
CAUTIOUS_SAYS = (
    "“{circuit}” needs a {rating} {device}: its wire {wire} ({size}) allows {ceiling}, and by a more cautious table "
    "only {lower}"
)
LARGER_HELP = "use a larger one: {word}: {larger}"
LARGER_AND_THICKER_HELP = (
    "use a larger one, {word}: {larger}, and thicker wire in place of {wire}: size: {thicker}"
)
THICKER_HELP = "put thicker wire in place of {wire}: size: {thicker}"
SHELF_HELP = "add {larger} to fuses on the shelf"
SPLIT_HELP = "part the circuit in two, each with a fuse of its own"
LINE_HELP = (
    "the battery's line cannot be parted, and no fuse with its wire known here carries so much: let all together take "
    "{excess} less"
)
ONE_PART_HELP = (
    "one part cannot be parted, and no fuse with its wire known here carries so much: choose one that takes, or "
    "gives, {excess} less"
)


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every fuse below its load, close to it, or missing because none fits."""
    share = basis_of(trailer).fuse_loading
    for fuse in figures.fuses:
        circuit = trailer.circuit(fuse.circuit)
        if fuse.rating_a is None:
            yield _none_fits(trailer, figures, circuit, fuse)
        elif not fuse.given and is_above(fuse.rating_a, fuse.choice_ceiling_a):
            yield _above_the_cautious(trailer, figures, circuit, fuse)
        elif fuse.given and is_above(fuse.load_a, fuse.rating_a):
            yield _too_small(trailer, figures, circuit, fuse)
        elif fuse.given and is_above(fuse.load_a, fuse.rating_a * share):
            yield _close(trailer, figures, circuit, fuse)


def _too_small(trailer: Trailer, figures: Figures, circuit: Circuit, fuse: FuseFigures) -> Remark:
    stated = is_above(stated_load_a(trailer, figures, fuse), fuse.rating_a or 0.0)
    return Remark(
        origin=fuse.origin or circuit.origin,
        message=say(
            TOO_SMALL_SAYS,
            circuit=circuit.name,
            load=amps_up(fuse.load_a),
            rating=amps(fuse.rating_a or 0.0),
            device=fuse.device,
        ),
        help=_larger(trailer, figures, fuse),
        known="file" if stated else "practice",
        basis=TOO_SMALL_BASIS if stated else ASSUMED_BASIS,
        circuit=circuit.number,
    )


def _close(trailer: Trailer, figures: Figures, circuit: Circuit, fuse: FuseFigures) -> Remark:
    share = f"{100 * basis_of(trailer).fuse_loading:g} %"
    return Remark(
        origin=fuse.origin or circuit.origin,
        message=say(
            CLOSE_SAYS,
            circuit=circuit.name,
            load=amps_up(fuse.load_a),
            share=share,
            rating=amps(fuse.rating_a or 0.0),
            device=fuse.device,
        ),
        help=_larger(trailer, figures, fuse),
        known="practice",
        basis=say(CLOSE_BASIS, share=share),
        level=Level.WORTH,
        circuit=circuit.number,
    )


def _larger(trailer: Trailer, figures: Figures, fuse: FuseFigures) -> str | WayOut:
    """Return the rating to use instead of a given one, with the size that bears it where the wire does not."""
    larger = rating_of(trailer, fuse, fuse.needed_a)
    weaker = _weaker(trailer, figures, fuse, fuse.rating_a or 0.0)
    if larger is None:
        return _parted(trailer, figures, fuse, fuse.rating_a or 0.0, weaker)
    word = fuse_word(trailer, fuse)
    if not is_above(larger, fuse.ceiling_a):
        return say(LARGER_HELP, word=word, larger=amps(larger))

    def bears(size: Size) -> bool:
        ceiling = ceiling_of(trailer, size, fuse)
        return ceiling is not None and not is_above(larger, ceiling.amps)

    thicker = first_size(trailer, [fuse.thinnest], bears)
    if thicker is None:
        return _parted(trailer, figures, fuse, fuse.rating_a or 0.0, weaker)
    open_ = say(
        LARGER_AND_THICKER_HELP, word=word, larger=amps(larger), wire=fuse.thinnest_wire, thicker=thicker
    )
    return WayOut(open_, weaker)


def _parted(trailer: Trailer, figures: Figures, fuse: FuseFigures, rating_a: float, weaker: str) -> WayOut:
    """Return the way out where no rating and no size help: two circuits, which neither a line nor one part can be.

    ``rating_a`` is the largest that there is for its wire.
    """
    behind = _wires_behind(trailer, fuse)
    parts = {
        load.load.part
        for circuit in figures.circuits.values()
        for load in circuit.loads
        if behind.intersection(step.wire for step in load.steps)
    }
    excess = amps_up(_excess_a(fuse, rating_a))
    if trailer.circuit(fuse.circuit).kind is CircuitKind.BATTERY:
        return WayOut(say(LINE_HELP, excess=excess), either(weaker))
    if len(parts) == 1:
        return WayOut(say(ONE_PART_HELP, excess=excess), either(weaker))
    return WayOut(SPLIT_HELP, weaker)


def _wires_behind(trailer: Trailer, fuse: FuseFigures) -> set[str]:
    start = spot_of(trailer, fuse).terminal
    wires = {wire.number for wire in trailer.wires if wire.start == start and wire.role is not Role.RETURN}
    return wires or {fuse.thinnest_wire}


def _weaker(trailer: Trailer, figures: Figures, fuse: FuseFigures, rating_a: float) -> str:
    """Return how little must hang on a fuse of a rating so that it carries it for hours and lets it start."""
    return weaker_on_wires(trailer, figures, _wires_behind(trailer, fuse), _excess_a(fuse, rating_a))


def _excess_a(fuse: FuseFigures, rating_a: float) -> float:
    """Return how much less must flow so that a rating carries it for hours and lets it start, in amperes."""
    share = min(rating_a / fuse.needed_a if fuse.needed_a > 0 else 1.0, 1.0)
    return fuse.load_a * (1.0 - share)


def _above_the_cautious(trailer: Trailer, figures: Figures, circuit: Circuit, fuse: FuseFigures) -> Remark:
    return Remark(
        origin=circuit.origin,
        message=say(
            CAUTIOUS_SAYS,
            circuit=circuit.name,
            rating=amps(fuse.rating_a or 0.0),
            device=fuse.device,
            wire=fuse.thinnest_wire,
            size=fuse.thinnest,
            ceiling=amps(fuse.ceiling_a),
            lower=amps(fuse.choice_ceiling_a),
        ),
        help=_room(trailer, figures, fuse),
        known="practice",
        basis=fuse.choice_source,
        level=Level.SHOULD,
        circuit=circuit.number,
    )


def _none_fits(trailer: Trailer, figures: Figures, circuit: Circuit, fuse: FuseFigures) -> Remark:
    usual = rating_of(trailer, fuse, max(fuse.needed_a, basis_of(trailer).smallest_fuse_a))
    short_of_wire = usual is None or is_above(usual, fuse.ceiling_a)
    says = NONE_FITS_SAYS if short_of_wire else NONE_AT_HAND_SAYS
    if usual is None and not is_above(fuse.needed_a, fuse.ceiling_a):
        says = NONE_SO_LARGE_SAYS
    beyond = is_above(stated_load_a(trailer, figures, fuse), fuse.ceiling_a)
    return Remark(
        origin=circuit.origin,
        message=say(
            says,
            circuit=circuit.name,
            series=fuse.series,
            needed=amps(usual or fuse.needed_a),
            wire=fuse.thinnest_wire,
            size=fuse.thinnest,
            ceiling=amps(fuse.ceiling_a),
        ),
        help=_room(trailer, figures, fuse) if short_of_wire else say(SHELF_HELP, larger=amps(usual or 0.0)),
        known=fuse.ceiling_known if beyond else "file",  # by the file as it stands the circuit has no fuse
        basis=fuse.ceiling_source,
        circuit=circuit.number,
    )


def _room(trailer: Trailer, figures: Figures, fuse: FuseFigures) -> WayOut:
    """Return the size whose wire leaves room for a rating on offer."""
    least = max(fuse.needed_a, basis_of(trailer).smallest_fuse_a)
    spot = spot_of(trailer, fuse)

    def leaves_room(size: Size) -> bool:
        try:
            ceiling = lowest_ceiling(
                size, basis_of(trailer).insulation_c, "breaker" if fuse.device == "breaker" else "fuse"
            )
        except NoRow:
            return False
        return choose_rating(trailer, spot, least, ceiling.amps) is not None

    thicker = first_size(trailer, [fuse.thinnest], leaves_room)
    lower = rating_up_to(fuse, fuse.choice_ceiling_a)
    weaker = _weaker(trailer, figures, fuse, lower) if lower is not None else ""
    if thicker is None:
        return _parted(trailer, figures, fuse, lower or 0.0, either(weaker))
    open_ = say(THICKER_HELP, wire=fuse.thinnest_wire, thicker=thicker)
    return WayOut(open_, either(weaker, new_wire(trailer, thicker)))
