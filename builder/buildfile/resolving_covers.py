"""What lies behind panels and at which hinge a loop passes, resolved; and what cannot be right about them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.buildfile.declared_places import ChaseWords, PanelWords, SkinWords
from builder.buildfile.laying_out import Layout, unknown_place
from builder.buildfile.problems import BLANK, Problem, add, instead, leave_out
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.validating import Declared
from builder.buildfile.written import Key, Written, fold
from builder.trailer.places import Chase, ChaseKind

NOTHING = "nothing"
"""What a maker writes where nothing runs behind a panel."""


def hinge_problems(layout: Layout, key: Key, words: ChaseWords) -> Iterator[Problem]:
    """Yield what is wrong with the hinge of a chase: its two places, and how far it opens."""
    if words.kind is None or words.kind.value != ChaseKind.HINGE:
        return
    if words.hinge is not None and words.opens is None:
        yield Problem(
            words.hinge[0].origin,
            "missing word",
            f"“{key}” has a hinge, and the file does not say how far it opens",
            "add opens, as in opens: 100°",
            mends=add(f"opens: {BLANK}", at=key.origin),
        )
    elif words.hinge is None and words.opens is not None:
        yield Problem(
            words.opens.origin,
            "missing word",
            f"“{key}” opens by {words.opens.text}, and the file does not say where its hinge is",
            "name two places on its axis, as in hinge: [hinge left, hinge right]",
            mends=add(f"hinge: [{BLANK}, {BLANK}]", at=key.origin),
        )
    yield from _axis_problems(layout, key, words.hinge or [])


def _axis_problems(layout: Layout, key: Key, names: list[Written[str]]) -> Iterator[Problem]:
    unknown = [name for name in names if fold(name.value) not in layout.named]
    told = [name for name in unknown if not {fold(name.value), "places"} & layout.broken]
    yield from (unknown_place(layout, name, "a place") for name in told)
    if unknown or not names:
        return
    points = {layout.geometry.places[layout.named[fold(name.value)]].point_m for name in names}
    if len(names) != 2:
        yield Problem(
            names[-1].origin,
            "chase in the wrong form",
            f"the hinge of “{key}” has {len(names)} place{'s' if len(names) > 1 else ''}",
            "name two places on its axis, as in hinge: [hinge left, hinge right]",
            mends=instead(f"{names[-1].text}, {BLANK}")
            if len(names) == 1
            else leave_out(names[-1].origin, "out"),
        )
    elif len(points) == 1:
        yield Problem(
            names[1].origin,
            "chase in the wrong form",
            f"both places on the hinge of “{key}” are one point",
            "name two places of its axis that are apart, such as its left and its right end",
            mends=instead(BLANK),
        )


def wall_problems(declared: Declared, key: Key, words: SkinWords) -> Iterator[Problem]:
    """Yield what is wrong with the walls of the body that a skin is said to lie on."""
    if words.lies_on is None:
        return
    first = words.lies_on[0]
    wall = first.value
    if words.corners is not None:
        yield Problem(
            first.origin,
            "word does not fit",
            f"“{key}” lies on the {wall} and has corners of its own",
            "keep one of the two: “lies on” takes the whole wall by the outline of the body, corners a part of it",
            mends=leave_out(first.origin, "out"),
        )
    if words.from_ is not None and words.from_.value == "inside":
        yield Problem(
            words.from_.origin,
            "word does not fit",
            f"“{key}” lies on the {wall} of the body, outside, and is fastened from inside",
            "for a lining inside, name places at its corners; for the skin outside, take “from” out",
            mends=leave_out(words.from_.origin, "out"),
        )
    if declared.body is None and "body" not in declared.broken:
        yield Problem(
            first.origin,
            "no body",
            f"“{key}” lies on the {wall} of the body, and this file has no body",
            "add the heading body with its profile and width, or name places at the corners of the skin",
            mends=leave_out(first.origin, "out"),
        )


def behind_problems(layout: Layout, chases: Mapping[str, Chase], words: PanelWords) -> Iterator[Problem]:
    """Yield the problem of each name behind a panel that no chase has."""
    if says_nothing(words, chases) or "chases" in layout.broken:
        return
    for name in words.behind or ():
        if chase_named(chases, name) is None and fold(name.value) not in layout.broken:
            near = near_words(name.value, chases)
            if fold(name.value) in map(fold, layout.geometry.places):
                yield _place_behind(name, chases)
                continue
            if fold(name.value) == NOTHING:
                yield Problem(
                    name.origin,
                    "unknown chase",
                    "“nothing” stands beside other names",
                    "take it out, or write behind: nothing alone",
                    mends=leave_out(name.origin, "out"),
                )
                continue
            yield Problem(
                name.origin,
                "unknown chase",
                f"“{name.value}” is not a chase of this file",
                did_you_mean(near)
                or "add it under chases, or write behind: nothing where nothing runs there",
                mends=instead(*near) if near else instead(BLANK),
            )


def _place_behind(name: Written[str], chases: Mapping[str, Chase]) -> Problem:
    """Return the problem of a place among the chases behind a panel, with the chases that run through it."""
    there = [
        chase.name
        for chase in chases.values()
        if any(fold(place) == fold(name.value) for place in chase.through)
    ]
    listed = " and ".join(f"“{one}”" for one in there)
    return Problem(
        name.origin,
        "unknown chase",
        f"“{name.value}” is a place, and here the chases stand that run behind the panel",
        f"{listed} {'runs' if len(there) == 1 else 'run'} through that place: write those that run behind the panel"
        if there
        else "no chase runs through that place: write the chases that run behind the panel, or behind: nothing",
        mends=instead(*there) if there else instead(BLANK),
    )


def behind(chases: Mapping[str, Chase], words: PanelWords) -> tuple[str, ...] | None:
    """Return the chases behind a panel as the file names them; None where it does not say."""
    if words.behind is None:
        return None
    found = (chase_named(chases, name) for name in words.behind)
    return tuple(name for name in found if name is not None)


def also_behind(words: PanelWords) -> str | None:
    """Return what else is behind a panel; empty where the file says nothing is, None where it does not say."""
    if words.also_behind is None:
        return None
    return "" if fold(words.also_behind.value.strip()) == NOTHING else words.also_behind.value


def says_nothing(words: PanelWords, chases: Mapping[str, Chase]) -> bool:
    """Tell whether the file says that no chase is behind a panel."""
    names = words.behind or []
    return len(names) == 1 and fold(names[0].value) == NOTHING and chase_named(chases, names[0]) is None


def chase_named(chases: Mapping[str, Chase], name: Written[str]) -> str | None:
    """Return the chase of a written name, whatever its case."""
    return next((chase for chase in chases if fold(chase) == fold(name.value)), None)
