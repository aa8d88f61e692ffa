"""What the mouse can do with a page the keyboard can do too: WCAG 2.2, 2.1.1, 2.4.7, 2.4.11 and 4.1.2."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from browser_driver import DOWN, ENTER, ESCAPE, SHIFT, TAB, Browser
from published import Site

pytestmark = pytest.mark.browser

KNOWN = """
const shown = (e) => e.getClientRects().length && e.checkVisibility({visibilityProperty: true});
const name = (e) => `${e.tagName.toLowerCase()}${e.id && "#" + e.id}.${e.getAttribute("class") || ""} `
  + e.textContent.trim().slice(0, 30);
const ringed = (e) => {
  const around = e.closest("svg a") ?? e;
  const places = [around, around.nextElementSibling, e.closest("form")];
  return places.filter(Boolean).some((place) => {
    const style = getComputedStyle(place);
    return style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
  });
};
const left = (e) => e.type === "radio" && e !== (document.querySelector(`[name=${e.name}]:checked`)
  ?? document.querySelector(`[name=${e.name}]`));  // of a group of radio buttons one is a stop
const stops = [...document.querySelectorAll("a[href], button, input, summary, [tabindex]")]
  .filter((e) => shown(e) && e.tabIndex >= 0 && !left(e));
"""
RECORD = (
    KNOWN
    + """
window.visited = [];
document.addEventListener("focusin", (event) => {
  window.visited.push([stops.indexOf(event.target), name(event.target), ringed(event.target)]);
});
return stops.map(name);
"""
)
HIDDEN_WHILE_FOCUSED = (
    KNOWN
    + """
const hit = (e) => [...e.getClientRects()].some((box) => {
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const [left, right] = [Math.max(box.left, 0), Math.min(box.right, innerWidth)];
  const [top, bottom] = [Math.max(box.top, 0), Math.min(box.bottom, innerHeight)];
  if (right - left < 1 || bottom - top < 1) return false;
  const points = [[(left + right) / 2, (top + bottom) / 2], [left + 1, top + 1], [right - 1, bottom - 1]];
  return points.some(([x, y]) => {
    const found = document.elementFromPoint(x, y);
    return found && (e.contains(found) || found.contains(e));
  });
});
document.documentElement.style.scrollBehavior = "auto";
const inside = stops.filter((e) => e.closest("article, .md-footer"));
const covered = [];
for (const e of [...inside, ...inside.toReversed()]) {
  e.focus();
  if (document.activeElement !== e) covered.push(["no focus", name(e)]);
  else if (!hit(e)) covered.push(["covered", name(e)]);
}
return [inside.length, covered];
"""
)
SCROLL_BOXES = """
const runs = (e) => /auto|scroll/.test(getComputedStyle(e).overflowX) && e.scrollWidth > e.clientWidth + 1;
return [...document.querySelectorAll("article *")].filter(runs)
  .map((e) => [e.tabIndex, e.getAttribute("role"), e.getAttribute("aria-label") ?? ""]);
"""
UNREACHED = (
    KNOWN
    + """
const reached = (label) => label.tabIndex === 0 || label.querySelector("button")
  || (label.control.type === "radio" && label.control.checkVisibility()) || label.matches(arguments[0]);
return [...document.querySelectorAll("label, [onclick]")].filter((e) => shown(e) && !reached(e)).map(name);
"""
)
CLOSERS = (
    ".md-overlay, .md-search__overlay, .md-search__icon, .md-nav__title[for='__drawer'], [for='__search']"
)
"""Labels for the mouse whose work a key does: Escape puts menu and search away, reaching the search opens it."""
SCHEME = "return document.body.dataset.mdColorScheme"
OPEN = "return document.getElementById(arguments[0]).checked"


@pytest.fixture(scope="module")
def desk() -> Iterator[Browser]:
    with Browser() as browser:
        yield browser


@pytest.fixture(scope="module")
def narrow() -> Iterator[Browser]:
    """A desk's window at four times the size, or a phone with a keyboard."""
    with Browser(width=320, height=568) as browser:
        yield browser


def assert_tab_reaches_all(browser: Browser, site: Site, page: str) -> None:
    browser.open(site.folder / page)
    stops = browser.run(RECORD)
    browser.press(*[TAB] * len(stops))
    visited = browser.run("return window.visited")
    assert [place for place, _, _ in visited] == list(range(len(stops))), (page, visited, stops)
    assert [name for _, name, ring in visited if not ring] == [], page
    assert len(stops) > 10


def test_tab_goes_through_everything_in_order_with_a_ring(workshop: Site, desk: Browser) -> None:
    for page in workshop.first_of_kind:
        assert_tab_reaches_all(desk, workshop, page)


@pytest.mark.parametrize("page", ["index.html", "circuit", "tests.html"])
def test_tab_goes_through_everything_in_a_narrow_window(workshop: Site, narrow: Browser, page: str) -> None:
    assert_tab_reaches_all(
        narrow, workshop, next(iter(workshop.circuit_pages)) if page == "circuit" else page
    )


