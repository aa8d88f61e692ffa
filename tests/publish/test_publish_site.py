"""The published folder: the same bytes each time, nothing foreign in it, hostile names shown as text."""

from __future__ import annotations

import builtins
import errno
import html
import json
import os
import random
import re
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from mkdocs.config.config_options import Dir
from sample_manual import ROOT, SAMPLE_NAV, SHIM, names_in, sample_files, sample_manual, site_files

from builder.pages.source import ManualSource, NavEntry
from builder.publish.errors import PublishError
from builder.publish.exchange import MARKER
from builder.publish.site import publish_site

HOSTILE = (
    "</title></script><script>alert(1)</script> \"'&lt;b&gt; & {{ config }} | *x* emoji 🔥 "
    "<img src=x onerror=y>"
)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("published") / "manual"
    publish_site(sample_manual(), folder)
    return folder


def soup(page: Path) -> BeautifulSoup:
    return BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")


def test_every_page_and_file_is_there(site: Path) -> None:
    names = set(site_files(site))
    for path in sample_files():
        assert re.sub(r"\.md$", ".html", path) in names
    assert MARKER in names
    assert (site / "data/photo.bin").read_bytes() == bytes(range(256))
    assert (site / "data/cut-list.csv").read_bytes() == b"wire,length\r\n4A,4.4 m\r\n"


def test_pictures_stand_in_the_pages(site: Path) -> None:
    page = (site / "circuits/fan.html").read_text(encoding="utf-8")
    assert "*3* _A_</text>" in page
    assert "data-picture" not in page
    assert "data-search-exclude" not in page


def test_the_search_knows_the_words_but_not_the_pictures(site: Path) -> None:
    index = (site / "search/search_index.json").read_text(encoding="utf-8")
    assert "quagmire" in index
    assert "zebrafinch" not in index
    assert (site / "search/search_index.js").read_text(encoding="utf-8") == f"var __index = {index}"


