"""Every build that is valid by construction has a manual: its source in both editions, and now and then its site."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from bs4 import BeautifulSoup
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, Phase, given, seed, settings

from builder.drawings.engine import Laid
from builder.pages.manual import content_number, manual_source
from builder.pages.source import ManualSource, NavEntry
from builder.pages.verdict import judge_build
from builder.publish.site import publish_site

THOROUGH = settings.get_current_profile_name() == "ci"
LOOKED_AT, SOURCES, SITES = (24, 120, 6) if THOROUGH else (8, 32, 3)
"""Builds whose pages are read in both editions, those with a source in the workshop's, those with a whole site."""
SHARES = 5
QUIET = list(HealthCheck)
WITHOUT_SEARCHING = (Phase.explicit, Phase.generate)
"""Pages take long to make: no search for the smallest build that fails."""

LEFTOVER = re.compile(r"\b(?:None|Undefined|nan|inf)\b|\{\{|\{%|<built-in|<bound method| object at 0x")
"""What a template or a format leaves in a page when a value was missing."""
CHECK = "check.md"
"""The same in every manual, and full of build files that are told: other tests read it."""
HEADS = ("th", "dt", "caption", "summary")


def manual_of(build: GeneratedBuild, edition: str) -> ManualSource:
    verdict = judge_build(build.data, "trailer.yaml")
    assert verdict.problems == ()
    assert verdict.judged is not None
    return manual_source(verdict.judged, content_number(build.data), edition)


HEADING = re.compile(r"^(#+) *(.*)$", re.MULTILINE)
"""A heading in Markdown; all else on our pages is HTML already, so that no Markdown has to be turned."""


def faults(text: str, own: str) -> Iterator[str]:
    """Yield what is wrong with the Markdown of one page; ``own`` is the build file, whose words may stand in it."""
    body = text.removeprefix("---\n").partition("\n---\n")[2]
    page, headings = BeautifulSoup(body, "html.parser"), HEADING.findall(body)
    yield from (f"left over: {word}" for word in LEFTOVER.findall(page.get_text(" ")) if word not in own)
    if sum(len(signs) == 1 for signs, _ in headings) != 1:
        yield "not one title"
    yield from (f"empty h{len(signs)}" for signs, words in headings if not words.strip())
    yield from (f"empty {head.name}" for head in page.find_all(HEADS) if not head.get_text(strip=True))
    for table in page.find_all("table"):
        name = table.get_text(" ", strip=True)[:60]
        heads, *rows = [len(row.find_all(["td", "th"])) for row in table.find_all("tr")] or [0]
        if not rows:
            yield f"a table without a row: {name}"
        if set(rows) - {heads}:
            yield f"a row unlike its head: {name}"


def menu(entries: tuple[NavEntry, ...]) -> Iterator[NavEntry]:
    for entry in entries:
        if entry.children:
            yield from menu(entry.children)
        else:
            yield entry


@pytest.mark.parametrize("share", range(SHARES))
def test_every_generated_build_has_a_source_in_both_editions(
    share: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In shares with a seed each, so that they run side by side; drawings are tried elsewhere."""
    monkeypatch.setattr(
        "builder.drawings.circuit_drawing.engine", lambda: lambda _sources: Laid((), "missing")
    )
    seed(share)(_has_a_source_in_both_editions if share == 0 else _has_a_source)()


MANY = settings(
    max_examples=SOURCES // (SHARES - 1),
    deadline=None,
    database=None,
    suppress_health_check=QUIET,
    phases=WITHOUT_SEARCHING,
)
TAG = re.compile(r"<[^>]*>")


@MANY
@given(build=builds())
def _has_a_source(build: GeneratedBuild) -> None:
    """The workshop's edition holds the owner's pages too; nothing is left over in it."""
    source = manual_of(build, "workshop")
    pages = {path: str(text) for path, text in source.files.items() if path.endswith(".md")}
    assert {entry.path for entry in menu(source.nav)} == set(pages)
    for path, text in pages.items():
        if path == CHECK:
            continue
        left = [word for word in LEFTOVER.findall(TAG.sub(" ", text)) if word not in build.text]
        assert left == [], path


@settings(MANY, max_examples=LOOKED_AT)
@given(build=builds())
def _has_a_source_in_both_editions(build: GeneratedBuild) -> None:
    workshop, owner = (manual_of(build, edition) for edition in ("workshop", "owner"))
    checked: set[str] = set()  # a page that is the same in both editions is looked at once
    for source in (workshop, owner):
        pages = {path: str(text) for path, text in source.files.items() if path.endswith(".md")}
        assert {entry.path for entry in menu(source.nav)} == set(pages)
        assert all(entry.title.strip() for entry in menu(source.nav))
        new = {path: text.replace("workshop manual", "owner's manual") for path, text in pages.items()}
        new = {path: text for path, text in new.items() if text not in checked and path != CHECK}
        wrong = {path: found for path, text in new.items() if (found := list(faults(text, build.text)))}
        checked |= set(new.values())
        assert wrong == {}, source.edition
    assert set(workshop.files) > set(owner.files)


@given(build=builds())
@settings(
    max_examples=SITES,
    deadline=None,
    derandomize=True,
    suppress_health_check=QUIET,
    phases=WITHOUT_SEARCHING,
)
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
        ("# A\n\n## ", "empty h2"),
        ("no title", "not one title"),
        ("# A\n\n<table><tr><th>x</th></tr></table>", "a table without a row: x"),
        (
            "# A\n\n<table><tr><th>x</th></tr><tr><td>1</td><td>2</td></tr></table>",
            "a row unlike its head: x 1 2",
        ),
    ],
)
def test_a_faulty_page_is_seen(body: str, told: str) -> None:
    assert list(faults(f"---\nhide: [toc]\n---\n{body}", "")) == [told]
