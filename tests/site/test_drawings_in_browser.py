"""Drawings as a browser lays them out: no text on another, no wire through a text or a symbol, none too small."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from browser_driver import Browser
from published import EXAMPLE, SMALLEST, Site, published

from builder.drawings.label_sheets import SHEETS
from builder.pages.templates import environment

sys.path.insert(0, str(Path(__file__).parents[1] / "publish"))
from pdf_words import pdf_sheets, pdf_text

pytestmark = pytest.mark.browser

LEAST_PX = 10.0
FAULTS = """
const faults = [];
const inside = (p, r) => p.x > r.left + 1 && p.x < r.right - 1 && p.y > r.top + 2 && p.y < r.bottom - 2;
for (const svg of document.querySelectorAll("figure.drawing svg")) {
  const whole = svg.getBoundingClientRect();
  if (!whole.width) continue;
  const scale = svg.getScreenCTM().a;
  const texts = [...svg.querySelectorAll("text")].map((t) => [t, t.getBoundingClientRect()]);
  for (const [text, box] of texts) {
    const name = text.textContent;
    const sizes = [text, ...text.querySelectorAll("tspan")].map((t) => parseFloat(getComputedStyle(t).fontSize));
    if (Math.min(...sizes) * scale < arguments[0]) faults.push(["small", name, Math.min(...sizes) * scale]);
    if (box.left < whole.left - 1 || box.right > whole.right + 1 || box.top < whole.top - 1
      || box.bottom > whole.bottom + 1) faults.push(["outside", name]);
  }
  texts.forEach(([one, a], place) => texts.slice(place + 1).forEach(([other, b]) => {
    const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
    const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
    if (width > 1 && height > 3.5) faults.push(["overlap", one.textContent, other.textContent]);
  }));
  const signs = [...svg.querySelectorAll(".wd-part > g")].map((g) => [g.parentNode, g.getBoundingClientRect()]);
  const bare = texts.filter(([text]) => !text.closest(".wd-tag"));
  for (const wire of svg.querySelectorAll(".wd-e")) {
    const matrix = wire.getScreenCTM();
    for (let at = 0; at <= wire.getTotalLength(); at += 2) {
      const point = wire.getPointAtLength(at).matrixTransform(matrix);
      const sign = signs.find(([, box]) => inside(point, box));
      if (sign) { faults.push(["through a symbol", sign[0].textContent]); break; }
      const hit = bare.find(([, box]) => inside(point, box));
      if (hit) { faults.push(["on a wire", hit[0].textContent]); break; }
    }
  }
}
return faults;
"""


@pytest.fixture(scope="module", params=[EXAMPLE, SMALLEST], ids=["example", "smallest"])
def drawn(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Site:
    return published(request.param.read_bytes(), "owner", tmp_path_factory.mktemp("drawn") / "site")


@pytest.fixture(scope="module", params=[390, 1100], ids=["phone", "desk"])
def browser(request: pytest.FixtureRequest) -> Iterator[Browser]:
    with Browser(width=request.param, height=900) as made:
        yield made


def faults(browser: Browser, page: Path, least_px: float) -> list[list[object]]:
    """Open a page and return its faults."""
    browser.open(page)
    found: list[list[object]] = browser.run(FAULTS, least_px)
    return found


def test_every_text_of_a_drawing_can_be_read(drawn: Site, browser: Browser) -> None:
    with_drawings = [page for page in drawn.pages if drawn.article(page).select("figure.drawing svg")]
    assert len(with_drawings) > len(drawn.circuit_pages)
    for page in with_drawings:
        assert faults(browser, drawn.folder / page, LEAST_PX) == [], page


@pytest.mark.parametrize("sheet_mm", [180, 184], ids=["A4", "letter"])
def test_every_text_of_a_drawing_can_be_read_on_paper(drawn: Site, sheet_mm: int) -> None:
    """At the width of a sheet without its margins, 96 px an inch, with the style of paper."""
    with Browser(width=round(sheet_mm / 25.4 * 96), height=1000) as browser:
        browser.command("Emulation.setEmulatedMedia", media="print")
        for page in [page for page in drawn.pages if drawn.article(page).select("figure.drawing svg")]:
            assert faults(browser, drawn.folder / page, LEAST_PX) == [], page


NINE_PT = 12.0
"""Nine points, at 96 px and 72 pt an inch: read at arm's length."""
AT_THE_BOX = {"landings.html": ["landings-box"], "fuses.html": ["front-box-scaled", "front-box-face"]}
LETTERS = """
const texts = [...document.querySelectorAll(`#${arguments[0]} svg text`)].filter((t) => t.getClientRects().length);
return texts.map((t) => parseFloat(getComputedStyle(t).fontSize) * t.ownerSVGElement.getScreenCTM().a);
"""


