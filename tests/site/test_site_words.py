"""The words of the pages: none that promises, none of our workshop, and all of them easy to read."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from copy import copy

import pytest
from babel.messages.pofile import read_po
from published import ROOT, Site, text_of
from readability import WORD, grade, sentences, syllables

from builder.pages.collecting import template_text

BANNED = re.compile(r"\b(?:un)?safe\w*|\bcompl(?:y|ies|ied|ian\w+)\b|\bcertif\w+|\bguarant\w+", re.IGNORECASE)
"""Words that promise what a generator of pages cannot know; their opposites promise as much."""
NOT_OURS = re.compile(r"\bissues?\b|\bTODO\b|\bNone\b|\bnull\b|\bundefined\b|\bnan\b")
PATHS = re.compile(r"(?:^|[\s\"'(=])(?:/(?:home|root|tmp|work|usr|var|mnt|Users)/|[A-Z]:\\|file:/)")
TEXT_FILES = (".html", ".json", ".csv", ".svg")
OWNER_GRADE, CAUTION_GRADE = 8.0, 6.0
LEAST_WORDS = 5
"""Shorter pieces are labels and names; they would only make a page look easier than it is."""


def texts_of_files(site: Site) -> Iterator[tuple[str, str]]:
    """Yield every file of the site that holds text of ours; the theme's own scripts are not among them."""
    for path in sorted(site.folder.rglob("*")):
        name = path.relative_to(site.folder).as_posix()
        if path.suffix in TEXT_FILES or re.fullmatch(
            r"assets/[^/]+\.(css|js)|search/.*\.js|\.wiring-manual", name
        ):
            yield name, path.read_text(encoding="utf-8")


def test_no_word_promises_anything(site: Site) -> None:
    for name, text in texts_of_files(site):
        assert BANNED.findall(text) == [], name


def test_no_text_of_the_catalogue_promises_anything() -> None:
    assert BANNED.findall(template_text()) == []


@pytest.mark.parametrize(
    "text",
    [
        "It is safe.",
        "unsafe",
        "safely",
        "safety",
        "Complies",
        "compliant",
        "certified",
        "guaranteed",
        "certificate",
    ],
)
def test_the_banned_words_are_found(text: str) -> None:
    assert BANNED.search(text)


@pytest.mark.parametrize("text", ["a complete build", "vouchsafe no"])
def test_words_that_only_look_like_banned_ones_pass(text: str) -> None:
    assert not BANNED.search(text)


def test_no_page_speaks_of_work_on_the_program(site: Site) -> None:
    for page in site.pages:
        assert NOT_OURS.findall(text_of(site.article(page))) == [], page


def test_no_file_names_a_place_on_this_machine(site: Site) -> None:
    for name, text in texts_of_files(site):
        assert PATHS.findall(text) == [], name
        assert str(ROOT) not in text, name
        assert str(site.folder) not in text, name


def running_text(site: Site, page: str) -> list[str]:
    """Return paragraphs and items of lists of a page, without tables, worked lines and sources."""
    article = copy(site.article(page))
    for tag in article.select("table, .page-head, svg, p.formula, .sources, .caution"):
        tag.decompose()
    return [" ".join(tag.get_text(" ").split()) for tag in article.select("p, li, dd")]


def whole_sentences(texts: list[str]) -> list[str]:
    return [piece for text in texts for piece in sentences(text) if len(WORD.findall(piece)) >= LEAST_WORDS]


def test_the_owners_pages_read_at_grade_8_or_lower(owner: Site) -> None:
    for page in owner.pages:
        told = whole_sentences(running_text(owner, page))
        assert told, page
        assert grade(told) <= OWNER_GRADE, page


def test_cautions_read_at_grade_6_or_lower(site: Site) -> None:
    seen = 0
    for page in site.pages:
        for caution in site.article(page).select(".caution-says"):
            seen += 1
            texts = [text_of(part) for part in caution.find_all("p")]
            assert len(texts) == 3, page
            assert grade(texts) <= CAUTION_GRADE, texts
    assert seen >= 4


OWNER_FILES = (
    *(
        "start",
        "fuses",
        "circuit",
        "find",
        "wires",
        "towing",
        "battery",
        "adding",
        "care",
        "worked",
        "assumed",
    ),
    *(
        "words",
        "words_used",
        "word_list",
        "pieces",
        "head",
        "stops",
        "stops_circuit",
        "stops_shared",
        "guide_words",
        "lamp_check",
        "breakaway",
    ),
)


def catalogue_texts() -> list[str]:
    """Return the catalogue's texts that stand on the owner's pages, each hole filled by a short word."""
    names = re.compile(rf"themes/manual/(?:pages/)?(?:{'|'.join(OWNER_FILES)})\.")
    return [
        re.sub(r"%\(\w+\)s", "lamp", str(message.id))
        for message in read_po(io.BytesIO(template_text().encode("utf-8")))
        if message.id and any(names.match(place) for place, _ in message.locations)
    ]


def test_every_text_of_the_catalogue_for_the_owner_reads_at_grade_8_or_lower() -> None:
    texts = [text for text in catalogue_texts() if len(WORD.findall(text)) >= LEAST_WORDS]
    assert len(texts) > 80
    assert {text: round(grade([text]), 1) for text in texts if grade([text]) > OWNER_GRADE} == {}


def test_sentences_of_the_catalogue_are_short() -> None:
    long = [piece for text in catalogue_texts() for piece in sentences(text) if len(WORD.findall(piece)) > 25]
    assert long == []


# counted by ear
SYLLABLES = {
    "fuse": 1,
    "wire": 1,
    "wires": 1,
    "fuses": 2,
    "boxes": 2,
    "pages": 2,
    "changes": 2,
    "table": 2,
    "cables": 2,
    "battery": 3,
    "trailer": 2,
    "isolating": 4,
    "everything": 3,
    "nobody": 3,
    "circuit": 2,
    "printed": 2,
    "worked": 1,
    "needed": 2,
    "pulled": 1,
    "outside": 2,
    "closely": 2,
    "licensed": 2,
    "connector": 3,
    "voltage": 2,
    "emergency": 4,
    "manual": 3,
    "radio": 3,
    "being": 2,
    "ventilated": 4,
    "sides": 1,
    "the": 1,
    "any": 2,
}


@pytest.mark.parametrize(("word", "count"), SYLLABLES.items())
def test_syllables_are_counted_as_spoken(word: str, count: int) -> None:
    assert syllables(word) == count


def test_the_grade_follows_its_formula_and_tells_hard_from_easy() -> None:
    # 6 words, 1 sentence, 6 syllables
    assert grade(["Put the lid on the box."]) == pytest.approx(0.39 * 6 + 11.8 * 1 - 15.59)
    hard = "Subsequent disconnection of the electrochemical accumulator necessitates prior determination of polarity."
    assert grade([hard]) > 12
