"""The small signs, the style sheets' colours, and the page pieces that carry them."""

import re
from pathlib import Path
from xml.etree import ElementTree as ET

import jinja2
import markdown
import pytest
from bs4 import BeautifulSoup
from markupsafe import Markup

from builder.drawings.chips import (
    fuse_chip,
    fuse_chip_file,
    warning_triangle,
    wire_chip,
    wire_chip_file,
)
from builder.drawings.contrast import contrast_ratio
from builder.drawings.label_sheets import SHEETS

THEME = Path(__file__).parents[2] / "themes" / "manual"
SVG = "{http://www.w3.org/2000/svg}"

WHITE, YELLOW, BLACK, RED, GREY = "#ffffff", "#fbd913", "#1a1a1a", "#d22b2b", "#8a8f94"

CHIPS = {
    "violet fuse": fuse_chip("#7a3e9d"),
    "clear fuse": fuse_chip(None),
    "white wire": wire_chip(WHITE),
    "yellow wire with black": wire_chip(YELLOW, BLACK),
    "red core of a grey cable": wire_chip(RED, None, GREY),
    "triangle": warning_triangle(),
}


def paths(chip: str) -> list[ET.Element]:
    return ET.fromstring(chip).findall(f"{SVG}path")


def fills(chip: str) -> list[str]:
    return [path.get("fill", "") for path in paths(chip)]


@pytest.mark.parametrize("name", CHIPS)
def test_a_chip_is_one_line_that_can_stand_many_times_on_a_page(name: str) -> None:
    chip = CHIPS[name]
    root = ET.fromstring(chip)
    assert "\n" not in chip
    assert all("id" not in element.attrib for element in root.iter())
    assert {element.tag for element in root.iter()} == {f"{SVG}svg", f"{SVG}path"}
    assert (root.get("aria-hidden"), root.get("focusable")) == ("true", "false")
    assert root.get("viewBox") == f"0 0 {root.get('width')} {root.get('height')}"


@pytest.mark.parametrize("name", [name for name in CHIPS if name != "triangle"])
def test_a_chip_closes_with_an_edge_that_follows_the_page(name: str) -> None:
    edges = [path for path in paths(CHIPS[name]) if path.get("class") == "chip-edge"]
    outlined = {edge.get("d") for edge in edges}
    coloured = {path.get("d") for path in paths(CHIPS[name]) if path.get("fill") != "none"}
    assert coloured <= outlined


def test_colours_are_drawn_as_given() -> None:
    assert "#7a3e9d" in fills(fuse_chip("#7A3E9D"))
    assert {YELLOW, BLACK} <= set(fills(wire_chip(YELLOW, BLACK)))
    assert {RED, GREY} <= set(fills(wire_chip(RED, None, GREY)))


def test_the_tracer_lies_on_the_base() -> None:
    assert wire_chip(WHITE, BLACK) != wire_chip(BLACK, WHITE)
    order = fills(wire_chip(WHITE, BLACK))
    assert order.index(WHITE) < order.index(BLACK)


def test_a_clear_fuse_is_no_white_fuse() -> None:
    clear, white = paths(fuse_chip(None)), paths(fuse_chip(WHITE))
    assert any(path.get("class") == "chip-page" for path in clear)
    assert not any(path.get("class") == "chip-page" for path in white)
    assert len(clear) > len(white), "glints"


@pytest.mark.parametrize("colour", ["red", "#fff", "#12345g", "#123456; x", ""])
def test_only_hex_colours_come_into_a_drawing(colour: str) -> None:
    with pytest.raises(ValueError, match="#rrggbb"):
        wire_chip(colour)
    with pytest.raises(ValueError, match="#rrggbb"):
        fuse_chip(colour)


# ------------------------------------------------------------------ pieces


def pieces() -> jinja2.Environment:
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(THEME),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        extensions=["jinja2.ext.i18n"],
    )
    environment.install_null_translations(newstyle=True)  # type: ignore[attr-defined]
    environment.filters["cssstr"] = lambda text: Markup(f'"{text}"')  # noqa: S704 - CSS, not HTML
    return environment


def rendered(call: str, **values: object) -> str:
    source = f'{{% import "pieces.html.jinja" as piece %}}{call}'
    return pieces().from_string(source).render(**values)


