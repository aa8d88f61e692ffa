"""Every level of build gets a manual that reads well: road lamps only, one lamp, metric, and the smallest."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache

import pytest
from published import EDITIONS, SMALLEST, Site, figures_on, published, sheets, text_of
from site_figures import expected
from worked_lines import last_digits_apart

ROAD_ONLY = b"""\
format: 1
build: {name: Gravel Kite, number: 2, country: US}
tow plug: {pattern: 4-way flat, to front box: 6 ft}
wire: {on the shelf: [16 AWG, 14 AWG], sold as: pair, feed: red, return: white}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft}
  plate lamp: {shows: plate, wire: 15 ft}
"""

ONE_LAMP = b"""\
format: 1
build: {name: Moss Lantern, country: US}
battery: {chemistry: lithium, capacity: 20 Ah, to main fuse: 4 in, to front box: 2 ft}
front box: {fuse ways: 1, fuses: blade}
wire: {on the shelf: [16 AWG, 12 AWG, 8 AWG], sold as: pair, feed: red, return: black}
parts:
  lamp: {kind: lamp, draws: 4 W, own switch: yes}
circuits:
  light: {path: [lamp: 6 ft]}
"""

METRIC = b"""\
format: 1
build: {name: Fen Plover, number: 9, country: GB}
battery: {chemistry: agm, capacity: 80 Ah, to main fuse: 15 cm, to front box: 1.4 m}
front box: {fuse ways: 6, fuses: blade regular, where: "inside, under the bed"}
tow plug: {pattern: 13-pin, to front box: 2.2 m}
wire: {on the shelf: [1 mm2, 1.5 mm2, 2.5 mm2, 4 mm2, 6 mm2], sold as: pair, feed: red, return: black}
parts:
  ceiling switch: {kind: switch}
  ceiling lamp: {kind: lamp, draws: 6 W}
  water pump: {kind: pump, draws: 4 A, own switch: yes}
circuits:
  ceiling light: {path: [ceiling switch: 2.5 m, ceiling lamp: 1.2 m]}
  pump: {path: [water pump: 4 m]}
road lamps:
  lamps: filament
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 4.5 m}
  fog lamp: {shows: fog, side: right, wire: 4.5 m}
"""

TWELVE_N = b"""\
format: 1
build: {name: Chalk Wagtail, country: GB}
tow plug: {pattern: 7-pin 12N, to front box: 2 m}
wire: {on the shelf: [1.5 mm2, 2.5 mm2], sold as: pair, feed: red, return: black}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 4 m}
  fog lamp: {shows: fog, side: right, wire: 4 m}
"""

NO_ROAD_LAMPS = b"""\
format: 1
build: {name: Bare Wren, country: other}
battery: {chemistry: flooded, capacity: 60 Ah, to main fuse: 10 cm, to front box: 1 m}
front box: {fuse ways: 2, fuses: blade}
wire: {on the shelf: [1.5 mm2, 4 mm2], sold as: pair, feed: red, return: black}
parts:
  horn: {kind: appliance, draws: 3 A}
circuits:
  horn: {path: [horn: 1 m]}
