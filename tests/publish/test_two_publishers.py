"""The written manual source gives the same manual under MkDocs and under Zensical, which runs no plugin."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from sample_manual import ROOT

from builder.pages.manual import manual_source_of_file
from builder.publish.source_folder import write_source

pytestmark = pytest.mark.publishers

ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1", "NO_MKDOCS_2_WARNING": "1"}
Pages = Mapping[str, Tag]


def run(publisher: str, folder: Path, *options: str) -> subprocess.CompletedProcess[str]:
    """Run a publisher in a folder that holds mkdocs.yml."""
    return subprocess.run(
        [sys.executable, "-m", publisher, "build", *options],
        cwd=folder,
        env=ENVIRONMENT,
        capture_output=True,
        text=True,
        check=False,
    )


def built(publisher: str, folder: Path) -> Pages:
    done = run(publisher, folder, "--strict")
    assert done.returncode == 0, done.stdout + done.stderr
    site = folder / "site"
    return {
        path.relative_to(site).as_posix(): BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")
        for path in sorted(site.rglob("*.html"))
        if path.name != "404.html"  # for web servers
    }


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> tuple[Pages, Pages]:
    folder = tmp_path_factory.mktemp("two publishers")
    source = manual_source_of_file(ROOT / "example_build" / "trailer.yaml", "workshop")
    write_source(source, folder / "one")
    shutil.copytree(folder / "one", folder / "other")
    return built("mkdocs", folder / "one"), built("zensical", folder / "other")


def article(page: Tag) -> Tag:
    found = page.find("article")
    assert isinstance(found, Tag)
    return found


def words(tag: Tag) -> str:
    return " ".join(tag.get_text().split())


def test_the_pages_have_the_same_addresses(both: tuple[Pages, Pages]) -> None:
    one, other = both
    assert list(one) == list(other)
    assert len(one) > 50


def menu(pages: Pages) -> list[tuple[str, str]]:
    links = pages["index.html"].select(".md-nav--primary .md-nav__link[href]")
    return [(words(link), str(link["href"]).removeprefix("./")) for link in links]


def test_the_menus_lead_to_the_same_pages(both: tuple[Pages, Pages]) -> None:
    one, other = map(menu, both)
    assert one == other
    assert len(one) > len(both[0])


@pytest.mark.parametrize(
    "what", ["h1, h2, h3, h4", "a[href]", "svg", "[data-figure]", "[id]:not(#__skip)", "td, th, dd"]
)
def test_the_pages_say_the_same(both: tuple[Pages, Pages], what: str) -> None:
    count = 0
    for (name, one), other in zip(both[0].items(), both[1].values(), strict=True):
        ours, theirs = (
            [(tag.attrs, words(tag)) for tag in article(page).select(what)] for page in (one, other)
        )
        assert ours == theirs, name
        count += len(ours)
    assert count > 2 * len(both[0])


def test_the_drawings_are_the_same(both: tuple[Pages, Pages]) -> None:
    for (name, one), other in zip(both[0].items(), both[1].values(), strict=True):
        ours, theirs = ([str(svg) for svg in article(page).select("svg")] for page in (one, other))
        assert ours == theirs, name


def test_a_project_whose_pages_come_from_the_plugin_is_not_published_without_it(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "example_build", tmp_path / "example_build")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    done = run("zensical", tmp_path)
    assert done.returncode != 0
    assert "The pages of this manual come from the plugin wiring-manual" in done.stdout + done.stderr
    assert "wiring-manual source" in done.stdout + done.stderr
    assert {page.name for page in tmp_path.rglob("*.html")} <= {"404.html"}
    done = run("mkdocs", tmp_path)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "site" / "circuit-01-step-lights.html").is_file()