@pytest.mark.parametrize(
    ("call", "file"),
    [
        ('{{ piece.fuse_chip("3 A", "violet") }}', fuse_chip_file("violet")),
        ('{{ piece.fuse_chip("35 A", "blue-green") }}', fuse_chip_file("blue-green")),
        ('{{ piece.wire_chip("light blue") }}', wire_chip_file("light blue")),
        ('{{ piece.wire_chip("yellow", "black", "YE/BK") }}', wire_chip_file("yellow", "black")),
        ('{{ piece.wire_chip("green-and-yellow") }}', wire_chip_file("green-and-yellow")),
        ('{{ piece.wire_chip("red", picture=file) }}', wire_chip_file("red", cable="grey")),
    ],
)
def test_pieces_and_chips_name_the_same_file(call: str, file: str) -> None:
    image = BeautifulSoup(rendered(call, file=file), "html.parser").img
    assert image is not None
    assert image["data-picture"] == file


def test_fuse_files_never_meet_wire_files() -> None:
    assert fuse_chip_file("red") != wire_chip_file("red")
    assert wire_chip_file("red", "grey") != wire_chip_file("red", cable="grey")


BLOCKS = {
    "page_head": '{{ piece.page_head(t, "3", t, "7K4M", "find.html") }}',
    "lead": "{{ piece.lead(t) }}",
    "text": "{{ piece.text(t) }}",
    "facts": '{{ piece.facts([("Fuse", piece.fuse_chip("3 A", "violet")), (t, t)]) }}',
    "draft_note": "{{ piece.draft_note() }}",
    "sheet": '{{ piece.sheet(t, [("Way", "tight"), "Part"], [[1, t], {"cells": [2, t], "id": "way-2"}]) }}',
    "sheet by call": (
        '{% call(columns) piece.sheet("Ways", ["Way", "Part"], kind="stacks", note=t) %}\n\n'
        "{% for n in [1, 2] %}\n\n  {{ piece.row([n, t], columns) }}\n\n{% endfor %}\n{% endcall %}"
    ),
    "caution": '{{ piece.caution("DANGER", t, t, t) }}',
    "off_list": '{{ piece.off_list([("Turn it off.", t)], [t], []) }}',
    "link_list": '{{ piece.link_list([(t, "a.html"), ("b", "b.html", t)]) }}',
    "plain_list": "{{ piece.plain_list([t]) }}",
    "emergency_card": "{{ piece.emergency_card(t, [(t, t)]) }}",
    "meanings": "{{ piece.meanings([(t, t)]) }}",
    "folded": "{% call piece.folded(t) %}\n\n{{ piece.text(t) }}\n\n{{ piece.text(t) }}\n{% endcall %}",
    "drawing": '{{ piece.drawing("pictures/a.svg", t, "a.svg") }}',
    "pair": "{% call piece.pair(piece.text(t)) %}\n\n{{ piece.text(t) }}{% endcall %}",
    "worked": '{{ piece.worked(t, t, [t, t], "1 V", [("I", "3 A", t)], [t], t) }}',
    "finding": '{{ piece.finding("must fix", t, t, t, t, t, "r.html") }}',
    "banner": '{{ piece.banner(t, "f.html") }}',
    "guide_step": (
        '{{ piece.guide_step(1, t, t, {"red": t, "black": t, "expect": "12 V"}, [(t, t, "#a")], "s1") }}'
    ),
}


@pytest.mark.parametrize("name", BLOCKS)
def test_markdown_carries_a_block_as_it_is(name: str) -> None:
    text = 'a *b* _c_ [d](e) `f` | <script>alert("g")</script> & # h'
    html = rendered(BLOCKS[name], t=text)
    assert not re.search(r"\n\s*\n", html), "a blank line ends a block"
    page = markdown.markdown(f"# Title\n\n{html}\n\n## Next\n\nPlain *text*.\n", extensions=["tables"])
    soup = BeautifulSoup(page, "html.parser")
    assert html in page
    assert [heading.get_text() for heading in soup.find_all(["h1", "h2"])] == ["Title", "Next"]
    assert soup.script is None
    if name != "draft_note":
        assert text in soup.get_text()


@pytest.mark.parametrize("name", ["sheet", "sheet by call"])
def test_a_table_can_be_reached_read_and_printed(name: str) -> None:
    soup = BeautifulSoup(rendered(BLOCKS[name], t="galley lamp"), "html.parser")
    holder, table = soup.find(class_="table-holder"), soup.table
    assert holder is not None
    assert table is not None
    assert table.caption is not None
    assert (holder["tabindex"], holder["role"]) == ("0", "region")
    assert holder["aria-label"] == table.caption.get_text(strip=True)
    assert [head["scope"] for head in table.find_all("th")] == ["col", "col", "row", "row"]
    assert all(head.get_text() for head in table.find_all("th"))
    assert table["class"]


@pytest.mark.parametrize(
    "name", ["facts", "sheet", "sheet by call", "worked", "emergency_card", "meanings", "guide_step"]
)
def test_a_search_index_finds_each_word_by_itself(name: str) -> None:
    soup = BeautifulSoup(rendered(BLOCKS[name], t="lamp"), "html.parser")
    words = soup.get_text().split()
    assert "lamp" in words
    assert not [word for word in words if "lamp" in word and word != "lamp"]


