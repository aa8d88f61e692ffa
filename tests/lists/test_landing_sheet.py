"""The sheet of what lands where: every wire end once, in the order of the face, free places as well."""

from __future__ import annotations

from dataclasses import replace

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from listed import EMPTY, EXAMPLE, HEAD, METRIC, NO_BATTERY, ROAD_ONLY, SMALLEST

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.lists.landing_sheet import BoxPiece, face_order, landing_sheet
from builder.trailer.box_face import BoxFace
from builder.trailer.box_face import Piece as Measured
from builder.trailer.model import FRONT_BOX, Trailer

EVERY = pytest.mark.parametrize("text", [EMPTY, EXAMPLE, METRIC, NO_BATTERY, ROAD_ONLY, SMALLEST])


def sheet(text: str) -> tuple[Trailer, dict[str, BoxPiece]]:
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    return trailer, {piece.name: piece for piece in landing_sheet(trailer, compute(trailer))}


@EVERY
def test_every_wire_end_in_the_box_stands_on_it_once(text: str) -> None:
    trailer, pieces = sheet(text)
    there = sorted(
        (end.wire, end.far) for one in pieces.values() if one.in_box for p in one.places for end in p.ends
    )
    wires = [(w.number, w.end) for w in trailer.wires if w.start.part == FRONT_BOX]
    wires += [(w.number, w.start) for w in trailer.wires if w.end.part == FRONT_BOX]
    assert there == sorted(wires)


@EVERY
def test_places_are_counted_through_and_what_has_no_wire_is_free(text: str) -> None:
    trailer, pieces = sheet(text)
    box = trailer.front_box
    given = {"fuse block": box.fuse_ways, "strip": box.strip, "ground bar": box.ground_bar} if box else {}
    for name, piece in pieces.items():
        numbers = [place.place for place in piece.places if place.place]
        if piece.in_box and numbers:
            assert numbers == list(range(1, len(numbers) + 1))
        if given.get(name) is not None:
            assert piece.count == given[name]
            assert piece.taken + (piece.free or 0) == given[name]
            assert piece.free == sum(not place.ends for place in piece.places)


def test_the_thickest_wire_is_first_on_a_stud() -> None:
    text = HEAD.replace("to front box: 4 ft", "to front box: 4 ft, size: 6 AWG") + (
        "parts: {meter: {kind: meter, draws: 10 mA}}\n"
        "circuits:\n  watch: {from: battery, fuse: 2 A, size: 16 AWG, path: [meter: 6 ft]}\n"
    )
    _, pieces = sheet(text)
    plus = next(place for place in pieces["battery"].places if place.terminal.pin == "+")
    assert [str(end.size) for end in plus.ends] == ["6 AWG", "16 AWG"]


def test_the_order_follows_the_face_row_by_row() -> None:
    face = BoxFace(
        0.3,
        0.3,
        {
            "ground bar": Measured(0.2, 0.01, 0.02, 0.02),
            "strip": Measured(0.02, 0.1, 0.2, 0.09),
            "fuse block": Measured(0.1, 0.15, 0.02, 0.1),
            "supply bar": Measured(0.1, 0.01),
        },
    )
    assert face_order(face) == ("ground bar", "fuse block", "strip", "supply bar")
    assert face_order(None) == ("supply bar", "fuse block", "strip", "ground bar")


def test_free_studs_of_bars_are_told() -> None:
    text = HEAD + (
        "terminal studs: {supply bar: {count: 3, size: M6}, bar: {count: 3, size: No. 10}}\n"
        "parts: {bar: {kind: bar}, lamp: {kind: lamp, draws: 3 W}}\n"
        "circuits:\n  light: {path: [bar: 6 ft, lamp: 2 ft]}\n"
    )
    _, pieces = sheet(text)
    supply = pieces["supply bar"]
    assert (supply.taken, supply.free, [str(place.stud) for place in supply.places]) == (1, 2, ["M6"] * 3)
    bar = [(p.terminal.pin, p.place, len(p.ends)) for p in pieces["bar"].places]
    assert bar == [
        ("feed", 1, 1),
        ("feed", 2, 1),
        ("feed", 3, 0),
        ("return", 1, 1),
        ("return", 2, 1),
        ("return", 3, 0),
    ]


OVERFULL = """\
format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4, ground bar: 3}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}, pump: {kind: pump}, horn: {kind: lamp}}
circuits:
  light: {path: [lamp: 6 ft]}
  air: {path: [fan: 4 ft], way: 7}
  water: {path: [pump: 4 ft]}
  night: {path: [horn: 4 ft]}
"""


def test_what_lands_beyond_the_places_that_are_there_takes_none_of_them() -> None:
    """Way 7 of a block of four: ways 5 and 6 are nowhere, and way 2 is free. Five wires on three screws."""
    _, pieces = sheet(OVERFULL)
    block, bar = pieces["fuse block"], pieces["ground bar"]
    assert [(p.place, bool(p.ends)) for p in block.places] == [
        (1, True), (2, False), (3, True), (4, True), (7, True),
    ]  # fmt: skip
    assert (block.taken, block.count, block.free, block.free_places, block.beyond) == (4, 4, 1, (2,), (7,))
    assert (bar.taken, bar.count, bar.free, bar.free_places, bar.beyond) == (5, 3, 0, (), (4, 5))


@settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(build=builds(), ways=st.integers(1, 12), screws=st.integers(1, 40), strip=st.integers(1, 20))
def test_free_places_are_those_up_to_the_count_on_which_nothing_lands(
    build: GeneratedBuild, ways: int, screws: int, strip: int
) -> None:
    trailer = read_build(build.text.encode()).trailer
    assert trailer is not None
    if trailer.front_box is None:
        return
    box = replace(trailer.front_box, fuse_ways=ways, ground_bar=screws, strip=strip)
    trailer = replace(trailer, front_box=box)
    figures = compute(trailer)
    landed: dict[str, set[int]] = {"way": set(), "screw": set(), "strip": set()}
    for at in figures.landings:
        kind, _, number = at.place.partition(" ")
        if at.part == FRONT_BOX and kind in landed:
            landed[kind].add(int(number))
    pieces = {piece.name: piece for piece in landing_sheet(trailer, figures) if piece.in_box}
    for name, kind, count in (
        ("fuse block", "way", ways),
        ("ground bar", "screw", screws),
        ("strip", "strip", strip),
    ):
        piece, there = pieces[name], set(range(1, count + 1))
        assert set(piece.free_places) == there - landed[kind]
        assert set(piece.beyond) == landed[kind] - there
        assert piece.taken == len(landed[kind])
        assert piece.free == len(there - landed[kind])
