"""Symbols, widths of texts, tracks and the style of the drawings."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from svg_reading import parsed

from builder.drawings.contrast import contrast_ratio
from builder.drawings.style import DARK, LIGHT, PAPER, RULES, own_style
from builder.drawings.symbols import SYMBOLS, symbol
from builder.drawings.text_width import cut, text_width, visible, wrapped
from builder.drawings.tracks import Net, tracks
from builder.tables.part_kinds import part_kinds
from builder.tables.wire_colours import colour_words, screen_colour

SHEET = Path(__file__).parents[2] / "themes" / "manual" / "assets" / "drawings.css"
PINS = [
    ((), ("+",)),
    (("in",), ("out",)),
    (("in",), ("out 1", "out 2", "−")),
    (("in 1", "in 2"), ("common",)),
]


def test_every_kind_of_part_has_a_symbol() -> None:
    split = {"relay": ("relay coil", "relay contact")}
    for kind in part_kinds():
        assert all(name in SYMBOLS for name in split.get(kind, (kind,))), kind


@pytest.mark.parametrize("kind", sorted(SYMBOLS))
@pytest.mark.parametrize("pins", PINS)
def test_a_symbol_stays_within_its_measures(kind: str, pins: tuple[tuple[str, ...], tuple[str, ...]]) -> None:
    drawn = symbol(kind, *pins)
    parsed(f"<g>{drawn.shapes}</g>")
    for x in (*drawn.tops, *drawn.bottoms):
        assert -drawn.left <= x <= drawn.right
    for match in re.finditer(r'<path[^>]* d="M(-?[\d.]+) (-?[\d.]+)L(-?[\d.]+) (-?[\d.]+)"', drawn.shapes):
        x1, y1, x2, y2 = (float(n) for n in match.groups())
        assert -drawn.left <= min(x1, x2)
        assert max(x1, x2) <= drawn.right
        assert min(y1, y2) >= 0
        assert max(y1, y2) <= drawn.height


def test_a_kind_without_a_symbol_is_a_box() -> None:
    assert symbol("weather station") == symbol("appliance")


@given(st.text(max_size=80), st.floats(30, 200))
def test_wrapped_lines_fit(text: str, width: float) -> None:
    lines = wrapped(text, width, 12)
    assert len(lines) <= 3
    assert all(text_width(line, 12) <= width for line in lines)
    joined = "".join(lines).replace(" ", "")
    whole = visible(text).replace(" ", "")
    assert joined == whole or joined.endswith("…")


def test_width_of_a_known_text() -> None:
    # widths of an Arial-compatible font (from memory): A 667, space 278, m 833 thousandths of the size
    assert text_width("A m", 10) == pytest.approx(17.78 * 1.06)
    assert cut("mmmm", 10, 10) == "…"


def test_texts_lose_what_would_turn_or_break_the_line() -> None:
    assert visible("a\u202eb\nc\td\u200e") == "a b c d"


def test_nets_that_overlap_lie_on_different_tracks() -> None:
    nets = [Net(("a",), [0], [100]), Net(("b",), [50], [150]), Net(("c",), [200], [260])]
    found = tracks(nets)
    assert found[("a",)] != found[("b",)]
    assert found[("c",)] == 0


def test_a_line_comes_down_below_one_that_goes_up_at_the_same_place() -> None:
    nets = [Net(("low",), [0], [100]), Net(("high",), [100], [180])]
    found = tracks(nets)
    assert found[("high",)] < found[("low",)]


def test_the_style_sheet_says_what_a_file_of_its_own_says() -> None:
    sheet = re.sub(r"/\*.*?\*/", "", SHEET.read_text("utf-8"), flags=re.DOTALL)
    bare = re.sub(r"\s+", "", sheet).replace(";}", "}")
    for rule in RULES:
        assert re.sub(r"\s+", "", rule) in bare
    selectors = re.findall(r"([^{}@]+)\{", re.sub(r"@media[^{]+\{", "", sheet))
    assert all(one.strip().startswith(".wd") for selector in selectors for one in selector.split(","))


def test_dark_is_for_screens_and_paper_comes_last() -> None:
    style = own_style()
    assert style.index("@media print") > style.index("@media screen and (prefers-color-scheme:dark)")
    assert style.rstrip("}").endswith(PAPER)


def inks(scheme: str) -> dict[str, str]:
    return dict(re.findall(r"--(\w+):(#[0-9a-f]{6})", scheme))


@pytest.mark.parametrize("scheme", [LIGHT, DARK, PAPER])
def test_contrast_of_letters_symbols_and_wires(scheme: str) -> None:
    # WCAG 2.2: 1.4.3 asks 4.5 of text, 1.4.11 asks 3 of what a reader must see
    ink = inks(scheme)
    assert contrast_ratio(ink["in"], ink["pg"]) >= 4.5
    assert contrast_ratio(ink["mu"], ink["pg"]) >= 4.5
    for word in colour_words():
        core = screen_colour(word)
        assert max(contrast_ratio(core, ink["pg"]), contrast_ratio(ink["ed"], ink["pg"])) >= 3
