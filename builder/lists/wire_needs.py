"""Wire by colour and size as it is sold: the pieces that it is cut into, added up, less what comes from stock."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from builder.lists.cut_list import CutList, Spool
from builder.lists.cut_pieces import Piece, Sort
from builder.lists.shopping import Stretch, WireItem
from builder.trailer.already_in import piece_in


def wire_items(cut_list: CutList, known: Mapping[str, str]) -> tuple[WireItem, ...]:
    """Return every kind of wire to buy, in the order of the cut list; ``known`` are the wires that are in already."""
    by_sort: dict[Sort, list[Spool]] = {}
    for spool in cut_list.spools:
        if spool.pieces or not spool.bought:
            by_sort.setdefault(spool.sort, []).append(spool)
    needed = {sort: spools for sort, spools in by_sort.items() if any(spool.pieces for spool in spools)}
    return tuple(_item(sort, spools, known) for sort, spools in needed.items())


def _item(sort: Sort, spools: Sequence[Spool], known: Mapping[str, str]) -> WireItem:
    pieces = [piece for spool in spools for piece in spool.pieces]
    return WireItem(
        id=sort.words,
        color=sort.color,
        other=sort.other,
        size=sort.size,
        wired_m=sum(piece.length_m for piece in pieces),
        tails_m=sum(piece.tails_m for piece in pieces),
        spare_m=sum(piece.spare_m for piece in pieces),
        stock_m=sum(spool.cut_m for spool in spools if not spool.bought),
        buy_m=sum(spool.length_m for spool in spools if spool.bought),
        in_m=sum(piece.cut_m for piece in pieces if piece_in(piece.wires, known)),
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
