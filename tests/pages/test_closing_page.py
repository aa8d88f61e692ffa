"""The closing list tells what lies in each bay, what is missing there, and what the maker wrote down of it."""

from __future__ import annotations

import csv
import io
import re

from example_numbers import EXAMPLE
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.pages.page_closing import closing_csv, has_bays
from builder.pages.rounding import length

BUILD = """format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
wire: {on the shelf: [16 AWG], sold as: single}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}
circuits: {light: {path: [lamp: LONG]}, air: {path: [fan]}}
places:
  front box: {back: 1 ft, left: 28 in, up: 1 ft}
  lamp: {back: 6 ft, left: 28 in, up: 1 ft}
  fan: {back: 8 ft, left: 28 in, up: 1 ft}
body:
  width: 5 ft
  profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
frames: {studs: {in: left wall, back: 4 ft}}
chases:
  groove: {through: [front box, lamp], pull string: yes}
  rear groove: {through: [lamp, fan], plate: 1/16 in}
skins: {left side: {lies on: left wall, fasteners go in: 1 in}}
waiting: {fan: ordered}
SAID
"""

NOT_PULLED = "Nobody wrote down yet that these wires are pulled. Tick once each is in:"
MAINS = "  mains cable: {through: [inlet, heater], carries: mains}\nskins:"
CLOSED = "closed bays: {left wall bay 1: {photo: none}}"


def as_closed(data: bytes) -> bytes:
    return data.replace(b"country: US", b"country: US, stage: walls closed")


def build(said: str = "", long: str = "10 ft") -> bytes:
    return BUILD.replace("SAID", said).replace("LONG", long).encode()


def test_each_bay_lists_its_stretches_with_depth_and_what_holds_them() -> None:
    view = view_of(build())
    page = page_of(view, "closing")
    front, rear = table(page, "In left wall bay 1"), table(page, "In left wall bay 2")
    assert [row[0] for row in front] == ["groove front box to lamp"]
    assert [row[0] for row in rear] == ["groove front box to lamp", "rear groove lamp to fan"]
    assert front[0][1] == "1A, 1B, 2A, 2B"
    # 2 in behind the wall, fasteners of 1 in, half a row of four wires of 3.0 mm: 19.4 mm are left
    assert front[0][2] == "2 in 3/4 in left to fasteners where they come nearest"
    assert front[0][3] == "held every 1 ft 5 1/2 in; string left in"
    assert rear[1][2].endswith("steel plates over it")
    assert "From 0 in to 4 ft back. Wires in it: 4." in told_below(page, "left wall bay 1")
    assert (
        "No way of a wire of this file leads through: right wall, front wall, rear wall, roof, floor."
        in words_of(page)
    )


def test_a_bay_names_its_photo_the_ends_that_wait_and_what_must_be_fixed() -> None:
    page = page_of(view_of(build(long="4 ft")), "closing")
    rear = told_below(page, "left wall bay 2")
    assert "Photo, with a tape in it, named left-wall-bay-2" in rear
    assert "The ends of fan ( 2A, 2B ) wait here: each insulated by itself." in rear
    assert "Must be fixed first: wire 1A" in rear
    assert "wait here" not in told_below(page, "left wall bay 1")


def test_what_the_maker_wrote_down_stands_on_the_page() -> None:
    said = (
        "pulled: {light: 3 May}\n"
        "closed bays: {left wall bay 2: {photo: p7.jpg, ends insulated: yes, date: 4 May, note: cold day}}"
    )
    page = page_of(view_of(build(said)), "closing")
    rear, front = told_below(page, "left wall bay 2"), told_below(page, "left wall bay 1")
    assert "Closed: 4 May. cold day" in rear
    assert "Photo taken: p7.jpg" in rear
    assert "insulated, as is on record" in rear
    for one in (rear, front):
        assert NOT_PULLED + " 2A, 2B (air)." in one
    assert "Closed" not in front.replace("Closed by", "")
    assert NOT_PULLED not in words_of(page_of(view_of(build("pulled: {everything: 3 May}")), "closing"))


def test_the_table_has_the_stretches_of_the_page() -> None:
    view = view_of(build("closed bays: {left wall bay 1: {photo: p7.jpg}}"))
    rows = list(csv.DictReader(io.StringIO(closing_csv(view))))
    told = [(row["bay"], row["chase"], row["wires"].split(), row["depth"]) for row in rows]
    assert told == [
        (held.bay.name, one.stretch.chase, list(one.wires), length(one.depth_m, "feet"))
        for held in view.figures.bays
        for one in held.inside
    ]
    assert [row["photo"] for row in rows] == ["p7.jpg", "left-wall-bay-2", "left-wall-bay-2"]
    assert [row["closed"] for row in rows] == ["yes", "", ""]