def test_the_same_source_gives_the_same_bytes(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1600000000")
    publish_site(sample_manual(), tmp_path / "another/place")
    assert site_files(tmp_path / "another/place") == site_files(site)
    assert os.environ["SOURCE_DATE_EPOCH"] == "1600000000"


def test_the_environment_is_left_as_it_was(tmp_path: Path) -> None:
    before = dict(os.environ)
    publish_site(sample_manual(), tmp_path / "manual")
    assert dict(os.environ) == before


def test_no_path_of_this_machine_is_in_it(site: Path) -> None:
    for name, content in site_files(site).items():
        assert str(site.parent).encode() not in content, name
        assert str(ROOT).encode() not in content, name


def test_no_page_refers_to_another_server(site: Path) -> None:
    for page in site.rglob("*.html"):
        for tag in soup(page).find_all(["script", "link", "img", "a", "iframe"]):
            address = str(tag.get("src") or tag.get("href") or "")
            assert not re.match(r"[a-z]+:|//|/", address) or address in ("data:,", "javascript:void(0)"), (
                address
            )


def test_every_link_and_file_a_page_names_is_there(site: Path) -> None:
    for page in site.rglob("*.html"):
        for tag in soup(page).find_all(["script", "link", "img", "a"]):
            address = str(tag.get("src") or tag.get("href") or "")
            if address and not address.startswith(("data:", "javascript:")):
                assert (page.parent / address.partition("#")[0]).resolve().is_file() or address[0] == "#", (
                    address
                )


def test_progress_is_told(tmp_path: Path) -> None:
    told: list[str] = []
    publish_site(sample_manual(), tmp_path / "manual", told.append)
    assert told[:4] == [f"reading page {n} of 4" for n in range(1, 5)]
    assert told[4:8] == [f"page {n} of 4" for n in range(1, 5)]
    assert told[-1] == "done"


def everything_hostile() -> ManualSource:
    shown = html.escape(HOSTILE).replace("{", "&#123;").replace("|", "&#124;").replace("*", "&#42;")
    files = {path: content for path, content in sample_files().items() if not path.endswith(".md")}
    files |= {path: f"# {shown}\n\nText.\n" for path in sample_files() if path.endswith(".md")}
    files["outside-the-menu.md"] = f"# {shown}\n\nText.\n"
    nav = tuple(
        NavEntry(HOSTILE, entry.path, tuple(NavEntry(HOSTILE, child.path) for child in entry.children))
        for entry in SAMPLE_NAV
    )
    return sample_manual(HOSTILE, files, nav)


def shapes(page: BeautifulSoup) -> set[tuple[str, tuple[str, ...]]]:
    return {(tag.name, tuple(sorted(tag.attrs))) for tag in page.find_all(True)}


def test_hostile_names_come_out_as_text(site: Path, tmp_path: Path) -> None:
    publish_site(everything_hostile(), tmp_path / "manual")
    spaced = " ".join(HOSTILE.split())
    for path in ("index.html", "fuses.html", "circuits/fan.html", "outside-the-menu.html"):
        page = soup(tmp_path / "manual" / path)
        harmless = soup(site / path) if (site / path).exists() else soup(site / "fuses.html")
        assert shapes(page) <= shapes(harmless), path
        assert page.title is not None
        assert page.title.get_text() == f"{HOSTILE} - {HOSTILE}"
        heads = [" ".join(topic.get_text().split()) for topic in page.select(".md-header__topic")]
        assert heads == [spaced, spaced]
        menu = {" ".join(link.get_text().split()) for link in page.select(".md-nav__item > a")}
        assert menu == {spaced}
        assert page.h1 is not None
        assert page.h1.get_text() == HOSTILE
        assert page.select_one("a.md-logo")["aria-label"] == HOSTILE  # type: ignore[index]
    index = json.loads((tmp_path / "manual/search/search_index.json").read_text(encoding="utf-8"))
    titles = {html.unescape(entry["title"]) for entry in index["docs"]}
    assert titles == {HOSTILE}
    assert not any("<" in entry["title"] for entry in index["docs"])


@pytest.mark.parametrize(
    ("page", "words"),
    [
        ("[away](nowhere.md)", "nowhere.md"),
        ("[away](fuses.md#no-such-place)", "no-such-place"),
        ('<div><img data-picture="pictures/none.svg" alt=""></div>', "pictures/none.svg"),
    ],
)
def test_pages_that_do_not_fit_together_are_not_published(
    page: str, words: str, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    publish_site(sample_manual(), tmp_path / "manual")
    before = site_files(tmp_path)
    files = {**sample_files(), "index.md": f"# Start here\n\n{page}\n"}
    with pytest.raises(PublishError, match=re.escape(words)):
        publish_site(sample_manual(files=files), tmp_path / "manual")
    assert site_files(tmp_path) == before
    assert caplog.records == []


def test_a_page_of_the_menu_that_is_missing_is_named(tmp_path: Path) -> None:
    nav = (*SAMPLE_NAV, NavEntry("Gone", "gone.md"))
    with pytest.raises(PublishError, match=r"gone\.md"):
        publish_site(sample_manual(nav=nav), tmp_path / "manual")
    assert names_in(tmp_path) == []


@pytest.mark.parametrize("number", [1, 5, 12])
def test_a_full_disk_leaves_the_last_good_site(
    number: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    publish_site(sample_manual(), tmp_path / "manual")
    before = site_files(tmp_path)
    writes = iter(range(1, 10_000))
    real = builtins.open

    def full(file: Any, mode: str = "r", *rest: Any, **named: Any) -> Any:
        if "w" in mode and next(writes) >= number:
            raise OSError(errno.ENOSPC, "no room")
        return real(file, mode, *rest, **named)

    with monkeypatch.context() as patch:
        patch.setattr(builtins, "open", full)
        with pytest.raises(PublishError, match="no room left"):
            publish_site(sample_manual(title="Another"), tmp_path / "manual")
    assert site_files(tmp_path) == before


def test_a_folder_that_cannot_be_looked_at_is_told_in_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    publish_site(sample_manual(), tmp_path / "manual")
    before = site_files(tmp_path)
    monkeypatch.setattr(Dir, "existence_test", staticmethod(lambda path: Path(path).name != "docs"))
    with pytest.raises(PublishError, match="nothing was published") as told:
        publish_site(sample_manual(title="Another"), tmp_path / "manual")
    assert "\n" not in str(told.value)
    assert site_files(tmp_path) == before


def test_a_publisher_that_leaves_something_out_in_silence_is_told_of(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the publisher may not look at the words for the search, it goes on without them."""
    publish_site(sample_manual(), tmp_path / "manual")
    before = site_files(tmp_path)
    real = os.path.isfile
    monkeypatch.setattr(os.path, "isfile", lambda path: Path(path).name != "search_index.json" and real(path))
    with pytest.raises(PublishError, match=r"search_index\.js could not be written"):
        publish_site(sample_manual(title="Another"), tmp_path / "manual")
    assert site_files(tmp_path) == before


def test_the_build_file_is_never_replaced(tmp_path: Path) -> None:
    (tmp_path / "trailer.yaml").write_text("format: 1\n", encoding="utf-8")
    with pytest.raises(PublishError, match="build file"):
        publish_site(sample_manual(), tmp_path, build_file=tmp_path / "trailer.yaml")


CHILD = """
import sys
from pathlib import Path
sys.path[:0] = sys.argv[2:]
target = Path(sys.argv[1])
sys.argv[:] = ["mkdocs"]
from sample_manual import sample_manual
from builder.publish.site import publish_site
publish_site(sample_manual("First"), target)
publish_site(sample_manual("Second"), target)
"""


def child_arguments(target: Path) -> list[str]:
    return [sys.executable, "-c", CHILD, str(target), str(ROOT), str(Path(__file__).parent)]


def test_nothing_of_others_reaches_the_terminal(tmp_path: Path) -> None:
    environment = {name: value for name, value in os.environ.items() if name != "NO_MKDOCS_2_WARNING"}
    done = subprocess.run(
        child_arguments(tmp_path / "manual"), capture_output=True, check=True, env=environment
    )
    assert (done.stdout, done.stderr) == (b"", b"")


@pytest.mark.skipif(sys.platform == "win32", reason="kills with a signal")
def test_killed_while_publishing(tmp_path: Path) -> None:
    target = tmp_path / "manual"
    whole = {}
    for title in ("First", "Second"):
        publish_site(sample_manual(title), tmp_path / title)
        whole[title] = site_files(tmp_path / title)
    publish_site(sample_manual("First"), target)
    moments = random.Random(7)  # noqa: S311 - not a secret
    for _ in range(3):
        with subprocess.Popen(child_arguments(target)) as child:
            time.sleep(moments.uniform(0.3, 1.2))
            child.send_signal(signal.SIGKILL)
        assert site_files(target) in whole.values()
    publish_site(sample_manual("Second"), target)
    assert site_files(target) == whole["Second"]
    assert names_in(tmp_path) == ["First", "Second", "manual"]


def test_the_shim_is_ours_and_loaded_from_the_folder(site: Path) -> None:
    assert [tag["src"] for tag in soup(site / "circuits/fan.html").select("head script[src]")] == [
        f"../{SHIM}"
    ]
