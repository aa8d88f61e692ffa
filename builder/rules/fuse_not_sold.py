"""A fuse has a rating that cannot be bought.

What: the file gives a fuse, or a fuse on the shelf, a rating that its kind of blade is not sold in; or, in a
holder of its own, one that no kind of fuse known here has.

Why: the owner stands on a camp site with a blown fuse and looks for one that no shop has. The next larger one
fits the same holder, and is larger than the wire allows.

Limit: the ratings that each kind of fuse is sold in (quoted for blade fuses, a list of the trade). A few more are
sold here and there, such as 35 A: the owner then has to find that shop. Breakers are not judged.

Walls open: the rating that is printed, or a circuit parted in two where none fits.

Walls closed: the rating that is printed, and where the load is above it, a part that takes less.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {fan: {kind: fan, draws: 3 A}}
    circuits:
      fan: {fuse: 6 A, path: [fan: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {fan: {kind: fan, draws: 3 A}}
    circuits:
      fan: {fuse: 5 A, path: [fan: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures, FuseFigures
from builder.electrics.groups import basis_of
from builder.rules.closed_walls import NOTHING_HELP, weaker_on_wires
from builder.rules.finding import Remark, WayOut
from builder.rules.mending import fuse_word, rating_of, rating_up_to
from builder.rules.wording import amps, is_above, say
from builder.tables.protection import fuse_series, fuse_series_names
from builder.trailer.model import Trailer

WAY_SAYS = "the fuse of “{circuit}” is {rating}, and {series} fuses are not sold in that rating"
HOLDER_SAYS = "“{fuse}” is {rating}, and no fuse is sold in that rating"
SHELF_SAYS = "{rating} stands among the fuses on the shelf, and {series} fuses are not sold in that rating"
SOLD_HELP = "choose one that is sold: {word}: {sold}"
KIND_HELP = "choose a fuse block for another kind of fuse, fuses: {kind} under front box"
SPLIT_HELP = "part the circuit in two, each with a fuse of its own that is sold"
WEAKER_HELP = "choose one that is sold: {word}: {sold}; the load needs more, so {weaker}"
SHELF_HELP = "take {rating} out of fuses on the shelf"
SOLD_BASIS = "the ratings that each kind of fuse is sold in, a list of the trade"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every rating, of a fuse or on the shelf, that is not sold."""
    box = trailer.front_box
    for rating_a in box.fuses_on_shelf_a if box is not None else ():
        if box is not None and not _sold(rating_a, (box.fuse_format,)):
            yield Remark(
                origin=box.origin,
                message=say(SHELF_SAYS, rating=amps(rating_a), series=box.fuse_format),
                help=say(SHELF_HELP, rating=amps(rating_a)),
                known="quoted",
                basis=SOLD_BASIS,
            )
    for fuse in figures.fuses:
        if fuse.device == "fuse" and fuse.given and fuse.rating_a is not None:
            series = (fuse.series,) if fuse.way is not None else fuse_series_names()
            if not _sold(fuse.rating_a, series):
                yield _remark(trailer, figures, fuse)


def _sold(rating_a: float, series: tuple[str, ...]) -> bool:
    return any(abs(fact.value - rating_a) < 1e-9 for name in series for fact in fuse_series(name))


def _remark(trailer: Trailer, figures: Figures, fuse: FuseFigures) -> Remark:
    circuit = trailer.circuit(fuse.circuit)
    return Remark(
        origin=fuse.origin or circuit.origin,
        message=say(
            WAY_SAYS if fuse.way is not None else HOLDER_SAYS,
            circuit=circuit.name,
            fuse=fuse.name,
            rating=amps(fuse.rating_a or 0.0),
            series=fuse.series,
        ),
        help=_way_out(trailer, figures, fuse),
        known="quoted",
        basis=SOLD_BASIS,
        circuit=circuit.number,
    )


def _way_out(trailer: Trailer, figures: Figures, fuse: FuseFigures) -> str | WayOut:
    """Return the rating to take instead, or the kind of fuse that has the rating; never one above the wire."""
    word = fuse_word(trailer, fuse)
    below = rating_up_to(fuse, min(fuse.rating_a or 0.0, fuse.ceiling_a))
    if below is not None and not is_above(fuse.needed_a, below):
        return say(SOLD_HELP, word=word, sold=amps(below))
    above = rating_of(trailer, fuse, max(fuse.needed_a, fuse.rating_a or 0.0))
    if above is not None and not is_above(above, fuse.ceiling_a):
        return say(SOLD_HELP, word=word, sold=amps(above))
    kinds = [name for name in fuse_series_names() if name.startswith("blade")]
    kind = next((name for name in kinds if _sold(fuse.rating_a or 0.0, (name,))), "")
    if kind and fuse.way is not None:
        return say(KIND_HELP, kind=kind)
    if below is None:
        return WayOut(SPLIT_HELP, NOTHING_HELP)
    excess_a = fuse.load_a - below * basis_of(trailer).fuse_loading
    weaker = weaker_on_wires(trailer, figures, {fuse.thinnest_wire}, excess_a)
    return WayOut(SPLIT_HELP, say(WEAKER_HELP, word=word, sold=amps(below), weaker=weaker))
