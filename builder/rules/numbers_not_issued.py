"""The wires and the numbers that were issued for them are no longer the same.

What: some wire numbers are drafts while others are issued, an issued number has no wire any more, or a circuit is on
another fuse way than it was issued with. Once walls are closed: a wire has another size in its wall than would be
chosen today (a *should fix* where that is a thicker one), nothing says which size it has there, or a wire that was
taken out of the file may still lie in a wall.

Why: a draft can still change, so that a label written today may be wrong tomorrow. A wire in a closed wall stays what
it is, whatever the file says later, and a screw meets a dead wire as well as a live one.

Limit: the file of numbers that ``wiring-manual number`` writes beside the build file, and ``numbers`` under ``build``
(the file itself).

Failing example::

    format: 1
    build: {name: Example, country: US, numbers: issued}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 2}
    parts: {fan: {kind: fan, draws: 1 A}}
    circuits:
      fan: {path: [fan: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US, numbers: draft}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 2}
    parts: {fan: {kind: fan, draws: 1 A}}
    circuits:
      fan: {path: [fan: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.since_issued import since_issued
from builder.rules.wording import say
from builder.trailer.circuits import Circuit
from builder.trailer.model import Trailer
from builder.trailer.origin import NOWHERE, Origin

DRAFTS_SAYS = "{count} of {all} wire numbers are drafts that can still change: {numbers}"
GONE_SAYS = "issued, and on no wire of this file: {numbers}"
WAY_SAYS = "“{circuit}” was issued on fuse way {issued} and is on way {way} here"
NUMBERS_HELP = (
    "run wiring-manual number before you write labels; where something only got another name, "
    "say so with --renamed"
)
NO_FILE_HELP = "run wiring-manual number, or write numbers: draft while no number is on a wire"
NUMBERS_BASIS = "the file of numbers beside the build file"
_MOST = 8


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield one remark on all that differs between the wires and the numbers issued, where any were.

    What closed walls hold since then has remarks of its own.
    """
    yield from since_issued(trailer, figures)
    if trailer.ledger is None and trailer.identity.numbers_issued is None:
        return
    drafts = trailer.draft_numbers
    said = []
    if drafts:
        every = len(trailer.wires) + len(trailer.spares)
        said.append(say(DRAFTS_SAYS, count=len(drafts), all=every, numbers=_listed(drafts)))
    if trailer.gone:
        said.append(say(GONE_SAYS, numbers=_listed(trailer.gone)))
    said += [
        say(WAY_SAYS, circuit=circuit.name, issued=circuit.issued_way, way=circuit.way)
        for circuit in trailer.circuits
        if _is_moved(circuit)
    ]
    if said:
        yield Remark(
            origin=_place(trailer),
            message="; ".join(said),
            help=NO_FILE_HELP if trailer.ledger is None else NUMBERS_HELP,
            known="file",
            basis=NUMBERS_BASIS,
        )


def _is_moved(circuit: Circuit) -> bool:
    return circuit.way is not None and circuit.issued_way not in (None, circuit.way)


def _listed(numbers: Sequence[str]) -> str:
    return ", ".join(numbers[:_MOST]) + (" …" if len(numbers) > _MOST else "")


def _place(trailer: Trailer) -> Origin:
    """Return where to look: where the file says that numbers are issued, else at the first wire with a draft."""
    wires = (wire.origin for wire in (*trailer.wires, *trailer.spares) if wire.draft)
    moved = (c.way_origin or c.origin for c in trailer.circuits if _is_moved(c))
    return trailer.identity.numbers_issued or next(wires, None) or next(moved, NOWHERE)
