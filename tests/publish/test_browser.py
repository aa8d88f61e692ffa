"""What a reader does: opens the published folder from disk, searches, switches to dark, prints."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from pdf_words import pdf_text
from sample_manual import ROOT, SHIM, WIDE_HEADS, sample_files, sample_manual

from builder.publish.site import publish_site

sys.path.insert(0, str(ROOT / "tests"))
from browser_driver import Browser

pytestmark = pytest.mark.browser

DARK, LIGHT = "rgb(20, 23, 27)", "rgb(255, 255, 255)"
SCHEME = "return [document.body.dataset.mdColorScheme, getComputedStyle(document.body).backgroundColor]"
HITS = 'return [...document.querySelectorAll(".md-search-result__item h1")].map((hit) => hit.innerText)'


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("on a stick #1 100% über") / "manual"
    files = sample_files()
    files["stock.md"] = re.sub(
        r"<div[^>]*>(<table).*?>(.*)</div>", r"\1>\2", str(files["lands.md"]), flags=re.DOTALL
    )
    files["elsewhere.md"] = '# Elsewhere\n\n<div><img src="https://example.com/one.png" alt=""></div>\n'
    publish_site(sample_manual(files=files), folder)
    return folder


@pytest.fixture(scope="module")
def wide(site: Path) -> Iterator[Browser]:
    with Browser() as browser:
        yield browser


def search(browser: Browser, words: str) -> list[str]:
    browser.run('document.getElementById("__search").click()')
    browser.type(".md-search__input", words)
    return list(browser.wait(lambda: browser.run(HITS)))


@pytest.mark.parametrize("page", ["index.html", "circuits/fan.html"])
def test_search_works_from_disk_and_nothing_leaves_it(site: Path, wide: Browser, page: str) -> None:
    wide.requests()
    wide.open(site / page)
    assert search(wide, "quagmire") == ["Fan"]
    asked = wide.requests()
    assert any(address.endswith("search_index.js") for address in asked)
    assert [address for address in asked if not address.startswith(("file:", "data:", "about:"))] == []


def test_a_request_that_leaves_the_disk_would_be_seen(site: Path, wide: Browser) -> None:
    wide.requests()
    wide.open(site / "elsewhere.html")
    assert "https://example.com/one.png" in wide.requests()


def test_a_hit_leads_to_its_page(site: Path, wide: Browser) -> None:
    wide.open(site / "circuits/fan.html")
    search(wide, "lid")
    link = wide.run('return document.querySelector(".md-search-result__link[href*=spare]").href')
    assert link.startswith(f"{(site / 'fuses.html').as_uri()}?h=")
    assert link.endswith("#spare-fuses")


def test_the_search_frame_has_a_name_and_takes_no_room(site: Path, wide: Browser) -> None:
    wide.open(site / "index.html")
    search(wide, "quagmire")
    frames = (
        'return [...document.querySelectorAll("iframe")].map((frame) => [frame.title, frame.offsetHeight])'
    )
    assert wide.run(frames) == [["Search", 0]]


SAMPLE_WORKER = """
importScripts("lib/more.js");
addEventListener("message", (event) => { event.data.seen = more; postMessage(event.data); });
"""
TRY_WORKER = """
const worker = new Worker("assets/try/worker.js");
const sent = {word: "there"};
const told = [];
worker.onmessage = (event) => told.push(["handler", event.data.word, event.data.seen]);
worker.addEventListener("message", (event) => told.push(["listener", event.data.word, event.data.seen]));
worker.postMessage(sent);
sent.word = "changed later";
window.told = told;
window.sent = sent;
window.worker = worker;
return told.length;
"""


def test_the_shim_is_a_worker_to_its_page(tmp_path: Path) -> None:
    (tmp_path / "assets/try/lib").mkdir(parents=True)
    (tmp_path / "assets/try/worker.js").write_text(SAMPLE_WORKER, encoding="utf-8")
    (tmp_path / "assets/try/lib/more.js").write_text("var more = 'from more.js';", encoding="utf-8")
    shim = (ROOT / "themes/manual" / SHIM).read_text(encoding="utf-8")
    (tmp_path / "page.html").write_text(f"<script>{shim}</script><p>Page</p>", encoding="utf-8")
    with Browser() as browser:
        browser.open(tmp_path / "page.html")
        assert browser.run(TRY_WORKER) == 0
        told = browser.wait(lambda: browser.run("return window.told.length == 2 && window.told"))
        assert told == [["handler", "there", "from more.js"], ["listener", "there", "from more.js"]]
        assert browser.run("return window.sent") == {"word": "changed later"}
        broken = (
            'window.wrong = 0; new Worker("none.js").addEventListener("error", () => { window.wrong = 1; })'
        )
        browser.run(broken)
        assert browser.wait(lambda: browser.run("return window.wrong")) == 1
        assert browser.run("worker.terminate(); return document.querySelectorAll('iframe').length") == 1


def test_a_phone_does_not_scroll_sideways(site: Path) -> None:
    with Browser(width=390, height=844) as phone:
        for page in ("index", "lands", "fuses", "circuits/fan"):
            phone.open(site / f"{page}.html")
            assert phone.run("return [innerWidth, document.documentElement.scrollWidth]") == [390, 390], page
        phone.open(site / "lands.html")
        holder = "const holder = document.querySelector('.table-holder'); holder.focus();"
        assert phone.run(f"{holder} return holder.scrollWidth > holder.clientWidth")
        assert phone.run(f"{holder} return document.activeElement === holder")


def test_the_page_follows_the_system_and_its_own_switch(site: Path) -> None:
    with Browser() as browser:
        browser.open(site / "index.html")
        assert browser.run(SCHEME) == ["default", LIGHT]
        browser.click("label[for=__palette_1]")
        assert browser.wait(lambda: browser.run(SCHEME) == ["slate", DARK])
        browser.open(site / "circuits/fan.html")
        assert browser.run(SCHEME) == ["slate", DARK]
        browser.click("label[for=__palette_0]")
        assert browser.wait(lambda: browser.run(SCHEME) == ["default", LIGHT])


def test_a_dark_system_gets_dark_pages(site: Path) -> None:
    with Browser(dark=True) as browser:
        browser.open(site / "index.html")
        assert browser.run(SCHEME) == ["slate", DARK]


def test_with_scripts_off_all_but_the_search_can_be_read(site: Path) -> None:
    with Browser(scripts=False) as browser:
        browser.open(site / "circuits/fan.html")
        assert browser.run("return document.documentElement.className") == "no-js"
        assert "The roof vent quagmire fan." in browser.text("article")
        assert "What lands where" in browser.text(".md-nav--primary")
        browser.follow("article a[href*=spare-fuses]")
        assert "Two lie behind the lid." in browser.text("article")


def test_with_scripts_off_a_phone_has_its_menu(site: Path) -> None:
    with Browser(width=390, height=844, scripts=False) as phone:
        phone.open(site / "index.html")
        assert "What lands where" not in phone.text(".md-nav--primary")
        phone.click(".md-header__button[for=__drawer]")
        assert phone.wait(lambda: "What lands where" in phone.text(".md-nav--primary"))


def test_print_keeps_every_column(site: Path, wide: Browser) -> None:
    wide.open(site / "lands.html")
    assert set(WIDE_HEADS) <= set(pdf_text(wide.pdf()).split("\n"))
    wide.open(site / "stock.html")
    assert not set(WIDE_HEADS) <= set(pdf_text(wide.pdf()).split("\n"))
