"""The example, published once for all tests over its HTML, and small ways to look into it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from bs4 import BeautifulSoup, Tag

from builder.pages.manual import content_number, manual_source
from builder.pages.rounding import Reader, length, rating, shown
from builder.pages.source import ManualSource
from builder.pages.verdict import judge_build
from builder.publish.site import publish_site

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "example_build" / "trailer.yaml"
SMALLEST = ROOT / "example_build" / "smallest" / "trailer.yaml"
KEYS = {
    "wires": "number",
    "circuits": "number",
    "fuses": "name",
    "switches": "name",
    "supplies": "name",
    "plug": "contact",
    "spares": "number",
    "assumptions": "id",
}


def source_of(text: str | bytes, edition: str = "workshop") -> ManualSource:
    """Return the manual of a build file's text."""
    data = text.encode() if isinstance(text, str) else text
    judged = judge_build(data, "trailer.yaml").judged
    assert judged is not None, "the build has problems"
    return manual_source(judged, content_number(data), edition)


def record_of(text: str | bytes) -> dict[str, Any]:
    """Return the record that the workshop's manual carries."""
    made: dict[str, Any] = json.loads(source_of(text).files["data/figures.json"])
    return made


@dataclass(frozen=True)
class Site:
    """A published manual: its folder, its edition and its record."""

    folder: Path
    edition: str
    record: dict[str, Any]

    @cached_property
    def pages(self) -> dict[str, BeautifulSoup]:
        """Every page by its name, parsed."""
        names = sorted(path.name for path in self.folder.glob("*.html") if path.name != "404.html")
        return {
            name: BeautifulSoup((self.folder / name).read_text(encoding="utf-8"), "html.parser")
            for name in names
        }

    def article(self, name: str) -> Tag:
        """Return what we wrote of a page, without the theme's frame."""
        found = self.pages[name].find("article")
        assert isinstance(found, Tag)
        return found


def publish(folder: Path, text: str | bytes, edition: str) -> Site:
    """Publish a build into a folder."""
    publish_site(source_of(text, edition), folder)
    return Site(folder, edition, record_of(text))


def value_at(record: dict[str, Any], path: str) -> Any:
    """Return the value of a record at the path that a figure carries."""
    head, *rest = (part.replace("%2F", "/").replace("%25", "%") for part in path.split("/"))
    found: Any = record[head]
    for place, step in enumerate(rest):
        if isinstance(found, list):
            key = KEYS.get(head) if place == 0 else None
            found = next(e for e in found if str(e[key]) == step) if key else found[int(step)]
        else:
            found = found[step]
    return found


def printed(record: dict[str, Any], path: str, unit: str, edition: str) -> str:
    """Return how a figure is printed for the reader of an edition; the unit as it stands on the page."""
    value = value_at(record, path)
    key = path.rpartition("/")[2]
    if not isinstance(value, int | float):
        text = str(value)
    elif key.endswith("length_m") or (path.startswith("assumptions/") and unit == "m"):
        return length(value, record["build"]["units"])
    elif key in ("rating_a", "fuse_a"):
        text = rating(value)
    else:
        text = shown(value, Reader.WORKSHOP if path.startswith("assumptions/") else Reader(edition))
    return f"{text}\N{NO-BREAK SPACE}{unit}" if unit else text


def kind_of(name: str) -> str:
    """Return the kind of a page: its name, and ``circuit`` for a circuit's page."""
    return "circuit" if name.startswith("circuit-") else name.removesuffix(".html")
