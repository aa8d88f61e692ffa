"""The published pages hold together: links, anchors, headings, tables, words."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from urllib.parse import unquote, urlsplit

import pytest
from bs4 import Tag
from example_site import Site, kind_of

BANNED = re.compile(r"\b(safe|safely|compliant|compliance|certified|certify|guarantee[sd]?)\b", re.IGNORECASE)


def test_every_link_and_anchor_resolves(site: Site) -> None:
    ids = {name: {str(tag["id"]) for tag in page.select("[id]")} for name, page in site.pages.items()}
    for name, page in site.pages.items():
        for link in page.select("a[href]"):
            address = urlsplit(str(link["href"]))
            if address.scheme or str(link["href"]).startswith("data:"):
                pytest.fail(f"{name} links outside: {link}")
            target = unquote(address.path) or name
            if target.endswith(".html") or target == name:
                assert target in site.pages, (name, link)
                if address.fragment and not address.fragment.startswith("__"):
                    assert unquote(address.fragment) in ids[target], (name, link)
            elif target not in (".", "./", ""):
                assert (site.folder / target).exists(), (name, link)


def test_nothing_is_asked_from_outside(site: Site) -> None:
    for name, page in site.pages.items():
        for tag in page.select("[src], link[href]"):
            address = str(tag.get("src") or tag.get("href"))
            assert not urlsplit(address).scheme or address.startswith("data:"), (name, tag)


def test_ids_stand_once(site: Site) -> None:
    for name in site.pages:
        found = [str(tag["id"]) for tag in site.article(name).select("[id]")]
        assert len(found) == len(set(found)), name


def test_headings_come_in_order(site: Site) -> None:
    for name in site.pages:
        levels = [int(str(tag.name)[1]) for tag in site.article(name).find_all(re.compile("^h[1-6]$"))]
        assert levels.count(1) == 1, name
        assert levels[0] == 1, name
        assert all(after <= before + 1 for before, after in pairwise(levels)), (
            name,
            levels,
        )
        assert all(tag.get_text(strip=True) for tag in site.article(name).find_all(re.compile("^h[1-6]$"))), (
            name
        )


def test_tables_can_be_heard_and_reached(site: Site) -> None:
    for name in site.pages:
        labels = []
        for table in site.article(name).find_all("table"):
            assert isinstance(table, Tag)
            holder = table.parent
            assert isinstance(holder, Tag)
            assert "table-holder" in holder["class"], name
            assert holder["tabindex"] == "0", name
            labels.append(holder["aria-label"])
            assert table.caption is not None, name
            assert table.caption.get_text(strip=True), name
            for head in table.select("th"):
                assert head.get("scope") in ("col", "row"), (name, head)
                assert head.get_text(strip=True), (name, table.caption)
            for row in table.select("tbody tr"):
                assert len(row.select("th, td")) == len(table.select("thead th")), (name, row)
                assert all(cell.get_text(strip=True) for cell in row.select("td")), (name, row)
        assert len(labels) == len(set(labels)), (name, labels)


def test_pictures_are_silent_or_titled(site: Site) -> None:
    for name in site.pages:
        for svg in site.article(name).find_all("svg"):
            assert svg.get("aria-hidden") == "true" or svg.find("title"), (name, svg)
        assert not site.article(name).select("img[data-picture]"), name


def test_every_page_names_trailer_number_and_content(site: Site) -> None:
    for name, page in site.pages.items():
        head = site.article(name).select_one(".page-head")
        assert head is not None, name
        text = " ".join(head.get_text(" ", strip=True).split())
        assert text.startswith("Plum Ladder no. 7"), (name, text)
        assert re.search(r"content [0-9A-Z]{4}-[0-9A-Z]{4}", text), (name, text)
        assert page.html is not None
        assert page.html["lang"] == "en"
        assert page.title is not None
        assert page.title.get_text(strip=True), name


def test_nothing_is_promised(site: Site) -> None:
    for name in site.pages:
        found = BANNED.search(site.article(name).get_text(" "))
        assert found is None, (name, found)


def test_no_leftovers(site: Site) -> None:
    for name in site.pages:
        text = site.article(name).get_text(" ")
        for leftover in ("None", "undefined", "%(", "{{", "}}", "..  ", "/work/", "Markup("):
            assert leftover not in text, (name, leftover)


def test_the_owner_gets_no_workshop_things(owner: Site, workshop: Site) -> None:
    assert "findings.html" in workshop.pages
    assert "findings.html" not in owner.pages
    assert not (owner.folder / "data").exists()
    kept = {name for name in workshop.pages if name != "findings.html"}
    assert owner.pages.keys() == kept
    for name in owner.pages:
        text = owner.article(name).get_text(" ")
        assert not re.search(r"\b(must|should) fix\b", text), name
        heads = [head.get_text(strip=True) for head in owner.article(name).select("thead th")]
        assert "Bears" not in heads, name
        assert "Known from" not in heads, name


def test_every_part_is_found_in_alphabet(site: Site) -> None:
    rows = [row.get_text(" ", strip=True) for row in site.article("find.html").select("tbody th")]
    assert rows == sorted(rows, key=str.casefold)
    named = " ".join(rows)
    for terminal in (end for wire in site.record["wires"] for end in (wire["from"], wire["to"])):
        if terminal["part"] not in ("front box", "battery", "tow plug", "frame"):
            assert terminal["part"] in named


def test_every_wire_can_be_found_by_number(site: Site) -> None:
    text = site.article("wires.html")
    for wire in (*site.record["wires"], *site.record["spares"]):
        row = text.select_one(f"#wire-{wire['number'].lower()}")
        assert row is not None, wire["number"]
        assert wire["color"].split(" with ")[0] in row.get_text()


def test_the_search_index_holds_every_page(site: Site) -> None:
    script = (site.folder / "search" / "search_index.js").read_text(encoding="utf-8")
    index = json.loads(script.partition("=")[2].rstrip().rstrip(";"))
    found = {entry["location"].partition("#")[0] for entry in index["docs"]}
    assert {name for name in site.pages if name != "index.html"} <= found
    assert all("<svg" not in entry["text"] for entry in index["docs"])


def test_page_kinds_are_known(site: Site) -> None:
    assert {kind_of(name) for name in site.pages} >= {
        "index",
        "circuit",
        "fuses",
        "wires",
        "find",
        "worked",
        "assumed",
    }
