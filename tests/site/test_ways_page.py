"""Where the wires run, as its page tells it: every way, every wire, and where nothing is recorded."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from plan_build import PLAN_BUILD
from published import Site, sheets, text_of

sys.path.insert(0, str(Path(__file__).parents[1] / "pages"))
from owner_pages import page_of, table, told_below, view_of

EXAMPLE = Path(__file__).parents[2] / "example_build" / "trailer.yaml"
PAGE = "ways.html"
WIRE = re.compile(r"\b(?:\d+[A-Z]+|S\d+)\b")
HEADINGS = {
    "left wall": "Left wall",
    "right wall": "Right wall",
    "roof": "Roof and ceiling",
    "front wall": "Front wall",
    "rear wall": "Rear and hatch",
    "floor": "Floor",
    "between": "Inside, between the walls",
    "tongue": "On the tongue",
}


def test_every_way_stands_under_every_wall_that_it_runs_behind(site: Site, workshop: Site) -> None:
    told = sheets(site.article(PAGE))
    for area, heading in HEADINGS.items():
        here = [way for way in workshop.record["ways"] if area in [one["area"] for one in way["areas"]]]
        rows = told.get(heading, [[]])[1:]
        assert [row[0].split()[0] for row in rows] == [way["mark"] for way in here], heading
        for way, row in zip(here, rows, strict=True):
            assert way["chase"] in row[0]
            assert all(name in row[1] for name in way["places"])
            assert set(way["wires"]) <= set(WIRE.findall(row[2]))


def test_a_wall_without_a_way_is_said_to_have_none_recorded() -> None:
    """Without the ways to its lamps the right wall of this build has none; nowhere is a wall called free of wires."""
    text = PLAN_BUILD.replace("right: 28 in", "right: 20 in")
    view = view_of(text.encode())
    areas = {one["area"] for way in view.value("ways") for one in way["areas"]}
    assert "right wall" not in areas
    page = page_of(view, "ways")
    assert told_below(page, "Right wall").startswith("No wire is recorded here.")
    assert not re.search(r"\bsafe|\bfree of", page.get_text(), re.IGNORECASE)


def test_the_letters_of_a_wire_lead_from_its_one_end_to_its_other(site: Site, workshop: Site) -> None:
    """Way by way, each beginning where the one before was left: the letters and places of the page are enough."""
    places = {way["mark"]: way["places"] for way in workshop.record["ways"]}
    runs = {one["number"]: one.get("run") for name in ("wires", "spares") for one in workshop.record[name]}
    rows = sheets(site.article(PAGE))["Find a wire"][1:]
    assert [row[0] for row in rows] == list(runs)
    for number, _, letters in rows:
        run = runs[number]
        if run is None:
            assert letters == "not recorded"
        elif not run.get("steps"):
            assert letters == "–"
        else:
            names = [name for step in run["steps"] for name in (step["from"], step["to"])]
            for mark in letters.split(" · "):
                assert set(places[mark]) & set(names)
            assert names[0] in places[letters.split(" · ")[0]]
            assert names[-1] in places[letters.split(" · ")[-1]]


def test_mains_is_told_of_where_the_file_has_it(site: Site, workshop: Site) -> None:
    words = text_of(site.article(PAGE))
    chases = ("mains cable", "outlet cable")
    marks = [next(way["mark"] for way in workshop.record["ways"] if way["chase"] == name) for name in chases]
    assert f"Its cable is recorded in: {', '.join(marks)}. There may be more of it." in words
    assert "only a licensed person" in words.casefold()


def test_what_runs_behind_a_panel_without_a_way_is_told_in_the_makers_words() -> None:
    said = "behind: [kitchen right wall, outlet cable], also behind: nothing"
    written = EXAMPLE.read_text(encoding="utf-8")
    text = written.replace(said, said.replace("nothing", "the hose of the sink"))
    assert text != written
    words = text_of(page_of(view_of(text.encode()), "ways"))
    assert "Behind right kitchen panel: the hose of the sink." in words


def test_how_to_measure_is_told(site: Site, workshop: Site) -> None:
    words = text_of(site.article(PAGE))
    assert "take off how thick the wall is" in words
    assert "behind a lining that is not named here any wire may lie right at its back" in words
    assert any(chase["kind"] == "hinge loop" for chase in workshop.record["chases"])
    assert "All is told with every hatch and door shut" in words


def test_without_a_lining_on_record_depths_count_from_the_outside_alone() -> None:
    lines = EXAMPLE.read_text(encoding="utf-8").splitlines()
    text = "\n".join(line for line in lines if "lining: {corners:" not in line)
    words = text_of(page_of(view_of(text.encode()), "ways"))
    assert "seen from inside, any may lie right behind it" in words
    assert "not named here" not in words


def test_without_a_hinge_no_hatch_is_spoken_of() -> None:
    text = PLAN_BUILD.replace("kind: hinge loop, slack: 10 in", "kind: channel")
    view = view_of(text.encode())
    assert "door shut" not in text_of(page_of(view, "ways"))


def test_gas_and_water_are_not_drawn_and_the_page_says_so(site: Site) -> None:
    assert "nobody knows where they run" in text_of(site.article(PAGE))


@pytest.mark.parametrize("page", ["index.html", "adding.html"])
def test_owners_pages_lead_to_it(site: Site, page: str) -> None:
    assert site.article(page).select(f'a[href="{PAGE}"]')


def test_a_wire_that_nobody_placed_may_be_anywhere() -> None:
    text = PLAN_BUILD.replace("from: front box, to: left galley", "from: front box, to: under the bed")
    page: BeautifulSoup = page_of(view_of(text.encode()), "ways")
    lines = [
        text_of(one)
        for one in page.find_all("p")
        if isinstance(one, Tag) and "may be anywhere" in text_of(one)
    ]
    assert [WIRE.findall(line) for line in lines] == [["S1"]]
    assert table(page, "Find a wire")[-1][2] == "not recorded"


def test_what_is_kept_clear_is_half_the_bundle_and_the_tape() -> None:
    """By hand: two wires of 16 AWG side by side take half of twice their thickness; the tape counts 10 mm."""
    view = view_of(PLAN_BUILD.encode())
    way = next(one for one in view.value("ways") if one["chase"] == "right wall groove")
    tubes = [one for one in view.figures.tubes if one.stretch.chase == "right wall groove"]
    if way["wires"]:
        assert way["clear_length_m"] == pytest.approx(
            max(one.radius_m or 0.0 for one in tubes) + 0.01, abs=0.0032
        )
    conduit = next(one for one in view.value("ways") if one["chase"] == "tongue conduit")
    assert conduit["clear_length_m"] == pytest.approx(0.9375 * 0.0254, abs=0.0017)


def test_wires_off_their_ways_are_told_with_how_far_to_keep_from_them() -> None:
    """By hand: 18 in of rise at the cabinet door and 10 mm for the tape are 18.39 in, 1 ft 6 1/2 in by the half inch.

    The breaker and the bar at one place are joined by a foot of wire, and the loop at the box is a foot: both reach
    half of it, 6.39 in with the tape: 6 1/2 in by the eighth up.
    """
    page = page_of(view_of(EXAMPLE.read_bytes()), "ways")
    told = {row[0]: row[2] for row in table(page, "Off the ways")}
    assert told["cabinet door battery meter"] == "1 ft 6 1/2 in"
    assert told["kitchen bar cool box breaker"] == "6 1/2 in"
    assert told["front box"] == "6 1/2 in"
    assert "left step switch" not in told, "its wires end where it stands"
    assert page.select('a[href="#loose"]')


def test_a_wire_whose_part_is_not_there_yet_says_so() -> None:
    page = page_of(view_of(EXAMPLE.read_bytes()), "ways")
    rows = {row[0]: row[1] for row in table(page, "Find a wire")}
    late = {number for number, said in rows.items() if "kitchen socket is not there yet: ordered" in said}
    assert late == {"10D", "10G"}, "the spare wire ends there too, and waits for nothing"


def test_a_letter_of_a_wire_leads_to_the_row_of_its_way_and_the_wires_page_to_the_letters() -> None:
    view = view_of(PLAN_BUILD.encode())
    page = page_of(view, "ways")
    links = page.select('a[href^="#way-"]')
    assert {link.get_text() for link in links} == {way["mark"] for way in view.value("ways") if way["wires"]}
    for link in links:
        (row,) = page.select(str(link["href"]))
        assert text_of(row.find(["th", "td"]) or row).split()[0] == link.get_text()  # type: ignore[arg-type]
    assert page_of(view, "wires").select('a[href="ways.html#letters"]')
    assert page.select("#letters")


def test_a_depth_is_told_to_the_middle_and_is_no_length_for_a_screw() -> None:
    """The depth is that of the way's line: its wires and the tape come nearer by all that is to be kept clear."""
    view = view_of(PLAN_BUILD.encode())
    page = page_of(view, "ways")
    assert any("Depth of its middle" in text_of(cell) for cell in page.find_all("th"))  # type: ignore[arg-type]
    assert "It is no length for a screw: wires lie nearer than their middle" in text_of(page)  # type: ignore[arg-type]
    assert "Do not drill or screw into a closed part by this page" in text_of(page)  # type: ignore[arg-type]