"""

LEVELS = {
    "road lamps only": ROAD_ONLY,
    "a battery and one lamp": ONE_LAMP,
    "metric with thirteen pins": METRIC,
    "twelve volts by 12N": TWELVE_N,
    "no road lamps": NO_ROAD_LAMPS,
    "the smallest build": SMALLEST.read_bytes(),
}
LEFT_OVER = re.compile(r"\bNone\b|\bnan\b|\binf\b|\bUndefined\b|\{\{|\}\}|\{%|%\(|\[\]|\(\)|<bound|Markup\(")
ROUGH = re.compile(
    r"−\s?[–-]|–\s?–|(?<!\.)\.\.(?!\.)|,\s*[,.]|\s[.,;](?:\s|$)|:\s*\.|\.\s*:|\bof \.|\bfrom \."
)


@pytest.fixture(scope="module")
def at_level(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str, str], Site]:
    """Return what publishes a level in an edition, each once."""
    folder = tmp_path_factory.mktemp("levels")
    return cache(lambda name, edition: published(LEVELS[name], edition, folder / f"{name} {edition}"))


@pytest.fixture(
    params=[(level, edition) for level in LEVELS for edition in EDITIONS], ids="-".join, scope="module"
)
def level(request: pytest.FixtureRequest, at_level: Callable[[str, str], Site]) -> Site:
    return at_level(*request.param)


def pieces(site: Site, page: str) -> list[str]:
    """Return the texts of a page, one for each paragraph, item and cell that is not to be filled in by hand."""
    tags = site.article(page).select("p, li, dt, dd, th, td, h1, h2, h3, caption, summary")
    return [text_of(tag) for tag in tags if text_of(tag) or not tag.select(".blank")]


def test_nothing_of_a_template_is_left_over(level: Site) -> None:
    for page in level.pages:
        if level.kind(page) == "check":
            continue  # it prints braces and more of build files that are told
        text = text_of(level.article(page))
        assert LEFT_OVER.findall(text) == [], page


def test_sentences_have_no_rough_edge(level: Site) -> None:
    for page in level.pages:
        rough = [text for text in pieces(level, page) if ROUGH.search(text)]
        assert rough == [], page


def test_no_table_list_or_cell_is_empty(level: Site) -> None:
    for page in level.pages:
        assert all(pieces(level, page)), page
        assert all(len(rows) > 1 for rows in sheets(level.article(page)).values()), page
        assert all(made.find(["li", "dt"]) for made in level.article(page).find_all(["ul", "ol", "dl"])), page


def test_no_heading_stands_over_nothing(level: Site) -> None:
    for page in level.pages:
        for heading in level.article(page).find_all(["h2", "h3"]):
            after = heading.find_next_sibling()
            assert after is not None, (page, text_of(heading))
            assert after.name not in ("h1", "h2"), (page, text_of(heading))


def test_every_link_leads_somewhere(level: Site) -> None:
    for page in level.pages:
        for link in level.article(page).find_all("a", href=True):
            target, _, anchor = str(link["href"]).partition("#")
            assert not target or target in level.pages or (level.folder / target).is_file(), (page, target)
            assert not anchor or level.pages[target or page].find(id=anchor) is not None, (page, anchor)


def test_figures_are_those_of_the_record(level: Site) -> None:
    for page in level.pages:
        found = {str(tag["data-figure"]): text_of(tag) for tag in figures_on(level.article(page))}
        assert found == dict(expected(level, page)), page


def all_text(site: Site) -> str:
    return " ".join(text_of(site.article(page)) for page in site.pages)


def test_a_trailer_without_a_battery_is_told_nothing_of_one(at_level: Callable[[str, str], Site]) -> None:
    site = at_level("road lamps only", "owner")
    start = text_of(site.article("index.html"))
    assert "Its road lamps run from the car" in start
    assert "isolating switch" not in start.lower()
    assert "main fuse" not in start.lower()
    assert "Battery and a day of camping" not in text_of(site.article("worked.html"))
    assert "no fuses of its own" in text_of(site.article("fuses.html"))


def test_one_lamp_has_one_circuit_and_one_fuse(at_level: Callable[[str, str], Site]) -> None:
    site = at_level("a battery and one lamp", "owner")
    start = text_of(site.article("index.html"))
    assert "One fuse in the front box" in start
    assert "tow plug" not in all_text(site)


def test_a_metric_build_prints_no_feet_and_no_gauge(at_level: Callable[[str, str], Site]) -> None:
    site = at_level("metric with thirteen pins", "owner")
    for page in site.pages:
        text = text_of(site.article(page))
        printed = (
            re.sub(r"\(?[A-Z][A-Za-z ]*\b(?:AWG|Table)\b[^.;]*", "", text) if page == "assumed.html" else text
        )
        assert not re.search(r"\d (?:ft|in)\b", printed), page
        assert not re.search(r"\d AWG\b", printed), page
    assert re.search(r"\d mm²", text_of(site.article("wires.html")))
    assert "letter" not in (site.folder / "assets" / "print.css").read_text(encoding="utf-8")


def test_the_metric_formula_can_be_retyped(at_level: Callable[[str, str], Site]) -> None:
    site = at_level("metric with thirteen pins", "owner")
    lines = [text_of(line) for line in site.article("worked.html").select("p.formula-numbers")]
    formulas = [line for line in lines if line.endswith("mm²")]
    assert formulas
    assert [line for line in lines if " = " in line and last_digits_apart(line)] == []
