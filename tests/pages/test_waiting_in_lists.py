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


def test_the_end_behind_a_fuse_that_waits_is_a_wires_end() -> None:
    """Two wires end there: the one that would leave the fuse is meant, and a page that named a contact would lie."""
    fused = BUILD.replace(b"path: [fan: 4 ft]", b"path: [fan fuse: 1 ft, fan: 4 ft]")
    fused = fused.replace(b"parts: {", b"parts: {fan fuse: {kind: fuse}, ")
    page = page_of(view_of(fused + b"waiting: {fan fuse: ordered in May}\n"), "tests")
    rows = [
        row for row in table(page, "Feed against return, before any supply is joined") if "fan fuse" in row[1]
    ]
    (row,) = rows
    assert "fan fuse: the end of wire 2B, the part waits" in row[2]
    assert "hangs on it with no switch: fan" in row[3]
    assert "where wire" not in row[2]


def test_a_module_that_waits_is_neither_covered_nor_taken_off() -> None:
    sun = BUILD.replace(
        b"fan: {kind: fan, draws: 1 A}}",
        b"fan: {kind: fan, draws: 1 A}, sun: {kind: solar module}, keeper: {kind: charge controller}}",
    )
    sun = sun.replace(
        b"[fan: 4 ft]}}",
        b"[fan: 4 ft]}, solar: {from: sun, path: [keeper: 9 ft, sun fuse: 1 ft, battery: 6 in]}}",
    )
    whole, late = (
        page_of(view_of(sun + more), "tests") for more in (b"", b"waiting: {sun: ordered in May}\n")
    )
    first = "First: take off every supply"
    assert "sun: cover it" in told_below(whole, first)
    assert "sun" not in told_below(late, first)
    assert "the wire that belongs on it" not in words_of(late)
    assert "sun +: the wire's end, the part waits" in words_of(late)
    assert "Charging" not in [words_of(tag) for tag in late.find_all("h2")]


def test_nothing_is_told_where_no_part_waits() -> None:
    view = view_of(BUILD)
    assert "Waits" not in words_of(page_of(view, "shopping"))
    assert END not in words_of(page_of(view, "tests"))
    assert ENDS not in words_of(page_of(view, "tests"))
