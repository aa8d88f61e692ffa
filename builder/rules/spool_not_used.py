"""Nothing is cut from a spool in stock.

What: a spool of wire is ``in stock``, and no wire of this build is of its colour and size, or each one that is takes
more than is on the spool.

Why: it is not counted, and more is bought. A colour or a size that was mistyped looks like that as well.

Limit: the pieces of the cut list, each with its tails and what is cut to spare (the file itself).

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG], sold as: single}
    in stock: {wire: {orange 16 AWG: 3 ft}}
    parts: {fan: {kind: fan, draws: 1 A}}
    circuits:
      fan: {path: [fan: 6 ft], color: orange}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    wire: {on the shelf: [16 AWG], sold as: single}
    in stock: {wire: {orange 16 AWG: 30 ft}}
    parts: {fan: {kind: fan, draws: 1 A}}
    circuits:
      fan: {path: [fan: 6 ft], color: orange}
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.electrics.figures import Figures
from builder.lists.cut_list import Spool, cut_list
from builder.lists.cut_pieces import Sort
from builder.rules.finding import Remark
from builder.rules.wording import length, length_up, say
from builder.trailer.model import Trailer

SHORT_SAYS = (
    "nothing is cut from the spool of {wire}: it has {there}, and the shortest piece of it takes {least}"
)
SHORT_HELP = "keep it for a jumper and take it out of “in stock”, or measure it again"
KIND_SAYS = "nothing is cut from the spool of {wire}: no wire of this build is of this kind"
KIND_HELP = "take it out of “in stock”, or mend its colour or size"
MEANT_HELP = "take it out of “in stock”, or mend its colour or size: this build needs {kinds}"
SPOOL_BASIS = "the cut list"
_MOST = 4


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each spool in stock from which nothing can be cut."""
    if not trailer.stock.wire:
        return
    spools = cut_list(trailer, figures).spools
    needed: dict[Sort, float] = {}
    for spool in spools:
        if spool.needed:
            needed[spool.sort] = needed.get(spool.sort, 0.0) + spool.cut_m
    for spool in spools:
        if not spool.bought and not spool.needed:
            yield _remark(spool, say(KIND_SAYS, wire=spool.sort.words), _meant(spool.sort, needed))
        elif spool.too_short:
            least = length_up(spool.shortest_m, trailer)
            there = length(spool.length_m, trailer)
            yield _remark(spool, say(SHORT_SAYS, wire=spool.sort.words, there=there, least=least), SHORT_HELP)


def _meant(sort: Sort, needed: Mapping[Sort, float]) -> str:
    """Return the way out, with the kinds of wire that have its colour or its size, those first that take most."""
    like = [one for one in needed if one.color == sort.color or one.size == sort.size]
    like.sort(key=lambda one: -needed[one])
    kinds = [one.words for one in like[:_MOST]] + ["…"] * (len(like) > _MOST)
    return say(MEANT_HELP, kinds=", ".join(kinds)) if like else KIND_HELP


def _remark(spool: Spool, message: str, help_: str) -> Remark:
    return Remark(origin=spool.origin, message=message, help=help_, known="file", basis=SPOOL_BASIS)