def test_what_has_the_focus_is_not_covered(workshop: Site, narrow: Browser) -> None:
    for page in workshop.first_of_kind:
        narrow.open(workshop.folder / page)
        count, covered = narrow.run(HIDDEN_WHILE_FOCUSED)
        assert count > 1  # the way to the next page, at least
        assert covered == [], page


def test_every_box_that_scrolls_is_a_stop_with_a_name(workshop: Site, narrow: Browser) -> None:
    found = []
    for page in workshop.first_of_kind:
        narrow.open(workshop.folder / page)
        boxes = narrow.run(SCROLL_BOXES)
        assert [box for box in boxes if box[:2] != [0, "region"] or not box[2]] == [], page
        assert len({box[2] for box in boxes}) == len(boxes), page
        found += boxes
    assert found


@pytest.mark.parametrize("view", ["desk", "narrow"])
def test_nothing_is_for_the_mouse_alone(workshop: Site, view: str, request: pytest.FixtureRequest) -> None:
    browser = request.getfixturevalue(view)
    for page in ("index.html", "tests.html"):
        browser.open(workshop.folder / page)
        assert browser.run(UNREACHED, CLOSERS) == [], page


def test_the_first_stop_skips_to_the_page(workshop: Site, desk: Browser) -> None:
    for page in workshop.first_of_kind:
        desk.open(workshop.folder / page)
        desk.press(TAB)
        assert desk.run("return document.activeElement.className").startswith("md-skip"), page
        desk.wait(lambda: desk.run("return getComputedStyle(document.activeElement).opacity") == "1")
        desk.press(ENTER)
        assert desk.run("return location.hash.length") > 1, page
        desk.press(TAB)
        assert desk.run("return Boolean(document.activeElement.closest('article, .md-footer'))"), page


def test_folded_parts_open_and_close(workshop: Site, desk: Browser) -> None:
    page = next(page for page in workshop.pages if workshop.article(page).select("details:not([open])"))
    desk.open(workshop.folder / page)
    desk.run("document.querySelector('article details:not([open]) > summary').focus()")
    for key, open_ in ((ENTER, True), (" ", False)):
        desk.press(key)
        assert desk.run("return document.activeElement.parentElement.open") is open_


def test_the_page_turns_dark_and_light(workshop: Site, desk: Browser) -> None:
    desk.open(workshop.folder / "index.html")
    desk.run("document.getElementById('__palette_0').focus()")
    for scheme in ("slate", "default"):
        desk.press(DOWN)
        desk.wait(lambda scheme=scheme: desk.run(SCHEME) == scheme)  # type: ignore[misc]


def test_the_search_opens_finds_and_goes_away(workshop: Site, narrow: Browser) -> None:
    narrow.open(workshop.folder / "index.html")
    narrow.run("document.querySelector('.md-search__input').focus()")
    narrow.wait(lambda: narrow.run(OPEN, "__search"))
    narrow.press(*"fan")
    narrow.wait(lambda: narrow.run("return document.querySelectorAll('.md-search-result__link').length"))
    narrow.press(DOWN)
    narrow.wait(lambda: narrow.run("return document.activeElement.matches('.md-search-result__link')"))
    narrow.press(ESCAPE)
    narrow.wait(lambda: not narrow.run(OPEN, "__search"))


def test_the_menu_of_a_narrow_window_opens_leads_on_and_goes_away(workshop: Site, narrow: Browser) -> None:
    narrow.open(workshop.folder / "index.html")
    button = "return document.querySelector('.md-header button[aria-expanded]')"
    narrow.run(f"{button}.focus()")
    assert narrow.run(f"{button}.getAttribute('aria-label')")
    for key, open_ in ((ENTER, True), (ESCAPE, False), (" ", True)):
        narrow.press(key)
        assert narrow.run(OPEN, "__drawer") is open_
        assert narrow.run(f"{button}.ariaExpanded") == str(open_).lower()
    visible = (
        "return document.querySelector('.md-sidebar--primary').checkVisibility({visibilityProperty: true})"
    )
    assert narrow.wait(lambda: narrow.run(visible))
    narrow.run("document.querySelector('.md-nav--primary label.md-nav__link[tabindex]').focus()")
    narrow.press(ENTER)
    group = "document.querySelector('.md-nav--primary .md-nav__toggle:checked ~ .md-nav')"
    narrow.wait(lambda: narrow.run(f"return {group}?.checkVisibility({{visibilityProperty: true}})"))
    narrow.run(f"{group}.querySelector('.md-nav__title').focus()")
    narrow.press(ENTER)
    assert narrow.run(f"return {group}") is None
    narrow.run("document.querySelector('.md-nav--primary .md-nav__link[href^=system]').focus()")
    narrow.press(ENTER)
    narrow.wait(lambda: narrow.run("return location.pathname.endsWith('system.html')"))


def test_tab_goes_back_as_it_came(workshop: Site, desk: Browser) -> None:
    desk.open(workshop.folder / "index.html")
    stops = desk.run(RECORD)
    desk.press(*[TAB] * len(stops))
    desk.press(*[TAB] * (len(stops) - 1), holding=SHIFT)
    visited = [place for place, _, _ in desk.run("return window.visited")]
    assert visited == [*range(len(stops)), *reversed(range(len(stops) - 1))]
