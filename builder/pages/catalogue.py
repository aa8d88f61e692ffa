"""The texts of the manual by language: gettext catalogues in the theme, English being the source."""

from __future__ import annotations

import io
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from babel.messages.pofile import read_po

from builder.pages.theme_files import theme_text
from builder.trailer.plug_functions import AMERICAN

LANGUAGE = "en"
"""The language that manuals are written in."""


def language_of(country: str) -> str:
    """Return the catalogue for a country: words as used in Britain where roads and trailers are not American.

    An earth is a ground there, an indicator a turn lamp, a drawbar a tongue (common practice).
    """
    return LANGUAGE if country in AMERICAN else "en-GB"


@dataclass(frozen=True, slots=True)
class Catalogue:
    """The translations of one language; a text without one is printed as it stands in the theme."""

    one: Mapping[str, str]
    several: Mapping[str, tuple[str, ...]]

    def gettext(self, text: str) -> str:
        """Return a text in the language."""
        return self.one.get(text) or text

    def ngettext(self, one: str, several: str, count: int) -> str:
        """Return the form of a text for a count."""
        forms = self.several.get(one, ())
        fitting = forms[0 if count == 1 else min(1, len(forms) - 1)] if forms else ""
        return fitting or (one if count == 1 else several)


@cache
def catalogue(language: str) -> Catalogue:
    """Return the catalogue of a language, such as ``en``; raises FileNotFoundError when there is none."""
    read = read_po(io.BytesIO(theme_text(f"texts/{language}.po").encode("utf-8")))
    one: dict[str, str] = {}
    several: dict[str, tuple[str, ...]] = {}
    for message in read:
        if isinstance(message.id, list | tuple):
            several[str(message.id[0])] = tuple(str(form) for form in message.string or ())
        elif message.id and isinstance(message.string, str):
            one[message.id] = message.string
    return Catalogue(one, several)
