"""The page to build in by, and what other pages tell of strings, mains and what still goes into a conduit."""

from __future__ import annotations

import pytest
from owner_pages import below, page_of, table, told_below, view_of, words_of

from builder.drawings.plan_seen import bundles_of
from builder.pages.page_building_in import building_in_page, has_framing
from builder.pages.page_scale import scale_files
from builder.pages.rounding import Reader
from builder.pages.templates import render
from builder.pages.view import Edition, View
from builder.routes.fill import least_bore_mm

BUILD = """format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
tow plug: {pattern: 4-way flat, to front box: 5 ft}
wire: {on the shelf: [16 AWG, 12 AWG]}
mains: {what: inlet and one socket, done by: licensed electrician}
parts: {lamp: {kind: lamp, draws: 3 W}}
circuits:
  light: {path: [lamp]}
road lamps: {rear lamp: {shows: tail, side: both, path: [rear lamp]}}
places:
  front box: {back: 1 ft, up: 1 ft}
  front wall: {back: 0 in, up: 1 ft}
  tow plug: {ahead: 3 ft, up: 0 in}
  corner: {back: 1 ft, left: 28 in, up: 1 ft}
  lamp: {back: 6 ft, left: 28 in, up: 1 ft}
  rear lamp left: {back: 8 ft, left: 28 in, up: 1 ft}
  rear lamp right: {back: 8 ft, right: 28 in, up: 1 ft}
  inlet: {back: 1 ft, right: 29 in, up: 2 ft}
  outlet: {back: 6 ft, right: 29 in, up: 2 ft}
body:
  width: 5 ft
  profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
frames: {studs: {in: left wall, back: [2 ft, 4 ft]}}
chases:
  tongue: {through: [tow plug, front wall, front box], kind: conduit, bore: 1 in, bend radius: 4 in TONGUE}
  left: {through: [front box, corner, lamp, rear lamp left], supports every: 1 ft LEFT}
  right: {through: [front box, rear lamp right] RIGHT}
  cable: {through: [inlet, outlet] CABLE}
"""
SAID = {
    "TONGUE": ", sealed: yes, pull string: yes",
    "LEFT": ", holes: 3/4 in, from the edge: 1/2 in, plate: 1/16 in",
    "RIGHT": "",
    "CABLE": ", carries: mains",
}


def build(**said: str) -> bytes:
    """Return the build with what its chases say, other words in the place of the usual ones."""
    text = BUILD
    for chase, words in (SAID | said).items():
        text = text.replace(f" {chase}", words)
    return text.encode()


def view(**said: str) -> View:
    """Return what the workshop's pages are made of."""
    owner = view_of(build(**said))
    return View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))


def test_holes_stand_with_their_frames_and_with_what_is_left_of_the_wood() -> None:
    page = page_of(view(), "building-in")
    rows = [row[:4] for row in table(page, "Holes through frames and studs")]
    assert rows == [
        [
            "left",
            f"studs {far} from the front, 1 ft up, 2 ft 4 in left of the middle",
            "3/4 in its wires ask for 3/8 in or more",
            "1/2 in steel plates over it",
        ]
        for far in ("2 ft", "4 ft")
    ]
    bare = page_of(view(LEFT=""), "building-in")
    assert [row[2:4] for row in table(bare, "Holes through frames and studs")] == [
        ["3/8 in or more", "measure it"]
    ] * 2


