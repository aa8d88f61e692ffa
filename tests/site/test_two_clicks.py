"""With scripts off every page of a manual is at most two links away from its start, on a phone."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from browser_driver import Browser
from published import Site

pytestmark = pytest.mark.browser

LINKS = """
return [...document.querySelectorAll("a[href]")].filter((link) => {
  const box = link.getBoundingClientRect();
  return link.checkVisibility({visibilityProperty: true}) && box.width && box.left < innerWidth && box.right > 0;
}).map((link) => new URL(link.getAttribute("href"), location).href.split("#")[0]);
"""


@pytest.fixture(scope="module")
def plain_phone() -> Iterator[Browser]:
    with Browser(width=390, height=844, scripts=False) as browser:
        yield browser


def pages_linked_from(site: Site, page: str, browser: Browser) -> set[str]:
    """Open a page; gives the pages that a link in sight leads to, without unfolding anything."""
    browser.open(site.folder / page)
    assert browser.run("return document.documentElement.className") == "no-js"
    root = site.folder.as_uri() + "/"
    return {address.removeprefix(root) for address in browser.run(LINKS)} & set(site.pages)


def test_every_page_is_two_links_away(site: Site, plain_phone: Browser) -> None:
    near = pages_linked_from(site, "index.html", plain_phone)
    reached = set(near)
    for page in sorted(near - {"index.html"}):
        if reached == set(site.pages):
            break
        reached |= pages_linked_from(site, page, plain_phone)
    assert set(site.pages) - reached == set()
    assert near != set(site.pages)
