"""What was measured on the front box, resolved, and whether the measures can all be right."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations

from builder.buildfile.declared_face import FrontBoxFaceWords, InsideWords, PieceWords, RowsWords
from builder.buildfile.problems import Problem
from builder.buildfile.written import Written
from builder.quantities.showing import System, show_measure
from builder.trailer.box_face import BoxFace, Piece, PieceName
from builder.trailer.model import FRONT_BOX
from builder.trailer.origin import NOWHERE, Origin

TAPE_M = 0.002
"""By how much two measures may disagree before they contradict each other: a tape's tolerance, common practice."""


def resolve_face(words: FrontBoxFaceWords | None) -> BoxFace | None:
    """Return what was measured on the front box, or None where nothing was."""
    if words is None:
        return None
    inside = words.inside
    pieces = {name: _piece(piece) for name, piece in _written(words).items()}
    return BoxFace(inside.width.value, inside.height.value, pieces)


def _written(words: FrontBoxFaceWords) -> dict[PieceName, PieceWords]:
    every: tuple[tuple[PieceName, PieceWords | None], ...] = (
        ("supply bar", words.supply_bar),
        ("fuse block", words.fuse_block),
        ("strip", words.strip),
        ("ground bar", words.ground_bar),
    )
    return {name: piece for name, piece in every if piece is not None}


def _piece(words: PieceWords) -> Piece:
    rows, numbered = (words.rows, words.numbered) if isinstance(words, RowsWords) else (None, None)
    return Piece(
        words.width.value,
        words.height.value,
        words.from_left.value if words.from_left else None,
        words.from_top.value if words.from_top else None,
        rows.value if rows else 1,
        numbered is not None and numbered.value == "across",
    )


def check_face(
    words: FrontBoxFaceWords | None, has_box: bool, places: Mapping[str, Origin], units: System
) -> list[Problem]:
    """Return a problem for each measure that another one contradicts; ``has_box`` tells of the front box itself."""
    if words is None:
        return []
    if not has_box:
        return [
            Problem(
                places.get("front box face", NOWHERE),
                "no front box",
                "there are measures of a front box, and this build has none",
                f"add the heading {FRONT_BOX}, as in front box: {{fuse ways: 8}}, or take the measures out",
            )
        ]
    written = _written(words)
    problems = [problem for name, piece in written.items() for problem in _lone(name, piece)]
    for name, piece in written.items():
        problems += _outside(name, piece, words.inside, units)
    if not problems:
        for one, other in combinations(written, 2):
            problems += _overlap((one, written[one]), (other, written[other]), units)
    return problems


def _lone(name: str, piece: PieceWords) -> list[Problem]:
    """Tell of a place that is only half written."""
    pairs = ((piece.from_left, "from left", "from top"), (piece.from_top, "from top", "from left"))
    there = [(found, word, lacking) for found, word, lacking in pairs if found is not None]
    if len(there) != 1:
        return []
    found, word, lacking = there[0]
    return [
        Problem(
            found.origin,
            "missing word",
            f"the {name} has “{word}” and no “{lacking}”, so its place is only half known",
            f"add it, as in {lacking}: 1 in, or take “{word}” out",
        )
    ]


def _outside(name: str, piece: PieceWords, inside: InsideWords, units: System) -> list[Problem]:
    """Tell of a piece that is larger than the box, or that would go through one of its walls."""
    sides = (
        ("wide", "right", piece.width, piece.from_left, inside.width),
        ("high", "lower", piece.height, piece.from_top, inside.height),
    )
    problems = []
    for how, wall, size, place, room in sides:
        if size.value > room.value + TAPE_M:
            problems.append(
                Problem(
                    size.origin,
                    "does not fit",
                    f"the {name} is {size.text} {how}, and the front box only {room.text} inside",
                    "measure both again as they hang there; if it hangs the other way round, swap its width and "
                    "height",
                )
            )
        elif place is not None and place.value + size.value > room.value + TAPE_M:
            over = show_measure(place.value + size.value - room.value, units)
            problems.append(
                Problem(
                    place.origin,
                    "does not fit",
                    f"the {name} would reach {over} through the {wall} wall of the front box: "
                    f"it begins at {place.text}, is {size.text} {how}, and the box {room.text} inside",
                    "measure from the wall to the edge of the piece again, and mend the measure that is wrong",
                )
            )
    return problems


def _overlap(
    one: tuple[PieceName, PieceWords], other: tuple[PieceName, PieceWords], units: System
) -> list[Problem]:
    """Tell of two pieces that would lie on each other; the place is that of the second."""
    (name, piece), (second, over) = one, other
    if piece.from_left is None or over.from_left is None or piece.from_top is None or over.from_top is None:
        return []
    width = _common(piece.from_left, piece.width, over.from_left, over.width)
    height = _common(piece.from_top, piece.height, over.from_top, over.height)
    if min(width, height) <= TAPE_M:
        return []
    return [
        Problem(
            over.from_left.origin,
            "no room",
            f"the {second} would lie on the {name}: both take the same "
            f"{show_measure(width, units)} by {show_measure(height, units)}",
            f"measure from the left and the upper wall to the upper left corner of each; written are "
            f"{piece.from_left.text} and {piece.from_top.text} for the {name}, "
            f"{over.from_left.text} and {over.from_top.text} for the {second}",
        )
    ]


def _common(
    start: Written[float], size: Written[float], other: Written[float], wide: Written[float]
) -> float:
    """Return how far two stretches cover each other, in metres; below nothing where there is a gap."""
    return min(start.value + size.value, other.value + wide.value) - max(start.value, other.value)
