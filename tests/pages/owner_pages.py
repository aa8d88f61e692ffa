"""Single pages of a build as parsed HTML, without the drawings and the rest of the manual."""

from __future__ import annotations

import re

from bs4 import BeautifulSoup, Tag
from example_numbers import numbers_of

from builder.pages.manual import PAGES
from builder.pages.rounding import Reader
from builder.pages.templates import render
from builder.pages.verdict import answer_text, judge_build
from builder.pages.view import Edition, View


def view_of(data: bytes) -> View:
    """Return a build as the owner's pages see it."""
    verdict = judge_build(data, "trailer.yaml", numbers_of(data))
    assert verdict.judged is not None, answer_text(verdict)
    judged = verdict.judged
    return View(judged.trailer, judged.figures, judged.findings, Edition(Reader.OWNER, "2222-2222"))


def page_of(view: View, name: str) -> BeautifulSoup:
    """Return the body of a page; its headings, which are Markdown lines, as ``h2`` and ``h3``."""
    (page,) = (one for one in PAGES if one.path == name)
    text = render(f"pages/{page.template}.md.jinja", "en", page.data(view))
    text = re.sub(
        r"^(##+) (.*)$",
        lambda found: f"<h{len(found[1])}>{found[2]}</h{len(found[1])}>",
        text,
        flags=re.MULTILINE,
    )
    return BeautifulSoup(text, "html.parser")


def words_of(tag: Tag) -> str:
    """Return what a reader sees, with single blanks."""
    return re.sub(r" (?=[.,:;])", "", " ".join(tag.get_text(" ").split()))


def below(page: BeautifulSoup, heading: str) -> list[Tag]:
    """Return what stands under a heading, up to the next one of its rank."""
    (start,) = (tag for tag in page.find_all(["h2", "h3"]) if words_of(tag) == heading)
    ranks = {"h2": ["h2"], "h3": ["h2", "h3"]}[start.name]
    found = []
    for tag in start.find_next_siblings():
        if tag.name in ranks:
            break
        found.append(tag)
    return found


def told_below(page: BeautifulSoup, heading: str) -> str:
    return " ".join(words_of(tag) for tag in below(page, heading))


def table(page: BeautifulSoup, caption: str) -> list[list[str]]:
    """Return the rows of a table, its head left out; none where there is no such table."""
    for one in page.find_all("table"):
        name = one.find("caption")
        if isinstance(name, Tag) and words_of(name) == caption:
            return [[words_of(cell) for cell in row.find_all(["th", "td"])] for row in one.select("tbody tr")]
    return []