LINED = PLAN_BUILD.replace(
    "chases:\n",
    "  ceiling a: {back: 50 in, left: 29 in, up: 45 in}\n  ceiling b: {back: 78 in, left: 29 in, up: 45 in}\n"
    "  ceiling c: {back: 78 in, right: 29 in, up: 45 in}\n  ceiling d: {back: 50 in, right: 29 in, up: 45 in}\n"
    "chases:\n",
    1,
).replace(
    "body:\n",
    "skins:\n  ceiling: {corners: [ceiling a, ceiling b, ceiling c, ceiling d], fasteners go in: 1/2 in,"
    " from: inside}\nbody:\n",
)
LINED = LINED.replace(
    "roof groove: {through: [left bulkhead, roof rib, roof fan], kind: groove}",
    "roof riser: {through: [left bulkhead, roof rib]}\n  roof groove: {through: [roof rib, roof fan]}",
)


def test_behind_an_inner_skin_on_record_its_depth_stands_beneath_that_from_outside() -> None:
    """The fan's groove lies at 47 in, the ceiling at 45 in; the riser to it comes up through the ceiling's plane."""
    view = view_of(LINED.encode())
    page = page_of(view, "ways")
    told = {row[0].split(maxsplit=1)[1]: row[-1] for row in table(page, "Roof and ceiling")}
    assert told["roof groove"].endswith(" 2 in behind ceiling")
    assert told["roof riser"].endswith(" 0 in behind ceiling")
    assert not [
        way
        for way in view.value("ways")
        if "linings" in way and way["chase"] not in ("roof groove", "roof riser")
    ]
    words = text_of(page)  # type: ignore[arg-type]
    assert "that is no length for a screw either" in words
    assert "How far a wire lies behind the lining is not recorded here" not in words
    without = page_of(view_of(PLAN_BUILD.encode()), "ways")
    assert "How far a wire lies behind the lining is not recorded here" in text_of(without)  # type: ignore[arg-type]


def test_without_an_outline_the_depth_behind_an_inner_skin_is_told_alone() -> None:
    bare = (
        LINED.partition("\nbody:\n")[0].replace("  roof: {lies on: roof, fasteners go in: 1/2 in}\n", "")
        + "\n"
    )
    page = page_of(view_of(bare.encode()), "ways")
    told = {row[0].split(maxsplit=1)[1]: row[-1] for row in table(page, "All ways")}
    assert told["roof groove"] == "– 2 in behind ceiling"
    assert told["front run"] == ""
    assert "Depth goes from the face of an inner skin to the middle of the wires" in text_of(page)  # type: ignore[arg-type]


def test_a_comma_stays_on_the_line_of_the_number_before_it(workshop: Site) -> None:
    links = workshop.article(PAGE).select("td a[href^='wires.html#']")
    followed = [link for link in links if str(link.next_sibling or "").startswith(",")]
    assert len(followed) > 50
    assert all(isinstance(link.parent, Tag) and "kept" in link.parent.get("class", []) for link in followed)  # type: ignore[operator]
