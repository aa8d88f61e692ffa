"""Names and texts that try to be more than text come out letter by letter, and add nothing to a page."""

from __future__ import annotations

import csv
import html
import json
import re
import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Mapping
from copy import copy
from html.parser import HTMLParser
from urllib.parse import unquote, urlsplit

import pytest
from bs4 import BeautifulSoup, Tag
from hostile_build import NAMES, TEXTS, build, harmless
from published import EDITIONS, Site, published, shape_of, sheets, source_of, text_of

PARTS = [
    name
    for key, name in NAMES.items()
    if not key.startswith(("circuit", "output")) and key not in ("trailer", "number", "spare", "rear lamp")
]
CIRCUITS = [name for key, name in NAMES.items() if key.startswith("circuit")]
VOID = {"meta", "link", "input", "br", "hr", "img", "col", "source", "wbr", "area", "base"}
RESERVED = {"con", "prn", "aux", "nul", *(f"{name}{n}" for name in ("com", "lpt") for n in range(1, 10))}


@pytest.fixture(scope="module", params=EDITIONS)
def pair(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Site, Site]:
    folder = tmp_path_factory.mktemp("hostile")
    plain = build(harmless(NAMES), harmless(TEXTS))
    return (
        published(build(NAMES, TEXTS), request.param, folder / "hostile"),
        published(plain, request.param, folder / "plain"),
    )


@pytest.fixture(scope="module")
def hostile(pair: tuple[Site, Site]) -> Site:
    return pair[0]


def plain_text(text: str) -> str:
    return " ".join(text.split())


def as_title(name: str) -> str:
    return name[:1].upper() + name[1:]


def test_every_part_is_found_under_its_own_name(hostile: Site) -> None:
    told = set()
    for head in map(copy, hostile.article("find.html").select("tbody th[scope=row]")):
        for under in head.select(".under"):  # a note, or that the part is still waited for
            under.extract()
        told.add(text_of(head))
    assert {plain_text(name) for name in PARTS} <= told
    for side in ("left", "right"):
        assert plain_text(f"{NAMES['rear lamp']} {side}") in told


def test_every_circuit_has_its_own_name_for_a_title(hostile: Site) -> None:
    found = {text_of(hostile.article(page).h1 or hostile.article(page)) for page in hostile.circuit_pages}
    assert {plain_text(as_title(name)) for name in CIRCUITS} <= found


def test_titles_menu_and_head_show_the_names(hostile: Site) -> None:
    trailer = plain_text(NAMES["trailer"])
    for page, parsed in hostile.pages.items():
        assert parsed.title is not None
        title = text_of(parsed.title)
        heading = text_of(hostile.article(page).h1 or parsed)
        assert title == f"{heading} - {trailer} wiring manual", page
        head = hostile.article(page).select_one(".page-head")
        assert head is not None
        assert text_of(head).startswith(f"{trailer} no. {NAMES['number']}"), page
        menu = {text_of(link) for link in parsed.select("nav.md-nav--primary a.md-nav__link")}
        assert {plain_text(as_title(name)) for name in CIRCUITS} <= menu, page


def test_free_texts_are_shown_as_they_were_written(hostile: Site) -> None:
    start = text_of(hostile.article("index.html"))
    circuit = text_of(hostile.article(next(page for page in hostile.pages if page.startswith("circuit-01-"))))
    find = text_of(hostile.article("find.html"))
    wires = text_of(hostile.article("wires.html"))
    for text, page in (
        (TEXTS["description"], start),
        (TEXTS["where box"], start),
        (TEXTS["where plug"], start),
        (TEXTS["note"], circuit),
        (TEXTS["where lamp"], find),
        (TEXTS["where fuse"], find),
        (TEXTS["waiting"], find),
        (TEXTS["spare from"], wires),
        (TEXTS["spare to"], wires),
    ):
        assert plain_text(text) in page, text