def test_a_build_without_bays_has_no_such_page() -> None:
    bare = BUILD[: BUILD.index("body:")].replace("LONG", "10 ft").encode()
    assert has_bays(view_of(build()))
    assert not has_bays(view_of(bare.replace(b"air: {path: [fan]}", b"air: {path: [fan: 9 ft]}")))


def test_where_wires_go_out_and_at_a_hinge_no_screw_is_let_in() -> None:
    places = "  lamp: {back: 6 ft, left: 28 in, up: 1 ft}"
    outside = build().replace(places.encode(), b"  lamp: {back: 1 ft 3 in, left: 31 in, up: 1 ft}")
    outside = outside.replace(b"front box: {back: 1 ft, left: 28 in", b"front box: {back: 1 ft, left: 26 in")
    out = table(page_of(view_of(outside), "closing"), "In left wall bay 1")[0][2]
    hole = table(page_of(view_of(outside), "fasteners"), "Wires behind left side")[0][4]
    assert hole.startswith("goes out here no fastener within ")
    assert out == "0 in " + hole.replace("here no", "here: no")
    without = outside.replace(b"skins: {left side: {lies on: left wall, fasteners go in: 1 in}}", b"")
    told = table(page_of(view_of(without), "closing"), "In left wall bay 1")[0][2]
    assert told == "0 in comes to the outside here: no screw near it"
    hinged = build().replace(b"plate: 1/16 in}", b"plate: 1/16 in, kind: hinge loop, slack: 4 in}")
    told = table(page_of(view_of(hinged), "closing"), "In left wall bay 2")[1][2]
    assert told == "2 in a hinge loop: no screw here"
    rows = csv.DictReader(io.StringIO(closing_csv(view_of(hinged))))
    assert {row["left to fasteners"] for row in rows if row["chase"] == "rear groove"} == {"no screw here"}


def test_a_stretch_tells_its_least_depth_behind_a_wall_as_the_page_of_fasteners_does() -> None:
    slanted = build().replace(b"{back: 8 ft, left: 28 in, up: 1 ft}", b"{back: 8 ft, left: 25 in, up: 1 in}")
    slanted += b"assume: {error of a tape measure: 1 mm}\n"
    view = view_of(slanted)
    rear = table(page_of(view, "closing"), "In left wall bay 2")
    behind = table(page_of(view, "fasteners"), "Wires behind left side")
    assert [row[2].split(" in")[0] for row in rear] == [row[3].removesuffix(" in") for row in behind]


def test_wires_that_no_bay_holds_are_listed_by_themselves() -> None:
    """Every wire with a way stands somewhere on the page; one without a way may lie anywhere, and is named."""
    middle = build().replace(
        b"fan: {back: 8 ft, left: 28 in, up: 1 ft}", b"fan: {back: 8 ft, left: 8 in, up: 2 ft}"
    )
    middle = middle.replace(
        b"lamp: {back: 6 ft, left: 28 in, up: 1 ft}", b"lamp: {back: 6 ft, left: 8 in, up: 2 ft}"
    )
    view = view_of(middle)
    page = page_of(view, "closing")
    assert table(page, "In no bay") == [["rear groove lamp to fan", "2A, 2B", "held every 1 ft 5 1/2 in"]]
    rows = csv.DictReader(io.StringIO(closing_csv(view)))
    assert [row["wires"] for row in rows if row["bay"] == "in no bay"] == ["2A 2B"]
    told = {row["wires"] for row in csv.DictReader(io.StringIO(closing_csv(view)))}
    assert set(view.figures.runs.runs) == {number for wires in told for number in wires.split()}
    assert "In no bay" not in words_of(page_of(view_of(build()), "closing"))
    adrift = build().replace(b"  rear groove: {through: [lamp, fan], plate: 1/16 in}\n", b"")
    adrift = adrift.replace(b"{path: [fan]}", b"{path: [fan: 9 ft]}")
    assert "so they may lie in any bay: 2A, 2B, 3A, 3B, 3C." in words_of(page_of(view_of(adrift), "closing"))


def test_where_no_photo_was_taken_none_is_told_of() -> None:
    view = view_of(build("closed bays: {left wall bay 1: {photo: none}}"))
    told = words_of(page_of(view, "closing"))
    assert "No photo was taken, as is on record." in told
    assert "Photo taken" not in told
    assert next(csv.DictReader(io.StringIO(closing_csv(view))))["photo"] == "none"
    # with the walls open there is still time for one; once they are closed it is only written down
    found = [
        [one.rule for one in view_of(data).findings] for data in (build(CLOSED), as_closed(build(CLOSED)))
    ]
    assert [rules.count("bay closed too early") for rules in found] == [1, 0]


