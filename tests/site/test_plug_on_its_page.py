"""The plug as drawn on Towing and road lamps, beside the table of its contacts."""

from __future__ import annotations

import re

import pytest
from bs4 import BeautifulSoup
from published import sheets
from test_towing_page import PATTERNS, manual, page_of, record_of


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
    assert drawn == [
        found for cell in cells for found in re.findall(r"\b\d+[A-Z]+\b", cell) if found in numbers
    ]
    assert drawn


@pytest.mark.parametrize("pattern", PATTERNS)
def test_the_words_say_from_where_the_plug_is_seen(pattern: str) -> None:
    caption = page_of(manual(pattern)).select_one("#tow-plug-face figcaption")
    assert caption is not None
    assert "socket on the car" in caption.get_text()
    assert ("in one row" in caption.get_text()) == ("flat" in pattern and "or round" not in pattern)
