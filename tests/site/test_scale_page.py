"""The trailer to scale, as its page shows it: in both editions, and held against the record."""

from __future__ import annotations

import re
import sys
from itertools import pairwise
from pathlib import Path

import pytest
from browser_driver import Browser
from plan_build import PLAN_BUILD
from published import SMALLEST, Site, published, sheets, text_of

sys.path.insert(0, str(Path(__file__).parents[1] / "drawings"))
sys.path.insert(0, str(Path(__file__).parents[1] / "pages"))
from owner_pages import page_of, view_of
from test_drawings_in_browser import LEAST_PX, faults
from test_plans import crowded

PAGE = "scale.html"
WAYS = "What lies in each way"


def test_each_view_is_on_the_page_in_both_forms(site: Site) -> None:
    article = site.article(PAGE)
    assert [str(figure["id"]) for figure in article.select("figure")] == [
        "plan-signs",
        "plan-above",
        "plan-left",
        "plan-right",
        "plan-rear",
        "plan-front",
        "conduit-sections",
    ]
    for figure in article.select("figure.wd-both"):
        for form in ("narrow", "wide"):
            assert figure.select(f".wd-{form} svg")
    assert len(article.select("#plan-left .wd-narrow svg")) > 1  # a phone shows a side in parts
    assert "facing forward" in text_of(article)


def test_the_letters_tell_which_wires_lie_in_each_way(site: Site, workshop: Site) -> None:
    """Stretch by stretch from the record: each row's wires are those of the stretches it stands for."""
    inside = {
        (chase["name"], stretch["from"], stretch["to"]): stretch["wires"]
        for chase in workshop.record["chases"]
        for stretch in chase["stretches"]
    }
    told = {}
    for _, way, places, wires in sheets(site.article(PAGE))[WAYS][1:]:
        names = places.split(" · ")
        chase = next(one for one, start, _ in inside if way.startswith(one) and start in names)
        for start, end in pairwise(names):
            told[chase, start, end] = set(re.findall(r"\b(?:\d+[A-Z]+|S\d+)\b", wires))
    assert told == {key: set(wires) for key, wires in inside.items()}


def test_what_no_drawing_shows_is_named() -> None:
    """A spare wire whose end is told in words alone; the places of all others are there."""
    unplaced = PLAN_BUILD.replace("from: front box, to: left galley", "from: front box, to: under the bed")
    for text, named in ((PLAN_BUILD, []), (unplaced, ["S1"])):
        page = page_of(view_of(text.encode()), "scale")
        lines = [text_of(one) for one in page.select("p") if "On no drawing" in text_of(one)]
        assert [number for line in lines for number in re.findall(r"\b(?:\d+[A-Z]+|S\d+)\b", line)] == named


def test_a_build_without_places_has_no_such_page(tmp_path: Path) -> None:
    bare = published(SMALLEST.read_bytes(), "owner", tmp_path / "bare")
    assert PAGE not in bare.pages
    assert not bare.article("index.html").select(f'a[href="{PAGE}"]')


def test_start_here_leads_to_the_ways_and_they_to_it(site: Site) -> None:
    assert site.article("index.html").select('a[href="ways.html"]')
    assert site.article("ways.html").select(f'a[href="{PAGE}"]')


@pytest.fixture(scope="module")
def plan_sites(tmp_path_factory: pytest.TempPathFactory) -> list[Site]:
    folder = tmp_path_factory.mktemp("plans")
    return [
        published(text.encode(), "owner", folder / name)
        for name, text in (("plan", PLAN_BUILD), ("crowd", crowded()))
    ]


@pytest.mark.browser
@pytest.mark.parametrize(
    ("width", "medium"), [(390, "screen"), (1100, "screen"), (680, "print"), (1010, "print")]
)
def test_a_browser_finds_no_text_on_another(plan_sites: list[Site], width: int, medium: str) -> None:
    """On a phone, at a desk, and on A4 and A3 without their margins, 96 px an inch."""
    with Browser(width=width, height=900) as browser:
        browser.command("Emulation.setEmulatedMedia", media=medium)
        for site in plan_sites:
            assert faults(browser, site.folder / PAGE, LEAST_PX) == []