@pytest.mark.parametrize(
    ("kind", "triangles"), [("DANGER", 1), ("WARNING", 1), ("CAUTION", 1), ("NOTICE", 0)]
)
def test_a_caution_has_its_four_parts_in_order(kind: str, triangles: int) -> None:
    # anatomy: ANSI Z535.6 (from memory); triangle: ANSI Z535.4-2007, 4.14 (quoted)
    call = f'{{{{ piece.caution("{kind}", "The hazard.", "The consequence.", "The way to avoid it.") }}}}'
    soup = BeautifulSoup(rendered(call), "html.parser")
    said = [part.get_text() for part in soup.find_all("p")]
    assert said == [kind, "The hazard.", "The consequence.", "The way to avoid it."]
    assert len(soup.find_all("img")) == triangles


def test_print_style_says_which_manual_a_sheet_belongs_to() -> None:
    style = pieces().get_template("print.css.jinja")

    def sheet(paper: str, number: str = "") -> str:
        size = SHEETS[paper]
        return style.render(
            name="Mill Lane",
            number=number,
            content="7K4M",
            paper=paper,
            label_sheet=size,
            titles={"cuts": "Cut list"},
        )

    a4, letter = sheet("A4", "3"), sheet("letter")
    assert "size: A4 portrait" in a4
    assert "size: letter portrait" in letter
    assert "size: A5 portrait" in sheet("A5")
    assert '"Mill Lane" ", trailer no. " "3"' in a4
    assert "trailer no." not in letter
    assert '"7K4M"' in letter
    assert re.search(r'@page sheet-cuts \{\s*@top-right \{\s*content: "Cut list";', letter)
    assert re.search(r'body:has\(\[data-page="cuts"\]\) \{\s*page: sheet-cuts;', letter)


# ------------------------------------------------------------------ colours of the style sheets


def schemes() -> dict[str, dict[str, str]]:
    """Read light, dark and paper from the style sheet; what dark leaves out it has from light."""
    css = re.sub(r"/\*.*?\*/", "", (THEME / "assets" / "colours.css").read_text("utf-8"), flags=re.DOTALL)
    blocks = [
        dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6});", block))
        for block in re.findall(r"\{([^{}]*)\}", css)
    ]
    light, dark, paper = blocks
    return {"light": light, "dark": light | dark, "paper": light | paper}


TEXT = [
    *[(ink, ground) for ink in ("ink", "muted", "accent") for ground in ("page", "strip")],
    ("page", "ink"),
    *[(f"{signal}-ink", signal) for signal in ("danger", "warning", "caution", "notice")],
]
GRAPHIC = [(line, "page") for line in ("rule", "edge", "focus")]


@pytest.mark.parametrize("scheme", ["light", "dark", "paper"])
@pytest.mark.parametrize(
    ("ink", "ground", "least"),
    [*[(*pair, 4.5) for pair in TEXT], *[(*pair, 3.0) for pair in GRAPHIC]],
)
def test_contrast_of_the_look(scheme: str, ink: str, ground: str, least: float) -> None:
    # WCAG 2.2: 1.4.3 asks 4.5 of text, 1.4.11 asks 3 of what a reader must see
    colours = schemes()[scheme]
    assert contrast_ratio(colours[ink], colours[ground]) >= least


def test_paper_is_black_on_white_whatever_the_screen_was() -> None:
    paper = schemes()["paper"]
    assert (paper["page"], paper["strip"], paper["ink"]) == ("#ffffff", "#ffffff", "#000000")
    assert set(schemes()["dark"]) == set(paper)


def test_style_sheets_ask_for_nothing_from_outside() -> None:
    sheets = sorted((THEME / "assets").glob("*.css"))
    assert {sheet.name for sheet in sheets} >= {"colours.css", "manual.css", "paper.css"}
    for sheet in sheets:
        assert not re.search(r"@import|@font-face|url\(|https?:", sheet.read_text("utf-8")), sheet.name


def test_style_sheets_use_only_colours_that_are_named() -> None:
    named = set(schemes()["light"])
    for name in ("manual.css", "paper.css"):
        text = re.sub(r"/\*.*?\*/", "", (THEME / "assets" / name).read_text("utf-8"), flags=re.DOTALL)
        assert not re.search(r"#[0-9a-fA-F]{3,8}\b", text), name
        local = set(re.findall(r"--([\w-]+):", text))
        assert set(re.findall(r"var\(--([\w-]+)\)", text)) <= named | local, name
