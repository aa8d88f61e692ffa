"""Wire by colour and size as it is sold: its pieces added up, less what is in already and what comes from stock."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from builder.lists.cut_list import CutList, Spool, in_order
from builder.lists.cut_pieces import Piece, Sort
from builder.lists.shopping import Stretch, WireItem


def wire_items(cut_list: CutList) -> tuple[WireItem, ...]:
    """Return every kind of wire of the build, in the order of the cut list."""
    spools: dict[Sort, list[Spool]] = {}
    already: dict[Sort, list[Piece]] = {}
    for spool in cut_list.spools:
        if spool.pieces:
            spools.setdefault(spool.sort, []).append(spool)
    for piece, _ in cut_list.already:
        already.setdefault(piece.sort, []).append(piece)
    sorts = sorted({**spools, **already}, key=in_order)
    return tuple(_item(sort, spools.get(sort, ()), already.get(sort, ())) for sort in sorts)


def _item(sort: Sort, spools: Sequence[Spool], already: Sequence[Piece]) -> WireItem:
    pieces = [*(piece for spool in spools for piece in spool.pieces), *already]
    return WireItem(
        id=sort.words,
        color=sort.color,
        other=sort.other,
        size=sort.size,
        wired_m=sum(piece.length_m for piece in pieces),
        tails_m=sum(piece.tails_m for piece in pieces),
        spare_m=sum(piece.spare_m for piece in pieces),
        in_m=sum((piece.cut_m for piece in already), 0.0),
        stock_m=sum((spool.cut_m for spool in spools if not spool.bought), 0.0),
        buy_m=sum((spool.length_m for spool in spools if spool.bought), 0.0),
        stretches=_stretches(pieces),
    )


def _stretches(pieces: Iterable[Piece]) -> tuple[Stretch, ...]:
    """Return what each circuit adds, in the order of circuits and numbers; the spare wires come last."""
    found: dict[int, list[Piece]] = {}
    for piece in pieces:
        found.setdefault(piece.circuit, []).append(piece)
    return tuple(
        Stretch(
            circuit,
            tuple(sorted((n for piece in mine for n in piece.wires), key=lambda n: (len(n), n))),
            sum(piece.length_m for piece in mine),
            sum(piece.tails_m for piece in mine),
        )
        for circuit, mine in sorted(found.items(), key=lambda entry: entry[0] or math.inf)
    )
