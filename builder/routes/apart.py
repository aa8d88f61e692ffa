"""Whether mains and low-voltage wires keep apart: what shares a chase, and what comes nearer than the rule allows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from builder.routes.network import SAME_PLACE_M
from builder.routes.runs import Runs
from builder.routes.tubes import Tube, tubes_of
from builder.routes.vectors import Vector, along, between_pieces, length_of, minus
from builder.tables.installation import INCH_M, kept_apart
from builder.tables.table import Fact
from builder.trailer.fittings import Carries
from builder.trailer.model import Trailer
from builder.trailer.places import Chase, Geometry
from builder.trailer.size import Size

MEETS_M = 0.15
"""So far round a part that takes mains and gives low voltage both may come together (common practice)."""
FED_BY_MAINS = frozenset({"shore converter"})


@dataclass(frozen=True, slots=True)
class BesideMains:
    """Wires in one chase beside mains in another, or in the same.

    ``gap_m`` is what the measures leave between the middle of the mains chase and the wires; None where both lie in
    one chase. Wires of unknown diameter count as nothing thick. ``divided`` is what the file says of a divider.
    ``limit`` is the least distance, in inches.
    """

    mains: Chase
    chase: Chase
    wires: tuple[str, ...]
    gap_m: float | None
    divided: bool | None
    limit: Fact

    @property
    def shared(self) -> bool:
        """Whether mains and wires lie in one chase."""
        return self.mains.name == self.chase.name


def least_gap() -> Fact:
    """Return how far low-voltage wires are kept from mains: 1/2 in. Source: NEC 552.10, quoted."""
    return kept_apart("power wiring")


def beside_mains(trailer: Trailer, runs: Runs, sizes: Mapping[str, Size]) -> tuple[BesideMains, ...]:
    """Return which wires lie nearer to mains than 1/2 in, or with it in one chase; what is divided too.

    ``sizes`` are those of all wires by number. The thickness of the mains cable is not in the file, so that its
    middle is measured to; where both end at one part that takes mains, what is within `MEETS_M` of it is left out, and
    so it is round each place of a chase that carries both.
    """
    geometry = trailer.geometry
    hold = [chase for chase in geometry.chases.values() if chase.holds_mains]
    if not hold:
        return ()
    tubes = [tube for tube in tubes_of(geometry, runs, sizes, trailer.shelf.diameters_mm) if tube.wires]
    return tuple(found for mains in hold for found in _beside(trailer, mains, tubes))


def _beside(trailer: Trailer, mains: Chase, tubes: Sequence[Tube]) -> Iterator[BesideMains]:
    geometry, limit = trailer.geometry, least_gap()
    if mains.fittings.carries is Carries.BOTH:
        inside = _wires([tube for tube in tubes if tube.stretch.chase == mains.name])
        if inside:
            yield BesideMains(mains, mains, inside, None, mains.fittings.divided, limit)
    meeting = [
        geometry.places[stand.place].point_m
        for name, stand in geometry.stands.items()
        if name in trailer.parts and trailer.parts[name].kind in FED_BY_MAINS
    ]
    if mains.fittings.carries is Carries.BOTH:
        # of the chase itself is told; what meets it at its places adds nothing
        meeting += [geometry.places[name].point_m for name in mains.through]
    pieces = _pieces(geometry, mains)
    for chase in geometry.chases.values():
        if chase.name == mains.name or chase.holds_mains:
            continue
        near: list[tuple[float, Tube]] = []
        for tube in tubes:
            if tube.stretch.chase != chase.name:
                continue
            gap_m = min(_gap_m(piece, tube, meeting) for piece in pieces)
            if gap_m < limit.value * INCH_M:
                near.append((gap_m, tube))
        if near:
            divided = _either(mains.fittings.divided, chase.fittings.divided)
            yield BesideMains(
                mains,
                chase,
                _wires([tube for _, tube in near]),
                max(min(gap_m for gap_m, _ in near), 0.0),
                divided,
                limit,
            )


def _wires(tubes: Sequence[Tube]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(wire for tube in tubes for wire in tube.wires))


def _pieces(geometry: Geometry, chase: Chase) -> list[tuple[Vector, Vector]]:
    points = [geometry.places[name].point_m for name in chase.through]
    return list(pairwise(points))


def _gap_m(piece: tuple[Vector, Vector], tube: Tube, meeting: Sequence[Vector]) -> float:
    """Return what is left between the middle of the mains and the wires of a tube, in metres.

    Half of the thickest wire is taken off, or half of the bore of a conduit.
    """
    one, other = piece, tube.piece
    for point in meeting:
        if _ends_at(one, point) and _ends_at(other, point):
            one, other = _cut_back(one, point), _cut_back(other, point)
    return between_pieces(one, other) - (tube.core_m or 0.0)


def _ends_at(piece: tuple[Vector, Vector], point: Vector) -> bool:
    return any(length_of(minus(end, point)) < SAME_PLACE_M for end in piece)


def _cut_back(piece: tuple[Vector, Vector], point: Vector) -> tuple[Vector, Vector]:
    """Return a piece without what lies within `MEETS_M` of its one end; its other end where it is no longer."""
    start, end = piece if length_of(minus(piece[0], point)) < SAME_PLACE_M else piece[::-1]
    share = min(MEETS_M / length_of(minus(end, start)), 1.0)
    return along(start, end, share), end


def _either(one: bool | None, other: bool | None) -> bool | None:
    """Return yes where one of two answers is yes, else no where one is no, else that nothing is said."""
    given = [answer for answer in (one, other) if answer is not None]
    return any(given) if given else None
