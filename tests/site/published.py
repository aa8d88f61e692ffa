"""The published example for the tests: one place that knows how a build becomes a folder of pages."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any
from urllib.parse import unquote

from bs4 import BeautifulSoup, Tag
from example_numbers import numbers_of

from builder.pages.escaping import slug
from builder.pages.manual import content_number, manual_source
from builder.pages.source import ManualSource
from builder.pages.verdict import Judgement, answer_text, judge_build
from builder.publish.site import publish_site

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "example_build" / "trailer.yaml"
SMALLEST = ROOT / "example_build" / "smallest" / "trailer.yaml"
EDITIONS = ("workshop", "owner")
CONTENT = re.compile(r"\b[2-9A-HJKMNP-TV-Z]{4}-[2-9A-HJKMNP-TV-Z]{4}\b")
LISTS = {
    "wires": "number",
    "circuits": "number",
    "fuses": "name",
    "assumptions": "id",
    "plug": "contact",
    "supplies": "name",
    "spares": "number",
    "switches": "name",
    "headroom": "circuit",
    "shopping": "id",
    "cuts": "id",
    "test_sheet": "number",
    "guide": "id",
    "carried": "part",
    "plug_states": "contact",
    "plug_grounds": "contact",
    "plug_feeds": "contact",
    "road_lamps": "name",
    "places": "name",
    "chases": "name",
    "skins": "name",
    "panels": "name",
    "hinges": "name",
    "laid": "name",
    "stands": "name",
    "pulls": "number",
    "bays": "name",
}
"""Lists of the record whose entries a figure's path names by a key, not by their place."""


@dataclass(frozen=True, eq=False)
class Site:
    """A published manual: its edition, its folder, its pages as parsed HTML and the record of its build."""

    edition: str
    folder: Path
    record: Mapping[str, Any]
    judged: Judgement

    @cached_property
    def pages(self) -> Mapping[str, BeautifulSoup]:
        """Every page by its file name."""
        return {
            path.relative_to(self.folder).as_posix(): BeautifulSoup(
                path.read_text(encoding="utf-8"), "html.parser"
            )
            for path in sorted(self.folder.rglob("*.html"))
        }

    def article(self, page: str) -> Tag:
        """What is ours on a page: neither the menu nor the search."""
        found = self.pages[page].find("article")
        assert isinstance(found, Tag), page
        return found

    @cached_property
    def circuit_pages(self) -> Mapping[str, Mapping[str, Any]]:
        """The entry of the record for each circuit's page."""
        found = {}
        for entry in self.record["circuits"]:
            (page,) = (name for name in self.pages if name.startswith(f"circuit-{entry['number']:02d}-"))
            found[page] = entry
        return found

    @cached_property
    def panel_pages(self) -> Mapping[str, Mapping[str, Any]]:
        """The entry of the record for each panel's page."""
        return {f"panel-{slug(entry['name'])}.html": entry for entry in self.record.get("panels", [])}

    @cached_property
    def guide_pages(self) -> Mapping[str, Mapping[str, Any]]:
        """The entry of the record for the circuit of each page of guides."""
        return {
            page: entry
            for page in self.pages
            for entry in self.record["circuits"]
            if page.startswith(f"stops-{entry['number']:02d}-")
        }

    def kind(self, page: str) -> str:
        """``circuit`` for a circuit's page, ``guide`` for its pages of guides, ``shared`` for those of no circuit.

        Else the page's own name.
        """
        if page in self.guide_pages:
            return "guide"
        if page in self.panel_pages:
            return "panel"
        if page.startswith("stops-"):
            return "shared"
        return "circuit" if page in self.circuit_pages else page.removesuffix(".html")

    @cached_property
    def first_of_kind(self) -> tuple[str, ...]:
        """The first page of each kind."""
        return tuple(sorted({self.kind(page): page for page in sorted(self.pages, reverse=True)}.values()))


def judged(data: bytes) -> Judgement:
    """Read and judge a build that is meant to be without a problem."""
    verdict = judge_build(data, "trailer.yaml", numbers_of(data))
    assert verdict.judged is not None, answer_text(verdict)
    return verdict.judged


def source_of(data: bytes, edition: str) -> ManualSource:
    """Return the manual source of a build."""
    return manual_source(judged(data), content_number(data), edition)


def record_of(data: bytes) -> dict[str, Any]:
    """Return the record of a build as the workshop manual carries it."""
    text = source_of(data, "workshop").files["data/figures.json"]
    record: dict[str, Any] = json.loads(text)
    return record


def published(data: bytes, edition: str, folder: Path) -> Site:
    """Publish a build into a folder that is not there yet."""
    publish_site(source_of(data, edition), folder)
    return Site(edition, folder, record_of(data), judged(data))


def resolved(record: Mapping[str, Any], path: str) -> Any:
    """Return the value at a figure's path; raises KeyError or StopIteration where the record has none."""
    head, *steps = (unquote(step) for step in path.split("/"))
    found: Any = record[head]
    if head in LISTS:
        name = steps.pop(0)
        found = next(entry for entry in found if str(entry[LISTS[head]]) == name)
    for step in steps:
        found = found[int(step)] if isinstance(found, list) else found[step]
    return found


def step(name: object) -> str:
    """Return a name as one step of a path: strokes part the steps, so a name's own are written as %2F."""
    return str(name).replace("%", "%25").replace("/", "%2F")


def values(record: Mapping[str, Any]) -> dict[str, Any]:
    """Return every value of the record by its path, entries of lists named as figures name them."""
    return {path: value for head, content in record.items() for path, value in _below(head, content)}


def _below(path: str, content: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(content, dict):
        for key, inside in content.items():
            yield from _below(f"{path}/{key}", inside)
    elif isinstance(content, list):
        key = LISTS.get(path)
        for place, inside in enumerate(content):
            yield from _below(f"{path}/{step(inside[key] if key else place)}", inside)
    else:
        yield path, content


def text_of(tag: Tag) -> str:
    """Return what a reader sees, with single blanks."""
    return " ".join(tag.get_text().split())


def figures_on(tag: Tag) -> list[Tag]:
    """Return every figure below a tag."""
    return list(tag.select("[data-figure]"))


def shape_of(page: Tag) -> list[tuple[str, tuple[str, ...]]]:
    """Return every element with the names of its attributes, in order."""
    return [(tag.name, tuple(sorted(tag.attrs))) for tag in page.find_all(True)]


def normalised(text: str) -> str:
    """Return a page with the content number taken out."""
    return CONTENT.sub("CONTENT", text)


def sheets(tag: Tag) -> dict[str, list[list[str]]]:
    """Return every table below a tag by its caption, as rows of texts, the head first."""
    found = {}
    for table in tag.find_all("table"):
        caption = table.find("caption")
        assert isinstance(caption, Tag)
        rows = [[text_of(cell) for cell in row.find_all(["th", "td"])] for row in table.find_all("tr")]
        found[text_of(caption)] = rows
    return found
