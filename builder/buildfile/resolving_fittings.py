"""How a chase is built in, resolved; and what cannot be right about it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

from builder.buildfile.declared_places import ChaseWords
from builder.buildfile.laying_out import Layout, unknown_place
from builder.buildfile.problems import BLANK, Problem, add, instead, leave_out
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.written import Key, Written, fold
from builder.trailer.fittings import Carries, Fittings
from builder.trailer.origin import Origin
from builder.trailer.places import ChaseKind

T = TypeVar("T")
_SINGLE = (
    "bend radius", "holes", "from the edge", "supports every", "grommets", "sealed", "strain relief", "drip loop",
    "divided", "pull string", "carries", "near heat",
)  # fmt: skip
"""Words with one value each."""
_NOT_OF_A_LOOP = ("holes", "from the edge", "supports every", "bend radius", "passes sheet at")
"""Words of what is fixed to the body: a hinge loop hangs free."""


def fittings(layout: Layout, words: ChaseWords) -> Fittings:
    """Return how a chase is built in."""
    return Fittings(
        bend_radius_m=_value(words.bend_radius),
        hole_m=_value(words.holes),
        edge_m=_value(words.from_the_edge),
        supports_m=_value(words.supports_every),
        grommets=_value(words.grommets),
        sealed=_value(words.sealed),
        strain_relief=_value(words.strain_relief),
        drip_loop=_value(words.drip_loop),
        divided=_value(words.divided),
        pull_string=_value(words.pull_string) or False,
        sheet_at=tuple(
            layout.named[fold(name.value)]
            for name in words.passes_sheet_at or ()
            if fold(name.value) in layout.named
        ),
        carries=Carries(words.carries.value) if words.carries else Carries.WIRES,
        near_heat=words.near_heat.value if words.near_heat else "",
        written=_written(words),
    )


def fitting_problems(layout: Layout, key: Key, words: ChaseWords) -> Iterator[Problem]:
    """Yield what is wrong with how a chase is built in."""
    yield from _of_a_loop(key, words)
    if words.from_the_edge and not words.holes:
        yield Problem(
            words.from_the_edge.origin,
            "missing word",
            f"“{key}” has a distance from the edge, and the file does not say which holes are meant",
            "add how wide the holes are, as in holes: 3/4 in",
            mends=add(f"holes: {BLANK}", at=key.origin),
        )
    own = {fold(name.value): name.value for name in words.through}
    for name in words.passes_sheet_at or ():
        if fold(name.value) not in layout.named:
            if not {fold(name.value), "places"} & layout.broken:
                yield unknown_place(layout, name, "a place")
        elif fold(name.value) not in own:
            near = near_words(name.value, own.values())
            yield Problem(
                name.origin,
                "chase in the wrong form",
                f"“{key}” passes sheet metal at “{name.value}”, and does not come to that place",
                did_you_mean(near) or f"name places that “{key}” runs through",
                mends=instead(*near) if near else leave_out(name.origin, "out"),
            )


def _of_a_loop(key: Key, words: ChaseWords) -> Iterator[Problem]:
    if words.kind is None or words.kind.value != ChaseKind.HINGE:
        return
    for word in _NOT_OF_A_LOOP:
        origin = _written(words).get(word)
        if origin is not None:
            yield Problem(
                origin,
                "word does not fit",
                f"“{key}” is a hinge loop, which hangs free: “{word}” does not fit it",
                f"take “{word}” out, or write it at the chase before or behind the hinge",
            )


def _value(given: Written[T] | None) -> T | None:
    return given.value if given else None


def _written(words: ChaseWords) -> Mapping[str, Origin]:
    given = {word: getattr(words, word.replace(" ", "_")) for word in _SINGLE}
    found: dict[str, Origin] = {word: one.origin for word, one in given.items() if one}
    if words.passes_sheet_at:
        found["passes sheet at"] = words.passes_sheet_at[0].origin
    return found
