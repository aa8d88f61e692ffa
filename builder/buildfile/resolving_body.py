"""The body, resolved: its profile, its openings and frames, and what cannot be right about them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from math import dist

from builder.buildfile.declared import TrailerWords
from builder.buildfile.declared_body import BodyWords, CornerWords, FrameWords
from builder.buildfile.declared_places import PlaceWords
from builder.buildfile.problems import BLANK, Problem, instead, leave_out
from builder.buildfile.resolving_openings import (
    block_of,
    block_problems,
    opening_of,
    opening_problems,
)
from builder.buildfile.validating import Declared
from builder.buildfile.written import Key
from builder.quantities.showing import System, show_length
from builder.trailer.body import Block, Body, Corner, Frame, Wall
from builder.trailer.outline import (
    Point,
    crosses_itself,
    extents,
    is_possible,
    outside_by_m,
    pieces_of,
    points_of,
)
from builder.trailer.places import Place

TAPE_M = 0.01
"""By how much measures of the body may disagree: a tape's tolerance, common practice."""
REACH_M = 0.155
"""How far something on the outside of the body may stand off it, such as a lamp or a solar module.

6 in, and what a tape is read to; common practice.
"""
LEAST_POINTS, MOST_POINTS = 3, 60


def resolve_body(
    declared: Declared, places: Mapping[str, Place], units: System
) -> tuple[Body | None, list[Problem]]:
    """Return the body with its openings and frames, and what is wrong with them; None where the file has no body."""
    words = declared.body
    if words is None:
        return None, [] if "body" in declared.broken else list(_without_body(declared))
    problems = list(_profile_problems(words, units))
    if problems:
        without = leave_out(declared.written_at["body"])
        return None, [one if one.mends else replace(one, mends=without) for one in problems]
    corners = tuple(map(_corner, words.profile))
    points = points_of(pieces_of(corners))
    problems += _beside_trailer(words, points, declared.trailer, units)
    for key, place in declared.places.items():
        found = places.get(str(key))
        if found is not None:
            problems += _place_outside((key, place), found, (points, words), (declared.trailer, units))
    openings = []
    for key, opening in declared.openings.items():
        told = list(opening_problems(key, opening, points, words.width, TAPE_M))
        problems += told
        if not told:
            openings.append(opening_of(key, opening))
    frames = []
    for key, frame in declared.frames.items():
        problems += _frame_problems(key, frame, points)
        frames.append(_frame(key, frame))
    return Body(corners, words.width.value, tuple(openings), tuple(frames)), problems


def resolve_blocks(declared: Declared, body: Body | None) -> tuple[dict[str, Block], list[Problem]]:
    """Return the backing blocks by name, and what is wrong with them, held against the body where it is known."""
    outline = (points_of(pieces_of(body.profile)), declared.body.width) if body and declared.body else None
    blocks: dict[str, Block] = {}
    problems: list[Problem] = []
    for key, words in declared.backing_blocks.items():
        told = list(block_problems(key, words, outline, TAPE_M))
        problems += told
        if not told:
            blocks[str(key)] = block_of(key, words)
    return blocks, problems


def _without_body(declared: Declared) -> Iterator[Problem]:
    """Tell of openings and frames in a body that the file does not have, once for each heading."""
    for word in ("openings", "frames"):
        if getattr(declared, word):
            yield Problem(
                declared.written_at[word],
                "no body",
                f"there are {word}, and this file has no body that they would be in",
                "add the heading body with its profile and width, or take them out",
            )


def _corner(words: CornerWords) -> Corner:
    return Corner(
        words.back.value,
        words.up.value,
        words.radius.value if words.radius else None,
        words.hollow is not None and words.hollow.value,
        words.back.origin,
    )


def _profile_problems(words: BodyWords, units: System) -> Iterator[Problem]:
    count = len(words.profile)
    first = words.profile[0]
    if not LEAST_POINTS <= count <= MOST_POINTS:
        few = count < LEAST_POINTS
        yield _wrong(
            first,
            f"the profile has {count} point{'s' if count > 1 else ''}",
            "write its points in their order all round it: three at least"
            if few
            else f"{MOST_POINTS} points are enough: an arc needs one point and its radius",
        )
        return
    corners = [_corner(corner) for corner in words.profile]
    whole = True
    for (before, _), (corner, written) in pairwise(
        [(corners[-1], words.profile[-1]), *zip(corners, words.profile, strict=True)]
    ):
        start, end = (before.back_m, before.up_m), (corner.back_m, corner.up_m)
        chord = dist(start, end)
        if chord < TAPE_M / 10:
            whole = False
            yield _wrong(written, "this point is the one before it", "take one of them out, or measure again")
        elif written.radius is not None and not is_possible(start, corner):
            whole = False
            yield Problem(
                written.radius.origin,
                "profile that cannot be",
                f"no arc of {written.radius.text} reaches from the point before to this one: they are "
                f"{show_length(chord, units)} apart, and half of that is the smallest radius",
                "measure the radius again, or add a point between them",
                mends=instead(BLANK),
            )
        elif written.hollow is not None and written.radius is None:
            whole = False
            yield Problem(
                written.hollow.origin,
                "word does not fit",
                "this point has no radius, so nothing bends there",
                "add its radius, as in radius: 2 ft, or take “hollow” out",
            )
    if whole:
        yield from _shape_problems(words, corners, units)