def test_a_fuse_that_must_be_fixed_is_no_reason_to_open_a_wall() -> None:
    data = build("closed bays: {left wall bay 1: {photo: p7.jpg}}").replace(
        b"{path: [lamp: 10 ft]}", b"{path: [lamp: 10 ft], size: 16 AWG, fuse: 40 A}"
    )
    rules = [one.rule for one in view_of(data).findings]
    assert "fuse above wire" in rules
    assert "bay closed too early" not in rules


def test_a_skin_that_is_called_like_a_wall_puts_nothing_into_that_wall() -> None:
    data = build().replace(b"left side: {lies on", b"roof: {lies on")
    held = {one.bay.name: one.wires for one in view_of(data).figures.bays}
    assert held["roof"] == ()
    assert held["left wall bay 1"] != ()


def test_wires_that_are_not_pulled_are_named_by_number_with_their_circuits() -> None:
    """Circuits of road lamps have commas in their names: a list of names alone cannot be told apart."""
    road = build("pulled: {air: 3 May}").replace(
        b"circuits:",
        b"tow plug: {pattern: 7-way blade, to front box: 7 ft}\n"
        b"road lamps: {rear marker: {shows: marker, side: left, wire: 12 ft}}\ncircuits:",
    )
    road = road.replace(b"places:", b"places:\n  rear marker: {back: 8 ft, left: 28 in, up: 2 ft}")
    road = road.replace(b"chases:", b"chases:\n  last groove: {through: [lamp, rear marker]}")
    front = told_below(page_of(view_of(road), "closing"), "left wall bay 1")
    told = front.partition(NOT_PULLED)[2].partition(".")[0]
    assert told.strip() == ("1A, 1B (light); 3B (road lamps, ground); 4B (road lamps, marker)")


def test_a_wire_that_was_measured_is_in_like_one_that_was_pulled() -> None:
    """The cut list and the pull plan leave it out: the closing list must not wait for it."""
    view = view_of(EXAMPLE.read_bytes())
    page = page_of(view, "closing")
    told = " ".join(words_of(tag) for tag in page.find_all("p") if NOT_PULLED in words_of(tag))
    waited_for = set(re.findall(r"\b\d+[A-Z]\b", told))
    measured = {one.about for one in view.trailer.changes if one.kind == "wire" and "length" in one.words}
    assert {"1A", "2A", "18E"} <= measured
    assert waited_for.isdisjoint(measured)
    assert {"1G", "10A"} <= waited_for


def test_a_bay_asks_for_the_dead_tests_of_its_wires_until_it_is_closed() -> None:
    asked = "Each wire above is tested dead, end to end, and reads as the Test sheet says."
    view = view_of(build("closed bays: {left wall bay 2: {photo: p7.jpg}}"))
    page = page_of(view, "closing")
    assert asked in told_below(page, "left wall bay 1")
    assert asked not in told_below(page, "left wall bay 2")


def test_mains_is_named_in_the_bay_where_it_lies_and_waits_for_the_licensed_persons_word() -> None:
    """Behind the right wall lies mains and nothing else: that bay is on the list all the same."""
    places = b"  inlet: {back: 2 ft, right: 28 in, up: 1 ft}\n  heater: {back: 6 ft, right: 28 in, up: 1 ft}\nbody:"
    mains = build().replace(b"body:", places, 1).replace(b"skins:", MAINS.encode(), 1)
    view = view_of(mains)
    page = page_of(view, "closing")
    right = told_below(page, "right wall")
    assert "Mains lies here: mains cable, from inlet to heater." in right
    assert "The licensed person has looked at it here and says that this may be closed:" in right
    assert "Mains lies here" not in told_below(page, "left wall bay 1")
    assert "In no bay" not in words_of(page)
    rows = csv.DictReader(io.StringIO(closing_csv(view)))
    assert [(row["bay"], row["chase"]) for row in rows if row["wires"] == "mains"] == [
        ("right wall", "mains cable")
    ]
    inside = mains.replace(b"right: 28 in", b"right: 6 in").replace(
        b"up: 1 ft}\n  heater", b"up: 2 ft}\n  heater"
    )
    inside = inside.replace(
        b"heater: {back: 6 ft, right: 6 in, up: 1 ft}", b"heater: {back: 6 ft, right: 6 in, up: 2 ft}"
    )
    assert "Mains lies here" in told_below(page_of(view_of(inside), "closing"), "In no bay")


