"""The test sheet names the screw and the position of a wire's end by the numbers of the sheet of what lands where."""

from __future__ import annotations

import re
from pathlib import Path

from owner_pages import page_of, table, view_of

EXAMPLE = (Path(__file__).parents[2] / "example_build" / "trailer.yaml").read_bytes()
CAPTION = "Each wire, before the walls are closed"


def test_an_end_on_the_ground_bar_or_the_strip_has_its_place() -> None:
    view = view_of(EXAMPLE)
    tested = {row[1].split()[0]: row[3:5] for row in table(page_of(view, "tests"), CAPTION)}
    landings = page_of(view, "landings")
    counted = 0
    for piece, word in (("Ground bar", "ground bar"), ("Terminal strip", "strip")):
        for place, wire, *_ in table(landings, piece):
            if wire == "free":
                continue
            counted += 1
            ends = [end for end in tested[wire.split()[0]] if end.startswith(word)]
            assert any(re.match(rf"{word} {place}( \(|$)", end) for end in ends), (wire, place, ends)
    assert counted > 30
