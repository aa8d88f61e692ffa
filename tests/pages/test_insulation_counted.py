"""Insulation between two columns of the table: How it was worked out says as what it is counted."""

from __future__ import annotations

from dataclasses import replace

import pytest
from owner_pages import page_of, view_of, words_of

from builder.pages.rounding import Reader

BUILD = """format: 1
build: {name: Example, country: GB}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 12 cm, to front box: 60 cm}
front box: {fuse ways: 4}
wire: {on the shelf: [1.5 mm²], insulation: BEARS}
parts: {lamp: {kind: lamp, draws: 3 W}}
circuits:
  lamp: {path: [lamp: 2 m]}
"""


# 33 CFR 183.425 Table 5 has columns for 60, 75, 80, 90, 105, 125 and 200 °C.
@pytest.mark.parametrize(
    ("bears", "says"),
    [
        ("70 °C", "Insulation for 70 °C is counted as 60 °C, the next column below"),
        ("85 °C", "Insulation for 85 °C is counted as 80 °C, the next column below"),
        ("75 °C", ""),
        ("105 °C", ""),
    ],
)
def test_what_is_counted_in_place_of_the_insulation_is_told(bears: str, says: str) -> None:
    view = view_of(BUILD.replace("BEARS", bears).encode())
    workshop = replace(view, edition=replace(view.edition, reader=Reader.WORKSHOP))
    text = words_of(page_of(workshop, "worked"))
    assert "Surroundings" in text
    assert (says in text) if says else ("is counted as" not in text)
