"""The page of the pull plan tells what the plan has, and its table for a spreadsheet the same."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

from bs4 import Tag
from owner_pages import page_of, table, view_of, words_of

from builder.pages.page_pulls import has_pulls, pulls_csv
from builder.pages.rounding import length

EXAMPLE = (Path(__file__).parents[2] / "example_build" / "trailer.yaml").read_bytes()
SMALLEST = (Path(__file__).parents[2] / "example_build" / "smallest" / "trailer.yaml").read_bytes()
TUBE = b"""format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
wire: {on the shelf: [16 AWG], sold as: single}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}
circuits: {light: {path: [lamp]}, fan: {path: [fan: 4 ft]}}
places: {front box: {back: 1 ft, up: 1 ft}, lamp: {back: 6 ft, up: 1 ft}}
chases: {tube: {through: [front box, lamp], kind: conduit, bore: 1 in}}
"""


def test_the_page_has_every_pull_with_its_wires_and_its_way() -> None:
    view = view_of(EXAMPLE)
    rows = table(page_of(view, "pulls"), "The pulls in their order")
    pulls = view.lists.pulls.pulls
    assert len(rows) == len(pulls) > 1
    for (head, wires, way), pull in zip(rows, pulls, strict=True):
        assert head.startswith(f"{pull.number}. {pull.start} to {pull.end}")
        assert " · ".join(pull.through) in head
        assert all(f"it goes to {place} and back" in head for place in pull.turns)
        for one in pull.drawn:
            assert f"{one.piece.wires[0]} {one.piece.sort.words}" in wires
            assert one.whole or f"out at {one.until}:" in wires
        assert way == length(pull.way_m, "feet")


def test_the_page_tells_how_full_a_conduit_is_then_and_what_lies_on_no_way() -> None:
    page = page_of(view_of(TUBE), "pulls")
    ((_, wires, _),) = table(page, "The pulls in their order")
    # two wires of 3.0 mm in a bore of 25.4 mm: 18 of 645 mm²
    assert "tube is then 2.79 % full, of 31 %" in wires or "tube is then 2.8 % full, of 31 %" in wires
    assert "no string is on record in: tube; leave one in" in words_of(page)
    assert {row[0] for row in table(page, "Not on the plan")} >= {"front box to fan", "fan to front box"}
    assert "advice from common practice" in words_of(page)


def test_the_table_has_the_same_pieces_in_the_same_order() -> None:
    view = view_of(EXAMPLE)
    plan = view.lists.pulls
    rows = list(csv.DictReader(io.StringIO(pulls_csv(view))))
    told = [(row["pull"], row["wires"], row["way"]) for row in rows]
    drawn = [
        (str(pull.number), " ".join(one.piece.wires), length(pull.way_m, "feet"))
        for pull in plan.pulls
        for one in pull.drawn
    ]
    assert told == drawn + [("by hand", " ".join(piece.wires), "") for piece in plan.at_hand]
    assert {row["full then"] for row in rows if row["draw at"] == "dc charger"} != {""}


def test_a_build_without_chases_has_no_such_page() -> None:
    assert not has_pulls(view_of(SMALLEST))
    assert has_pulls(view_of(TUBE))


def test_a_pull_that_is_in_has_nothing_to_tick() -> None:
    done = page_of(view_of(TUBE + b"pulled: {light: 2 May}\n"), "pulls")
    ((head, wires, _),) = table(done, "The pulls in their order")
    assert head.endswith("all of it is in already")
    assert wires.count("(pulled)") == len(view_of(TUBE).lists.pulls.pulls[0].drawn)
    for page, ticks in ((done, 0), (page_of(view_of(TUBE), "pulls"), 1)):
        sheet = page.find(attrs={"aria-label": "The pulls in their order"})
        assert isinstance(sheet, Tag)
        assert len(sheet.select(".blank-tick")) == ticks


def test_a_string_is_to_stay_only_where_a_pull_says_so_and_the_longest_pull_tells_how_long_one_is() -> None:
    page = words_of(page_of(view_of(TUBE), "pulls"))
    assert "Where the pull says so, tie a second string with them" in page
    assert "The longest pull, no. 1, asks for a string of 5 ft with a tail at each end" in page
    groove = words_of(page_of(view_of(TUBE.replace(b", kind: conduit, bore: 1 in", b"")), "pulls"))
    assert "second string" not in groove
    assert "stays in" not in groove
    view = view_of(EXAMPLE)
    rows = table(page_of(view, "pulls"), "The pulls in their order")
    stays = [bool(pull.strings or pull.bare) for pull in view.lists.pulls.pulls]
    assert ["leave a new one in" in row[0] or "leave one in" in row[0] for row in rows] == stays
    assert not all(stays)


def free_told(row: list[str]) -> set[str]:
    """Return what a row of the plan says of the wires that end at parts off their chase."""
    return set(re.findall(r"leave free at [^:]*: (?:\d+ ft ?)?(?:[\d /]*in)?", row[1]))


def test_a_wire_to_a_part_off_its_chase_has_its_tail_and_its_rise_left_free() -> None:
    """By the tape: a tail of 6 in, and 18 in to the meter, 6 in to the step lamp, 3 in to a floor lamp.

    The fan's place lies 2 in from its opening's left side.
    """
    view = view_of(EXAMPLE)
    rows = table(page_of(view, "pulls"), "The pulls in their order")
    told = {
        wire: free_told(row)
        for row, pull in zip(rows, view.lists.pulls.pulls, strict=True)
        for one in pull.drawn
        for wire in one.piece.wires
    }
    for wires, said in (
        ("13B 13C", {"leave free at battery meter: 2 ft"}),
        ("1F", {"leave free at right step lamp: 1 ft"}),
        ("2G 2J", {"leave free at right floor lamp: 9 in", "leave free at left floor lamp: 9 in"}),
        ("7A 7B", {"leave free at roof fan: 8 in"}),
        ("1D 1E", set()),
    ):
        for wire in wires.split():
            assert {one.strip() for one in told[wire]} == said, wire
    for row, pull in zip(rows, view.lists.pulls.pulls, strict=True):
        assert ("leave slack in hinge: 6 in" in row[0]) is ("hinge" in pull.chases)
    assert "the part stands off its chase" in words_of(page_of(view, "pulls"))
    assert "the part stands off its chase" not in words_of(page_of(view_of(TUBE), "pulls"))


def test_the_table_tells_all_that_is_left_free_at_both_ends() -> None:
    """At the front box its loop of 12 in besides the tail of 6 in."""
    rows = {
        row["wires"]: row["leave free"] for row in csv.DictReader(io.StringIO(pulls_csv(view_of(EXAMPLE))))
    }
    assert rows["1H"] == "front box: 1 ft 6 in; right step lamp: 1 ft"
    assert rows["13B"] == "meter fuse: 6 in; battery meter: 2 ft"
    assert rows["13A"] == ""


def test_what_is_over_is_cut_off_and_a_stub_before_a_fuse_is_trimmed() -> None:
    """The wires to a fuse that the file writes no longer than 7 in; the one of a foot before the breaker is none."""
    view = view_of(EXAMPLE)
    words = words_of(page_of(view, "pulls"))
    assert "Never leave a large surplus rolled up in a wall" in words
    for page in ("pulls", "cuts", "landings"):
        said = words_of(page_of(view, page))
        told = re.search(r"from a larger fuse: (.*?)\. When you land one", said)
        assert told is not None, page
        stubs = "12A 5 7/8 in · 13A 4 in · 14D 6 in · 15C 6 in · 21A 6 in"
        assert told.group(1) == stubs
        assert "it measures 7 in at the most" in said
    assert "Never leave a large surplus" in words_of(page_of(view, "cuts"))
    far = EXAMPLE.replace(b"meter fuse: 4 in", b"meter fuse: 8 in")
    assert "13A 8 in" not in words_of(page_of(view_of(far), "pulls"))
    assert "fuse of its own, from the battery" in words_of(page_of(view_of(TUBE), "cuts"))
    bare = TUBE.replace(b"to main fuse: 5 in", b"to main fuse: 9 in")
    assert "fuse of its own, from the battery" not in words_of(page_of(view_of(bare), "cuts"))


def test_the_free_cable_of_the_plug_is_its_length_less_its_way_and_is_not_cut_off() -> None:
    """7 ft from plug to box, less 4 ft 7 in through the tongue and 1 ft for the loop; 8 ft less 6 ft to the charger.

    The car-side fuse is 7 in from the plug, and its wire 1 ft long. Their tails of 6 in come on top.
    """
    view = view_of(EXAMPLE)
    told = "14A 5 in · 14E 2 ft · 17A 1 ft 5 in · 18A 1 ft 5 in · 19A 1 ft 5 in · 20A 1 ft 5 in; the tail"
    for page in ("pulls", "cuts"):
        assert f"free beyond its way: {told}" in words_of(page_of(view, page))
    rows = table(page_of(view, "pulls"), "The pulls in their order")
    (row,) = [row for row in rows if row[0].startswith("30. tow plug")]
    assert row[1].count("leave free at tow plug: 1 ft 11 in") == 4
    assert "leave free at tow plug: 2 ft 6 in" in row[1]
    assert "leave free at tow plug: 11 in" in row[1]
    done = EXAMPLE.replace(
        b"pulled: {floor lights: 2 May", b"pulled: {everything: 2 May, floor lights: 2 May"
    )
    assert "free beyond its way" not in words_of(page_of(view_of(done), "cuts"))
    assert "free beyond its way" not in words_of(page_of(view_of(TUBE), "cuts"))
