"""Names that want to be markup, formulas or file names come out as text everywhere."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from example_site import Site, publish, source_of

HOSTILE = (
    "<script>alert(1)</script>",
    '" onmouseover="alert(2)',
    "![x](javascript:alert(3))",
    "[a](javascript:alert(4))",
    "{{ config }} {% raw %}",
    "{: onclick=alert(5) }",
    "*bold* _it_ `code` # head | cell \\ end",
    "=1+1",
    "+cmd|' /C calc'!A0",
    "@SUM(A1)",
    "con",
    "aux.",
    "..",
    "&lt;b&gt; &amp; %(name)s",
    "1. first - then",
    "לוח חשמל",
    "灯 🔦 lamp",
    "STEP lamp",
    "n" * 100,
)
HARMLESS = tuple(f"part number {n}" for n in range(len(HOSTILE)))
RESERVED = {
    "con",
    "prn",
    "aux",
    "nul",
    *(f"com{n}" for n in range(1, 10)),
    *(f"lpt{n}" for n in range(1, 10)),
}


def build_of(names: tuple[str, ...]) -> str:
    """Return a build in which every name and every free text is one of these."""
    quoted = [json.dumps(name, ensure_ascii=False) for name in names]
    usable = [name for name in quoted if re.search(r"\w", json.loads(name))]
    lines = [
        "format: 1",
        f"build: {{name: {usable[0]}, number: {usable[6]}, country: US, description: {usable[1]}, stage: {usable[2]}}}",
        f"battery: {{chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft, where: {usable[3]}}}",
        f"front box: {{fuse ways: 30, where: {usable[4]}}}",
        "parts:",
        *(f"  {name}: {{kind: lamp, draws: 3 W, where: {name}, note: {name}}}" for name in usable),
        "circuits:",
        *(f"  {name}: {{path: [{name}: 3 ft], note: {name}}}" for name in usable),
        "spares:",
        f"  {usable[7]}: {{from: {usable[8]}, to: {usable[9]}, wire: 9 ft}}",
    ]
    return "\n".join(lines) + "\n"


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Site:
    return publish(tmp_path_factory.mktemp("hostile") / "manual", build_of(HOSTILE), "workshop")


@pytest.fixture(scope="module")
def harmless(tmp_path_factory: pytest.TempPathFactory) -> Site:
    return publish(tmp_path_factory.mktemp("harmless") / "manual", build_of(HARMLESS), "workshop")


def usable() -> list[str]:
    return [name for name in HOSTILE if re.search(r"\w", name)]


def test_each_name_is_shown_letter_by_letter(hostile: Site) -> None:
    heads = {row.get_text(strip=True) for row in hostile.article("find.html").select("tbody th")}
    assert {" ".join(name.split()) for name in usable()} <= heads
    titles = {page.h1.get_text(strip=True) for page in hostile.pages.values() if page.h1 is not None}
    for name in usable():
        assert name[:1].upper() + name[1:] in titles


def tags_and_attributes(page: BeautifulSoup) -> set[tuple[str, str]]:
    return {(tag.name, attribute) for tag in page.find_all(True) for attribute in (*tag.attrs, "")}


def test_no_element_attribute_or_link_that_a_harmless_build_lacks(hostile: Site, harmless: Site) -> None:
    known = set().union(*(tags_and_attributes(page) for page in harmless.pages.values()))
    for name, page in hostile.pages.items():
        assert tags_and_attributes(page) <= known, name
        for link in page.select("[href], [src]"):
            address = str(link.get("href") or link.get("src"))
            assert "javascript:" not in address.casefold(), (name, link)
        assert len(page.find_all("script")) == len(harmless.pages["index.html"].find_all("script")), name


def test_titles_and_menu_are_text(hostile: Site) -> None:
    for name, page in hostile.pages.items():
        assert page.title is not None
        assert "<script>alert(1)</script>" in page.title.get_text() or name == "404.html"
        assert not page.title.find(True)


def test_file_names_are_plain_and_their_own() -> None:
    files = list(source_of(build_of(HOSTILE)).files)
    for file in files:
        stem = Path(file).stem
        assert re.fullmatch(r"[a-z0-9-]+", stem) or file.startswith("assets/"), file
        assert stem not in RESERVED, file
        assert len(stem) < 100
    assert len({file.casefold() for file in files}) == len(files)


def test_no_cell_of_the_wire_list_is_a_formula() -> None:
    content = source_of(build_of(HOSTILE)).files["data/wires.csv"]
    rows = list(csv.reader(io.StringIO(str(content))))
    assert len(rows) > len(usable())
    for row in rows:
        for cell in row:
            assert not cell.startswith(("=", "+", "-", "@", "\t")) or re.fullmatch(r"-?\d+(\.\d+)?", cell), (
                cell
            )


def test_the_record_keeps_the_names() -> None:
    record = json.loads(str(source_of(build_of(HOSTILE)).files["data/figures.json"]))
    assert {circuit["name"] for circuit in record["circuits"]} >= {
        " ".join(name.split()) for name in usable()
    }
