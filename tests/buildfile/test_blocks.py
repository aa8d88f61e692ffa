"""Backing blocks in the build file: where their middle is, and what cannot be right about them."""

from __future__ import annotations

import pytest

from builder.buildfile.resolving import read_build
from builder.trailer.body import Block, Wall

HEAD = "format: 1\nbuild: {name: Sloe Bank, country: US}\n"
BODY = (
    "body: {width: 5 ft, profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, "
    "{back: 0 in, up: 4 ft}]}\n"
)


def told(block: str, body: str = BODY) -> list[tuple[str, str]]:
    """Return the problems of a build with one backing block, with the words that each marks."""
    text = HEAD + body + f"backing blocks:\n  shelf block: {{{block}}}\n"
    lines = text.splitlines()
    return [
        (lines[p.origin.line - 1][p.origin.column - 1 :][: p.origin.length], p.message)
        for p in read_build(text.encode()).problems
        if "battery" not in p.message
    ]


def block_of(block: str, body: str = BODY) -> Block:
    """Return the one block of a build."""
    text = HEAD + "front box: {fuse ways: 2}\n" + body + f"backing blocks:\n  shelf block: {{{block}}}\n"
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    return trailer.geometry.blocks["shelf block"]


@pytest.mark.parametrize(
    ("words", "wall", "rectangle"),
    [
        ("in: left wall, back: 4 m, up: 1 m, width: 30 cm, height: 10 cm", Wall.LEFT, (3.85, 0.95, 0.3, 0.1)),
        ("in: roof, back: 2 m, left: 50 cm, length: 20 cm, width: 40 cm", Wall.ROOF, (1.9, -0.7, 0.2, 0.4)),
        ("in: floor, back: 2 m, length: 20 cm, width: 40 cm", Wall.FLOOR, (1.9, -0.2, 0.2, 0.4)),
        (
            "in: rear wall, up: 1 m, right: 30 cm, width: 20 cm, height: 40 cm",
            Wall.REAR,
            (0.2, 0.8, 0.2, 0.4),
        ),
    ],
)
def test_it_is_measured_to_its_middle(
    words: str, wall: Wall, rectangle: tuple[float, float, float, float]
) -> None:
    block = block_of(f"{words}, thick: 18 mm, holds: shelf", body="")
    assert (block.wall, block.thick_m, block.holds) == (wall, 0.018, "shelf")
    assert (block.along_m, block.across_m, block.wide_m, block.high_m) == pytest.approx(rectangle)
    along, across = rectangle[0] + rectangle[2] / 2, rectangle[1] + rectangle[3] / 2
    assert block.middle_m == pytest.approx((along, across))


@pytest.mark.parametrize(
    ("words", "marked", "says"),
    [
        ("in: left wall, back: 4 ft, width: 8 in, height: 3 in", "shelf block", "has no “up”"),
        ("in: roof, back: 4 ft, width: 8 in, length: 3 in, up: 2 ft", "2 ft", "where “up” says nothing"),
        (
            "in: roof, back: 4 ft, width: 8 in, length: 3 in, left: 1 ft, right: 1 ft",
            "1 ft",
            "both left and right of the middle",
        ),
        (
            "in: left wall, back: 8 ft, up: 2 ft, width: 8 in, height: 3 in",
            "8 ft",
            "reaches beyond the outline",
        ),
        ("in: rear wall, up: 47 in, width: 8 in, height: 3 in", "3 in", "reaches above the body"),
        ("in: roof, back: 1 in, length: 4 ft, width: 8 in", "1 in", "reaches ahead of the body's front"),
        ("in: front wall, up: 1 in, width: 8 in, height: 3 ft", "1 in", "reaches below the body"),
        (
            "in: front wall, right: 28 in, up: 2 ft, width: 8 in, height: 3 in",
            "8 in",
            "is wider than a body of 5 ft",
        ),
    ],
)
def test_what_cannot_be_is_told(words: str, marked: str, says: str) -> None:
    ((found, message),) = told(words)
    assert (found, says in message) == (marked, True), message


def test_at_the_edge_of_its_wall_it_is_right() -> None:
    """8 ft is 243.84 cm, and 20.3 cm is 8 in: half of it, and a tape's slip of 1 cm."""
    assert told("in: left wall, back: 92 in, up: 2 ft, width: 8 in, height: 3 in") == []
    assert told("in: left wall, back: 92.3 in, up: 2 ft, width: 8 in, height: 3 in") == []
    assert told("in: left wall, back: 92.5 in, up: 2 ft, width: 8 in, height: 3 in") != []


def test_without_an_outline_of_the_body_its_place_is_taken_as_written() -> None:
    assert told("in: left wall, back: 80 ft, up: 2 ft, width: 8 in, height: 3 in", body="") == []
