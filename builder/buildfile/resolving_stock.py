"""What is already there, resolved against the parts of the build."""

from __future__ import annotations

from collections.abc import Mapping

from builder.buildfile.declared import StockWords
from builder.buildfile.problems import Problem, instead
from builder.buildfile.stock_keys import bore_named, bulb_named, fuse_named, terminal_named, wire_named
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.written import fold
from builder.trailer.stock import (
    BulbsInStock,
    ConduitInStock,
    FusesInStock,
    Stock,
    TerminalsInStock,
    WireInStock,
)


def resolve_stock(words: StockWords | None, parts: tuple[str, ...]) -> Stock:
    """Return what is there; ``parts`` are the names of all that can be bought, as the model has them.

    Each length is a spool of its own; two entries of one wire are two spools.
    """
    if words is None:
        return Stock()
    by_fold = {fold(name): name for name in parts}
    there = [by_fold[fold(name.value)] for name in words.parts if fold(name.value) in by_fold]
    return Stock(
        wire=tuple(
            WireInStock(*wire_named(key), length.value, length.origin)
            for key, lengths in words.wire.items()
            for length in lengths
        ),
        fuses=tuple(FusesInStock(*fuse_named(key), count.value) for key, count in words.fuses.items()),
        terminals=tuple(
            TerminalsInStock(kind, size, count.value, stud)
            for key, count in words.terminals.items()
            for kind, size, stud in (terminal_named(key),)
        ),
        bulbs=tuple(BulbsInStock(bulb_named(key), count.value) for key, count in words.bulbs.items()),
        labels=words.labels.value if words.labels else 0,
        conduit=tuple(
            ConduitInStock(bore_named(key), length.value)
            for key, lengths in words.conduit.items()
            for length in lengths
        ),
        clips=words.clips.value if words.clips else 0,
        grommets=words.grommets.value if words.grommets else 0,
        parts=tuple(dict.fromkeys(there)),
    )


def check_stock(words: StockWords | None, known: Mapping[str, str], unread: frozenset[str]) -> list[Problem]:
    """Return a problem for each part in stock that the build does not have.

    ``known`` are the names of all parts by their folded form; ``unread`` are names that stand in the file without
    being read, of which nobody says that they are missing.
    """
    problems = []
    for name in words.parts if words else ():
        folded = fold(name.value)
        if folded in known or folded in unread:
            continue
        near = [known[one] for one in near_words(folded, known)]
        problems.append(
            Problem(
                name.origin,
                "unknown part",
                f"“{name.value}” is in stock, and no part of this build has that name",
                did_you_mean(near) or "write a part's own name, as it stands under parts, or take it out",
                mends=instead(*near),
            )
        )
    return problems
