"""Which wire of a build is which wire of its ledger: looked for in steps, the surest first.

A wire is known again by its circuit, by what it is for and by its two ends, and so it keeps its number whatever is
done to others. First comes what is the same in all, then the same two parts (one may have got other terminals, or
serve more), last a wire that was cut to put a part between: its half towards the supply keeps the number, so that
what is read in the front box stays true.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence

from builder.buildfile.ledger_wires import Run
from builder.trailer.model import FRONT_BOX
from builder.trailer.parts import Terminal

_Key = Callable[[Run], Hashable]
_MANY = 200
"""Wires of one key on either side up to which the best pairs are looked for; of more, each takes the next."""


def match(old: Mapping[str, Run], new: Sequence[Run], parts: Iterable[str]) -> dict[int, str]:
    """Return the issued number of each wire of a circuit that has one, by the wire's place.

    Arguments: ``old``, the circuit's wires in the ledger by number, in their order; ``new``, those of the build;
    ``parts``, the folded names of all parts of the build. Ends and names are folded.
    Returns each number once. Source: own work.
    """
    numbers: dict[int, str] = {}
    left = dict(old)
    for key in (_whole, _parts):
        _by_key(left, new, numbers, key)
    _cut_wires(left, new, numbers, frozenset(parts))
    return numbers


def _whole(run: Run) -> Hashable:
    return run


def _parts(run: Run) -> Hashable:
    return run.use, run.start.part, run.end.part


def _by_key(left: dict[str, Run], new: Sequence[Run], numbers: dict[int, str], key: _Key) -> None:
    """Give the numbers of all wires that have a key in common with a wire of the build; of several the most alike."""
    places: dict[Hashable, list[int]] = {}
    for place, run in enumerate(new):
        if place not in numbers:
            places.setdefault(key(run), []).append(place)
    olds: dict[Hashable, list[str]] = {}
    for number, run in left.items():
        olds.setdefault(key(run), []).append(number)
    for one, known in olds.items():
        for number, place in _pairs(known, places.get(one, []), left, new):
            numbers[place] = number
            del left[number]


def _pairs(
    known: Sequence[str], places: Sequence[int], left: Mapping[str, Run], new: Sequence[Run]
) -> list[tuple[str, int]]:
    if max(len(known), len(places)) > _MANY:
        return list(zip(known, places, strict=False))
    every = [(number, place) for number in known for place in places]
    order = {number: rank for rank, number in enumerate(known)}
    every.sort(key=lambda pair: (-_alike(left[pair[0]], new[pair[1]]), order[pair[0]], pair[1]))
    taken: set[Hashable] = set()
    chosen = []
    for number, place in every:
        if number not in taken and place not in taken:
            taken |= {number, place}
            chosen.append((number, place))
    return chosen


def _alike(one: Run, other: Run) -> int:
    """Return how much two wires have in common: their terminals before what they serve."""
    ends = (one.start == other.start) + (one.end == other.end)
    return 1000 * ends + min(999, len(one.behind & other.behind))


def _cut_wires(
    left: dict[str, Run], new: Sequence[Run], numbers: dict[int, str], parts: frozenset[str]
) -> None:
    """Give the numbers of wires that were cut to put something between: to the first piece from the supply on."""
    leaving: dict[tuple[str, Hashable], list[int]] = {}
    for place, run in enumerate(new):
        if place not in numbers:
            leaving.setdefault((run.use, _node(run.start, parts)), []).append(place)
    for number, run in list(left.items()):
        pieces = _pieces(run, new, leaving, parts)
        towards = reversed(pieces) if run.use == "return" else pieces
        for place in (piece for piece in towards if piece not in numbers):
            numbers[place] = number
            del left[number]
            break


def _node(at: Terminal, parts: frozenset[str]) -> Hashable:
    """Return what a wire is followed through: a part as a whole, elsewhere (box, frame) the terminal alone."""
    return at.part if at.part in parts and at.part != FRONT_BOX else at


def _pieces(
    run: Run, new: Sequence[Run], leaving: Mapping[tuple[str, Hashable], list[int]], parts: frozenset[str]
) -> list[int]:
    """Return the wires that lead together from one end of a wire to its other end, the fewest that do."""
    start, end = _node(run.start, parts), _node(run.end, parts)
    came: dict[Hashable, int] = {}
    todo = deque([start])
    while todo and end not in came:
        here = todo.popleft()
        if here != start and not isinstance(here, str):
            continue  # nothing is put between inside the box
        for place in leaving.get((run.use, here), ()):
            far = _node(new[place].end, parts)
            if far != start and far not in came:
                came[far] = place
                todo.append(far)
    found: list[int] = []
    here = end
    while here in came:
        found.append(came[here])
        here = _node(new[came[here]].start, parts)
    return found[::-1]
