"""The catalogue of the manual's texts: whole, the same each time, and in step with the theme."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

from builder.pages.catalogue import Catalogue, catalogue
from builder.pages.collecting import template_text
from builder.pages.manual import PAGES
from builder.rules.registry import RULES
from builder.tables.assumptions import defaults

THEME = Path(__file__).parents[2] / "themes" / "manual"
MARKED = re.compile(r"""(?<![\w.])_\(\s*(?:"((?:[^"\\]|\\.)*)"|'((?:[^'\\]|\\.)*)')""")
HOLE = re.compile(r"%\((\w+)\)s")


@pytest.fixture(scope="module")
def template() -> str:
    return template_text()


@pytest.fixture(scope="module")
def collected(template: str) -> set[str]:
    return {str(message.id) for message in read_po(io.BytesIO(template.encode("utf-8"))) if message.id}


def marked() -> Iterator[tuple[str, str]]:
    """Yield every text that a template marks, with the template's name."""
    for path in sorted(THEME.rglob("*.jinja")):
        source = re.sub(r"\{#.*?#\}", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
        for found in MARKED.finditer(source):
            yield path.name, (found[1] or found[2]).replace('\\"', '"').replace("\\'", "'")


def test_every_marked_text_of_the_theme_is_collected(collected: set[str]) -> None:
    texts = list(marked())
    assert len(texts) > 150
    assert [(name, text) for name, text in texts if text not in collected] == []


def test_titles_rules_and_assumptions_are_collected(collected: set[str]) -> None:
    assert {page.title for page in PAGES} <= collected
    assert {rule.page.strip() for rule in RULES} <= collected
    for default in defaults().values():
        assert {default.about, default.reason} <= collected


def test_sentences_of_problems_are_collected(collected: set[str]) -> None:
    from_checks = [text for text in collected if "{" in text and " " in text]
    assert len(from_checks) > 50


def test_the_template_is_the_same_each_time(template: str) -> None:
    assert template_text() == template
    assert "POT-Creation-Date" not in template
    assert str(THEME.parents[1]) not in template


def test_the_template_in_the_theme_is_up_to_date(template: str) -> None:
    assert (THEME / "texts" / "manual.pot").read_text(encoding="utf-8") == template


def test_texts_of_the_theme_are_marked() -> None:
    """Words between tags that no call marks would stay English in every language."""
    for path in sorted((THEME / "pages").glob("*.jinja")):
        source = re.sub(r"\{[#%{].*?[#%}]\}", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
        bare = re.sub(r"<[^>]*>|[–·;:,.()#−+]", " ", source)
        assert re.findall(r"[A-Za-z]{2,}", bare) == [], path.name


def test_holes_are_filled_by_name() -> None:
    for name, text in marked():
        assert "%s" not in text, (name, text)
        assert len(re.findall(r"%\(", text)) == len(HOLE.findall(text)), (name, text)


def test_a_text_without_translation_stays_as_it_is() -> None:
    made = Catalogue({"Find it": "Suchen"}, {"one": ("eins", "viele")})
    assert made.gettext("Find it") == "Suchen"
    assert made.gettext("Start here") == "Start here"
    assert (made.ngettext("one", "many", 1), made.ngettext("one", "many", 3)) == ("eins", "viele")
    assert (made.ngettext("a", "b", 1), made.ngettext("a", "b", 2)) == ("a", "b")


def test_english_is_there_and_another_language_is_missed() -> None:
    assert catalogue("en").gettext("Find it") == "Find it"
    with pytest.raises(FileNotFoundError):
        catalogue("xx")
