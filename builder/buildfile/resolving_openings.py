"""Openings in the body and backing blocks behind its skins, resolved; and what cannot be right about them."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

from builder.buildfile.declared_body import BlockWords, OpeningWords, PatchWords
from builder.buildfile.problems import BLANK, Problem, add, leave_out
from builder.buildfile.written import Key, Written
from builder.trailer.body import ENDS, FLATS, SIDES, Block, Opening, Patch, Wall
from builder.trailer.outline import Point, extents, outside_by_m

_WORDS: dict[tuple[Wall, ...], tuple[tuple[str, ...], tuple[str, ...]]] = {
    SIDES: (("back", "up", "height"), ()),
    ENDS: (("up", "height"), ("left", "right")),
    FLATS: (("back", "length"), ("left", "right")),
}
"""By the wall: the measures that a rectangle there needs beside its width, and those that it may have."""
_EVERY = ("back", "up", "left", "right", "length", "height")
_EXAMPLES = {
    "an opening": {"back": "3 ft", "up": "4 in", "height": "36 in", "length": "14 in"},
    "a backing block": {"back": "4 ft", "up": "30 in", "height": "3 in", "length": "6 in"},
}


def opening_of(key: Key, words: OpeningWords) -> Opening:
    """Return an opening that has no problem: it is measured to where it begins."""
    return Opening(str(key), Wall(words.in_.value), *_rectangle(words), key.origin, _value(words.radius))


def block_of(key: Key, words: BlockWords) -> Block:
    """Return a backing block that has no problem: it is measured to its middle."""
    wall = Wall(words.in_.value)
    along, across, wide, high = _rectangle(words)
    if wall not in ENDS:
        along -= wide / 2
    if wall not in FLATS:
        across -= high / 2
    thick_m = words.thick.value if words.thick else None
    return Block(
        str(key),
        wall,
        along,
        across,
        wide,
        high,
        key.origin,
        thick_m,
        words.holds.value if words.holds else "",
    )


def _value(found: Written[float] | None) -> float:
    return found.value if found else 0.0


def _rectangle(words: PatchWords) -> tuple[float, float, float, float]:
    """Return along and across, as written, and how far it reaches both ways; from the middle where it has a side."""
    wall = Wall(words.in_.value)
    middle, wide = _value(words.right) - _value(words.left), words.width.value
    if wall in SIDES:
        return _value(words.back), _value(words.up), wide, _value(words.height)
    if wall in ENDS:
        return middle - wide / 2, _value(words.up), wide, _value(words.height)
    return _value(words.back), middle - wide / 2, _value(words.length), wide


def block_problems(
    key: Key, words: BlockWords, body: tuple[tuple[Point, ...], Written[float]] | None, tape_m: float
) -> Iterator[Problem]:
    """Tell of measures that a backing block lacks or has too many of, and of one that does not lie in its wall.

    ``body`` has the points of its profile and its width, None where the file has no outline; measures may disagree by
    ``tape_m``.
    """
    wall = Wall(words.in_.value)
    told = list(_word_problems(key, words, wall, "a backing block"))
    yield from told
    if not told and body is not None:
        yield from _outside(key, words, (block_of(key, words), "its middle"), body, tape_m)


def opening_problems(
    key: Key, words: OpeningWords, points: tuple[Point, ...], width: Written[float], tape_m: float
) -> Iterator[Problem]:
    """Tell of measures that an opening lacks or has too many of, and of one that does not lie in its wall.

    ``points`` are those of the profile, ``width`` is the body's; measures may disagree by ``tape_m``.
    """
    wall = Wall(words.in_.value)
    told = list(_word_problems(key, words, wall, "an opening"))
    yield from told
    if not told:
        yield from _outside(key, words, (opening_of(key, words), "where it begins"), (points, width), tape_m)


def _word_problems(key: Key, words: PatchWords, wall: Wall, what: str) -> Iterator[Problem]:
    needed, allowed = next(found for walls, found in _WORDS.items() if wall in walls)
    for word in needed:
        if getattr(words, word) is None:
            yield Problem(
                key.origin,
                "missing word",
                f"“{key}” is in the {wall.value} and has no “{word}”",
                f"measure it and add it, as in {word}: {_EXAMPLES[what][word]}",
                mends=add(f"{word}: {BLANK}", at=key.origin),
            )
    for word in _EVERY:
        found = getattr(words, word)
        if found is not None and word not in needed and word not in allowed:
            yield Problem(
                found.origin,
                "word does not fit",
                f"“{key}” is in the {wall.value}, where “{word}” says nothing",
                f"take “{word}” out: there {what} has {', '.join((*needed, 'width', *allowed))}",
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
    key: Key,
    words: PatchWords,
    measured: tuple[Opening | Block, str],
    body: tuple[tuple[Point, ...], Written[float]],
    tape_m: float,
) -> Iterator[Problem]:
    (points, width), (opening, to_where) = body, measured
    front, rear, under, top = extents(points)
    if opening.wall in SIDES:
        out_m = max(outside_by_m(points, corner) for corner in _corners(opening))
        if out_m > tape_m:
            yield _told(key, to_where, words.back, f"reaches beyond the outline in the {opening.wall.value}")
        return
    across, wide = (
        (opening.along_m, opening.wide_m) if opening.wall in ENDS else (opening.across_m, opening.high_m)
    )
    if max(-across, across + wide) > width.value / 2 + tape_m:
        yield _told(key, to_where, words.width, f"is wider than a body of {width.text} has room for there")
    if opening.wall in ENDS and opening.across_m + opening.high_m > top + tape_m:
        yield _told(key, to_where, words.height, "reaches above the body")
    if opening.wall in ENDS and opening.across_m < under - tape_m:
        yield _told(key, to_where, words.up, "reaches below the body")
    if opening.wall in FLATS and opening.along_m < front - tape_m:
        yield _told(key, to_where, words.back, "reaches ahead of the body's front")
    if opening.wall in FLATS and opening.along_m + opening.wide_m > rear + tape_m:
        yield _told(key, to_where, words.length, "reaches behind the body's rear")


def _told(key: Key, to_where: str, measure: Written[float] | None, message: str) -> Problem:
    return Problem(
        measure.origin if measure else key.origin,
        "outside the body",
        f"“{key}” {message}",
        f"measure {to_where} and how large it is again, or mend the outline of the body"
        + ("; the radius of its corners counts" if to_where == "where it begins" else ""),
    )


def _corners(opening: Patch) -> tuple[Point, ...]:
    """Return the corners of a rectangle in a side wall: the middle of its arc where a corner is round."""
    radius_m = opening.radius_m if isinstance(opening, Opening) else 0.0
    in_m = min(radius_m, opening.wide_m / 2, opening.high_m / 2) * (1 - 1 / sqrt(2))
    left, right = opening.along_m + in_m, opening.along_m + opening.wide_m - in_m
    low, high = opening.across_m + in_m, opening.across_m + opening.high_m - in_m
    return (left, low), (right, low), (right, high), (left, high)
