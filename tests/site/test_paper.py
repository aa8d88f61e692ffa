"""What a page says on A4, printed with scripts off: every figure, every column, and the foot of each sheet."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import pytest
from browser_driver import Browser
from bs4 import BeautifulSoup, Tag
from published import Site

pytestmark = [pytest.mark.browser, pytest.mark.paper]

NOT_ON_PAPER = "svg title, svg desc, .page-head-find, .more-lines, .downloads"
"""Links of the screen, notes for the maker, and what a drawing says to who hears it."""
FOOT = r"sheet\s*(\d+)\s*of\s*(\d+)\s*content\s*{content}\s*Plum\s*Ladder,\s*trailer\s*no\.\s*7"
UNITS = "mm²|mm|cm|m|ft|in|AWG|kWh|Wh|Ah|A|V|W|Ω|%|°C|°F|kg|lb|days?|nights?|hours?|h|minutes?|min|seconds?|s"
FIGURE = rf"(?<![\w.,/])(\d+(?:[.,]\d+)*(?:{{part}}\d/\d+)?|\d/\d+){{blank}}({UNITS})(?![\w²])"
IN_ONE_LINE = re.compile(FIGURE.format(part=" ", blank=r"[ \N{NO-BREAK SPACE}]*"))
OVER_LINES = re.compile(FIGURE.format(part=" ", blank=r"\s*"))
OVER_CELLS = re.compile(FIGURE.format(part=r"\s+", blank=r"\s*"))
"""A count in one cell and a part of an inch in the next stand in one line of the paper's text."""
INLINE = frozenset(("a", "b", "i", "span", "code", "text", "tspan", "g", "em", "strong", "sub", "sup"))


@dataclass(frozen=True)
class Printed:
    """One edition on paper: the text of each page, its content number."""

    site: Site
    content: str
    texts: Mapping[str, str]


def text_of_pdf(pdf: bytes) -> str:
    """The text in the order in which it is drawn, which is that of the page."""
    made = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True, check=True)
    return made.stdout.decode("utf-8")


@pytest.fixture(scope="module", params=["workshop", "owner"])
def printed(request: pytest.FixtureRequest, sites: Mapping[str, Site]) -> Printed:
    site = sites[request.param]
    content = site.article("index.html").select_one(".page-head .code")
    assert content is not None
    texts = {}
    with Browser(scripts=False) as browser:
        for page in site.pages:
            browser.open(site.folder / page)
            texts[page] = text_of_pdf(browser.pdf())
    return Printed(site, content.get_text(), texts)


def lines_of(article: Tag) -> str:
    """The text of a page as its reader sees it, a line for each block."""
    page = BeautifulSoup(str(article), "html.parser")
    for one in page.select(NOT_ON_PAPER):
        one.decompose()
    for steps in page.select("ol.steps"):
        for number, step in enumerate(steps.find_all("li", recursive=False), 1):
            step.insert(0, f"{number} ")
    for one in page.find_all(True):
        if one.name not in INLINE:
            one.insert_before("\n")
            one.insert_after("\n")
    for text in page.find_all(string=re.compile(r"\S\n\S| \n|\n ")):
        text.replace_with(" ".join(text.split("\n")))
    return page.get_text()


def figures(text: str, pattern: re.Pattern[str]) -> set[str]:
    return {f"{' '.join(value.split())} {unit}" for value, unit in pattern.findall(text)}


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def test_paper_and_screen_show_the_same_figures(printed: Printed) -> None:
    """What stands in one line here may stand over two lines, or in two cells of a row, there."""
    foot = FOOT.format(content=printed.content)
    count, wrong = 0, {}
    for page, text in printed.texts.items():
        screen, paper = lines_of(printed.site.article(page)), re.sub(foot, "\n|\n", text)
        wanted = figures(screen, IN_ONE_LINE)
        lost = wanted - figures(paper, OVER_LINES)
        added = figures(paper, IN_ONE_LINE) - figures(screen, OVER_LINES) - figures(screen, OVER_CELLS)
        count += len(wanted)
        if lost or added:
            wrong[page] = (lost, added)
    assert wrong == {}
    assert count > 10 * len(printed.texts)


def test_paper_shows_every_computed_figure(printed: Printed) -> None:
    for page, text in printed.texts.items():
        paper = squeezed(text)
        wanted = {squeezed(one.get_text()) for one in printed.site.article(page).select("[data-figure]")}
        assert {figure for figure in wanted if figure not in paper} == set(), page


def test_folded_parts_are_printed(printed: Printed) -> None:
    parts = [
        (page, squeezed(part.get_text()))
        for page in printed.site.pages
        for part in printed.site.article(page).select("details:not([open]) :is(p, dt, td, th, li)")
        if not part.select("svg, p, dt, td, li")
    ]
    assert len({page for page, _ in parts}) > 10
    assert [one for one in parts if one[1] not in squeezed(printed.texts[one[0]])] == []


def wanted_columns(article: Tag) -> Iterator[str]:
    """Yield the words of every column's head and of the last column's cells."""
    for table in article.select("table"):
        rows = [row.find_all(["th", "td"]) for row in table.find_all("tr")]
        yield from (squeezed(cell.get_text()) for cell in rows[0])
        yield from (squeezed(row[-1].get_text()) for row in rows[1:])


def test_paper_keeps_every_column(printed: Printed) -> None:
    for page, text in printed.texts.items():
        wanted = set(wanted_columns(printed.site.article(page)))
        assert {words for words in wanted if words not in squeezed(text)} == set(), page


def test_every_sheet_says_of_which_page_it_is(printed: Printed) -> None:
    for page, text in printed.texts.items():
        title, paper = printed.site.article(page).select_one("h1"), squeezed(text)
        count = len(re.findall(FOOT.format(content=printed.content), text))
        assert title is not None
        named = squeezed(title.get_text().removesuffix("¶"))
        assert all(f"{named}sheet{n}of{count}" in paper for n in range(1, count + 1)), page


def test_every_sheet_names_the_trailer_its_number_and_the_file(printed: Printed) -> None:
    for page, text in printed.texts.items():
        feet = re.findall(FOOT.format(content=printed.content), text)
        assert feet, page
        assert [(int(at), int(of)) for at, of in feet] == [(n, len(feet)) for n in range(1, len(feet) + 1)], (
            page
        )
