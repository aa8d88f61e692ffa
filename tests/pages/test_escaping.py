"""Names and texts on their way into Markdown, addresses, spreadsheets and style sheets."""

from __future__ import annotations

import csv
import html
import io
import re

import markdown
import pytest
from bs4 import BeautifulSoup
from hypothesis import example, given
from hypothesis import strategies as st

from builder.pages.csv_files import csv_text
from builder.pages.escaping import (
    LONGEST_SLUG,
    css_string,
    html_text,
    markdown_text,
    slug,
    spreadsheet_cell,
    unique_slugs,
)

RESERVED = ["con", "prn", "aux", "nul", *(f"{name}{n}" for name in ("com", "lpt") for n in range(1, 10))]
TEXTS = st.text(st.characters(exclude_categories=("Cc", "Cs")), max_size=60)
SIGNS = st.text(st.sampled_from("<>\"'&|[](){}:#*_~`!\\/=+-@^$% .,;1aé🔥א"), max_size=30)
NAMES = st.one_of(TEXTS, SIGNS)


@given(NAMES)
@example("<script>alert(1)</script>")
@example("&amp; &#60;")
@example("[a](b) ![c](d)")
@example("1. one")
@example("    four blanks")
@example("{: .c #i onclick=x }")
@example("setext ===")
@example("---")
def test_markdown_shows_a_text_letter_by_letter(text: str) -> None:
    page = BeautifulSoup(
        markdown.markdown(f"# {markdown_text(text)}\n\nx", extensions=["attr_list", "tables"]), "html.parser"
    )
    shown = page.find("h1")
    wanted = " ".join(text.split())
    if not wanted:
        return
    assert shown is not None
    assert shown.find_all(True) == []
    assert not shown.attrs
    assert " ".join(shown.get_text().split()) == wanted


@given(NAMES)
def test_a_slug_is_fit_for_an_address_and_a_file_on_any_system(text: str) -> None:
    made = slug(text)
    assert re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", made)
    assert len(made) <= LONGEST_SLUG + 2
    assert made not in RESERVED
    assert slug(made) == made or made.endswith("-x")
    assert slug(text.swapcase()) == made or not text.isascii()


@pytest.mark.parametrize("name", [*RESERVED, "CON", "Aux.", "nul!", "com¹"])
def test_a_reserved_word_is_never_a_slug(name: str) -> None:
    assert slug(name).casefold() not in RESERVED


@pytest.mark.parametrize(
    ("name", "made"),
    [
        ("Step lamp, left", "step-lamp-left"),
        ("café", "cafe"),
        ("  two   blanks ", "two-blanks"),
        ("conduit", "conduit"),
        ("7.5 A", "7-5-a"),
    ],
)
def test_a_slug_reads_like_its_name(name: str, made: str) -> None:
    assert slug(name) == made


@given(st.lists(NAMES, unique=True, max_size=12), st.sampled_from(["", "part-"]))
@example(["a", "a!", "a 2", "a-2", "A", "a 3"], "part-")
@example(["a 2", "a", "a!"], "")
@example(["🔥", "א", "..", "x"], "part-")
def test_unique_slugs_tell_all_names_apart(names: list[str], prefix: str) -> None:
    made = unique_slugs(names, prefix)
    assert list(made) == names
    assert len({address.casefold() for address in made.values()}) == len(names)
    assert all(address.startswith(prefix) for address in made.values())
    assert unique_slugs(names, prefix) == made


def test_a_name_alone_keeps_its_plain_slug() -> None:
    assert unique_slugs(["fan", "lamp"], "part-") == {"fan": "part-fan", "lamp": "part-lamp"}


@given(NAMES)
@example("")
@example("=1+1")
@example("-5")
@example("-5+cmd")
@example("\t=1")
@example("\r=1")
@example("@SUM(A1)")
def test_no_spreadsheet_cell_starts_a_formula_and_none_loses_a_letter(text: str) -> None:
    cell = spreadsheet_cell(text)
    assert cell in (text, f"'{text}")
    starts = text[:1] in tuple("=+-@\t\r")
    is_number = re.fullmatch(r"-?\d+(\.\d+)?", text) is not None
    assert (cell != text) == (starts and not is_number)


@given(st.lists(st.lists(NAMES, min_size=1, max_size=4), max_size=5))
def test_a_table_reads_back_from_csv(rows: list[list[str]]) -> None:
    text = csv_text(rows)
    read = list(csv.reader(io.StringIO(text, newline="")))
    wanted = [[spreadsheet_cell(cell) for cell in row] for row in rows]
    assert [row or [""] for row in read] == wanted


@given(st.text(st.characters(exclude_categories=("Cs",)), max_size=60))
@example('"} body{display:none} a{content:"')
@example("\\")
@example("\n\r\f")
@example("</style>")
def test_a_css_string_is_one_string_and_gives_its_text_back(text: str) -> None:
    made = css_string(text)
    assert re.fullmatch(r'"(?:[^"\\\n\r\f<>]|\\[0-9a-f]{6} )*"', made)
    assert re.sub(r"\\([0-9a-f]{6}) ", lambda found: chr(int(found[1], 16)), made[1:-1]) == text


@given(NAMES)
def test_html_text_is_text(text: str) -> None:
    made = html_text(text)
    assert not re.search(r"[<>\"']", made)
    assert html.unescape(made) == re.sub("[\u202a-\u202e\u2066-\u2069\u200e\u200f]", "", text)


def test_html_text_leaves_out_marks_that_turn_what_follows() -> None:
    assert html_text("a\u202eb\u2066c\u200f") == "abc"
