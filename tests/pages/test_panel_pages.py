"""What is behind a panel, as its reader sees it: a screw length only where all is recorded, and never a promise."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from owner_pages import page_of, table, view_of, words_of

from builder.pages.page_fasteners import fasteners_page
from builder.pages.page_panel import panel_files, panel_page, panel_pages
from builder.pages.record_covers import at_least_m, keep_clear_m
from builder.pages.rounding import Reader, length
from builder.pages.templates import render
from builder.pages.view import Edition, View
from builder.quantities import read_length

EXAMPLE = Path(__file__).parents[2] / "example_build" / "trailer.yaml"
LINED = """format: 1
build: {name: Example, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
wire: {on the shelf: [16 AWG, 14 AWG]}
places:
  battery: {back: 0 in, up: 2 ft}
  main fuse: {back: 3 in, up: 2 ft}
  front box: {back: 10 in, up: 2 ft}
  corner: {back: 10 in, left: 2 ft 5 in, up: 2 ft}
  lamp: {back: 6 ft, left: 2 ft 5 in, up: 2 ft}
  low front: {back: 2 ft, left: 2 ft 3 in, up: 1 ft}
  low rear: {back: 5 ft, left: 2 ft 3 in, up: 1 ft}
  high rear: {back: 5 ft, left: 2 ft 3 in, up: 3 ft}
  high front: {back: 2 ft, left: 2 ft 3 in, up: 3 ft}
  out low front: {back: 0 in, left: 2 ft 7 in, up: 0 in}
  out low rear: {back: 8 ft, left: 2 ft 7 in, up: 0 in}
  out high: {back: 4 ft, left: 2 ft 7 in, up: 4 ft}
chases:
  battery line: {through: [battery, main fuse, front box]}
  cross: {through: [front box, corner]}
  groove: {through: [corner, lamp]}
skins:
  left wall: {corners: [out low front, out low rear, out high], fasteners go in: 1 in}
  right wall: {fasteners go in: 1 in}
panels:
  lining: {corners: [low front, low rear, high rear, high front], behind: [groove], also behind: nothing}
parts: {lamp: {kind: lamp, draws: 3 W}}
circuits:
  lamp: {path: [lamp: 8 ft]}
"""
SPARE_WAY = LINED.replace("[groove]", "[groove, spare way]").replace(
    "  groove:", "  spare way: {through: [low front, high rear]}\n  groove:"
)
PROMISES = re.compile(r"\b(safe|safely|compliant|certified|guaranteed)\b", re.IGNORECASE)


def told(metres: float, units: str) -> float:
    """Return a length as a reader takes it from the page."""
    found = read_length(length(metres, units), zero_ok=True)
    assert isinstance(found, float)
    return found


def page(text: str) -> tuple[View, BeautifulSoup]:
    view = view_of(text.encode())
    ((path, one),) = panel_pages(view).items()
    return view, BeautifulSoup(
        render("pages/panel.md.jinja", "en", panel_page(view, path, one)), "html.parser"
    )


def test_a_panel_that_is_wholly_recorded_has_its_longest_screw() -> None:
    """Two inches less 3 mm of bundle and 10 mm of tape are 37.8 mm: 1 1/4 in by the quarter of an inch.

    To each side 13 mm are kept clear, a hair more than half an inch: 5/8 in.
    """
    _, found = page(LINED)
    assert "Longest screw 1 1/4 in" in words_of(found.find("dl"))
    (row,) = table(found, "Wires behind this panel")
    assert row[0].startswith("D groove")
    assert "1 ft from the upper edge" in row[1] or "1 ft from the lower edge" in row[1]
    assert row[2:] == ["5/8 in", "2 in", "1 1/4 in"]
    assert "Depth goes from the face to the middle of the wires" in words_of(found)
    assert "It is no length for a screw" in words_of(found)


@pytest.mark.parametrize("units", ["feet", "metric"])
def test_what_is_kept_clear_is_never_printed_narrower_and_no_depth_deeper(units: str) -> None:
    """Read back by the reader of lengths, which knows nothing of how they are printed."""
    for tenth in range(1, 12_000, 7):
        metres = tenth / 10_000
        wide, deep = keep_clear_m(metres, units), at_least_m(metres, units)
        assert told(wide, units) >= metres - 1e-6
        assert told(deep, units) <= metres + 1e-6
        assert wide - deep <= 0.0128


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (", behind: [groove]", "", "does not say that all that runs behind it is recorded"),
        ("[groove]", "nothing", "does not name it there: groove"),
        ("also behind: nothing", "also behind: gas pipe to the stove", "gas pipe to the stove"),
        ("[corner, lamp]}", "[corner, low front]}", "Nobody can tell where these wires run: 1A, 1B"),
        ("parts: {", "parts: {pump: {kind: pump, draws: 4 A}, ", "has no wires for: pump"),
        ("lamp: 8 ft", "lamp: 13 ft", "so they may run another one: 1A, 1B"),
        ("lamp: {back: 6 ft", "lamp: {back: 4 ft", "how much room they take is not recorded: lamp"),
        (
            "[corner, lamp]}",
            "[corner, lamp], kind: open bay}",
            "wires may hang away from the line drawn here: groove",
        ),
        ("behind: [groove]", "behind: [groove, spare way]", "one may lie there later: spare way"),
    ],
)
def test_a_panel_that_is_not_wholly_recorded_has_none(old: str, new: str, says: str) -> None:
    assert old in LINED
    _, found = page(SPARE_WAY if "spare way" in new else LINED.replace(old, new, 1))
    words = words_of(found)
    assert "Do not drill or screw into this panel." in words
    assert "Clamp, hook or glue it on instead." in words
    assert says in words
    assert "Longest screw" not in words
    assert "screw of that length" not in words


def test_of_many_wires_an_owner_is_told_the_count_and_the_workshop_has_the_list() -> None:
    more = "".join(f", fan {one}: {{kind: fan, draws: 1 A}}" for one in "abc")
    paths = "".join(f"  fan {one}: {{path: [fan {one}: 6 ft]}}\n" for one in "abc")
    text = LINED.replace("draws: 3 W}}", "draws: 3 W}" + more + "}") + paths
    view, found = page(text)
    words = words_of(found)
    assert "Nobody can tell where 6 wires run. The workshop edition lists them." in words
    assert "2A" not in words
    workshop = replace(view, edition=Edition(Reader.WORKSHOP, "2222-2222"))
    ((path, one),) = panel_pages(workshop).items()
    html = render("pages/panel.md.jinja", "en", panel_page(workshop, path, one))
    listed = words_of(BeautifulSoup(html, "html.parser"))
    assert "Nobody can tell where these wires run: 2A, 2B, 3A, 3B, 4A, 4B." in listed


def test_where_nothing_is_recorded_it_says_just_that() -> None:
    text = LINED.replace("left: 2 ft 5 in", "left: 10 in").replace("[groove]", "nothing")
    _, found = page(text)
    words = words_of(found)
    assert "No wire is recorded here." in words
    assert "Longest screw" not in words


def test_the_page_says_from_which_side_the_panel_is_seen() -> None:
    outside = LINED.replace("also behind: nothing", "also behind: nothing, from: outside")
    for text, side in ((LINED, "inside"), (outside, "outside")):
        words = words_of(page(text)[1])
        assert f"What is recorded behind this panel, seen from {side}." in words
    before = LINED.replace("left: 2 ft 5 in", "left: 2 ft 1 in").replace("[groove]", "nothing")
    words = words_of(page(before)[1])
    assert "does not say from which side the panel is seen: groove." in words
    assert "Do not drill or screw into this panel." in words


@pytest.mark.parametrize("text", [LINED, LINED.replace("[groove]", "nothing")])
def test_no_panel_promises_anything(text: str) -> None:
    _, found = page(text)
    assert not PROMISES.search(words_of(found))


def test_every_figure_of_the_page_stands_in_the_record() -> None:
    view, found = page(LINED)
    marked = found.select("[data-figure]")
    assert len(marked) > 8
    assert {words_of(one) for one in marked} == {
        words_of(BeautifulSoup(view.fig(str(one["data-figure"]), "m"), "html.parser")) for one in marked
    }


def test_the_picture_has_a_band_for_each_stretch_and_the_names_of_its_edges() -> None:
    view, _ = page(LINED)
    (svg,) = panel_files(view).values()
    drawn = BeautifulSoup(svg, "html.parser")
    assert len(drawn.select("g[clip-path] rect")) == 1
    assert {text.get_text() for text in drawn.find_all("text")} >= {
        "upper edge", "lower edge", "front edge", "rear edge",
    }  # fmt: skip


def test_each_band_has_the_letter_of_its_row_and_a_length_to_measure_by() -> None:
    """Bands of one chase are told apart by their letters; the bar is as long as it says at the scale of the picture."""
    view = view_of(EXAMPLE.read_bytes())
    pictures = list(panel_files(view).values())
    shown = [one for one in view.figures.panels if len(one.faces) == 1]
    assert len(pictures) == len(shown) > 2
    ways = {way["mark"]: way for way in view.value("ways")}
    for svg, one in zip(pictures, shown, strict=True):
        drawn = BeautifulSoup(svg, "html.parser")
        lines = view.value(f"panels/{one.panel.name}")["behind"]
        marks = [text.get_text() for text in drawn.select("text.wd-nr")]
        assert [mark for mark in marks if not mark.isdigit()] == [line["mark"] for line in lines]
        for line in lines:
            assert ways[line["mark"]]["chase"] == line["chase"]
            assert {line["from"], line["to"]} <= set(ways[line["mark"]]["places"])
        (bar,) = drawn.select("[data-metres]")
        corners = [float(pair.split(",")[0]) for pair in str(drawn.polygon["points"]).split()]
        backs = [view.trailer.geometry.places[name].back_m for name in one.panel.corners]
        wide_m = max(backs) - min(backs)
        px = (max(corners) - min(corners)) / wide_m
        begins, ends = re.findall(r"[ML]([\d.]+) ", str(bar["d"]))
        assert float(ends) - float(begins) == pytest.approx(float(str(bar["data-metres"])) * px, abs=0.2)


def test_parts_behind_a_panel_are_listed_by_its_edges_with_the_numbers_of_the_picture() -> None:
    """A joint in the middle of the panel's length, a foot under its upper edge; the lamp behind it stays off the list.

    A fuse at the same place shares its number; each leads to its row of Find it.
    """
    text = LINED.replace("parts: {", "parts: {joint: {kind: splice}, lamp fuse: {kind: fuse, place: joint}, ")
    text = text.replace(
        "  lamp: {back: 6 ft", "  joint: {back: 3 ft 6 in, left: 2 ft 5 in, up: 2 ft}\n  lamp: {back: 6 ft"
    )
    text = text.replace("[corner, lamp]", "[corner, joint, lamp]")
    view, found = page(text.replace("[lamp: 8 ft]", "[joint, lamp fuse: 4 in, lamp]"))
    rows = table(found, "Parts behind it or in it")
    where = "1 ft from the lower edge, 1 ft 6 in from the rear edge"
    assert rows == [
        ["5 joint joint of wires", where, "2 in"],
        ["5 lamp fuse fuse in its own holder", where, "2 in"],
    ]
    links = [link["href"] for link in found.select("th a[href^='find.html']")]
    assert links == ["find.html#part-joint", "find.html#part-lamp-fuse"]
    assert "behind it or in it, and how much room they take is not recorded: joint, lamp fuse." in words_of(
        found
    )
    ((_, svg),) = panel_files(view).items()
    drawn = BeautifulSoup(svg, "html.parser")
    assert [text.get_text() for text in drawn.select("text.wd-nr")].count("5") == 1


def test_the_end_of_a_spare_wire_behind_a_panel_is_told_by_its_number() -> None:
    text = LINED.replace(
        "  lamp: {back: 6 ft", "  joint: {back: 3 ft 6 in, left: 2 ft 5 in, up: 2 ft}\n  lamp: {back: 6 ft"
    )
    text = text.replace("[corner, lamp]", "[corner, joint, lamp]")
    _, found = page(text + "spares: {later: {from: front box, to: joint, size: 16 AWG}}\n")
    assert "Spare wires end behind it, and how their ends lie is not recorded: S1." in words_of(found)
    assert "Do not drill or screw into this panel." in words_of(found)
    assert "Parts behind it" not in words_of(found)


def test_the_workshop_lists_what_is_left_and_what_is_not_known() -> None:
    """Two inches less 1 in of fastener and 3 mm of bundle: 22.4 mm, 7/8 in."""
    view = view_of(LINED.encode())
    found = BeautifulSoup(render("pages/fasteners.md.jinja", "en", fasteners_page(view)), "html.parser")
    rows = table(found, "Wires behind left wall")
    assert {row[0]: row[-1] for row in rows}["groove corner to lamp"] == "7/8 in"
    assert "Its corners are not on record" in words_of(found)


def test_a_skin_without_any_place_has_its_page_too() -> None:
    text = (
        "format: 1\nbuild: {name: Alder, country: US}\nfront box: {fuse ways: 2}\n"
        "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}\n"
        "skins: {roof: {fasteners go in: 1 in}}\n"
    )
    page = page_of(view_of(text.encode()), "fasteners")
    assert "Measures may be off by 3/8 in" in words_of(page).replace("All measures", "Measures")


def test_what_is_open_and_what_the_maker_rules_out_are_one_list_that_does_not_contradict_itself() -> None:
    part = LINED.replace("lamp: {back: 6 ft", "lamp: {back: 4 ft")
    found = page(part)[1]
    (caution,) = found.select(".caution")
    assert "How the wires behind it lie is not wholly recorded." in words_of(caution)
    assert "gas" not in words_of(caution)
    (open_, rest) = [words_of(item) for item in found.select("ul.plain li")]
    assert open_.endswith("how much room they take is not recorded: lamp.")
    assert rest.startswith("Besides these, says the maker, nothing runs behind it")
    assert found.get_text().count("What is not recorded") == 1
    unsaid = page(part.replace(", also behind: nothing", ""))[1]
    assert "a mains cable or a gas pipe it can kill" in words_of(unsaid)
    assert "says the maker" not in words_of(unsaid)
    whole = page(LINED)[1]
    assert "The maker writes that nothing else runs behind it" in words_of(whole)
    assert whole.get_text().count("What is not recorded") == 1


def test_a_panel_leads_to_the_one_list_of_wires_off_their_ways() -> None:
    view = view_of(EXAMPLE.read_bytes())
    (path,) = (path for path, one in panel_pages(view).items() if one.panel.name == "left kitchen panel")
    html = render("pages/panel.md.jinja", "en", panel_page(view, path, panel_pages(view)[path]))
    assert BeautifulSoup(html, "html.parser").select('li a[href="ways.html#loose"]')


HELD = LINED.replace("also behind: nothing", "also behind: nothing, held by: 6 screws")
OWN = "Put each back into its own hole. Before a new or longer one goes in, take the panel off and measure there."


def test_the_screws_that_hold_a_panel_are_told_of_whatever_is_known_behind_it() -> None:
    _, whole = page(HELD)
    assert "That goes for what holds the panel, too: 6 screws." in whole.get_text()
    assert OWN not in whole.get_text()
    _, open_ = page(HELD.replace("also behind: nothing", "also behind: a water pipe"))
    assert "This panel is held by: 6 screws. No length is told for them" in open_.get_text()
    assert OWN in open_.get_text()
    near = HELD.replace("left: 2 ft 3 in", "left: 2 ft 4 3/4 in")
    _, none_short = page(near)
    assert "No length is told for all of them: the wires lie too near." in none_short.get_text()
    assert OWN in none_short.get_text()


def test_where_mains_runs_behind_a_panel_the_shore_lead_is_pulled_before_it_comes_off() -> None:
    said = "Pull the shore lead out before you take the panel off"
    mains = HELD.replace("  cross:", "  cable: {through: [low front, high rear], carries: mains}\n  cross:")
    _, behind = page(mains.replace("behind: [groove]", "behind: [groove, cable]"))
    assert said in behind.get_text()
    _, without = page(HELD.replace("also behind: nothing", "also behind: a water pipe"))
    assert said not in without.get_text()
