"""Every build that is valid by construction has a manual: its source in both editions, and now and then its site."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import markdown
import pytest
from bs4 import BeautifulSoup, Tag
from hypothesis import HealthCheck, given, settings

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tests"))
from generated_builds import GeneratedBuild, builds

from builder.pages.manual import content_number, manual_source
from builder.pages.source import ManualSource, NavEntry
from builder.pages.verdict import judge_build
from builder.publish.site import publish_site

THOROUGH = settings.get_current_profile_name() == "ci"
SOURCES, SITES = (500, 30) if THOROUGH else (40, 3)
QUIET = list(HealthCheck)

LEFTOVER = re.compile(r"\b(None|Undefined|nan|inf)\b|\{\{|\{%|<built-in|<bound method| object at 0x")
"""What a template or a format leaves in a page when a value was missing."""
HEADS = ("h1", "h2", "h3", "h4", "th", "dt", "caption", "summary")


def manual_of(build: GeneratedBuild, edition: str) -> ManualSource:
    verdict = judge_build(build.data, "trailer.yaml")
    assert verdict.problems == ()
    assert verdict.judged is not None
    return manual_source(verdict.judged, content_number(build.data), edition)


def parsed(text: str) -> BeautifulSoup:
    body = text.removeprefix("---\n").partition("\n---\n")[2]
    html = markdown.markdown(body, extensions=["tables", "attr_list", "md_in_html", "toc"])
    return BeautifulSoup(html, "html.parser")


def own_words(build: GeneratedBuild) -> str:
    """Everything the build file says, in which a leftover may stand because its writer put it there."""
    return build.text


def faults(text: str, own: str) -> Iterator[str]:
    """Yield what is wrong with the Markdown of one page."""
    page = parsed(text)
    found = LEFTOVER.search(page.get_text(" "))
    if found and found.group() not in own:
        yield f"left over: {found.group()}"
    if [head.get_text(strip=True) for head in page.find_all("h1")].count("") or len(page.find_all("h1")) != 1:
        yield "not one title"
    for head in page.find_all(HEADS):
        if not head.get_text(strip=True):
            yield f"empty {head.name}: {head}"
    for holder in page.select(".table-holder, table"):
        assert isinstance(holder, Tag)
        if not holder.find_all("td"):
            yield f"a table with no cell: {holder.get_text(' ', strip=True)[:60]}"
    for row in page.select("tbody tr"):
        heads = row.find_parent("table").select("thead th")
        if len(row.find_all(["td", "th"], recursive=False)) != len(heads):
            yield f"a row unlike its head: {row.get_text(' ', strip=True)[:60]}"


def menu(entries: tuple[NavEntry, ...]) -> Iterator[NavEntry]:
    for entry in entries:
        if entry.children:
            yield from menu(entry.children)
        else:
            yield entry


@given(build=builds())
@settings(max_examples=SOURCES, deadline=None, derandomize=True, suppress_health_check=QUIET)
def test_every_generated_build_has_a_source_in_both_editions(build: GeneratedBuild) -> None:
    workshop, owner = (manual_of(build, edition) for edition in ("workshop", "owner"))
    for source in (workshop, owner):
        pages = {path: str(text) for path, text in source.files.items() if path.endswith(".md")}
        assert {entry.path for entry in menu(source.nav)} == set(pages)
        assert all(entry.title.strip() for entry in menu(source.nav))
        wrong = {path: found for path, text in pages.items() if (found := list(faults(text, build.text)))}
        assert wrong == {}, source.edition
    assert set(workshop.files) > set(owner.files)


@given(build=builds())
@settings(max_examples=SITES, deadline=None, derandomize=True, suppress_health_check=QUIET)
def test_a_generated_build_publishes_its_whole_site(build: GeneratedBuild) -> None:
    for edition in ("workshop", "owner"):
        source = manual_of(build, edition)
        with TemporaryDirectory() as folder:
            site = Path(folder, "manual")
            publish_site(source, site)
            made = {str(path.relative_to(site)) for path in site.rglob("*.html")}
            assert {path.replace(".md", ".html") for path in source.files if path.endswith(".md")} == made
            for name in sorted(made):
                page = BeautifulSoup((site / name).read_text(encoding="utf-8"), "html.parser")
                assert page.select_one("article h1") is not None, name
                assert page.select("img[data-picture]") == [], name


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ("# A\n\nNone here", "left over: None"),
        ("# A\n\n## ", "empty h2: <h2></h2>"),
        ("no title", "not one title"),
        ('# A\n\n<table><thead><tr><th scope="col">x</th></tr></thead><tbody></tbody></table>', "a table with no cell: x"),
        ("# A\n\n<table><thead><tr><th>x</th></tr></thead><tbody><tr><td>1</td><td>2</td></tr></tbody></table>", "a row unlike its head: 1 2"),
    ],
)  # fmt: skip
def test_a_faulty_page_is_seen(body: str, told: str) -> None:
    assert told in [fault.partition(' id="')[0] for fault in faults(f"---\nhide: [toc]\n---\n{body}", "")]