DRAWN = {"svg", "title", "desc", "g", "a", "path", "circle", "rect", "text", "tspan"}
LOOKS = {
    "class",
    "id",
    "d",
    "x",
    "y",
    "dx",
    "cx",
    "cy",
    "r",
    "rx",
    "width",
    "height",
    "viewbox",
    "transform",
    "role",
}
LOOKS |= {"stroke", "stroke-width", "fill", "text-anchor", "style", "href", "xmlns", "data-search-exclude"}
STYLE = re.compile(r"width:100%;max-width:[\d.]+px;height:auto|fill:#[0-9a-f]{6}")


def parsed(site: Site, page: str) -> BeautifulSoup:
    """Return a page without its drawings and the letters to jump by, which follow the names themselves.

    And without the class that only tells how wide a cell's longest word is.
    """
    made = copy(site.pages[page])
    for follows in made.select("figure.drawing, p.letters"):
        follows.decompose()
    for cell in made.select("th.long, td.long"):
        cell["class"] = [name for name in cell["class"] if name != "long"]
        if not cell["class"]:
            del cell["class"]
    return made


def test_no_element_or_attribute_is_there_that_a_harmless_build_lacks(pair: tuple[Site, Site]) -> None:
    one, other = pair
    for page, its_like in zip(_in_order(one), _in_order(other), strict=True):
        assert Counter(shape_of(parsed(one, page))) == Counter(shape_of(parsed(other, its_like))), page


def _in_order(site: Site) -> list[str]:
    """Return pages so that those of two builds of one shape stand side by side."""
    return sorted(site.pages, key=lambda page: page[:11] if page.startswith("circuit-") else page)


def test_every_attribute_of_a_harmless_build_has_the_same_kind_of_value(pair: tuple[Site, Site]) -> None:
    one, other = pair
    for page, its_like in zip(_in_order(one), _in_order(other), strict=True):
        pages = parsed(one, page), parsed(other, its_like)
        for key in ("class", "style", "type", "role", "scope", "tabindex"):
            found = [Counter(str(tag[key]) for tag in made.find_all(attrs={key: True})) for made in pages]
            assert found[0] == found[1], (page, key)


def test_drawings_are_made_of_shapes_and_letters_alone(hostile: Site) -> None:
    drawings = [svg for page in hostile.pages.values() for svg in page.select("figure.drawing svg")]
    assert len(drawings) > 5
    for svg in drawings:
        for tag in (svg, *svg.find_all(True)):
            assert tag.name in DRAWN
            assert {key.casefold() for key in tag.attrs if not key.startswith("aria-")} <= LOOKS, tag.attrs
            assert STYLE.fullmatch(str(tag.get("style", "fill:#000000")))
            assert re.fullmatch(r"#[\w%-]+|[\w-]+\.html(#[\w%-]+)?", str(tag.get("href", "#x")))


def test_a_drawing_by_itself_says_no_more_than_the_one_in_the_page(hostile: Site) -> None:
    kept = sorted(hostile.folder.glob("drawings/*.svg"))
    assert len(kept) - 1 == len(
        [page for page in hostile.circuit_pages if hostile.article(page).select("figure.drawing")]
    )
    for path in kept:
        svg = BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")
        assert {tag.name for tag in svg.find_all(True)} <= DRAWN | {"style"}
        links = [str(link["href"]) for link in svg.find_all("a")]
        assert all(link.startswith("#") or (path.parent / link.partition("#")[0]).is_file() for link in links)


def test_every_link_stays_inside_and_every_anchor_is_there(hostile: Site) -> None:
    ids = {
        page: {str(tag["id"]) for tag in parsed.find_all(id=True)} for page, parsed in hostile.pages.items()
    }
    for page, parsed in hostile.pages.items():
        assert len(ids[page]) == len(parsed.find_all(id=True)), page
        for link in parsed.find_all("a", href=True):
            parts = urlsplit(str(link["href"]))
            assert (parts.scheme, parts.netloc) == ("", ""), (page, link["href"])
            target = unquote(parts.path) or page
            assert target in hostile.pages or (hostile.folder / target).is_file(), (page, link["href"])
            if parts.fragment:
                assert unquote(parts.fragment) in ids[target], (page, link["href"])