def _shape_problems(words: BodyWords, corners: list[Corner], units: System) -> Iterator[Problem]:
    points = points_of(pieces_of(corners))
    if crosses_itself(points):
        yield _wrong(
            words.profile[0],
            "the line round the body crosses itself",
            "write the points in their order round the body, such as underside, rear, roof, front",
        )
        return
    front, _, under, _ = extents(points)
    for least_m, where, word in ((front, "the body's front", "back"), (under, "its underside", "up")):
        if abs(least_m) > TAPE_M:
            off = show_length(abs(least_m), units)
            far = {"back": ("ahead of", "behind"), "up": ("under", "above")}[word][least_m > 0]
            first = min(words.profile, key=lambda corner: getattr(corner, word).value)
            yield Problem(
                getattr(first, word).origin,
                "profile that cannot be",
                f"the outline begins {off} {far} {where}, from which all is measured",
                f"measure “{word}” of every point and place from there, so that the outline begins at {word}: 0 in",
                mends=instead("0 in"),
            )


def _wrong(corner: CornerWords, message: str, help_: str) -> Problem:
    return Problem(corner.back.origin, "profile that cannot be", message, help_)


def _beside_trailer(
    words: BodyWords, points: tuple[Point, ...], trailer: TrailerWords | None, units: System
) -> Iterator[Problem]:
    """Tell of a body that is larger than the trailer."""
    if trailer is None:
        return
    if trailer.width is not None and words.width.value > trailer.width.value + TAPE_M:
        yield Problem(
            words.width.origin,
            "outside the trailer",
            f"the body is {words.width.text} wide, and the trailer {trailer.width.text} over everything",
            "measure both again, and mend the one that is wrong",
        )
    _, rear, _, _ = extents(points)
    if trailer.length is not None and rear > trailer.length.value + TAPE_M:
        last = max(words.profile, key=lambda corner: corner.back.value)
        yield Problem(
            last.back.origin,
            "outside the trailer",
            f"the body is {show_length(rear, units)} long, and the trailer {trailer.length.text} over everything",
            "measure both again, and mend the one that is wrong",
        )


def _place_outside(
    named: tuple[Key, PlaceWords],
    place: Place,
    body: tuple[tuple[Point, ...], BodyWords],
    told: tuple[TrailerWords | None, System],
) -> Iterator[Problem]:
    """Tell of a place further outside the body than what is screwed to its outside stands off.

    What is ahead of the body, or at its underside or below, stands on tongue or frame and is not held against it.
    """
    (key, words), (points, whole), (trailer, units) = named, body, told
    if place.back_m < 0 or place.up_m <= 0:
        return
    out_m = outside_by_m(points, (place.back_m, place.up_m))
    measure = words.up or words.back
    if out_m > REACH_M and measure is not None:
        yield Problem(
            measure.origin,
            "outside the body",
            f"“{key}” is {show_length(out_m, units)} outside the outline of the body",
            "measure it again, back and up, or mend the outline; what stands on the tongue is ahead, what hangs "
            "under the body is down",
        )
    side = words.left or words.right
    width = max(whole.width.value / 2 + REACH_M, _half_width(trailer))
    if side is not None and side.value > width:
        yield Problem(
            side.origin,
            "outside the body",
            f"“{key}” is {side.text} from the middle of a body {whole.width.text} wide",
            "measure from the middle to the side it is on, or mend the width of the body",
        )


def _half_width(trailer: TrailerWords | None) -> float:
    """Return half of what the trailer measures over everything; a place further out is told of by that."""
    widths = [trailer.width, trailer.width_over_fenders] if trailer else []
    return max((width.value for width in widths if width), default=0.0) / 2 + TAPE_M


def _frame_problems(key: Key, words: FrameWords, points: tuple[Point, ...]) -> Iterator[Problem]:
    if not words.back and not words.up:
        yield Problem(
            key.origin,
            "missing word",
            f"“{key}” has neither “back” nor “up”",
            "write where its middle is: back: 2 ft for an upright one, up: 20 in for a level one",
        )
    elif words.back and words.up:
        yield Problem(
            words.up[0].origin,
            "word does not fit",
            f"“{key}” has “back” and “up”: an upright frame is at a distance, a level one at a height",
            "keep the one that is meant, or write two entries",
        )
    _, rear, _, top = extents(points)
    for measures, most, far in (
        (words.back, rear, "behind the body's rear"),
        (words.up, top, "above the body"),
    ):
        for measure in measures:
            if measure.value > most + TAPE_M:
                yield Problem(
                    measure.origin,
                    "outside the body",
                    f"“{key}” at {measure.text} is {far}",
                    "measure it again, or mend the outline of the body",
                )


def _frame(key: Key, words: FrameWords) -> Frame:
    return Frame(
        str(key),
        tuple(Wall(wall.value) for wall in words.in_) or tuple(Wall),
        tuple(measure.value for measure in words.back),
        tuple(measure.value for measure in words.up),
        words.thick.value if words.thick else None,
        key.origin,
    )
