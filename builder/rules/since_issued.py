"""What closed walls hold since numbers were issued: other sizes than today's choice, and wires that serve nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.electrics.figures import Figures, KeptSize
from builder.rules.finding import Level, Remark
from builder.rules.wording import say
from builder.trailer.ledger import IssuedWire
from builder.trailer.left import left_wires
from builder.trailer.model import Trailer
from builder.trailer.origin import NOWHERE, Origin
from builder.trailer.size import by_area

THIN_SAYS = "in the closed walls, as issued, {size}, where {today} would be chosen today: {numbers}"
THICK_SAYS = "in the closed walls, as issued, {size}, thicker than the {today} of today's choice: {numbers}"
SIZE_HELP = (
    "look at what is printed on the wire: where it has another size, write it with size:, or under changes:"
)
NOT_KEPT_SAYS = "walls are closed, and nothing says which size these issued wires have in them: {numbers}"
NOT_KEPT_HELP = (
    "run wiring-manual number: it keeps their sizes, so that no later change of the file gives them another"
)
LEFT_SAYS = "no longer in this file, and perhaps still in a closed wall, between {one} and {other}: {numbers}"
LEFT_HELP = (
    "where it still lies there, insulate both ends and write it under spares, its number in its name, "
    "spares: {{old {number}: {{from: {one}, to: {other}, wire: 10 ft}}}} with its own length; "
    "where it was pulled out, run wiring-manual number with --pulled-out {number}"
)
SINCE_BASIS = "the file of numbers beside the build file"
_MOST = 8


def since_issued(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each pair of a size and today's choice, for sizes not kept, and for each pair of dead ends."""
    groups: dict[tuple[str, str], list[KeptSize]] = {}
    for one in figures.kept_sizes:
        groups.setdefault((str(one.size), str(one.today)), []).append(one)
    for (size, today), kept in groups.items():
        thin = by_area(kept[0].size) < by_area(kept[0].today)
        numbers = _listed([one.number for one in kept])
        yield Remark(
            origin=_place(trailer, kept[0].number),
            message=say(THIN_SAYS if thin else THICK_SAYS, size=size, today=today, numbers=numbers),
            help=SIZE_HELP,
            known="file",
            basis=SINCE_BASIS,
            level=Level.SHOULD if thin else Level.WORTH,
        )
    yield from _not_kept(trailer)
    yield from _left(trailer)


def _not_kept(trailer: Trailer) -> Iterator[Remark]:
    numbers = [
        wire.number
        for wire in trailer.wires
        if not wire.draft and wire.size is None and wire.issued_size is None
    ]
    if trailer.identity.walls_closed and numbers:
        yield Remark(
            origin=_place(trailer, numbers[0]),
            message=say(NOT_KEPT_SAYS, numbers=_listed(numbers)),
            help=NOT_KEPT_HELP,
            known="file",
            basis=SINCE_BASIS,
            level=Level.SHOULD,
        )


def _left(trailer: Trailer) -> Iterator[Remark]:
    groups: dict[tuple[str, str], list[IssuedWire]] = {}
    for wire in left_wires(trailer):
        one, other = sorted((wire.start.part, wire.end.part))
        groups.setdefault((one, other), []).append(wire)
    for (one, other), wires in groups.items():
        yield Remark(
            origin=trailer.identity.numbers_issued or NOWHERE,
            message=say(LEFT_SAYS, one=one, other=other, numbers=_listed([wire.number for wire in wires])),
            help=say(LEFT_HELP, number=wires[0].number, one=one, other=other),
            known="file",
            basis=SINCE_BASIS,
            level=Level.WORTH,
        )


def _listed(numbers: Sequence[str]) -> str:
    return ", ".join(numbers[:_MOST]) + (" …" if len(numbers) > _MOST else "")


def _place(trailer: Trailer, number: str) -> Origin:
    return next((wire.origin for wire in trailer.wires if wire.number == number), NOWHERE)
