"""What a browser and a screen reader need of every page: links, anchors, headings, tables, pictures, names."""

from __future__ import annotations

import re
from itertools import pairwise
from urllib.parse import unquote, urlsplit

from bs4 import Tag
from published import Site, text_of

ADDRESSES = (("a", "href"), ("link", "href"), ("script", "src"), ("img", "src"))


def addresses(site: Site, page: str) -> list[str]:
    parsed = site.pages[page]
    return [str(tag[key]) for name, key in ADDRESSES for tag in parsed.find_all(name, attrs={key: True})]


def ids(page: Tag) -> list[str]:
    return [str(tag["id"]) for tag in page.find_all(id=True)]


def names(page: Tag) -> set[str]:
    return {*ids(page), *(str(tag["name"]) for tag in page.find_all("a", attrs={"name": True}))}


def test_every_link_and_anchor_resolves(site: Site) -> None:
    followed = 0
    for page in site.pages:
        for address in addresses(site, page):
            parts = urlsplit(address)
            if parts.scheme == "data" or address in ("", "#", "javascript:void(0)"):
                continue
            assert (parts.scheme, parts.netloc) == ("", ""), (page, address)
            target = unquote(parts.path) or page
            assert (site.folder / target).is_file(), (page, address)
            if parts.fragment:
                followed += 1
                assert unquote(parts.fragment) in names(site.pages[target]), (page, address)
    assert followed > 100


def test_links_leave_neither_the_folder_nor_the_disk(site: Site) -> None:
    root = site.folder.resolve()
    for page in site.pages:
        for address in addresses(site, page):
            path = unquote(urlsplit(address).path)
            assert not path.startswith("/"), (page, address)
            if path and urlsplit(address).scheme == "":
                assert (root / path).resolve().is_relative_to(root), (page, address)


def test_every_page_but_the_first_is_linked_from_another(site: Site) -> None:
    linked = {
        urlsplit(str(link["href"])).path
        for page in site.pages
        for link in site.article(page).find_all("a", href=True)
    }
    assert {page for page in site.pages if page not in linked} <= {
        "assumed.html",
        "index.html",
        "findings.html",
    }


def test_ids_are_unique_on_a_page(site: Site) -> None:
    for page, parsed in site.pages.items():
        found = ids(parsed)
        assert sorted({one for one in found if found.count(one) > 1}) == [], page


def test_headings_go_down_by_single_steps_from_one_title(site: Site) -> None:
    for page in site.pages:
        levels = [int(tag.name[1]) for tag in site.article(page).find_all(re.compile(r"h[1-6]"))]
        assert levels[0] == 1, page
        assert levels.count(1) == 1, page
        steps = [after - before for before, after in pairwise(levels)]
        assert all(step <= 1 for step in steps), page
        assert all(text_of(tag) for tag in site.article(page).find_all(re.compile(r"h[1-6]"))), page


def tables(site: Site, page: str) -> list[Tag]:
    return list(site.article(page).find_all("table"))


def test_tables_stand_in_a_named_holder_that_the_keyboard_reaches(site: Site) -> None:
    seen = 0
    for page in site.pages:
        labels = []
        for table in tables(site, page):
            seen += 1
            holder = table.parent
            assert isinstance(holder, Tag)
            assert "table-holder" in holder["class"], page
            assert holder["tabindex"] == "0", page
            assert holder["role"] == "region", page
            labels.append(str(holder["aria-label"]))
        assert all(labels), page
        assert len(labels) == len(set(labels)), (page, labels)
    assert seen > 50


def test_every_table_has_a_caption_and_names_its_columns_and_rows(site: Site) -> None:
    for page in site.pages:
        for table in tables(site, page):
            (caption,) = table.find_all("caption")
            assert text_of(caption), page
            columns = table.select("thead th")
            assert columns, page
            assert all(head.get("scope") == "col" and text_of(head) for head in columns), (
                page,
                text_of(caption),
            )
            rows = table.select("tbody tr")
            assert rows, (page, text_of(caption))
            for row in rows:
                first, *rest = row.find_all(["th", "td"])
                assert (first.name, first.get("scope")) == ("th", "row"), (page, text_of(row))
                assert {cell.name for cell in rest} == {"td"}, (page, text_of(row))
                assert len(rest) == len(columns) - 1, (page, text_of(row))


