"""How many years of school a text asks for: sentences, words and syllables, counted by our own rules.

grade = 0.39 words a sentence + 11.8 syllables a word − 15.59 (the usual school grade formula; from memory).
"""

from __future__ import annotations

import re
from collections.abc import Iterable

WORD = re.compile(r"[A-Za-z]+(?:['’][a-z]+)?")
END = re.compile(r"[.!?:;](?=\s|$)")
GROUP = re.compile(r"[aeiouy]+")
TWO = re.compile(r"ia(?![ln]\b)|io(?!n|us)|eo|ua(?!r)|uie|[aeo]ing\b|iu")
SPOKEN = {"any": 2, "every": 2, "everything": 3, "everybody": 4, "area": 3, "idea": 3, "people": 2, "via": 2}
"""Words that the rules below count wrongly."""


def syllables(word: str) -> int:
    """Return about how many syllables an English word has; at least one."""
    bare = re.sub(r"[^a-z]", "", word.lower())
    if bare in SPOKEN:
        return SPOKEN[bare]
    heard = re.search(r"(?:[sxzcg]|ch|sh)es$|[td]ed$|[^aeiouy]les?$", bare)  # fuses, wanted, table
    stem = bare if heard else re.sub(r"(?<=[^aeiouy])e[sd]?$", "", bare)  # wires, pulled, wire
    stem = re.sub(r"(?<=[aeiouy][^aeiouy])e(?=(?:ly|less|ful|ment)$)", "", stem)  # closely
    return max(1, len(GROUP.findall(stem)) + len(TWO.findall(stem)))


def sentences(text: str) -> list[str]:
    """Return the sentences of a text; a text without an end sign is one."""
    return [piece for piece in END.split(text) if WORD.search(piece)]


def grade(texts: Iterable[str]) -> float:
    """Return the school grade of texts taken together; each text ends a sentence."""
    told = [piece for text in texts for piece in sentences(text)]
    words = [word for piece in told for word in WORD.findall(piece)]
    if not words:
        return 0.0
    return 0.39 * len(words) / len(told) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59
