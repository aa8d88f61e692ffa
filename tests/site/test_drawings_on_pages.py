"""Circuit drawings as pages show them: every wire of the circuit on it, every sign explained, one engine call."""

from __future__ import annotations

import re
from collections.abc import Sequence

import pytest
from published import EXAMPLE, ROOT, Site, judged, source_of, text_of

from builder.drawings import circuit_drawing
from builder.drawings.engine import Engine, Laid
from builder.drawings.symbols import SYMBOLS
from builder.pages.templates import environment

KEPT = ROOT / "example_build" / "pictures" / "water-pump.svg"


def test_every_circuit_is_drawn_with_all_its_wires(site: Site) -> None:
    for page, circuit in site.circuit_pages.items():
        figure = site.article(page).select_one("figure.drawing")
        assert figure is not None, page
        for form in ("wd-narrow", "wd-wide") if "wd-both" in figure["class"] else ("wd-strip",):
            numbers = {text_of(tag) for tag in figure.select(f".{form} svg .wd-tag .wd-nr")}
            own = {wire["number"] for wire in site.record["wires"] if wire["circuit"] == circuit["number"]}
            assert own <= numbers, (page, form)


def test_a_drawings_links_lead_to_rows_and_its_file_is_there(site: Site) -> None:
    for page in site.circuit_pages:
        figure = site.article(page).select_one("figure.drawing")
        assert figure is not None
        for link in figure.select("svg a"):
            target, _, anchor = str(link["href"]).partition("#")
            assert site.pages[target or page].find(id=anchor) is not None, (page, link["href"])
        kept = figure.select_one("figcaption a:not(.word)")
        assert kept is not None
        assert (site.folder / str(kept["href"])).is_file()


def test_the_whole_system_shows_every_circuit_and_the_batterys_line_once(site: Site) -> None:
    (line,) = (c["number"] for c in site.record["circuits"] if c["kind"] == "battery")
    boxed = [page for page, circuit in site.circuit_pages.items() if circuit["number"] != line]
    grounds = {
        page for page in boxed if not site.circuit_pages[page]["loads"]
    }  # they end at the lamps' grounds
    wires = [wire["number"] for wire in site.record["wires"] if wire["circuit"] == line]
    for form in ("wd-narrow", "wd-wide"):
        drawn = site.article("system.html").select(f".{form} svg")
        links = [str(link["href"]) for svg in drawn for link in svg.find_all("a")]
        assert sorted(link for link in links if link.startswith("circuit-")) == sorted(set(boxed) - grounds)
        numbers = [text_of(tag) for svg in drawn for tag in svg.select(".wd-tag .wd-nr")]
        assert sorted(numbers) == sorted(wires)


def test_pictures_are_kept_out_of_the_search(site: Site) -> None:
    index = (site.folder / "search" / "search_index.json").read_text(encoding="utf-8")
    assert "fuse way 6" in index  # the table says it
    assert "wd-part" not in index
    assert "plus at the top" in index


def test_every_sign_has_a_name() -> None:
    text = (
        environment("en")
        .get_template("pages/signs.md.jinja")
        .render(
            signs=[(kind, f"{kind}.svg") for kind in (*SYMBOLS, "lighted switch", "change-over contact")],
            colours=[],
        )
    )
    said = re.findall(r"</span> <span>([^<]*)</span></li>", text)
    assert len(said) == len(SYMBOLS) + 2
    assert len(set(said)) == len(said)


def test_the_picture_of_the_readme_is_what_the_tool_draws() -> None:
    made = source_of(EXAMPLE.read_bytes(), "workshop").files["drawings/circuit-06-water-pump.svg"]
    assert KEPT.read_text(encoding="utf-8") == made


def test_without_an_engine_the_page_says_so_and_lists_the_wires(monkeypatch: pytest.MonkeyPatch) -> None:
    def none(*_: object, **__: object) -> Engine:
        return lambda _sources: Laid((), "missing")

    monkeypatch.setattr("builder.drawings.circuit_drawing.engine", none)
    source = source_of(EXAMPLE.read_bytes(), "workshop")
    page = str(source.files["circuit-06-water-pump.md"])
    assert "The layout engine is not installed, so circuits are listed and not drawn." in page
    assert "Wires of this circuit" in page
    assert "signs.md" not in source.files
    assert not [path for path in source.files if path.startswith("drawings/")]


def test_one_manual_asks_the_engine_three_times_at_most(monkeypatch: pytest.MonkeyPatch) -> None:
    real, calls = circuit_drawing.engine, []

    def counted() -> Engine:
        run = real()

        def count(sources: Sequence[str]) -> Laid:
            calls.append(len(sources))
            return run(sources)

        return count

    monkeypatch.setattr("builder.drawings.circuit_drawing.engine", counted)
    assert judged(EXAMPLE.read_bytes())
    source_of(EXAMPLE.read_bytes(), "owner")
    assert 1 <= len(calls) <= circuit_drawing.CALLS


def test_no_part_is_taken_for_a_circuits_box() -> None:
    """A breaker in the battery's line may be called what a box might be."""
    text = (
        EXAMPLE.read_text(encoding="utf-8")
        .replace("isolating switch", "circuit 4")
        .replace("kind: circuit 4", "kind: isolating switch")
    )
    source = source_of(text.encode(), "owner")
    drawing = str(source.files["drawings/system.svg"])
    assert 'href="../find.html#part-circuit-4"' in drawing
    assert 'href="../circuit-04-cabin-light.html"' in drawing


def test_colours_of_the_legend_have_their_codes(site: Site) -> None:
    """IEC 60757 (read): BK black, RD red, OG orange, BU blue, WH white, GY grey."""
    rows = [text_of(row) for row in site.article("signs.html").select("ul.wd-signs")[0].select("li")]
    assert {
        "black BK",
        "red RD",
        "orange OG",
        "orange with black OG/BK",
        "blue with white BU/WH",
        "grey GY",
    } <= set(rows)
    none = "no code in IEC 60757: its words stand on the wire"  # green beside another colour than yellow
    assert [row for row in rows if none in row] == [f"orange with green {none}"]
