"""The trade words that the manual explains, and where they stand in the texts of the theme.

A word is marked while a text of ours comes out of the catalogue, before any name is filled in: so a part that is
called "fuse", or that tries to be markup, is never taken for the word. The marks are two characters that no build
file may hold; `builder.pages.word_links` turns them into links, or takes them out.
"""

from __future__ import annotations

import html
import re
from dataclasses import dataclass
from functools import cache

from builder.pages.escaping import slug
from builder.pages.templates import render

START, END = "\ufdd0", "\ufdd1"
"""Around a trade word in a text. The reader refuses both characters in a build file."""

WHOLE = "="
"""Before a form that counts only where it is the whole text, such as the name of a terminal."""

_HOLE = r"%\(\w+\)s"
LIST = "word_list.jinja"


@dataclass(frozen=True, slots=True)
class TradeWord:
    """One word: ``forms`` as they are met in texts, the first of them its head; what it means in plain words."""

    forms: tuple[str, ...]
    meaning: str

    @property
    def head(self) -> str:
        """The word as the list has it."""
        return self.forms[0].removeprefix(WHOLE)

    @property
    def anchor(self) -> str:
        """The word's place on the page Words used."""
        return f"word-{slug(self.head)}"


def read_words(text: str) -> tuple[TradeWord, ...]:
    """Return the words of a list, a line each: forms parted by commas, an equals sign between blanks, the meaning.

    Raises ValueError where a line is not of this form, and where two words share a form.
    """
    found = []
    for line in filter(None, map(str.strip, text.splitlines())):
        forms, between, meaning = html.unescape(line).partition(" = ")
        if not between or not meaning.strip():
            raise ValueError(f"{LIST}: no meaning in the line “{line}”")
        found.append(TradeWord(tuple(form.strip() for form in forms.split(",")), meaning.strip()))
    met = [form.casefold() for word in found for form in word.forms]
    if len(met) != len(set(met)):
        raise ValueError(f"{LIST}: two words share one of {sorted({m for m in met if met.count(m) > 1})}")
    return tuple(found)


class Marker:
    """Knows the words of a list: marks them in texts and tells which word a marked one is."""

    def __init__(self, words: tuple[TradeWord, ...]) -> None:
        self.words = words
        self._by_form = {form.removeprefix(WHOLE).casefold(): word for word in words for form in word.forms}
        self._whole = {
            form.removeprefix(WHOLE).casefold() for w in words for form in w.forms if form.startswith(WHOLE)
        }
        inside = sorted((form for form in self._by_form if form not in self._whole), key=len, reverse=True)
        every = "|".join(re.escape(form) for form in inside) or "(?!)"
        # a hole may be called like a word; it is met first and kept
        self._marked: dict[str, str] = {}
        self._any = re.compile(rf"{_HOLE}|(?<![\w-])(?:{every})(?![\w-])", re.IGNORECASE)

    def word(self, form: str) -> TradeWord:
        """Return the word of a form as it was marked; raises KeyError for one that is not in the list."""
        return self._by_form[form.casefold()]

    def mark(self, text: str) -> str:
        """Return a text of the catalogue with every trade word between marks, longer words before shorter ones."""
        if text not in self._marked:  # pages ask for the same texts over and over
            whole = text.casefold() in self._whole
            self._marked[text] = f"{START}{text}{END}" if whole else self._any.sub(_put_marks, text)
        return self._marked[text]


def _put_marks(found: re.Match[str]) -> str:
    return found[0] if found[0].startswith("%(") else f"{START}{found[0]}{END}"


@cache
def marker(language: str) -> Marker:
    """Return the marker of a language: the list of words in the theme, as its catalogue has them."""
    return Marker(read_words(render(LIST, language, {})))
