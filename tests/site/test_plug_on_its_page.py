"""The plug as drawn on Towing and road lamps, beside the table of its contacts."""

from __future__ import annotations

import re

import pytest
from bs4 import BeautifulSoup
from published import sheets
from test_towing_page import PATTERNS, manual, page_of, record_of

FACED = ("4-way flat", "7-way blade")
"""Plugs of which a source at hand tells where the contacts stand."""


@pytest.mark.parametrize("pattern", PATTERNS)
def test_the_plug_shows_the_wires_of_its_table(pattern: str) -> None:
    source = manual(pattern)
    page = page_of(source)
    picture = page.select_one("#tow-plug-face img")
    assert picture is not None
    svg = BeautifulSoup(str(source.files[str(picture["data-picture"])]), "html.parser")
    numbers = {wire["number"] for wire in record_of(source)["wires"]}
    drawn = [text.get_text() for text in svg.find_all("text") if text.get_text() in numbers]
    head, *rows = sheets(page)[f"Contacts of the {pattern} plug"]
    cells = [row[head.index("Wire here")] for row in rows]
    assert sorted(drawn) == sorted(
        found for cell in cells for found in re.findall(r"\b\d+[A-Z]+\b", cell) if found in numbers
    )
    assert drawn


@pytest.mark.parametrize("pattern", PATTERNS)
def test_the_words_say_from_where_the_plug_is_seen(pattern: str) -> None:
    caption = page_of(manual(pattern)).select_one("#tow-plug-face figcaption")
    assert caption is not None
    said = caption.get_text()
    assert ("socket on the car" in said) == (pattern in FACED)  # a list has no mirror image
    assert ("in one row" in said) == (pattern == "4-way flat")
    assert ("no source at hand" in said) == (pattern not in FACED)
    if pattern in FACED:
        assert "The trailer's half" in said
        assert "from the back" in said


def test_who_tells_where_the_contacts_stand_is_said() -> None:
    """Quoted from one article, not read in the standard; the row of the flat plug is the habit of the trade."""
    captions = [str(page_of(manual(name)).select_one("#tow-plug-face figcaption")) for name in FACED]
    assert "habit of the trade" in captions[0]
    assert "One article" in captions[1]
    assert "standard itself was not read" in captions[1]