def test_a_bay_with_mains_alone_that_was_closed_without_a_photo_is_told() -> None:
    places = b"  inlet: {back: 2 ft, right: 28 in, up: 1 ft}\n  heater: {back: 6 ft, right: 28 in, up: 1 ft}\nbody:"
    mains = build("closed bays: {right wall: {photo: none}}").replace(b"body:", places, 1)
    view = view_of(mains.replace(b"skins:", MAINS.encode(), 1))
    told = [one.message for one in view.findings if one.rule == "bay closed too early"]
    assert any("right wall" in message and "photo" in message for message in told)


def test_mains_without_a_way_may_lie_in_any_bay() -> None:
    page = page_of(view_of(build() + b"mains: {what: one outlet}\n"), "closing")
    assert "it may lie in any bay. Have the licensed person look at each of them" in words_of(page)
    assert "Mains" not in words_of(page_of(view_of(build()), "closing"))


PANEL = """  low front: {back: 5 ft, right: 26 in, up: 1 ft}
  low rear: {back: 7 ft, right: 26 in, up: 1 ft}
  high rear: {back: 7 ft, right: 26 in, up: 2 ft}
  high front: {back: 5 ft, right: 26 in, up: 2 ft}
body:"""


def with_panel(said: str, more: str = "") -> bytes:
    """Return a build with a panel before the second bay of the right wall, and what is said of it."""
    text = build(more).replace(b"body:", PANEL.encode(), 1).replace(b"in: left wall, back", b"back", 1)
    corners = "corners: [low front, low rear, high rear, high front], behind: nothing"
    return text + f"panels: {{lining: {{{corners}{said}}}}}\n".encode()


LICENSED = "The licensed person has looked at it here and says that this may be closed:"


def test_a_bay_behind_a_panel_asks_for_what_nobody_recorded_there() -> None:
    view = view_of(with_panel(", also behind: the cable of the mains outlet"))
    page = page_of(view, "closing")
    told = told_below(page, "right wall bay 2")
    assert "nobody recorded where: the cable of the mains outlet. Find it in this bay" in told
    assert LICENSED in told
    others = [bay.bay.name for bay in view.figures.bays if bay.holds and bay.bay.name != "right wall bay 2"]
    assert all("nobody recorded" not in told_below(page, name) for name in others)
    rows = list(csv.DictReader(io.StringIO(closing_csv(view))))
    assert [(row["bay"], row["chase"]) for row in rows if row["wires"].startswith("not recorded")] == [
        ("right wall bay 2", "lining")
    ]
    water = told_below(
        page_of(view_of(with_panel(", also behind: a hose of water")), "closing"), "right wall bay 2"
    )
    assert "a hose of water" in water
    assert LICENSED not in water


def test_where_nobody_says_what_runs_behind_a_panel_mains_may() -> None:
    mains = "mains: {what: one outlet, done by: licensed electrician}"
    told = told_below(page_of(view_of(with_panel("", mains)), "closing"), "right wall bay 2")
    assert "Nobody wrote down whether a mains cable runs behind lining." in told
    assert LICENSED in told
    for without in (with_panel(""), with_panel(", also behind: nothing", mains)):
        view = view_of(without)
        assert all(not bay.unseen for bay in view.figures.bays)


def test_a_bay_where_a_part_of_mains_stands_asks_for_its_cable_until_that_has_a_way() -> None:
    stands = build("mains: {what: one outlet, done by: licensed electrician}").replace(
        b"body:",
        b"  inlet: {back: 2 ft, right: 29 in, up: 1 ft}\n  shore: {back: 6 ft, right: 28 in, up: 1 ft}\nbody:",
        1,
    )
    stands = stands.replace(b"parts: {", b"parts: {shore: {kind: shore converter, gives: 5 A}, ", 1)
    stands = stands.replace(
        b"circuits: {", b"circuits: {charging: {from: shore, path: [front box: 9 ft]}, ", 1
    )
    told = told_below(page_of(view_of(stands), "closing"), "right wall")
    assert "A mains cable comes to shore, and nobody recorded its way." in told
    assert LICENSED in told
    led = stands.replace(b"skins:", MAINS.replace("heater", "shore").encode(), 1)
    page = page_of(view_of(led), "closing")
    assert "nobody recorded its way" not in words_of(page)
    assert "Mains lies here: mains cable, from inlet to shore." in told_below(page, "right wall")
    assert "On record is the way of: mains cable. Any other mains cable may lie in any bay" in words_of(page)
