"""The pull plan: which pieces of wire are drawn in together, in which order, and how full each conduit is then."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from builder.electrics.figures import Figures
from builder.lists.cut_pieces import Piece, pieces
from builder.lists.free_ends import FreeEnd, free_ends, hanging
from builder.routes.fill import fill_share, wire_diameter_mm
from builder.routes.network import Stretch
from builder.routes.runs import Run
from builder.routes.ways import Step
from builder.tables.installation import conduit_fill_limit
from builder.trailer.already_in import already_in, piece_in
from builder.trailer.model import Trailer
from builder.trailer.places import Chase, ChaseKind
from builder.trailer.size import Size, by_area

_SAME_MM = 1000
"""Ways are compared in whole millimetres: sums of the same stretches in another order are equal."""

Way = tuple[tuple[Stretch, str], ...]
"""A way away from the supply: each stretch with the place where it is entered."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """One piece of a pull: it comes out at the place ``until``; ``whole`` tells that it goes all the way.

    ``free`` is what is left free at each of its ends, see `free_ends`.
    """

    piece: Piece
    until: str
    whole: bool
    free: tuple[FreeEnd, ...] = ()


@dataclass(frozen=True, slots=True)
class FillAfter:
    """How full the fullest stretch of a conduit is once a pull is in, in percent of its bore.

    ``fill_percent`` is None where the diameter of a wire is not known; ``limit_percent`` is that of the table for as
    many wires.
    """

    chase: str
    stretch: Stretch
    wires: int
    fill_percent: float | None
    limit_percent: float


@dataclass(frozen=True, slots=True)
class Pull:
    """One act of drawing in: from ``start``, where one feeds, to ``end``, where the other one draws.

    ``way_m`` is the length of its way through the chases in metres, ``thickest`` the size of its stiffest wire.
    ``chases`` are those that it passes, in their order; ``strings`` those of them with a pull string, ``bare``
    conduits without one. ``fills`` are of the conduits that it passes, as far as the file has a bore. ``through`` are
    the chases stretch after stretch, one that it comes back through once more; ``turns`` the places where it goes back
    by the same way, as it does to a part on the way to another one.
    """

    number: int
    start: str
    end: str
    way_m: float
    thickest: Size
    chases: tuple[str, ...]
    strings: tuple[str, ...]
    bare: tuple[str, ...]
    drawn: tuple[Drawn, ...]
    fills: tuple[FillAfter, ...] = ()
    through: tuple[str, ...] = ()
    turns: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PullPlan:
    """All pulls in their order; ``at_hand`` are pieces that pass no chase.

    ``unplaced`` are those with a wire of which nobody can tell where it runs.
    """

    pulls: tuple[Pull, ...] = ()
    at_hand: tuple[Piece, ...] = ()
    unplaced: tuple[Piece, ...] = ()


@dataclass(frozen=True, slots=True)
class _Draft:
    """A pull before it has its number: its steps, its pieces, and in which chases wires are drawn past others."""

    steps: tuple[Step, ...]
    drawn: tuple[Drawn, ...]
    shared: frozenset[str]

    @property
    def way_m(self) -> float:
        return sum(step.length_m for step in self.steps)

    @property
    def thickest(self) -> Size:
        return max((one.piece.sort.size for one in self.drawn), key=by_area)

    @property
    def rank(self) -> tuple[int, float]:
        """What pulls are sorted by, the first one greatest: the longest way, then the thickest wire."""
        return round(self.way_m * _SAME_MM), by_area(self.thickest)


def longest_to_draw(trailer: Trailer, plan: PullPlan) -> Pull | None:
    """Return the longest pull that is still to be drawn, the first of equal ones: its string serves every other.

    None where there is no pull, or all of it is in.
    """
    known = already_in(trailer)
    left = [pull for pull in plan.pulls if not all(piece_in(one.piece.wires, known) for one in pull.drawn)]
    return max(left, key=lambda pull: round(pull.way_m * _SAME_MM), default=None)


def pull_plan(trailer: Trailer, figures: Figures) -> PullPlan:
    """Return what is pulled together and in which order; nothing where the file has no chases.

    A piece goes along with a longer one where its whole way is the beginning of that one's: both are tied to one
    string, and it comes out on the way. The longest goes first; where two pulls pass the same conduit, or a chase
    with a pull string, the one with the thicker wire does (common practice: a stiff wire does not find its way past
    others, a long one that was cut wrong still serves). What is in already comes first and by itself: nothing that is
    still to be drawn can be tied to it.
    """
    if not trailer.geometry.chases:
        return PullPlan()
    known = already_in(trailer)
    there: dict[Way, list[tuple[Piece, Run]]] = {}
    wanted: dict[Way, list[tuple[Piece, Run]]] = {}
    at_hand: list[Piece] = []
    unplaced: list[Piece] = []
    for piece in pieces(trailer, figures):
        run = _run_of(piece, figures.runs.runs)
        if run is None:
            unplaced.append(piece)
        elif not run.steps:
            at_hand.append(piece)
        else:
            found = there if piece_in(piece.wires, known) else wanted
            found.setdefault(_way(run), []).append((piece, run))
    hangs_m = {one.wire: one.length_m for one in hanging(trailer, figures.runs.runs)}
    drafts = [
        draft
        for found in (there, wanted)
        for draft in in_order([_draft(trailer, figures, hangs_m, mine) for mine in together(found).values()])
    ]
    return PullPlan(tuple(_numbered(trailer, figures, drafts)), tuple(at_hand), tuple(unplaced))


def _run_of(piece: Piece, runs: Mapping[str, Run]) -> Run | None:
    """Return where a piece runs, as the wire of it with the longest way does; None where the way of any is unknown.

    What is known of one part tells nothing of the rest: the whole piece is drawn in at once.
    """
    if any(number not in runs for number in piece.wires):
        return None
    return max((runs[number] for number in piece.wires), key=lambda run: run.way_m + run.slack_m)


def _way(run: Run) -> Way:
    return tuple((step.stretch, step.start) for step in run.steps)


def together(ways: Mapping[Way, Sequence[tuple[Piece, Run]]]) -> dict[Way, list[tuple[Piece, Run]]]:
    """Return the fewest pulls by their ways, with what each draws in; its own pieces first.

    Every way that is not the beginning of another needs a pull of its own; any other goes along with the longest of
    those that begin like it, the first of them where some are equally long.
    """
    tree = _Node()
    for way in ways:
        tree.down(way, grow=True)
    leading = [way for way in ways if not tree.down(way).further]
    found: dict[Way, list[tuple[Piece, Run]]] = {}
    for way in sorted(leading, key=lambda one: -_length(ways[one])):
        found[way] = list(ways[way])
        for node in tree.along(way):
            node.first = node.first or way
    for way, mine in ways.items():
        with_way = tree.down(way).first
        if way not in found and with_way is not None:
            found[with_way] += mine
    return found


class _Node:
    """Where some ways that began alike have got to: how they go on, and the first pull that comes past."""

    def __init__(self) -> None:
        self.further: dict[tuple[Stretch, str], _Node] = {}
        self.first: Way | None = None

    def down(self, way: Way, *, grow: bool = False) -> _Node:
        """Return the node at the end of a way; it is made where ``grow`` says so."""
        node = self
        for step in way:
            node = node.further.setdefault(step, _Node()) if grow else node.further[step]
        return node

    def along(self, way: Way) -> Iterator[_Node]:
        """Yield every node that a way comes past."""
        node = self
        for step in way:
            node = node.further[step]
            yield node


def _length(mine: Sequence[tuple[Piece, Run]]) -> int:
    return round(sum(step.length_m for step in mine[0][1].steps) * _SAME_MM)


def _draft(
    trailer: Trailer, figures: Figures, hangs_m: Mapping[str, float], mine: Sequence[tuple[Piece, Run]]
) -> _Draft:
    steps = mine[0][1].steps
    chases = {step.stretch.chase for step in steps}
    runs = figures.runs.runs
    drawn = [
        Drawn(piece, run.steps[-1].end, len(run.steps) == len(steps), free_ends(piece, runs, hangs_m))
        for piece, run in mine
    ]
    drawn.sort(key=lambda one: not one.whole)
    shared = frozenset(name for name in chases if drawn_through(trailer.geometry.chases[name]))
    return _Draft(steps, tuple(drawn), shared)


def drawn_through(chase: Chase) -> bool:
    """Tell whether wires are drawn through a chase past those in it, rather than laid in: conduits, and strings."""
    return chase.kind is ChaseKind.CONDUIT or chase.fittings.pull_string


def in_order(drafts: Sequence[_Draft]) -> list[_Draft]:
    """Return pulls in their order: of those that nothing stiffer must precede the longest, then the stiffest.

    In each chase that pulls share all with the thickest wire come first, then those with the next one, and so on. Of
    pulls that are alike in both, the first stays first.
    """
    levels = _levels(drafts)
    waits_for = [len(draft.shared) for draft in drafts]
    free: list[tuple[int, float, int]] = []

    def let_in(chase: str) -> None:
        """Let the wires that are next in thickness into a chase."""
        for place in levels[chase][-1] if levels[chase] else ():
            waits_for[place] -= 1
            if waits_for[place] == 0:
                heapq.heappush(free, (*_last_first(drafts[place].rank), place))

    for place, draft in enumerate(drafts):
        if not draft.shared:
            heapq.heappush(free, (*_last_first(draft.rank), place))
    for chase in levels:
        let_in(chase)
    found: list[_Draft] = []
    while free:
        place = heapq.heappop(free)[-1]
        found.append(drafts[place])
        for chase in sorted(drafts[place].shared):
            levels[chase][-1].discard(place)
            if not levels[chase][-1]:
                levels[chase].pop()
                let_in(chase)
    return found


def _levels(drafts: Sequence[_Draft]) -> dict[str, list[set[int]]]:
    """Return for each chase that pulls share their places by the thickness of their wires, the thickest last."""
    found: dict[str, dict[float, set[int]]] = {}
    for place, draft in enumerate(drafts):
        for chase in draft.shared:
            found.setdefault(chase, {}).setdefault(by_area(draft.thickest), set()).add(place)
    return {chase: [by_size[area] for area in sorted(by_size)] for chase, by_size in found.items()}


def _last_first(rank: tuple[int, float]) -> tuple[int, float]:
    return -rank[0], -rank[1]


def _numbered(trailer: Trailer, figures: Figures, drafts: Iterable[_Draft]) -> Iterator[Pull]:
    chases = trailer.geometry.chases
    held: dict[Stretch, list[Size]] = {}
    for number, draft in enumerate(drafts, start=1):
        _put_in(held, figures, draft)
        names = tuple(dict.fromkeys(step.stretch.chase for step in draft.steps))
        yield Pull(
            number,
            draft.steps[0].start,
            draft.steps[-1].end,
            draft.way_m,
            draft.thickest,
            names,
            tuple(name for name in names if chases[name].fittings.pull_string),
            tuple(
                name
                for name in names
                if chases[name].kind is ChaseKind.CONDUIT and not chases[name].fittings.pull_string
            ),
            draft.drawn,
            tuple(
                _fullest(trailer, held, chases[name], draft)
                for name in names
                if chases[name].bore_m is not None
            ),
            tuple(name for name, _ in groupby(step.stretch.chase for step in draft.steps)),
            tuple(one.end for one, after in pairwise(draft.steps) if one.stretch == after.stretch),
        )


def _put_in(held: dict[Stretch, list[Size]], figures: Figures, draft: _Draft) -> None:
    """Add the wires of a pull to what each stretch holds; a wire that passes one twice counts twice."""
    for one in draft.drawn:
        for wire in one.piece.wires:
            run = figures.runs.runs.get(wire)
            for step in run.steps if run is not None else ():
                held.setdefault(step.stretch, []).append(one.piece.sort.size)


def _fullest(
    trailer: Trailer, held: Mapping[Stretch, Sequence[Size]], chase: Chase, draft: _Draft
) -> FillAfter:
    """Return the fill of the fullest stretch of a conduit that a pull passes, the first of equal ones."""
    passed = dict.fromkeys(step.stretch for step in draft.steps if step.stretch.chase == chase.name)
    made = [_fill(trailer, chase, stretch, held[stretch]) for stretch in passed]
    return max(made, key=lambda one: (one.fill_percent is None, one.fill_percent or 0.0))


def _fill(trailer: Trailer, chase: Chase, stretch: Stretch, sizes: Sequence[Size]) -> FillAfter:
    known = [wire_diameter_mm(size, trailer.shelf) for size in sizes]
    diameters = [mm for mm in known if mm is not None]
    share = fill_share(diameters, (chase.bore_m or 0.0) * 1000) if len(diameters) == len(known) else None
    return FillAfter(chase.name, stretch, len(sizes), share, conduit_fill_limit(len(sizes)).value)
