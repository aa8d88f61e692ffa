"""Which wires run as a pair in one jacket, where wire is sold so, and which run by themselves."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.figures import Figures, every_size
from builder.routes.network import Stretch
from builder.routes.runs import Run
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import Trailer
from builder.trailer.size import Size
from builder.trailer.wires import Role, Wire

SAME_M = 1e-6
"""Lengths that differ by less are equal: sums of written lengths in another order."""


@dataclass(frozen=True, slots=True)
class Cable:
    """Wires of one circuit in one jacket, from the part ``start`` outwards to ``end``: one beside a chain of others."""

    feeds: tuple[Wire, ...]
    returns: tuple[Wire, ...]
    start: str
    end: str

    @property
    def wires(self) -> tuple[Wire, ...]:
        """All of them, the feeds first."""
        return *self.feeds, *self.returns


def by_circuit(trailer: Trailer, figures: Figures) -> dict[tuple[int, Size], list[Wire]]:
    """Return the wires of each circuit by size; the spare ones come last, as circuit 0."""
    sizes = every_size(trailer, figures.wires)
    found: dict[tuple[int, Size], list[Wire]] = {}
    for wire in (*trailer.wires, *trailer.spares):
        circuit = 0 if wire.role is Role.SPARE else wire.circuit
        found.setdefault((circuit, sizes[wire.number]), []).append(wire)
    return found


def cables(
    trailer: Trailer, figures: Figures, circuit: int, size: Size, wires: Sequence[Wire]
) -> list[Cable]:
    """Return which wires of one circuit and size run as pairs, where the shelf has their size as pair cable.

    A feed and a return between the same parts are one cable where they are planned equally long and run the same way,
    as far as both ways are known; so is a return beside the feeds that follow one another along it, which are parted
    at the switch between them. Any other wire runs by itself (common practice: no wire is joined on its way).
    """
    feeds, returns = _sides(trailer, circuit, wires) if size in trailer.shelf.sizes else ([], [])
    planned_m = {wire.number: wire.length_m for wire in (trailer.plan or trailer).wires}
    left = {wire.number: wire for wire in (*feeds, *returns)}
    found: list[Cable] = []
    for whole, parted in ((returns, feeds), (feeds, returns)):
        for one in sorted(whole, key=lambda wire: -planned_m[wire.number]):
            if one.number not in left:
                continue
            chain = _chain(one, [wire for wire in parted if wire.number in left], figures.runs.runs)
            if not chain or abs(sum(planned_m[w.number] for w in chain) - planned_m[one.number]) > SAME_M:
                continue
            for wire in (one, *chain):
                del left[wire.number]
            start, end = _outwards(one)
            sides = (chain, (one,)) if whole is returns else ((one,), chain)
            found.append(Cable(sides[0], sides[1], start, end))
    return found


def paired(trailer: Trailer, figures: Figures) -> frozenset[str]:
    """Return the numbers of the wires that run as a pair."""
    return frozenset(
        wire.number
        for (circuit, size), wires in by_circuit(trailer, figures).items()
        for cable in cables(trailer, figures, circuit, size, wires)
        for wire in cable.wires
    )


def is_side(trailer: Trailer, wire: Wire) -> bool:
    """Tell whether a wire has the colour of its side of a pair."""
    if wire.role is Role.RETURN:
        return wire.color == trailer.shelf.ground
    return wire.role in (Role.FEED, Role.TRAVELLER) and wire.color == trailer.shelf.feed


def _sides(trailer: Trailer, circuit: int, wires: Sequence[Wire]) -> tuple[list[Wire], list[Wire]]:
    """Return the wires of one circuit that pair cable can be, in the build's two colours: feeds, and returns."""
    if not _sold_as_pair(trailer, circuit):
        return [], []
    mine = [wire for wire in wires if is_side(trailer, wire)]
    return [w for w in mine if w.role is not Role.RETURN], [w for w in mine if w.role is Role.RETURN]


def _sold_as_pair(trailer: Trailer, circuit: int) -> bool:
    """Tell whether a circuit is wired with pair cable; 0 stands for the spare wires.

    The battery's own line never is: its cables part at the fuse, the switch and the posts (common practice).
    """
    shelf = trailer.shelf
    pairs = shelf.sold_as == "pair" and shelf.feed != shelf.ground
    return pairs and circuit != 0 and trailer.circuit(circuit).kind is not CircuitKind.BATTERY


def _outwards(wire: Wire) -> tuple[str, str]:
    """Return the parts between which a wire runs, the one towards the supply first."""
    ends = wire.start.part, wire.end.part
    return (ends[1], ends[0]) if wire.role is Role.RETURN else ends


def _chain(beside: Wire, wires: Sequence[Wire], runs: Mapping[str, Run]) -> tuple[Wire, ...]:
    """Return the fewest wires that lead along a wire by its own way, outwards; none where they do not reach.

    A state is a part with how many stretches of the way lead to it, None once a way on it is not known.
    """
    near, far = _outwards(beside)
    at: dict[str, list[Wire]] = {}
    for wire in wires:
        for part in _outwards(wire):
            at.setdefault(part, []).append(wire)
    way = _stretches(beside, runs)
    first = near, (None if way is None else 0)
    reached: dict[tuple[str, int | None], tuple[Wire, ...]] = {first: ()}
    todo = deque([first])
    while todo:
        part, done = todo.popleft()
        chain = reached[part, done]
        for wire, to, now in _onward(part, done, at.get(part, ()), way, runs):
            if (to, now) in reached or wire in chain:
                continue
            reached[to, now] = (*chain, wire)
            if to == far and (now is None or way is None or now == len(way)):
                return reached[to, now]
            todo.append((to, now))
    return ()


def _onward(
    part: str,
    done: int | None,
    wires: Sequence[Wire],
    way: tuple[Stretch, ...] | None,
    runs: Mapping[str, Run],
) -> Iterator[tuple[Wire, str, int | None]]:
    """Yield the wires that lead on from a part along a way, with where they lead to and how far they come on it."""
    for wire in wires:
        inner, outer = _outwards(wire)
        mine = _stretches(wire, runs)
        if way is None or done is None or mine is None:
            yield wire, (outer if part == inner else inner), None
            continue
        to, mine = (outer, mine) if part == inner else (inner, mine[::-1])
        if way[done : done + len(mine)] == mine:
            yield wire, to, done + len(mine)


def _stretches(wire: Wire, runs: Mapping[str, Run]) -> tuple[Stretch, ...] | None:
    """Return the stretches of a wire outwards; None where its way is not known."""
    run = runs.get(wire.number)
    return None if run is None else tuple(step.stretch for step in run.steps)
