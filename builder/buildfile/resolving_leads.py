"""Parts in openings: their wires end at the side where the leads come out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.buildfile.declared_parts import PartWords
from builder.buildfile.laying_out import Layout
from builder.buildfile.problems import Problem, instead, leave_out
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.validating import Declared
from builder.buildfile.written import Key, Written, fold
from builder.routes.leads import lead_way_m, said_sides, sides_of
from builder.trailer.body import Opening


def reach_sides(layout: Layout, declared: Declared) -> list[Problem]:
    """Lead the wires of each part in an opening to the side where its leads come out; return what cannot be so."""
    problems: list[Problem] = []
    body = layout.geometry.body
    there = {fold(one.name): one for one in body.openings} if body is not None else {}
    written = {fold(key): str(key) for key in declared.openings}
    for key, words in declared.parts.items():
        name = words.opening
        if name is None:
            continue
        if fold(name.value) not in written:
            if not declared.broken & {"openings", fold(name.value)}:
                problems.append(_unknown(key, name, tuple(written.values())))
            continue
        opening = there.get(fold(name.value))
        if opening is not None:  # else it has problems of its own
            told = list(_side_problems(key, words, opening))
            problems += told
            if not told:
                _reach(layout, key, words, opening)
    return problems


def _reach(layout: Layout, key: Key, words: PartWords, opening: Opening) -> None:
    """Let the part's stand be at the side where its leads come out, where the part has a place."""
    stand = layout.stand(str(key))
    place = layout.geometry.places.get(stand.place) if stand is not None else None
    if stand is None or place is None or words.leads_come_out is None:
        return
    (side,) = said_sides(words.leads_come_out.value)
    lead_m = lead_way_m(opening, side, place)
    layout.stands[fold(key)] = replace(
        stand, rise_m=stand.rise_m + lead_m, opening=opening.name, side=side, lead_m=lead_m
    )


def _unknown(key: Key, name: Written[str], openings: tuple[str, ...]) -> Problem:
    near = near_words(name.value, openings)
    return Problem(
        name.origin,
        "unknown opening",
        f"“{key}” sits in “{name.value}”, and that is no opening of this file",
        did_you_mean(near) or "add it under openings, or take “opening” out",
        mends=(*instead(*near), *leave_out(name.origin, "out")),
    )


def _side_problems(key: Key, words: PartWords, opening: Opening) -> Iterator[Problem]:
    said = words.leads_come_out
    if said is None:
        return
    sides, has = said_sides(said.value), sides_of(opening)
    if len(sides) == 1 and sides[0] in has:
        return
    yield Problem(
        said.origin,
        "unknown side",
        f"“{said.value}” does not name one side of “{opening.name}”, where the leads of “{key}” come out",
        f"write one of {', '.join(has[:-1])} or {has[-1]}",
        mends=instead(*(side for side in has if side in sides), *(side for side in has if side not in sides)),
    )