def test_a_hole_without_a_size_gets_the_least_bore_for_its_wires() -> None:
    """Four wires of 16 AWG, 3.0 mm each (GXL data sheet): 3.0 √(4 / 0.40) = 9.49 mm, so 3/8 in (9.53 mm).

    A conduit goes through the front wall with two wires in it: 3.0 √(2 / 0.31) = 7.6 mm, so 3/8 in for them alone.
    """
    assert least_bore_mm([3.0] * 4) == pytest.approx(9.4868, abs=1e-4)
    assert least_bore_mm([3.0] * 2) == pytest.approx(7.6200, abs=1e-4)
    assert least_bore_mm([]) == 0.0
    page = page_of(view(), "building-in")
    (hole,) = table(page, "Holes through skin and sheet metal")
    assert hole[1] == "the body's skin 0 in from the front, 1 ft up, in the middle"
    assert hole[3] == "as wide as the conduit outside its wires alone: 3/8 in or more"
    told = told_below(page, "Holes through frames and studs")
    assert "they fill no more of it than a conduit may be filled (NEC Chapter 9 Table 1)" in told
    open_ = build().decode().replace("kind: conduit, bore: 1 in, bend radius: 4 in", "kind: open bay")
    owner = view_of(open_.replace("front wall, ", "").encode())
    made = View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))
    (hole,) = table(page_of(made, "building-in"), "Holes through skin and sheet metal")
    # from 3 ft ahead at the underside to 1 ft back and 1 ft up: at the front it is three quarters up
    assert hole[0].startswith("front box – tow plug")
    assert hole[1] == "the body's skin 0 in from the front, 9 in up, in the middle"
    assert hole[3] == "3/8 in or more"


def test_a_hole_for_wires_without_a_diameter_has_no_bore() -> None:
    text = (
        build(LEFT="")
        .decode()
        .replace("[16 AWG, 12 AWG]", "[6 AWG]")
        .replace("path: [lamp]", "path: [lamp], size: 6 AWG")
    )
    owner = view_of(text.encode())
    made = View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))
    rows = table(page_of(made, "building-in"), "Holes through frames and studs")
    assert {row[2] for row in rows} == {"as wide as its wires ask for: measure them"}


def test_each_place_of_a_chase_has_its_measures_before_any_opening_is_cut() -> None:
    page = page_of(view(), "building-in")
    rows = {row[0]: row[1:4] for row in table(page, "Where these places are")}
    assert rows["tow plug tongue"] == ["3 ft ahead of the front", "in the middle", "0 in up"]
    assert rows["corner left"] == ["1 ft from the front", "2 ft 4 in left of the middle", "1 ft up"]
    assert rows["inlet cable"] == ["1 ft from the front", "2 ft 5 in right of the middle", "2 ft up"]
    assert rows["front box tongue · left · right"][0] == "1 ft from the front"
    sunk = (
        build().decode().replace("tow plug: {ahead: 3 ft, up: 0 in}", "tow plug: {ahead: 3 ft, down: 6 in}")
    )
    owner = view_of(sunk.encode())
    deep = View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))
    (row,) = [
        row for row in table(page_of(deep, "building-in"), "Where these places are") if "plug" in row[0]
    ]
    assert row[3] == "6 in below the underside"


def test_the_plugs_cable_has_a_hole_a_grommet_and_what_the_file_says_of_it() -> None:
    page = page_of(view(), "building-in")
    ((where, through, _, _, grommet, _),) = table(page, "Holes through skin and sheet metal")
    assert where.startswith("front wall")
    assert through.startswith("the body's skin")
    assert grommet == "needed"
    told = told_below(page, "Where the plug's cable enters the body")
    # the file says it of the hole, and not that the wires of the plug are in
    assert "Done, as is on record." not in told
    assert told.count("On record, but not all wires of the plug are in yet") == 1
    pulled = view_of(build() + b"pulled: {everything: 2 May}\n")
    done = told_below(page_of(pulled, "building-in"), "Where the plug's cable enters the body")
    assert done.count("Done, as is on record.") == 1
    assert "On record, but" not in done
    for word in ("Seal the hole", "strain relief", "drip loop", "common practice"):
        assert word in told
    open_ = page_of(view(TONGUE=", grommets: no"), "building-in")
    assert table(open_, "Holes through skin and sheet metal")[0][4] == "none yet"


