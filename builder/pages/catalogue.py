"""The texts of the manual by language: gettext catalogues in the theme, English being the source."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cache

from babel.messages.pofile import read_po

from builder.pages.theme_files import theme_text
from builder.trailer.plug_functions import AMERICAN

LANGUAGE = "en"
"""The language that manuals are written in."""

_UNITED_STATES = "en-US"
_SPELT_THERE = {
    "colour": "color",
    "colours": "colors",
    "coloured": "colored",
    "metres": "meters",
    "moulded": "molded",
    "neighbour": "neighbor",
    "number plate": "license plate",
    "spanner": "wrench",
}
"""Words of the texts that are other letters in the United States (from memory); a text is not said twice for them."""
_WORD = re.compile(
    r"%\(\w+\)s|\{[^{}]*\}|``[^`]*``|(?<![\w-])(?:" + "|".join(_SPELT_THERE) + r")(?![\w-])", re.IGNORECASE
)


def language_of(country: str) -> str:
    """Return the catalogue for a country: words as used in Britain where roads and trailers are not American.

    An earth is a ground there, an indicator a turn lamp, a drawbar a tongue (common practice).
    """
    if country == "US":
        return _UNITED_STATES
    return LANGUAGE if country in AMERICAN else "en-GB"


@dataclass(frozen=True, slots=True)
class Catalogue:
    """The translations of one language; a text without one is printed as it stands in the theme, spelt as there."""

    one: Mapping[str, str]
    several: Mapping[str, tuple[str, ...]]
    spelt: Callable[[str], str] = str

    def gettext(self, text: str) -> str:
        """Return a text in the language."""
        return self.one.get(text) or self.spelt(text)

    def ngettext(self, one: str, several: str, count: int) -> str:
        """Return the form of a text for a count."""
        forms = self.several.get(one, ())
        fitting = forms[0 if count == 1 else min(1, len(forms) - 1)] if forms else ""
        return fitting or self.spelt(one if count == 1 else several)


@cache
def _american(text: str) -> str:
    """Return a text as it is spelt in the United States; names of values and words of the file stay."""

    def spelt(word: re.Match[str]) -> str:
        found = word[0]
        there = _SPELT_THERE.get(found.lower())
        if there is None:
            return found
        return there.capitalize() if found[0].isupper() else there

    return _WORD.sub(spelt, text)


@cache
def catalogue(language: str) -> Catalogue:
    """Return the catalogue of a language, such as ``en``; raises FileNotFoundError when there is none."""
    if language == _UNITED_STATES:
        return replace(catalogue(LANGUAGE), spelt=_american)
    read = read_po(io.BytesIO(theme_text(f"texts/{language}.po").encode("utf-8")))
    one: dict[str, str] = {}
    several: dict[str, tuple[str, ...]] = {}
    for message in read:
        if isinstance(message.id, list | tuple):
            several[str(message.id[0])] = tuple(str(form) for form in message.string or ())
        elif message.id and isinstance(message.string, str):
            one[message.id] = message.string
    return Catalogue(one, several)
