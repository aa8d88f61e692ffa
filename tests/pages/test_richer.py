"""What a page says the build file could still say: each line works as printed, and is not asked for twice."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings

from builder.drawings.scaled_face import scaled_face
from builder.pages.drawing_words import drawing_words
from builder.pages.manual import manual_source
from builder.pages.richer import MOST, More, more_lines
from builder.pages.rounding import Reader
from builder.pages.verdict import judge_build
from builder.pages.view import Edition, View

ROOT = Path(__file__).parents[2] / "example_build"
PAGES = (
    "index", "find", "fuses", "wires", "towing", "battery", "stops", "adding", "shopping", "worked", "landings",
)  # fmt: skip
SMALLEST = (ROOT / "smallest" / "trailer.yaml").read_text(encoding="utf-8")


def _view(text: str) -> View:
    verdict = judge_build(text.encode(), "trailer.yaml")
    assert verdict.judged is not None, verdict.problems
    judged = verdict.judged
    return View(judged.trailer, judged.figures, judged.findings, Edition(Reader.WORKSHOP, "ABCD-EFGH"))


def _asked(text: str) -> list[tuple[str, More]]:
    view = _view(text)
    pages = [*PAGES, *view.pages_of.values()]
    return [(page, more) for page in pages for more in more_lines(view, page)]


def _written(text: str, more: More) -> str:
    """Write a line as the page prints it: into the braces of its entry, or as a heading of its own."""
    name = re.escape(more.entry or more.heading)
    entry = re.search(rf"^(?:[^#\n]*[{{,])? *{name}: \{{", text, re.MULTILINE)
    return f"{text[: entry.end()]}{more.words}, {text[entry.end() :]}" if entry else f"{text}{more.line}\n"


def test_every_line_works_as_printed_and_is_not_asked_for_again() -> None:
    asked = _asked(SMALLEST)
    assert {more.brings for _, more in asked} > {
        "places",
        "screws",
        "spares",
        "insulation",
        "description",
        "stock",
        "plug place",
        "box to scale",
        "studs",
        "entry holes",
    }
    for page, more in asked:
        after = [m for p, m in _asked(_written(SMALLEST, more)) if p == page]
        assert more not in after, more


def test_in_the_end_nothing_is_left_to_ask_for() -> None:
    text = SMALLEST
    for _ in range(60):
        asked = _asked(text)
        if not asked:
            break
        text = _written(text, asked[0][1])
    assert _asked(text) == []
    face = scaled_face(_view(text).trailer, _view(text).figures, drawing_words("en"))
    assert face is not None
    assert (face.loose, face.unmeasured) == ((), ())


@settings(max_examples=25)
@given(builds())
def test_no_page_asks_for_much(build: GeneratedBuild) -> None:
    view = _view(build.data.decode())
    for page in [*PAGES, *view.pages_of.values()]:
        assert len(more_lines(view, page)) <= MOST


@pytest.mark.parametrize(("edition", "told"), [("workshop", True), ("owner", False)])
def test_only_the_maker_is_asked(edition: str, told: bool) -> None:
    judged = judge_build(SMALLEST.encode(), "trailer.yaml").judged
    assert judged is not None
    files = manual_source(judged, "ABCD-EFGH", edition).files
    text = str(files["wires.md"])
    assert bool(BeautifulSoup(text, "html.parser").select(".more-lines code")) is told