def test_no_script_but_the_themes_runs(pair: tuple[Site, Site]) -> None:
    one, other = pair
    for page, its_like in zip(_in_order(one), _in_order(other), strict=True):
        scripts = [
            [(tag.get("src"), len(tag.get_text()) > 0) for tag in site.pages[name].find_all("script")]
            for site, name in ((one, page), (other, its_like))
        ]
        assert scripts[0] == scripts[1], page
        for tag in one.pages[page].find_all(True):
            assert not any(key.startswith("on") for key in tag.attrs), (page, tag.name)


def test_the_search_index_holds_the_names_as_text(hostile: Site) -> None:
    index = json.loads((hostile.folder / "search" / "search_index.json").read_text(encoding="utf-8"))
    entries = [f"{entry['title']}\n{entry['text']}" for entry in index["docs"]]
    kept = {
        "p",
        "ul",
        "ol",
        "li",
        "h2",
        "h3",
        "div",
        "dl",
        "dt",
        "dd",
        "b",
        "span",
        "code",
        "pre",
        "em",
        "strong",
    }
    for entry in entries:
        for tag in BeautifulSoup(entry, "html.parser").find_all(True):
            assert tag.name in kept, entry
            assert not tag.attrs, entry
    told = plain_text(html.unescape(" ".join(entries)))
    for name in (*PARTS, *CIRCUITS):
        assert plain_text(name) in told, name


def test_file_names_are_plain_and_unlike_each_other(hostile: Site) -> None:
    ours = [
        path.relative_to(hostile.folder).as_posix()
        for path in hostile.folder.rglob("*")
        if path.is_file() and not path.name.startswith(".") and "assets" not in path.parts
    ]
    assert len({name.casefold() for name in ours}) == len(ours)
    for name in ours:
        for piece in name.split("/"):
            stem, _, ending = piece.partition(".")
            assert re.fullmatch(r"[a-z0-9_-]+", stem), name
            assert re.fullmatch(r"[a-z0-9]*", ending), name
            assert stem not in RESERVED, name
            assert len(piece) <= 80, name


def test_the_record_carries_the_names_unchanged() -> None:
    record = json.loads(source_of(build(NAMES, TEXTS), "workshop").files["data/figures.json"])
    assert record["build"]["name"] == NAMES["trailer"]
    assert [circuit["name"] for circuit in record["circuits"]][: len(CIRCUITS)] == CIRCUITS
    ends = {wire[end]["part"] for wire in record["wires"] for end in ("from", "to")}
    assert {NAMES["lamp"], NAMES["splice"], NAMES["loose fuse"]} <= ends


def test_no_cell_of_the_wire_list_is_run_by_a_spreadsheet() -> None:
    text = str(source_of(build(NAMES, TEXTS), "workshop").files["data/wires.csv"])
    rows = list(csv.reader(text.splitlines()))
    cells = [cell for row in rows for cell in row]
    assert [
        cell for cell in cells if cell[:1] in tuple("=+-@\t\r") and not re.fullmatch(r"-?[\d.]+", cell)
    ] == []
    assert {f"'{NAMES['meter']}", f"'{NAMES['strip']}", f"'{NAMES['circuit 4']}"} <= set(cells)
    assert {NAMES["lamp"], NAMES["switch"]} <= set(cells)


def test_every_file_is_what_its_name_says(pair: tuple[Site, Site]) -> None:
    one, other = pair
    for path in one.folder.rglob("*.svg"):
        ET.parse(path)
    for page in one.pages:
        written = (one.folder / page).read_text(encoding="utf-8")
        for drawing in re.findall(r"<svg.*?</svg>", written, re.DOTALL):
            ET.fromstring(drawing)
        assert open_elements(written) == []
    for path in (one.folder / "data").glob("*.csv"):
        found = [
            [
                len(row)
                for row in csv.reader((site.folder / "data" / path.name).read_text("utf-8").splitlines())
            ]
            for site in pair
        ]
        assert found[0] == found[1], path.name
        assert len(set(found[0])) == 1, path.name
    for path in one.folder.rglob("*.json"):
        json.loads(path.read_bytes())
    assert frame_of(one.record) == frame_of(other.record)


