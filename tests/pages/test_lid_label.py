"""The label inside the lid: a code that another library reads, and lines that help without it."""

from __future__ import annotations

import re

import pytest
import zxingcpp
from bs4 import BeautifulSoup, Tag
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.drawings.lid_code import code_squares, fits_code, lid_code
from builder.pages.lid_label import PICTURE, lid_files
from builder.pages.page_labels import labels_page
from builder.pages.rounding import Reader
from builder.pages.templates import render
from builder.pages.verdict import judge_build
from builder.pages.view import Edition, View

BUILD = """format: 1
build: {name: Bean Row, number: 3, country: US%s}
battery: {chemistry: agm, capacity: 35 Ah, where: on the tongue, path: [main fuse: 5 in%s, front box: 4 ft]}
front box: {fuse ways: 6}
"""
SWITCHED = ", isolating switch: 1 ft"
ALL = ', address: "https://example.org/b?row=3&x=1", manual kept: behind the bed, ask: the maker'


def view(build: str = "", path: str = "") -> View:
    judged = judge_build((BUILD % (build, path)).encode(), "trailer.yaml").judged
    assert judged is not None
    return View(judged.trailer, judged.figures, judged.findings, Edition(Reader.WORKSHOP, "2222-3333"))


def drawn(svg: str, pixels: int = 6) -> memoryview:
    """Return a code's picture as grey pixels, drawn from its squares by hand."""
    picture = BeautifulSoup(svg, "html.parser").svg
    assert picture is not None
    side = int(str(picture["viewbox"] if "viewbox" in picture.attrs else picture["viewBox"]).split()[2])
    field = [bytearray(b"\xff" * side * pixels) for _ in range(side * pixels)]
    for x, y in re.findall(r"M(\d+) (\d+)h1v1h-1z", str(picture.find_all("path")[1]["d"])):
        for row in range(int(y) * pixels, (int(y) + 1) * pixels):
            field[row][int(x) * pixels : (int(x) + 1) * pixels] = b"\x00" * pixels
    return memoryview(b"".join(field)).cast("B", shape=[side * pixels, side * pixels])


def read(svg: str) -> str:
    (found,) = zxingcpp.read_barcodes(drawn(svg))
    assert found.format == zxingcpp.BarcodeFormat.QRCode
    return str(found.text)


def label(seen: View) -> str:
    page = BeautifulSoup(render("pages/labels.md.jinja", seen.language, labels_page(seen)), "html.parser")
    found = page.select_one(".lid-label")
    assert found is not None
    return " ".join(found.get_text(" ").split())


def test_the_code_holds_the_address() -> None:
    seen = view(ALL)
    assert read(lid_files(seen)[PICTURE]) == "https://example.org/b?row=3&x=1"
    assert "https://example.org/b?row=3&x=1" in label(seen)


def test_without_an_address_it_holds_name_and_numbers() -> None:
    seen = view()
    assert read(lid_files(seen)[PICTURE]) == "Bean Row no. 3, content 2222-3333"
    assert "Bean Row no. 3, content 2222-3333" in label(seen)


def test_an_address_too_long_for_a_small_code_is_told() -> None:
    seen = view(f", address: https://example.org/{'a' * 400}")
    assert read(lid_files(seen)[PICTURE]) == "Bean Row no. 3, content 2222-3333"
    page = render("pages/labels.md.jinja", seen.language, labels_page(seen))
    assert "Write a shorter one under “address” in the build file" in page


def test_its_lines_say_switch_manual_and_whom_to_ask() -> None:
    told = label(view(ALL, SWITCHED))
    for line in ("Main switch: isolating switch", "Manual: behind the bed", "Ask: the maker"):
        assert line in told
    assert "Main switch: none. All wires come off the battery's minus post, on the tongue" in label(view(ALL))


def test_what_is_not_told_is_left_open_to_write() -> None:
    page = render("pages/labels.md.jinja", "en", labels_page(view()))
    found = BeautifulSoup(page, "html.parser").select_one(".lid-label")
    assert found is not None
    assert len(found.select(".blank-place")) == 2


@given(st.text(st.characters(codec="utf-8", exclude_categories=["C"]), min_size=1, max_size=60))
@settings(max_examples=15, deadline=None)
def test_any_words_come_back(words: str) -> None:
    assert fits_code(words)
    assert read(lid_code(words, "words")) == words


def test_words_that_fit_no_code_are_refused() -> None:
    assert not fits_code("a" * 5000)
    with pytest.raises(ValueError, match="Data"):
        code_squares("a" * 5000)


LAMP = """wire: {label length: %s}
parts: {lamp over the door: {kind: lamp, draws: 3 W}}
circuits: {light: {path: [lamp over the door: 6 ft]}}
"""


def long_labels(length: str) -> list[list[str]]:
    return long_labels_of(BUILD % ("", "") + LAMP % length)


def long_labels_of(build: str) -> list[list[str]]:
    judged = judge_build(build.encode(), "trailer.yaml").judged
    assert judged is not None
    seen = View(judged.trailer, judged.figures, judged.findings, Edition(Reader.WORKSHOP, "2222-3333"))
    page = BeautifulSoup(render("pages/labels.md.jinja", seen.language, labels_page(seen)), "html.parser")
    holder = page.find(attrs={"aria-label": "Labels that are too long"})
    rows = holder.select("tbody tr") if isinstance(holder, Tag) else []
    return [[cell.get_text(" ", strip=True) for cell in row.find_all(["th", "td"])] for row in rows]


def test_a_label_longer_than_its_tape_is_told_with_what_to_write() -> None:
    """“1A light + → lamp over the door” has 31 signs of 2.2 mm: 68 mm; without its purpose 23 signs, 51 mm."""
    told = {row[1]: (row[2], row[3]) for row in long_labels("60 mm")}
    assert told["1A light + → lamp over the door"] == ("2 5/8 in", "1A → lamp over the door")
    assert {row[3] for row in long_labels("30 mm") if row[1].endswith("door")} == {"1A", "1B"}


def test_where_even_the_number_is_too_long_a_longer_label_is_asked_for() -> None:
    """The numbers of the tenth circuit have three signs of 2.2 mm; the others have two and fit on 5 mm."""
    parts = ", ".join(f"lamp {n}: {{kind: lamp, draws: 1 W}}" for n in range(1, 11))
    circuits = ", ".join(f"light {n}: {{path: [lamp {n}: 6 ft]}}" for n in range(1, 11))
    lamps = f"wire: {{label length: 5 mm}}\nparts: {{{parts}}}\ncircuits: {{{circuits}}}\n"
    told = {row[3] for row in long_labels_of(BUILD.replace("ways: 6", "ways: 12") % ("", "") + lamps)}
    assert {"1A", "9B", "10A, on a longer label", "10B, on a longer label"} <= told


def test_no_label_is_too_long_where_none_is_or_no_length_is_told() -> None:
    assert long_labels("8 in") == []
    assert "Labels that are too long" not in str(labels_page(view()))