def test_a_build_whose_cable_never_enters_a_body_is_told_nothing_of_a_hole() -> None:
    text = build().decode().replace("up: 4 ft}, {back: 0 in, up: 4 ft}]", "up: 4 ft}]")
    without = text[: text.index("body:")] + text[text.index("chases:") :]
    owner = view_of(without.encode())
    page = page_of(
        View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST")),
        "building-in",
    )
    assert "Where the plug's cable enters the body" not in words_of(page)
    assert "Holes through skin and sheet metal" not in words_of(page)


def test_supports_are_counted_for_each_stretch_and_bought() -> None:
    """28 in, 5 ft and 2 ft at a foot each: 3, 5 and 2 spans, so 2, 4 and 1 between, and one at each of four places."""
    made = view()
    rows = {row[0]: row[1:4] for row in table(page_of(made, "building-in"), "Clips and other supports")}
    between = "front box – corner: 2 · corner – lamp: 4 · lamp – rear lamp left: 1"
    assert rows["left"] == ["11", "1 ft as written", between]
    total = sum(int(row[0]) for row in rows.values())
    straps = made.lists.shopping.section("supports")
    assert {item.kind for item in straps} == {"flat strap"}
    assert sum(item.used for item in straps) == sum(item.buy for item in straps) == total
    (grommets,) = (item for item in made.lists.shopping.items if item.kind == "hole grommet")
    assert (grommets.used, grommets.names) == (1, ("front wall",))


def test_turns_have_a_least_radius_that_is_rounded_up() -> None:
    """16 AWG is 3.0 mm thick (GXL data sheet): 30 mm are 1.18 in, so 1 1/4 in and not 1 1/8 in."""
    rows = {row[0].split()[0]: row[1:] for row in table(page_of(view(), "building-in"), "Where wires turn")}
    assert rows["corner"] == ["90 °", "4", "1 1/4 in"]
    assert [row[2] for row in table(page_of(view(), "building-in"), "Bends of conduits")] == ["4 in"]


def test_a_conduit_says_where_it_turns_and_whether_its_radius_has_a_place() -> None:
    bent = table(page_of(view(), "building-in"), "Bends of conduits")[0]
    assert bent[1:3] == ["18 °", "4 in"]
    led = (
        build(TONGUE=", sealed: yes")
        .decode()
        .replace("  lamp: {back: 6 ft, left: 28 in", "  lamp: {back: 0 in, left: 0 in")
    )
    owner = view_of(led.encode())
    page = page_of(
        View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "T")), "building-in"
    )
    (row,) = table(page, "Bends of conduits")
    assert row[1:3] == ["18 ° all of it where it is open", "4 in no piece of it bends"]


def test_what_mains_lies_in_is_left_to_the_licensed_person() -> None:
    rows = {row[0].split()[0]: row[2] for row in table(page_of(view(), "building-in"), "Chases to build in")}
    assert rows["cable"] == "for the licensed person to say, who lays it"
    both = view(LEFT=", carries: both")
    rows = {row[0].split()[0]: row[2] for row in table(page_of(both, "building-in"), "Chases to build in")}
    assert rows["left"].endswith("room for its mains cable comes on top")


def test_strings_stand_where_wires_run_on_the_drawing_and_where_something_is_added() -> None:
    made = view()
    assert "A string lies in: tongue." in told_below(page_of(made, "building-in"), "Pull strings")
    assert "there is one" in told_below(page_of(made, "runs"), "tongue")
    ways = {row[1].split()[0]: row[3] for row in table(page_of(made, "scale"), "What lies in each way")}
    assert "a pull string" in ways["tongue"]
    assert "a pull string" not in ways["left"]
    assert {bundle.chase for bundle in bundles_of(made.trailer, made.figures) if bundle.string} == {"tongue"}
    drawn = [svg for path, svg in scale_files(made).items() if "plan-above" in path]
    assert any("string" in svg for svg in drawn)
    added = told_below(page_of(made, "adding"), "What is free")
    assert "tongue, from tow plug to front box." in added
    none = view(TONGUE="")
    assert "No pull string is on record." in told_below(page_of(none, "building-in"), "Pull strings")
    assert "string" not in "".join(svg for path, svg in scale_files(none).items() if "plan" in path)
    assert "A string lies ready" not in told_below(page_of(none, "adding"), "What is free")