@pytest.mark.parametrize("sheet_mm", [180, 184], ids=["A4", "letter"])
def test_the_front_box_is_read_from_where_the_head_is(workshop: Site, sheet_mm: int) -> None:
    with Browser(width=round(sheet_mm / 25.4 * 96), height=1000) as browser:
        browser.command("Emulation.setEmulatedMedia", media="print")
        for page, figures in AT_THE_BOX.items():
            browser.open(workshop.folder / page)
            for figure in figures:
                letters = browser.run(LETTERS, figure)
                assert len(letters) > 30
                assert min(letters) >= NINE_PT, (page, figure)


def test_the_check_sees_what_is_too_small(drawn: Site, browser: Browser) -> None:
    page = drawn.folder / next(iter(drawn.circuit_pages))
    assert {fault[0] for fault in faults(browser, page, 40.0)} == {"small"}


def test_the_check_sees_a_wire_through_a_symbol(drawn: Site, browser: Browser) -> None:
    """Symbols pushed down by a few pixels lie on the wires that began at their lower ends."""
    assert faults(browser, drawn.folder / next(iter(drawn.circuit_pages)), LEAST_PX) == []
    moved = 'for (const g of document.querySelectorAll("figure.drawing .wd-part > g")) g.style.translate = "0 9px"'
    browser.run(moved)
    assert "through a symbol" in {fault[0] for fault in browser.run(FAULTS, LEAST_PX)}


def test_paper_shows_every_wire_of_a_drawing(drawn: Site, browser: Browser) -> None:
    for page, circuit in list(drawn.circuit_pages.items())[:4]:
        browser.open(drawn.folder / page)
        text = pdf_text(browser.pdf())
        numbers = [wire["number"] for wire in drawn.record["wires"] if wire["circuit"] == circuit["number"]]
        figure = text.partition("Figure")[2].partition("What it feeds")[0]
        assert all(number in figure for number in numbers), page


TALL_PX = 560
"""Strips above this height do not fit A5 at their full size beside their caption."""


def test_a_small_sheet_has_every_strip_in_one_piece(drawn: Site) -> None:
    """On A5, as the build file may ask for: all that a strip says stands on one sheet, the tall strips above all."""
    small = (
        environment("en")
        .get_template("print.css.jinja")
        .render(name="", number="", content="", paper="A5", label_sheet=SHEETS["A5"], titles={})
    )
    tall = []
    with Browser(width=480, height=680) as browser:
        for page in drawn.pages:
            strips = drawn.article(page).select("figure.drawing .wd-strip:not(.wd-wide) svg")
            if not any(float(str(svg["viewbox"]).split()[3]) > TALL_PX for svg in strips):
                continue
            browser.open(drawn.folder / page)
            style = "const s = document.createElement('style'); s.textContent = arguments[0]; document.head.append(s)"
            browser.run(style, small)
            sheets = ["".join(text.split()) for text in pdf_sheets(browser.pdf_as_styled())]
            for svg in strips:
                said = {"".join(text.get_text().split()) for text in svg.find_all("text")}
                assert any(all(one in sheet for one in said) for sheet in sheets), (page, sorted(said))
            tall.append(page)
    assert tall
