"""Openings in the body, resolved; and what cannot be right about them."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

from builder.buildfile.declared_body import OpeningWords
from builder.buildfile.problems import BLANK, Problem, add, leave_out
from builder.buildfile.written import Key, Written
from builder.trailer.body import ENDS, FLATS, SIDES, Opening, Wall
from builder.trailer.outline import Point, extents, outside_by_m

_WORDS: dict[tuple[Wall, ...], tuple[tuple[str, ...], tuple[str, ...]]] = {
    SIDES: (("back", "up", "height"), ()),
    ENDS: (("up", "height"), ("left", "right")),
    FLATS: (("back", "length"), ("left", "right")),
}
"""By the wall: the measures that an opening there needs beside its width, and those that it may have."""
_EVERY = ("back", "up", "left", "right", "length", "height")
_EXAMPLES = {"back": "3 ft", "up": "4 in", "height": "36 in", "length": "14 in"}


def opening_of(key: Key, words: OpeningWords) -> Opening:
    """Return an opening that has no problem."""
    wall = Wall(words.in_.value)

    def value(found: Written[float] | None) -> float:
        return found.value if found else 0.0

    middle = value(words.right) - value(words.left)
    wide, radius = words.width.value, value(words.radius)
    if wall in SIDES:
        at = value(words.back), value(words.up), wide, value(words.height)
    elif wall in ENDS:
        at = middle - wide / 2, value(words.up), wide, value(words.height)
    else:
        at = value(words.back), middle - wide / 2, value(words.length), wide
    return Opening(str(key), wall, *at, radius, key.origin)


def opening_problems(
    key: Key, words: OpeningWords, points: tuple[Point, ...], width: Written[float], tape_m: float
) -> Iterator[Problem]:
    """Tell of measures that an opening lacks or has too many of, and of one that does not lie in its wall.

    ``points`` are those of the profile, ``width`` is the body's; measures may disagree by ``tape_m``.
    """
    wall = Wall(words.in_.value)
    needed, allowed = next(found for walls, found in _WORDS.items() if wall in walls)
    told = list(_word_problems(key, words, wall, (needed, allowed)))
    yield from told or _outside(key, words, (points, width), tape_m)


def _word_problems(
    key: Key, words: OpeningWords, wall: Wall, fitting: tuple[tuple[str, ...], tuple[str, ...]]
) -> Iterator[Problem]:
    needed, allowed = fitting
    for word in needed:
        if getattr(words, word) is None:
            yield Problem(
                key.origin,
                "missing word",
                f"“{key}” is in the {wall.value} and has no “{word}”",
                f"measure it and add it, as in {word}: {_EXAMPLES[word]}",
                mends=add(f"{word}: {BLANK}", at=key.origin),
            )
    for word in _EVERY:
        found = getattr(words, word)
        if found is not None and word not in needed and word not in allowed:
            yield Problem(
                found.origin,
                "word does not fit",
                f"“{key}” is in the {wall.value}, where “{word}” says nothing",
                f"take “{word}” out: there an opening has {', '.join((*needed, 'width', *allowed))}",
                mends=leave_out(found.origin, "out"),
            )
    if words.left is not None and words.right is not None:
        yield Problem(
            words.right.origin,
            "two directions",
            f"“{key}” is both left and right of the middle",
            "keep the one that is meant, left or right: measures have no sign here",
            mends=leave_out(words.right.origin, "out"),
        )


def _outside(
    key: Key, words: OpeningWords, body: tuple[tuple[Point, ...], Written[float]], tape_m: float
) -> Iterator[Problem]:
    points, width = body
    opening = opening_of(key, words)
    _, rear, _, top = extents(points)
    if opening.wall in SIDES:
        out_m = max(outside_by_m(points, corner) for corner in _corners(opening))
        if out_m > tape_m:
            yield _told(key, words.back, f"reaches beyond the outline in the {opening.wall.value}")
        return
    across, wide = (
        (opening.along_m, opening.wide_m) if opening.wall in ENDS else (opening.across_m, opening.high_m)
    )
    if max(-across, across + wide) > width.value / 2 + tape_m:
        yield _told(key, words.width, f"is wider than a body of {width.text} has room for there")
    if opening.wall in ENDS and opening.across_m + opening.high_m > top + tape_m:
        yield _told(key, words.height, "reaches above the body")
    if opening.wall in FLATS and opening.along_m + opening.wide_m > rear + tape_m:
        yield _told(key, words.length, "reaches behind the body's rear")


def _told(key: Key, measure: Written[float] | None, message: str) -> Problem:
    return Problem(
        measure.origin if measure else key.origin,
        "outside the body",
        f"“{key}” {message}",
        "measure where it begins and how large it is again, or mend the outline of the body; the radius of its "
        "corners counts",
    )


def _corners(opening: Opening) -> tuple[Point, ...]:
    """Return the corners of an opening in a side wall: the middle of its arc where a corner is round."""
    in_m = min(opening.radius_m, opening.wide_m / 2, opening.high_m / 2) * (1 - 1 / sqrt(2))
    left, right = opening.along_m + in_m, opening.along_m + opening.wide_m - in_m
    low, high = opening.across_m + in_m, opening.across_m + opening.high_m - in_m
    return (left, low), (right, low), (right, high), (left, high)
