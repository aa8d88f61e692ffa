"""Pages of guides: each guide on one page, no page without an end, and a circuit of many parts on several."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

import pytest

from builder.drawings.engine import Laid
from builder.pages.guide_places import MOST_GUIDES
from builder.pages.manual import manual_source
from builder.pages.verdict import judge_build
from builder.publish.pictures import put_pictures

LAMPS = 40
MOST_BYTES = 300_000
"""A phone that opens a page from a stick shows this at once."""
HEAD = """\
format: 1
build: {name: Long Wren, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 8, fuses: blade}
wire: {on the shelf: [16 AWG, 14 AWG, 8 AWG], sold as: pair, feed: red, return: black}
"""


@cache
def pages() -> Mapping[str, str]:
    """Return the pages of guides of one circuit with many lamps, one behind the other, pictures in them."""
    parts = "".join(f"  lamp {n}: {{kind: lamp, draws: 1 W}}\n" for n in range(LAMPS))
    path = ", ".join(["lamp switch: 4 ft", *(f"lamp {n}: 1 ft" for n in range(LAMPS))])
    text = f"{HEAD}parts:\n  lamp switch: {{kind: switch}}\n{parts}circuits:\n  lights: {{path: [{path}]}}\n"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("builder.drawings.circuit_drawing.engine", lambda: lambda _sources: Laid((), "missing"))
        judged = judge_build(text.encode(), "trailer.yaml").judged
        assert judged is not None
        files = manual_source(judged, "2222-2222", "owner").files
    return {
        path.removesuffix(".md"): put_pictures(str(text), files)
        for path, text in files.items()
        if path.startswith("stops") and path.endswith(".md")
    }


def guides_of(page: str) -> list[str]:
    return re.findall(r'<div id="([^"]+)" class="guide-head"></div>', pages()[page])


def test_a_circuit_of_many_lamps_takes_several_pages_none_of_them_large() -> None:
    mine = [page for page in pages() if page.startswith("stops-01")]
    assert len(mine) > 3
    assert all(1 <= len(guides_of(page)) <= MOST_GUIDES for page in mine)
    sizes = {page: len(text.encode()) for page, text in pages().items()}
    assert {page: size for page, size in sizes.items() if size > MOST_BYTES} == {}


def test_each_guide_stands_on_one_page_and_every_link_finds_it() -> None:
    stand = [guide for page in pages() for guide in guides_of(page) if page != "stops"]
    assert len(stand) == len(set(stand)) > LAMPS * 2
    anchors = {page: set(re.findall(r'id="([^"]+)"', text)) for page, text in pages().items()}
    for page, text in pages().items():
        for target, anchor in re.findall(r'href="([^"#]*)#((?:dead|dim|fuse)-[^"]*)"', text):
            assert anchor in anchors[target.removesuffix(".html") or page], (page, target, anchor)


def test_the_pages_of_one_circuit_lead_to_each_other() -> None:
    mine = [page for page in pages() if page.startswith("stops-01")]
    for page in mine:
        links = set(re.findall(r'<li><a href="([^"]+)"', pages()[page]))
        assert {f"{other}.html" for other in mine if other != page} <= links
