"""Fuses and the front box: what must be bridged, what goes dead without a fuse, what lands outside the box."""

from __future__ import annotations

from bs4 import BeautifulSoup, Tag
from published import SMALLEST, Site, sheets, source_of, text_of

OUTSIDE = "Fuses that are not in the box"


def listed(site: Site) -> list[str]:
    return [text_of(item) for item in site.article("fuses.html").select("ul li")]


def test_strip_positions_of_one_function_are_told_to_be_bridged(site: Site) -> None:
    """From the table itself: each strip position with a wire of the plug's cable begins a group."""
    plug = {text_of(cell) for cell in site.article("wires.html").select("td")}
    assert plug
    strip = [row for row in sheets(site.article("fuses.html"))["Front box"] if row[0].startswith("strip ")]
    groups: list[list[str]] = []
    for place, _, ends in strip:
        if "tow plug" in ends:
            groups.append([])
        groups[-1].append(place.removeprefix("strip "))
    wanted = [f"strip {group[0]} to {group[-1]}" for group in groups if len(group) > 1]
    assert wanted
    assert [item.split(" (")[0] for item in listed(site) if item.startswith("strip ")] == wanted


def test_fuses_outside_the_box_tell_what_goes_dead(site: Site) -> None:
    head, *rows = sheets(site.article("fuses.html"))[OUTSIDE]
    dead = {row[0].removesuffix("minus off").strip(): row[head.index("Goes dead without it")] for row in rows}
    assert dead["gas alarm fuse"] == "gas alarm"
    assert dead["main fuse"] == "all that the front box feeds, unless shore charging feeds it; gas alarm"
    assert dead["battery fuse"] == "charge line: it stops charging"
    assert dead["cool box breaker"] == "cool box socket"


def test_a_spare_wire_that_ends_in_the_box_is_told_there(site: Site) -> None:
    assert [item for item in listed(site) if item.startswith("S1")] == ["S1, its other end: kitchen socket"]


def test_the_workshop_sees_every_terminal_outside_the_box(workshop: Site, owner: Site) -> None:
    tables = sheets(workshop.article("fuses.html"))
    for name in ("battery", "pump relay", "dc charger", "hatch plug", "right step switch"):
        landed = {wire for row in tables[name][1:] for wire in row[1].split(", ")}
        known = {
            w["number"] for w in workshop.record["wires"] if name in (w["from"]["part"], w["to"]["part"])
        }
        assert landed == known, name
    assert {"battery", "pump relay"}.isdisjoint(sheets(owner.article("fuses.html")))
    assert "hatch plug" in sheets(owner.article("fuses.html"))


def test_a_charger_is_found_with_the_fuses_on_both_its_sides(owner: Site) -> None:
    (row,) = (r for r in sheets(owner.article("find.html"))["Parts in alphabet"] if r[0] == "dc charger")
    assert "car-side fuse" in row[1]
    assert "battery fuse" in row[1]


def test_the_face_of_the_box_shows_every_landing_and_fuse(site: Site) -> None:
    pieces = site.article("fuses.html").select("#front-box-face svg")
    shown = [text_of(text) for svg in pieces for text in svg.find_all("text")]
    landed = [row[1] for row in sheets(site.article("fuses.html"))["Front box"][1:]]
    wires = [wire for cell in landed for wire in cell.split(", ")]
    assert [text for text in shown if text in set(wires)] == wires
    fuses = sorted(
        (fuse for fuse in site.record["fuses"] if "way" in fuse), key=lambda fuse: int(fuse["way"])
    )
    assert [text for text in shown if text.endswith(" A")] == [f"{fuse['rating_a']:g} A" for fuse in fuses]
    links = [site.circuit_pages[str(link["href"])]["number"] for svg in pieces for link in svg.find_all("a")]
    assert links == [fuse["circuit"] for fuse in fuses]


# what the file of the example says: on the battery's line, from its post or its main fuse, or on to its post
AT_THE_BATTERY = {"main fuse", "gas alarm fuse", "meter fuse", "battery fuse", "solar fuse"}


def test_one_rule_tells_where_the_minus_post_is_bared_first(site: Site) -> None:
    """The page of all fuses and every step that looks at a fuse say the same."""
    rows = sheets(site.article("fuses.html"))[OUTSIDE][1:]
    names = {row[0].removesuffix("minus off").strip(): row[0].endswith("minus off") for row in rows}
    assert {name for name, off in names.items() if off} == AT_THE_BATTERY
    seen = set()
    for page in (page for page in site.pages if page.startswith("stops-")):
        for block in site.article(page).select(".guide-step"):
            text = text_of(block)
            for name, off in names.items():
                if f"Pull this fuse and look at it: {name}." in text:
                    seen.add(name)
                    assert ("All wires come off the battery's minus post too" in text) == off, (page, name)
    assert seen >= {"main fuse", "gas alarm fuse", "car-side fuse", "solar fuse"}


def test_the_box_to_scale_shows_every_fuse_at_its_way(site: Site) -> None:
    """In both forms, as the table of ways has them; the wide one has room for the circuits' names."""
    figure = site.article("fuses.html").select_one("#front-box-scaled")
    assert figure is not None
    assert "the maker's own tape measure" in figure.get_text()
    ratings = [f"{fuse['rating_a']:g} A" for fuse in site.record["fuses"] if "way" in fuse]
    names = [row[2] for row in sheets(site.article("fuses.html"))["Fuse ways"][1:]]
    for form in ("narrow", "wide"):
        texts = [text_of(text) for text in figure.select(f".wd-{form} svg text")]
        assert sorted(text for text in texts if text.endswith(" A")) == sorted(ratings)
        assert {str(way) for way in range(1, len(names) + 1)} <= set(texts)
        assert set(names) <= set(texts) or form == "narrow"


FACE = """
front box face:
  inside: {width: 12 in, height: 12 in}
  fuse block: {width: 4 in, height: 6 in}
"""


def face_figure(more: str, edition: str) -> tuple[Tag | None, list[str]]:
    """Return the figure of the box to scale, and the lines that the foot of the page asks for."""
    page = BeautifulSoup(
        str(source_of(SMALLEST.read_bytes() + more.encode(), edition).files["fuses.md"]), "html.parser"
    )
    return page.select_one("#front-box-scaled"), [code.get_text() for code in page.select(".more-lines code")]


def test_what_is_not_to_scale_is_told_and_which_line_makes_it_so() -> None:
    figure, asked = face_figure(FACE, "workshop")
    assert figure is not None
    assert "Dashed where nobody wrote its place in the box, only its size: fuse block." in text_of(figure)
    assert "Left out where nobody wrote its size: supply bar, strip, ground bar." in text_of(figure)
    assert "front box face: {…, supply bar: {width: 4 in, height: 1/2 in} }" in asked
    assert "fuse block: {…, from left: 1 in, from top: 3 in}" in asked
    owner, none = face_figure(FACE, "owner")
    assert owner is not None
    assert none == []


def test_a_box_that_nobody_measured_is_told_to_be_not_to_scale() -> None:
    figure, asked = face_figure("", "workshop")
    assert figure is None
    assert "front box face: {inside: {width: 12 in, height: 14 in} }" in asked
    page = BeautifulSoup(str(source_of(SMALLEST.read_bytes(), "owner").files["fuses.md"]), "html.parser")
    landings = page.select_one("#front-box-face figcaption")
    assert landings is not None
    assert "Not to scale" in text_of(landings)
