"""Every kind of page, in both editions and four views, as axe-core judges it: levels A and AA and best practice.

axe-core comes from npm in the version that ``.ci/package.json`` names: ``npm ci --prefix .ci``.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from axe_core import axe_script
from browser_driver import Browser
from published import Site

pytestmark = [pytest.mark.browser, pytest.mark.axe]

VIEWS: Mapping[str, Mapping[str, Any]] = {
    "light": {},
    "dark": {"dark": True},
    "phone": {"width": 390, "height": 844},
    "narrow": {"width": 320, "height": 568},
}
JUDGED = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice")
ALLOWED: Mapping[tuple[str, str], str] = {}
"""What the theme itself is allowed: rule and exact selector, each with its reason; three at most."""
JUDGE = """
const options = {runOnly: {type: "tag", values: arguments[0]}, resultTypes: ["violations"], preload: false};
return axe.run(document, options).then((told) => [told.passes.length, told.violations.flatMap((rule) =>
  rule.nodes.map((node) => [rule.id, node.target.join(" "), node.failureSummary]))]);
"""
WIDTHS = "return [innerWidth, document.documentElement.scrollWidth]"
BROKEN = """
document.querySelector("article").insertAdjacentHTML("beforeend",
  "<img src='data:,'><p style='color: #bbb; background: #fff'>Pale words</p><h6>Far down</h6>");
"""


def judged(browser: Browser) -> list[tuple[str, str, str]]:
    """Judge the page that is open; gives rule, selector and what to do for each violation."""
    browser.run(axe_script())
    passed, found = browser.run(JUDGE, JUDGED)
    assert passed > 20
    return [(rule, selector, told) for rule, selector, told in found if (rule, selector) not in ALLOWED]


@pytest.mark.parametrize("view", VIEWS)
def test_no_kind_of_page_keeps_anybody_out(sites: Mapping[str, Site], view: str) -> None:
    with Browser(**VIEWS[view]) as browser:
        for site in sites.values():
            for page in site.first_of_kind:
                browser.open(site.folder / page)
                assert judged(browser) == [], (site.edition, page)
                width, scrolls = browser.run(WIDTHS)
                assert scrolls == width, (site.edition, page)


def test_what_keeps_somebody_out_would_be_told(owner: Site) -> None:
    with Browser() as browser:
        browser.open(owner.folder / "care.html")
        browser.run(BROKEN)
        assert {rule for rule, _, _ in judged(browser)} == {"image-alt", "color-contrast", "heading-order"}


def test_the_theme_is_allowed_little() -> None:
    assert len(ALLOWED) <= 3
    assert all(ALLOWED.values())