def test_mains_is_kept_apart_and_what_is_not_known_is_told_as_such() -> None:
    heading = "Keep apart from mains"
    alone = page_of(view(), "building-in")
    assert "cable carries mains alone" in told_below(alone, heading)
    assert "Wires beside mains" not in words_of(alone)
    unknown = told_below(page_of(view(CABLE=""), "building-in"), heading)
    assert "Nobody wrote down where the mains cable runs" in unknown
    assert "1/2 in" in unknown
    shared = page_of(view(CABLE="", RIGHT=", carries: both"), "building-in")
    assert [row[3] for row in table(shared, "Wires beside mains")] == [
        "in one chase; no divider is on record"
    ]
    divided = page_of(view(CABLE="", RIGHT=", carries: both, divided: yes"), "building-in")
    assert [row[3] for row in table(divided, "Wires beside mains")] == ["in one chase, divided"]


def test_the_drawing_and_its_list_tell_of_mains() -> None:
    made = view()
    ways = {row[1].split()[0]: row[3] for row in table(page_of(made, "scale"), "What lies in each way")}
    assert ways["cable"].startswith("mains")
    assert "only a licensed person works on it" in ways["cable"]
    assert any("mains" in svg for path, svg in scale_files(made).items() if "plan-right" in path)


def test_gas_has_no_figure_here() -> None:
    told = told_below(page_of(view(), "building-in"), "Gas")
    assert "licensed gas fitter" in told
    assert not any(sign.isdigit() for sign in told)


def test_heat_is_told_where_the_file_has_it() -> None:
    page = page_of(view(LEFT=", near heat: flue of the heater"), "building-in")
    assert "left runs near: flue of the heater." in told_below(page, "Keep away from heat")
    assert "Keep away from heat" not in words_of(page_of(view(), "building-in"))


def test_what_still_goes_in_is_told_of_each_size() -> None:
    made = view()
    row = table(page_of(made, "runs"), "Wires in tongue")[0]
    (first, *_) = made.figures.fills
    for size, more in first.room:
        assert f"{more} of {size}" in row[-1]
    assert "Room for more:" in words_of(page_of(made, "scale"))


def test_where_a_conduits_fill_is_told_the_jacket_of_the_plugs_cable_is_named() -> None:
    said = "The jacket of the tow plug's cable is not counted"
    made = page_of(view(), "runs")
    assert said in told_below(made, "tongue")
    assert said not in told_below(made, "left")
    apart = (
        build()
        .decode()
        .replace(
            "tongue: {through: [tow plug, front wall, front box], kind: conduit, bore: 1 in, bend radius: 4 in",
            "tongue: {through: [tow plug, front wall, front box], kind: open bay",
        )
    )
    owner = view_of(apart.replace("right: {through", "right: {kind: conduit, bore: 1 in, through").encode())
    other = View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))
    assert said not in words_of(page_of(other, "runs"))


def test_a_file_without_chases_has_no_such_page_and_one_with_a_bare_chase_has() -> None:
    text = build().decode()
    none = view_of(
        text[: text.index("chases:")]
        .replace("path: [lamp]", "path: [lamp: 9 ft]")
        .replace("path: [rear lamp]}", "wire: 12 ft}")
        .encode()
    )
    assert not has_framing(none)
    bare = view(TONGUE="", LEFT="", CABLE="")
    assert render("pages/building_in.md.jinja", bare.language, building_in_page(bare))
    assert below(page_of(bare, "building-in"), "Gas")


def closed(*bays: str, date: str = ", date: 4 May") -> View:
    """Return the build with a lamp's groove and a block in the left wall, some bays of which are closed."""
    listed = ", ".join(f"{name}: {{photo: {name.replace(' ', '-')}.jpg{date}}}" for name in bays)
    text = build().decode() + f"closed bays: {{{listed}}}\n" + "pulled: {light: yes}\n"
    text += "backing blocks: {hook: {in: left wall, back: 3 ft, up: 3 ft, width: 6 in, height: 3 in}}\n"
    owner = view_of(text.encode())
    return View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))


