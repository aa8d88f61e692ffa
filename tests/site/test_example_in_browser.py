"""What a reader does with the published example: opens it from disk, searches, turns it, taps."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest
from browser_driver import Browser
from bs4 import BeautifulSoup
from test_buyers_questions import QUESTIONS, RAISED

from builder.pages.manual import manual_source_of_file
from builder.publish.site import publish_site

pytestmark = pytest.mark.browser

EXAMPLE = Path(__file__).parents[2] / "example_build" / "trailer.yaml"
FAN_PAGE = "circuit-07-roof-fan.html"
DRAWN_PAGES = ("system.html", "signs.html")
"""Pages that are mostly drawing, whose letters are judged with the drawings."""
LEAST_CONTRAST = 4.5
"""Of text of usual size against its ground: WCAG 2.2, 1.4.3."""
LEAST_TARGET_PX = 24
"""Of a target of the finger, in CSS pixels: WCAG 2.2, 2.5.8."""

WIDTHS = "return [innerWidth, document.documentElement.scrollWidth]"
HITS = """
return [...document.querySelectorAll(".md-search-result__link")]
  .map((link) => [link.href, link.innerText.toLowerCase()]);
"""
CONTRASTS = """
const seen = (colour) => {
  const parts = colour.match(/[\\d.]+/g).map(Number);
  return [...parts.slice(0, 3), parts.length > 3 ? parts[3] : 1];
};
const over = (top, under) => [0, 1, 2].map((i) => top[i] * top[3] + under[i] * (1 - top[3])).concat(1);
const light = (colour) => {
  const [r, g, b] = colour.slice(0, 3).map((part) => part / 255)
    .map((part) => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const ground = (element) => {
  const layers = [];
  for (let at = element; at; at = at.parentElement) layers.unshift(seen(getComputedStyle(at).backgroundColor));
  return layers.reduce((under, layer) => over(layer, under), [255, 255, 255, 1]);
};
const found = [];
const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (words.nextNode()) {
  const element = words.currentNode.parentElement;
  if (!words.currentNode.data.trim() || !element.checkVisibility({visibilityProperty: true})) continue;
  if (element.closest("svg, script, style, .md-search__output") || !element.getClientRects().length) continue;
  const under = ground(element);
  const [a, b] = [light(over(seen(getComputedStyle(element).color), under)), light(under)];
  const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  found.push([element.closest("a") ? "link" : "text", ratio, words.currentNode.data.trim().slice(0, 40)]);
}
return found;
"""
TARGETS = """
const lists = "article .links a, article .page-head-find a, .md-nav--primary a";
return [...document.querySelectorAll(lists)].filter((link) => link.innerText.trim() && link.getClientRects().length)
  .map((link) => [link.innerText, link.getBoundingClientRect().height]);
"""
HOLDERS = """
return [...document.querySelectorAll("article .table-holder")].map((holder) => {
  holder.focus();
  return document.activeElement === holder && Boolean(holder.getAttribute("aria-label"));
});
"""
FIRST_SCREEN = """
const shown = [];
const words = document.createTreeWalker(document.querySelector("article"), NodeFilter.SHOW_TEXT);
while (words.nextNode()) {
  const range = document.createRange();
  range.selectNodeContents(words.currentNode);
  const box = range.getBoundingClientRect();
  if (box.height && box.bottom <= innerHeight && box.top >= 0) shown.push(words.currentNode.data);
}
return shown.join(" ").replace(/\\s+/g, " ");
"""


@dataclass(frozen=True)
class Manual:
    """The example as one edition publishes it: its folder, its pages."""

    folder: Path
    edition: str
    pages: Mapping[str, BeautifulSoup]

    @property
    def kinds(self) -> list[str]:
        """The first page of each kind."""
        kinds = {name.partition("-")[0]: name for name in sorted(self.pages, reverse=True)}
        return sorted(kinds.values())


@dataclass(frozen=True)
class Visit:
    """What a phone saw of one page: its widths in pixels, its table holders, its targets with their heights."""

    widths: list[int]
    holders: list[bool]
    targets: list[tuple[str, float]]


def published(folder: Path, edition: str) -> Manual:
    source = manual_source_of_file(EXAMPLE, edition)
    publish_site(source, folder)
    pages = {
        path.name: BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")
        for path in sorted(folder.glob("*.html"))
    }
    return Manual(folder, edition, pages)


@pytest.fixture(scope="module")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Manual:
    return published(tmp_path_factory.mktemp("on a stick") / "workshop", "workshop")


@pytest.fixture(scope="module")
def owner(tmp_path_factory: pytest.TempPathFactory) -> Manual:
    return published(tmp_path_factory.mktemp("on a stick") / "owner", "owner")


@pytest.fixture(scope="module", params=["workshop", "owner"])
def manual(request: pytest.FixtureRequest) -> Manual:
    found: Manual = request.getfixturevalue(request.param)
    return found


@pytest.fixture(scope="module")
def desk() -> Iterator[Browser]:
    with Browser() as browser:
        yield browser


@pytest.fixture(scope="module")
def phone() -> Iterator[Browser]:
    with Browser(width=390, height=844) as browser:
        yield browser


@pytest.fixture(scope="module")
def visits(manual: Manual, phone: Browser) -> dict[str, Visit]:
    """Every page as a phone shows it, with nothing asked for but files."""
    phone.requests()
    found = {}
    for name in manual.pages:
        phone.open(manual.folder / name)
        found[name] = Visit(phone.run(WIDTHS), phone.run(HOLDERS), phone.run(TARGETS))
    return found


def from_outside(addresses: list[str]) -> list[str]:
    return [address for address in addresses if not address.startswith(("file:", "data:", "about:", "blob:"))]


def search(browser: Browser, words: str) -> list[tuple[str, str]]:
    """Search as a reader does; return the address and the text of each hit."""
    browser.run('document.getElementById("__search").click()')
    browser.type(".md-search__input", words)
    return list(browser.wait(lambda: browser.run(HITS)))


def test_no_page_asks_for_anything_but_files(
    manual: Manual, phone: Browser, visits: dict[str, Visit]
) -> None:
    asked = phone.requests()
    assert {address.rpartition("/")[2] for address in asked} >= set(visits) == set(manual.pages)
    assert from_outside(asked) == []


def test_search_finds_the_fan_and_its_page(manual: Manual, desk: Browser) -> None:
    desk.requests()
    desk.open(manual.folder / "index.html")
    first, *_ = search(desk, "fan")
    asked = desk.requests()
    assert first[0].partition("?")[0] == (manual.folder / FAN_PAGE).as_uri()
    assert first[1] == "roof fan"
    assert any(address.endswith("search_index.js") for address in asked)
    assert from_outside(asked) == []


def test_no_page_of_a_phone_scrolls_sideways(visits: dict[str, Visit]) -> None:
    assert {name: visit.widths for name, visit in visits.items() if visit.widths != [390, 390]} == {}


def test_no_page_of_the_smallest_phone_scrolls_sideways(owner: Manual) -> None:
    found = {}
    with Browser(width=320, height=568) as browser:
        for name in owner.pages:
            browser.open(owner.folder / name)
            found[name] = browser.run(WIDTHS)
    assert {name: widths for name, widths in found.items() if widths != [320, 320]} == {}


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_text_and_links_stand_out_from_their_ground(workshop: Manual, owner: Manual, dark: bool) -> None:
    with Browser(dark=dark) as browser:
        for manual in (workshop, owner):
            for name in manual.kinds:
                browser.open(manual.folder / name)
                found = browser.run(CONTRASTS)
                assert {what for what, _, _ in found} == {"text", "link"}
                assert len(found) > (20 if name in DRAWN_PAGES else 30)
                assert [one for one in found if one[1] < LEAST_CONTRAST] == [], name
        page = browser.run("return getComputedStyle(document.body).backgroundColor")
    assert all(int(part) < 60 for part in re.findall(r"\d+", page)) is dark


def test_with_scripts_off_every_word_is_there(workshop: Manual, owner: Manual, desk: Browser) -> None:
    words = 'return document.querySelector("article").innerText.split(/\\s+/)'
    with Browser(scripts=False) as plain:
        for manual in (workshop, owner):
            for name in manual.kinds:
                plain.open(manual.folder / name)
                desk.open(manual.folder / name)
                assert plain.run("return document.documentElement.className") == "no-js"
                with_scripts = desk.run(words)
                assert len(with_scripts) > 20
                assert plain.run(words) == with_scripts, name


def test_every_table_can_be_reached_by_keyboard(manual: Manual, visits: dict[str, Visit]) -> None:
    for name, visit in visits.items():
        assert len(visit.holders) == len(manual.pages[name].select("article table")), name
        assert all(visit.holders), name
    assert sum(len(visit.holders) for visit in visits.values()) > len(visits)


def test_a_thumb_hits_every_link_of_a_list(visits: dict[str, Visit]) -> None:
    small = {
        name: [one for one in visit.targets if one[1] < LEAST_TARGET_PX] for name, visit in visits.items()
    }
    assert {name: targets for name, targets in small.items() if targets} == {}
    assert "roof fan" in [text for text, _ in visits["index.html"].targets]


@pytest.mark.parametrize(
    "taps",
    [
        ["article .links a[href^='circuit-07']"],
        [".page-head-find a", "#part-roof-fan a[href^='fuses.html']"],
        [".page-head-find a", "#part-roof-fan a[href^='circuit-07']"],
    ],
    ids=["by its circuit", "by its fuse", "by the list of parts"],
)
def test_the_fans_fuse_is_two_taps_away(owner: Manual, phone: Browser, taps: list[str]) -> None:
    printed = owner.pages["fuses.html"].select_one("#way-7 .fuse b")
    assert printed is not None
    phone.open(owner.folder / "index.html")
    for tap in taps:
        phone.follow(tap)
    assert phone.run("return [innerWidth, innerHeight]") == [390, 844]
    shown = phone.run(FIRST_SCREEN)
    assert printed.get_text().replace("\N{NO-BREAK SPACE}", " ") in shown
    assert re.search(r"\bway 7\b|\b7 5 A\b", shown)
    assert "roof fan" in shown.lower()


def test_each_answer_of_a_buyer_stands_on_the_first_screen_of_a_phone(owner: Manual, phone: Browser) -> None:
    asked = QUESTIONS | RAISED
    hidden = {}
    for question, (address, answer) in asked.items():
        page, sign, anchor = address.partition("#")
        phone.open(owner.folder / page, sign + anchor)
        text = re.sub(r" (?=[.,:;])", "", phone.run(FIRST_SCREEN))
        if not re.search(answer, text):
            hidden[question] = text
    assert hidden == {}
