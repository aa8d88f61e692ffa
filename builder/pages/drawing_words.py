"""The words on the drawings, from the theme, in a language."""

from __future__ import annotations

import html
from functools import cache

from builder.drawings.wording import Words
from builder.pages.templates import render


@cache
def drawing_words(language: str) -> Words:
    """Return the words on the drawings in a language of the catalogue."""
    lines = render("drawing_words.jinja", language, {}).strip().splitlines()
    return Words(**{key: html.unescape(text) for key, _, text in (line.partition(" = ") for line in lines)})