def test_what_lies_wholly_in_closed_bays_is_told_with_their_date_and_not_as_work() -> None:
    """The first stud stands between two bays, the block in the second alone, and the way runs on into the third."""
    page = page_of(closed("left wall bay 1", "left wall bay 2"), "building-in")
    first, second = table(page, "Holes through frames and studs")
    assert (first[-1], second[-1]) == ("closed 4 May", "")
    assert table(page, "Backing blocks")[0][-1] == "closed 4 May"
    marked = {row[0]: row[-1] for row in table(page, "Where these places are")}
    assert (marked["corner left"], marked["lamp left"]) == ("closed 4 May", "")
    chases = {row[0].split()[0]: row[-1] for row in table(page, "Chases to build in")}
    assert set(chases.values()) == {""}
    one = page_of(closed("left wall bay 2"), "building-in")
    assert [row[-1] for row in table(one, "Holes through frames and studs")] == ["", ""]
    assert table(one, "Backing blocks")[0][-1] == "closed 4 May"
    without = page_of(closed("left wall bay 2", date=""), "building-in")
    assert table(without, "Backing blocks")[0][-1] == "closed"


def test_a_grommet_that_nobody_wrote_down_is_no_work_in_a_closed_wall() -> None:
    hole = table(page_of(closed("front wall"), "building-in"), "Holes through skin and sheet metal")[0]
    assert hole[-2:] == ["not on record look at its photo: front-wall.jpg", "closed 4 May"]
    opened = table(page_of(closed("rear wall"), "building-in"), "Holes through skin and sheet metal")[0]
    assert opened[-2:] == ["needed", ""]


def test_a_chase_from_end_to_end_in_closed_bays_is_closed_with_its_supports() -> None:
    every = page_of(closed(*(f"left wall bay {n}" for n in (1, 2, 3)), "right wall"), "building-in")
    chases = {row[0].split()[0]: row[-1] for row in table(every, "Chases to build in")}
    assert chases == {"tongue": "", "left": "", "right": "", "cable": "closed 4 May"}
    assert all(row[-1] == "" for row in table(every, "Clips and other supports"))


def test_near_its_top_it_says_where_its_measures_begin() -> None:
    told = told_below(page_of(view(), "building-in"), "Where the measures begin")
    for words in (
        "with its skin on",
        "take off how thick it will be",
        "plumb line",
        "half the width",
        "outer face",
    ):
        assert words in told
    assert "not from the floor's upper face" in told


def test_the_holes_of_the_batterys_box_are_told_with_the_side_their_wires_come_from() -> None:
    """Two wires of 16 AWG, 3.0 mm each: 3.0 √(2 / 0.31) = 7.6 mm, so 3/8 in. The front box is behind the battery."""
    text = (
        build()
        .decode()
        .replace("to front box: 2 ft}", "to front box: 2 ft, box: yes, size: 16 AWG}")
        .replace("  lamp: {back: 6 ft", "  battery: {ahead: 2 ft, up: 1 ft}\n  lamp: {back: 6 ft")
        .replace("[tow plug, front wall, front box]", "[tow plug, battery, front wall, front box]")
        .replace("parts: {", "parts: {main fuse: {kind: fuse, place: battery}, ")
    )
    made = view_of(text.encode())
    page = page_of(made, "building-in")
    assert "Bore a hole into a box in the side that its wires come from" in words_of(
        page_of(made, "shopping")
    )
    rows = {row[0]: row[1:4] for row in table(page, "Holes into boxes")}
    wires, side, hole = rows["battery box for: battery line"]
    assert len(wires.split(", ")) == 2
    assert (side, hole) == ("behind", "3/8 in or more")
    assert any(row.startswith("front box for: ") for row in rows)
    assert "clear of the lid" in told_below(page, "Holes into boxes")
