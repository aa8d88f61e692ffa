"""Words by country: an earth, an indicator and a drawbar where the plug is not American, and no mixture of both.

Common practice of the trade; there is no published source for it.
"""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po
from bs4 import BeautifulSoup

from builder.pages.catalogue import catalogue, language_of
from builder.pages.manual import manual_source_of_file

ROOT = Path(__file__).parents[2]
TEXTS = ROOT / "themes" / "manual" / "texts"
AMERICAN = re.compile(
    r"(?<!level )(?<!on the )\bgrounds?\b(?! level)|\bturn (?:lamp|signal)s?\b|\btongue\b|\bparking brake\b",
    re.IGNORECASE,
)
BRITISH = re.compile(r"\bearth\b|\bindicators?\b|\bdrawbar\b|\bhandbrake\b|\bmudguard", re.IGNORECASE)


def texts(name: str) -> Catalog:
    return read_po(io.BytesIO((TEXTS / name).read_bytes()))


def prose(source: str) -> str:
    """Return what a page says to its reader, drawings aside; "ground bar" in a line of the build file is its word."""
    page = BeautifulSoup(source, "html.parser")
    for code in page.find_all(["code", "svg"]):
        code.decompose()
    return page.get_text(" ")


def pages(build: str) -> dict[str, str]:
    files = manual_source_of_file(ROOT / "example_build" / build / "trailer.yaml", "owner").files
    return {name: prose(str(text)) for name, text in files.items() if name.endswith(".md")}


@pytest.mark.parametrize(
    ("country", "language"),
    [("US", "en-US"), ("CA", "en"), ("GB", "en-GB"), ("DE", "en-GB"), ("AU", "en-GB"), ("other", "en")],
)
def test_the_country_decides(country: str, language: str) -> None:
    assert language_of(country) == language


def test_a_european_manual_has_no_american_word() -> None:
    found = {
        name: [hit[0] for hit in AMERICAN.finditer(text)]
        for name, text in pages("thirteen_pins").items()
        if AMERICAN.search(text)
    }
    assert found == {
        "assumed.md": ["turn lamps", "turn lamp"]
    }  # the name of an assumption, as assume: takes it


@pytest.mark.parametrize("build", ["thirteen_pins", "two_plugs"])
def test_european_drawings_have_no_american_word(build: str) -> None:
    files = manual_source_of_file(ROOT / "example_build" / build / "trailer.yaml", "owner").files
    drawn = {name: str(text) for name, text in files.items() if name.endswith(".svg")}
    assert len(drawn) > 5
    said = {name: BeautifulSoup(svg, "html.parser").get_text(" ") for name, svg in drawn.items()}
    american = re.compile(rf"{AMERICAN.pattern}|\b(?:left|right) turn\b", re.IGNORECASE)
    assert {name for name, text in said.items() if american.search(text)} == set()
    assert any("indicator" in text for text in said.values())


def test_an_american_manual_has_no_british_word() -> None:
    assert {name for name, text in pages("road_lamps").items() if BRITISH.search(text)} == set()


def test_a_manual_of_the_united_states_is_spelt_as_there() -> None:
    elsewhere = re.compile(
        r"\b(?:colou?red|colours?|moulded|spanners?|metres|number plates?)\b", re.IGNORECASE
    )
    for name, text in pages("road_lamps").items():
        assert set(elsewhere.findall(text)) <= {"colored", "Colored"}, name


def test_names_of_values_and_words_of_the_file_keep_their_letters() -> None:
    say = catalogue("en-US").gettext
    assert say(
        "Colours, or coloured: %(colour)s, {colour}, ``colour``, colour-of, colour_of, the colour"
    ) == ("Colors, or colored: %(colour)s, {colour}, ``colour``, colour-of, colour_of, the color")
    assert catalogue("en").gettext("the colour") == "the colour"


def test_each_text_that_is_changed_is_a_text_of_the_manual() -> None:
    known = {str(message.id) for message in texts("manual.pot")}
    changed = {str(message.id) for message in texts("en-GB.po") if message.id}
    assert len(changed) > 50
    assert changed <= known


def test_an_earth_is_said_with_its_article() -> None:
    for message in texts("en-GB.po"):
        assert not re.search(r"\b[Aa] (?:earth|indicator)\b", str(message.string))