def open_elements(page: str) -> list[str]:
    """Return the elements of a page that are not closed, or closed in another order than they were opened."""
    opened: list[str] = []
    wrong: list[str] = []

    class Nesting(HTMLParser):
        def handle_starttag(self, tag: str, attrs: object) -> None:  # noqa: ARG002 - its name is the library's
            if tag not in VOID:
                opened.append(tag)

        def handle_startendtag(self, tag: str, attrs: object) -> None:
            """A closed element leaves nothing open."""

        def handle_endtag(self, tag: str) -> None:
            if not opened or opened.pop() != tag:
                wrong.append(tag)

    parser = Nesting()
    parser.feed(page)
    parser.close()
    return wrong + opened


def frame_of(record: object) -> object:
    """Return a record with its texts and figures taken out: what is left is its shape, in no order."""
    if isinstance(record, Mapping | list):
        inside = record.values() if isinstance(record, Mapping) else record
        return sorted((frame_of(value) for value in inside), key=repr)
    return type(record).__name__


def shown(tag: Tag, key: str) -> str:
    """Return an attribute as text; outside our article the theme escapes some of them once more."""
    text = str(tag[key])
    return text if tag.find_parent("article") else html.unescape(text)


def test_attributes_that_hold_text_hold_the_same_text(pair: tuple[Site, Site]) -> None:
    one, other = pair
    plain = {**harmless(NAMES), **harmless(TEXTS)}
    put = {text: plain[key] for key, text in {**NAMES, **TEXTS}.items()}
    put = {plain_text(text): plain_text(new) for text, new in put.items()}
    put = {as_title(text): new for text, new in put.items()} | put
    either = "|".join(map(re.escape, sorted(put, key=len, reverse=True)))
    wanted = re.compile(rf"(?<!\w)(?:{either})(?!\w)")
    for page, its_like in zip(_in_order(one), _in_order(other), strict=True):
        for key in (
            "aria-label",
            "title",
            "alt",
            "content",
            "value",
            "placeholder",
            "data-caption",
            "lang",
            "dir",
        ):
            found, plainly = (
                Counter(plain_text(shown(tag, key)) for tag in parsed(site, name).find_all(attrs={key: True}))
                for site, name in ((one, page), (other, its_like))
            )
            put_in = Counter(
                wanted.sub(lambda hit: put[hit.group()], text).casefold() for text in found.elements()
            )
            assert put_in == Counter(text.casefold() for text in plainly.elements()), (page, key)


def test_every_text_is_shown_letter_by_letter(hostile: Site) -> None:
    told = " ".join(text_of(hostile.article(page)) for page in hostile.pages)
    for text in (*NAMES.values(), *TEXTS.values()):
        assert plain_text(text) in told or plain_text(as_title(text)) in told, text


def css_texts(sheet: str) -> set[str]:
    strings = re.findall(r'"((?:[^"\\]|\\[0-9a-f]{6} )*)"', sheet)
    return {re.sub(r"\\([0-9a-f]{6}) ", lambda found: chr(int(found[1], 16)), text) for text in strings}


def test_the_printed_sheet_holds_the_name_as_one_string(pair: tuple[Site, Site]) -> None:
    one, other = pair
    sheets_ = [(site.folder / "assets" / "print.css").read_text(encoding="utf-8") for site in (one, other)]
    assert {NAMES["trailer"], NAMES["number"]} <= css_texts(sheets_[0])
    # pages have addresses by the maker's names
    frames = [
        re.sub(r"(?<=sheet-)[a-z0-9-]+", "", re.sub(r'"(?:[^"\\]|\\[0-9a-f]{6} )*"', '""', sheet))
        for sheet in sheets_
    ]
    assert frames[0] == frames[1]


def test_tables_have_the_same_shape(pair: tuple[Site, Site]) -> None:
    one, other = pair
    for page, its_like in zip(_in_order(one), _in_order(other), strict=True):
        shapes = [
            sorted((len(rows), len(rows[0])) for rows in sheets(site.article(name)).values())
            for site, name in ((one, page), (other, its_like))
        ]
        assert shapes[0] == shapes[1], page