def test_no_cell_of_a_table_is_empty_but_those_to_be_filled_in(site: Site) -> None:
    for page in site.pages:
        for table in tables(site, page):
            for cell in table.find_all(["th", "td"]):
                assert text_of(cell) or cell.select(".blank"), (page, text_of(cell.parent or cell))


def test_lists_are_not_empty(site: Site) -> None:
    for page in site.pages:
        for made in site.article(page).find_all(["ul", "ol", "dl"]):
            assert made.find(["li", "dt"]) is not None, page
            assert all(text_of(item) for item in made.find_all(["li", "dt", "dd"])), page


def test_pictures_are_hidden_from_a_screen_reader_or_have_a_name(site: Site) -> None:
    seen = 0
    for page in site.pages:
        for picture in site.article(page).find_all("svg"):
            seen += 1
            assert picture.get("aria-hidden") == "true" or picture.find("title") is not None, page
        for picture in site.article(page).find_all("img"):
            assert picture.has_attr("alt"), page
            assert not picture.has_attr("data-picture"), page
    assert seen > 100


def test_the_colour_beside_every_picture_is_said_in_words(site: Site) -> None:
    for page in site.pages:
        for chip in site.article(page).select("span.fuse, span.wire"):
            assert text_of(chip), page
            if chip.find("svg") is not None:
                words = {word for word in text_of(chip).split() if word.isalpha() and word.islower()}
                assert words, (page, text_of(chip))


def test_each_page_says_its_language_and_its_name(site: Site) -> None:
    for page, parsed in site.pages.items():
        assert parsed.html is not None
        assert parsed.title is not None
        assert parsed.html["lang"] == "en", page
        heading = site.article(page).find("h1")
        assert isinstance(heading, Tag)
        assert text_of(parsed.title) == f"{text_of(heading)} - Plum Ladder wiring manual"


def test_each_head_names_trailer_number_edition_and_content(site: Site) -> None:
    contents = set()
    for page in site.pages:
        head = site.article(page).select_one(".page-head")
        assert head is not None, page
        text = " ".join(head.get_text(" ").split())
        said = {"owner": "owner's manual", "workshop": "workshop manual"}[site.edition]
        found = re.fullmatch(
            rf"Plum Ladder no\. 7 {said} ?, content ([2-9A-Z]{{4}}-[2-9A-Z]{{4}})( Find a part)?", text
        )
        assert found is not None, (page, text)
        assert (found.group(2) is None) == (page == "find.html"), page
        contents.add(found.group(1))
    assert len(contents) == 1


def test_the_printed_sheet_names_them_too(site: Site) -> None:
    sheet = (site.folder / "assets" / "print.css").read_text(encoding="utf-8")
    head = site.article("index.html").select_one(".page-head .code")
    assert head is not None
    assert '"Plum Ladder"' in sheet
    assert f'"{text_of(head)}"' in sheet


def test_titles_and_anchors_of_landings_are_told_apart(owner: Site) -> None:
    rows = owner.article("find.html").select("tbody tr")
    assert len(rows) > 40
    assert all(str(row.get("id", "")).startswith(("part-", "place-")) for row in rows)
    assert (
        sum(str(row["id"]).startswith("place-") for row in rows) == 4
    )  # battery, front box, ground bar, tow plug


def test_find_it_can_be_jumped_through_by_letter(site: Site) -> None:
    article = site.article("find.html")
    heads = {
        str(row["id"]): text_of(row.select_one("th") or row)[0].upper() for row in article.select("tbody tr")
    }
    jumps = {text_of(link): str(link["href"]).removeprefix("#") for link in article.select("p.letters a")}
    assert set(jumps) == set(heads.values())
    for letter, anchor in jumps.items():
        assert anchor == next(row for row, first in heads.items() if first == letter)
