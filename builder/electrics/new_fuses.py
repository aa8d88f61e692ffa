"""What a circuit that is added later may have: each fuse with the thinnest wire at hand that it protects."""

from __future__ import annotations

import math
from collections.abc import Iterable

from builder.electrics.figures import FuseFigures, NewFuse
from builder.electrics.groups import Basis
from builder.electrics.protection import SELECTIVE, lowest_ceiling
from builder.tables.protection import fuse_series
from builder.tables.table import NoRow
from builder.trailer.model import Trailer
from builder.trailer.size import Size, by_area

LARGEST_A = 15.0
"""A new circuit with a larger fuse is planned anew, with the battery's line: common practice."""


def new_fuses(trailer: Trailer, basis: Basis, fuses: Iterable[FuseFigures]) -> tuple[NewFuse, ...]:
    """Return the fuses that a new circuit from the front box may have, smallest first; none where there is no box.

    The ratings at hand, or of the box's series, from the smallest that is chosen up to `LARGEST_A`; a rating that
    no wire at hand is thick enough for is left out, and one of more than half the main fuse's, which among ``fuses``
    is the smallest on the battery's line: it might not open first (common practice, as where a main fuse is chosen).
    A wire fits by the lowest ceiling of every table that is known,
    as where a fuse is chosen.
    """
    box = trailer.front_box
    if box is None:
        return ()
    ratings = box.fuses_on_shelf_a or tuple(fact.value for fact in fuse_series(box.fuse_format))
    line = trailer.battery_line.number if trailer.battery_line else None
    main_a = min(
        (f.rating_a for f in fuses if f.circuit == line and f.rating_a is not None), default=math.inf
    )
    most_a = min(LARGEST_A, main_a / SELECTIVE)
    offered = sorted({one for one in ratings if basis.smallest_fuse_a <= one <= most_a})
    sizes = ((rating, _thinnest(trailer, rating, basis)) for rating in offered)
    return tuple(NewFuse(rating, size) for rating, size in sizes if size is not None)


def _thinnest(trailer: Trailer, rating_a: float, basis: Basis) -> Size | None:
    for size in sorted(trailer.shelf.sizes, key=by_area):
        try:
            if lowest_ceiling(size, basis.insulation_c).amps >= rating_a:
                return size
        except NoRow:
            continue
    return None
