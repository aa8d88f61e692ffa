"""Words that makers use for a word of the build file, place by place: common practice of the trade.

None of them is read for the word it stands for; each is only asked back (“did you mean …?”).
"""

from __future__ import annotations

import re
from functools import cache

from builder.buildfile.synonym_lists import LISTS

_ENTRY = re.compile(r"^ {8}(?=\S)", re.MULTILINE)


def meant(place: str, written: str) -> str | None:
    """Return the word that a maker's own word stands for at a place, such as ``draws`` for ``amps`` in a part.

    Args:
        place: a key of the lists above; an unknown one has no synonyms.
        written: the maker's word in small letters, with single blanks.

    """
    return _synonyms(place).get(written)


def meant_anywhere(written: str) -> str | None:
    """Return the word that a maker's own word stands for at the first place where it stands for one."""
    return next(filter(None, (meant(place, written) for place in LISTS)), None)


@cache
def _synonyms(place: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for entry in _ENTRY.split(LISTS.get(place, ""))[1:]:
        word, _, written = " ".join(entry.split()).partition(": ")
        found |= dict.fromkeys(written.split(", "), word)
    return found
