"""The sheets that the shell is built and wired by speak of nothing that needs a computer, once they are printed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from published import Site

ROOT = Path(__file__).parents[2]
SHEETS = (
    "shopping",
    "building-in",
    "frames",
    "scale",
    "runs",
    "cuts",
    "pulls",
    "labels",
    "wrap-labels",
    "pen-labels",
    "landings",
    "closing",
    "tests",
    "fasteners",
    "fuses",
    "wires",
)
ON_THE_SCREEN = ".page-head-find, .more-lines, .downloads, .screen-only"
"""What the style of paper hides."""
WORDS = re.compile(r"build file|“check”|wiring-manual|“assume”|\b\w+: yes\b|under “")
WHO_KEEPS_IT = "who keeps the build file"


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_sheet_of_the_workshop_is_read_without_a_computer(workshop: Site, sheet: str) -> None:
    page = BeautifulSoup(str(workshop.article(f"{sheet}.html")), "html.parser")
    for one in page.select(ON_THE_SCREEN):
        one.decompose()
    said = page.get_text(" ").replace(WHO_KEEPS_IT, "")
    assert [said[max(0, m.start() - 60) : m.end() + 30] for m in WORDS.finditer(said)] == []


def test_paper_hides_what_is_for_the_screen() -> None:
    """Each class that the check above leaves out is hidden by the style of paper."""
    style = (ROOT / "themes" / "manual" / "assets" / "paper.css").read_text(encoding="utf-8")
    for name in ON_THE_SCREEN.split(", "):
        assert re.search(rf"\.md-typeset \{name}[^{{]*{{\s*display: none;", style), name
