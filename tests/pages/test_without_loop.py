"""A wire that is not long enough for its loop is told of wherever its length is cut, drawn in or landed."""

from __future__ import annotations

from bs4 import Tag
from owner_pages import page_of, view_of, words_of

from builder.pages.rounding import Reader
from builder.pages.view import Edition, View

BUILD = """format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
wire: {on the shelf: [16 AWG]}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}
circuits:
  light: {path: [lamp: 5 ft]}
  air: {path: [fan: 7 ft]}
places:
  front box: {back: 1 ft, up: 1 ft}
  lamp: {back: 6 ft, up: 1 ft}
  fan: {back: 6 ft, up: 2 ft}
chases: {groove: {through: [front box, lamp, fan]}}
"""
MARK, NOTE = "without loop", "“Without loop” behind a wire"


def view(text: str = BUILD) -> View:
    owner = view_of(text.encode())
    return View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))


def marked(row: Tag) -> bool:
    return MARK in words_of(row)


def test_the_pull_plan_marks_the_wires_that_the_cut_list_names() -> None:
    """The lamp's wires are 5 ft long, as is their way: nothing is left for 1 ft of loop. The fan's have 1 ft more."""
    made = view()
    assert made.lists.cuts.no_loop == ("1A", "1B")
    page = page_of(made, "pulls")
    assert NOTE in words_of(page)
    (row,) = page.select("tbody tr#pull-1")
    assert "2A, 2B pair 16 AWG out at lamp: 1A, 1B pair 16 AWG (without loop)" in words_of(row)


def test_a_strip_of_labels_tells_it_at_the_box_where_the_loop_would_be() -> None:
    page = page_of(view(), "labels")
    assert NOTE in words_of(page)
    rows = [words_of(row) for row in page.select("tr") if marked(row)]
    assert [row.split("light")[0].strip() for row in rows] == ["fuse way 1 1A", "ground bar 1B"]


def test_nothing_is_told_where_every_wire_has_its_loop() -> None:
    long = view(BUILD.replace("lamp: 5 ft", "lamp: 7 ft"))
    assert long.lists.cuts.no_loop == ()
    for name in ("pulls", "labels"):
        assert MARK not in words_of(page_of(long, name)).casefold()
