"""Sheets of labels, read back from their SVG in millimetres."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from svg_reading import Rect, meet

from builder.drawings.label_sheets import (
    EDGE_MM,
    LEAST_LETTERS_MM,
    MARK_MM,
    SHEETS,
    Band,
    SheetWords,
    Wrapped,
    pen_sheets,
    wrap_sheets,
)
from builder.drawings.text_width import text_width

SVG = "{http://www.w3.org/2000/svg}"
WORDS = SheetWords("sheet %(n)s", "This line is 50 mm long.")


def label(number: str, name: str, far: str) -> Wrapped:
    return Wrapped(((number, f"{name} + → {far}"), (number, f"→ {far}"), (number, "")))


def cut(root: ET.Element) -> list[Rect]:
    found = []
    for rect in root.iter(f"{SVG}rect"):
        x, y, w, h = (float(rect.attrib[key]) for key in ("x", "y", "width", "height"))
        found.append((x, y, x + w, y + h))
    return found


def said(root: ET.Element) -> list[tuple[str, float, float, float]]:
    """Every text with its left end, its line and how high its letters are."""
    return [
        ("".join(t.itertext()), *(float(t.attrib[key]) for key in ("x", "y", "font-size")))
        for t in root.iter(f"{SVG}text")
    ]


NAMES = st.text(st.sampled_from("abcdefghi jklmnop"), min_size=1, max_size=40).filter(str.strip)
LABELS = st.lists(
    st.tuples(st.integers(1, 99).map(lambda n: f"{n}A"), NAMES, NAMES).map(lambda one: label(*one)),
    min_size=1,
    max_size=70,
)


@given(LABELS, st.sampled_from(["A4", "letter", "A5"]), st.none() | st.floats(10.0, 300.0))
@settings(max_examples=40, deadline=None)
def test_labels_lie_apart_within_the_sheet_as_large_as_they_are_to_be(
    labels: list[Wrapped], paper: str, width: float | None
) -> None:
    bands = [Band("thin", 8.0, 13.4, 2, tuple(labels)), Band("thick", 16.0, 22.5, 4, tuple(labels[:5]))]
    sheet = SHEETS[paper]
    wide = min(width or sheet.width / sheet.columns, sheet.width)
    sizes = []
    for svg in wrap_sheets(bands, paper, width, WORDS):
        root = ET.fromstring(svg)
        assert root.attrib["viewBox"] == f"0 0 {sheet.width:g} {sheet.height:g}"
        assert (root.attrib["width"], root.attrib["height"]) == (f"{sheet.width:g}mm", f"{sheet.height:g}mm")
        rects = cut(root)
        for rect in rects:
            assert rect[0] >= 0
            assert rect[2] <= sheet.width + 0.02
            assert rect[3] <= sheet.height + 0.02
            assert rect[2] - rect[0] == pytest.approx(wide, abs=0.02)
            sizes.append(rect[3] - rect[1])
        shrunk = [(x + 0.05, y + 0.05, right - 0.05, bottom - 0.05) for x, y, right, bottom in rects]
        assert [pair for pair in combinations(shrunk, 2) if meet(*pair)] == []
    assert sorted(round(size, 1) for size in sizes) == [21.4] * len(labels) + [38.5] * len(labels[:5])


@given(LABELS)
@settings(max_examples=40, deadline=None)
def test_a_text_is_repeated_within_the_printed_zone_and_is_no_longer_than_its_label(
    labels: list[Wrapped],
) -> None:
    wide = SHEETS["A4"].width / 3
    seen = 0
    for svg in wrap_sheets([Band("thin", 8.0, 13.4, 2, tuple(labels))], "A4", None, WORDS):
        root = ET.fromstring(svg)
        texts = said(root)
        for rect in cut(root):
            inside = [t for t in texts if rect[0] <= t[1] < rect[2] and rect[1] < t[2] <= rect[1] + 8.0]
            assert len(inside) == 2
            assert len({t[0] for t in inside}) == 1
            text, _, _, size = inside[0]
            assert text_width(text, size) <= wide - 2 * EDGE_MM + 0.1
            assert size <= 3.5
            assert size >= LEAST_LETTERS_MM - 0.01
            seen += 1
            assert text in {" ".join(part for part in one if part) for each in labels for one in each.texts}
    assert seen == len(labels)


def test_the_whole_text_stands_where_it_fits_and_the_number_alone_where_nothing_else_does() -> None:
    short, far, long = (
        label("1A", "fan", "fan"),
        label("2A", "x" * 40, "lamp"),
        label("3A", "y" * 40, "z" * 60),
    )
    (svg,) = wrap_sheets([Band("thin", 8.0, 13.4, 2, (short, far, long))], "letter", None, WORDS)
    texts = [text for text, *_ in said(ET.fromstring(svg))]
    assert texts[2:] == ["1A fan + → fan"] * 2 + ["2A → lamp"] * 2 + ["3A"] * 2


def test_the_line_to_measure_is_as_long_as_it_says() -> None:
    (svg,) = wrap_sheets([Band("thin", 8.0, 13.4, 2, (label("1A", "fan", "fan"),))], "A4", None, WORDS)
    mark = next(p.attrib["d"] for p in ET.fromstring(svg).iter(f"{SVG}path") if p.get("class") == "wl-mark")
    assert f"h{MARK_MM:g}" in mark
    assert MARK_MM == 50.0


@pytest.mark.parametrize("paper", ["A4", "letter", "A5"])
def test_squares_for_a_pen_are_large_and_each_says_what_to_write(paper: str) -> None:
    texts = [f"{n}A water pump + → pump relay" for n in range(1, 120)]
    found: list[str] = []
    for svg in pen_sheets(texts, paper, WORDS):
        root = ET.fromstring(svg)
        written = said(root)[1:]
        for x, y, right, bottom in cut(root):
            assert right - x == pytest.approx(bottom - y, abs=0.02)
            assert right - x > 25.4
            assert bottom <= SHEETS[paper].height + 0.02
            lines = [t for t in written if t[0] and x <= t[1] < right and y < t[2] <= bottom]
            assert min(t[2] - t[3] for t in lines) - y > 15.0  # room for a pen
            found.append(" ".join(t[0] for t in lines))
    assert found == texts
