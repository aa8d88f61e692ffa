"""A wire that goes a stretch there and back lies in it twice: every count of what lies there, turns and passes."""

from __future__ import annotations

import re

from owner_pages import page_of, table, view_of

from builder.drawings.conduit_section import conduit_sections
from builder.pages.drawing_words import drawing_words
from builder.pages.rounding import Reader
from builder.pages.view import Edition, View
from builder.routes.network import Stretch

BUILD = """format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
wire: {on the shelf: [16 AWG], outside diameters: {16 AWG: 3 mm}}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}
circuits:
  light: {path: [lamp: {through: corner}]}
  air: {path: [fan]}
places:
  front box: {back: 1 ft, left: 28 in, up: 1 ft}
  lamp: {back: 3 ft, left: 28 in, up: 1 ft}
  bend: {back: 5 ft, left: 28 in, up: 1 ft}
  corner: {back: 5 ft, left: 28 in, up: 3 ft}
  fan: {back: 5 ft, left: 28 in, up: 3 ft 6 in}
body:
  width: 5 ft
  profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
frames: {studs: {in: left wall, back: [2 ft, 4 ft]}}
chases:
  tube: {through: [front box, lamp, bend, corner, fan], kind: conduit, bore: 20 mm, passes sheet at: corner}
"""


def view() -> View:
    """Return a build whose lamp wires go past the lamp to a corner, and back to it."""
    owner = view_of(BUILD.encode())
    return View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))


def test_the_list_of_a_chase_counts_what_lies_side_by_side() -> None:
    """Feed and return of lamp and fan: four as far as the lamp, then the lamp's two once more: six."""
    rows = table(page_of(view(), "runs"), "Wires in tube")
    assert [row[2] for row in rows] == ["4", "6", "6", "2"]
    twice = "there and back, so twice: 1A, 1B"
    assert [twice in row[3] for row in rows] == [False, True, True, False]


def test_how_full_the_tube_is_counts_them_twice_too_in_list_pull_plan_and_picture() -> None:
    """Six wires of 3 mm in 20 mm: 6 x 9 / 400 = 13.5 %."""
    made = view()
    fills = {one.stretch: one.fill_percent for one in made.figures.fills}
    assert round(fills[Stretch("tube", 1)] or 0, 3) == 13.5
    last = made.lists.pulls.pulls[-1].fills[0]
    assert (last.wires, round(last.fill_percent or 0, 3)) == (6, 13.5)
    sections = conduit_sections(made.trailer, made.figures, drawing_words("en"))
    drawn = [sorted(re.findall(r'data-wire="(\w+)"', one.svg)) for one in sections]
    assert drawn == [["1A", "1B", "2A", "2B"], ["1A", "1A", "1B", "1B", "2A", "2B"], ["2A", "2B"]]


def test_frames_and_turns_are_passed_twice() -> None:
    """The stud at 2 ft is before the lamp, that at 4 ft beyond it; the bend is at 5 ft."""
    made = view()
    frames = {one.back_m: (one.wires, one.twice) for one in made.figures.laid.frames}
    assert list(frames.values()) == [(("1A", "1B", "2A", "2B"), ()), (("1A", "1B", "2A", "2B"), ("1A", "1B"))]
    (turn,) = [row for row in table(page_of(made, "building-in"), "Where wires turn") if "bend" in row[0]]
    assert turn[2] == "6"


def test_what_turns_round_at_a_hole_passes_it_once_at_most() -> None:
    (hole,) = view().figures.laid.passings
    assert (hole.places, hole.twice) == (("corner",), ())


def test_a_hole_on_the_way_there_and_back_holds_them_twice() -> None:
    text = BUILD.replace("passes sheet at: corner", "passes sheet at: bend")
    (hole,) = view_of(text.encode()).figures.laid.passings
    assert (hole.wires, hole.twice) == (("1A", "1B", "2A", "2B"), ("1A", "1B"))
