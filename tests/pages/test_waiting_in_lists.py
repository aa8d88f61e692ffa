"""A part that is not there yet: the shopping list says so, and the test sheet measures to the ends of its wires."""

from __future__ import annotations

from owner_pages import page_of, table, told_below, view_of, words_of

BUILD = b"""format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}
circuits: {light: {path: [lamp: 6 ft]}, air: {path: [fan: 4 ft]}}
"""
SAID = "waits: ordered in May"
ENDS = "Ends that land on nothing, before any supply is joined"
END = "the wire's end, the part waits"


def test_a_part_that_waits_is_told_and_no_other() -> None:
    waiting = view_of(BUILD + b"waiting: {fan: ordered in May}\n")
    shopping, tests = words_of(page_of(waiting, "shopping")), words_of(page_of(waiting, "tests"))
    assert shopping.count(SAID) == 1
    assert "Look whether it is on its way before you buy it" in shopping
    # feed and return of the fan
    assert tests.count(END) == 2
    assert "lamp: " + END not in tests


def test_bare_ends_are_insulated_before_a_supply_is_joined() -> None:
    """A test further on puts in every fuse: then the feed of a part that waits is live."""
    page = page_of(view_of(BUILD + b"waiting: {fan: ordered in May}\n"), "tests")
    heads = [words_of(tag) for tag in page.find_all("h2")]
    assert heads.index(ENDS) == heads.index("The battery is joined") - 1
    rows = table(page, ENDS)
    assert [row[1] for row in rows] == ["2A air", "2B air"]
    assert {row[3] for row in rows} == {"fan the part waits"}
    assert "Insulate each end on this list by itself" in told_below(page, ENDS)
    assert "puts in every fuse, those of the parts that wait as well" in told_below(page, ENDS)


def test_nothing_is_told_where_no_part_waits() -> None:
    view = view_of(BUILD)
    assert "Waits" not in words_of(page_of(view, "shopping"))
    assert END not in words_of(page_of(view, "tests"))
    assert ENDS not in words_of(page_of(view, "tests"))
