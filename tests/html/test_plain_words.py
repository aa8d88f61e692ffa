"""The owner's texts are easy to read: grade 8 or lower, cautions grade 6 or lower.

Grade = 0.39 words/sentences + 11.8 syllables/words − 15.59 (from memory: the formula of the US Navy's readability
study as it is commonly quoted).
"""

from __future__ import annotations

import re

import pytest
from example_site import Site, kind_of

MOST, MOST_IN_A_CAUTION = 8.0, 6.0


def syllables(word: str) -> int:
    """Count the syllables of an English word by its groups of vowels."""
    plain = re.sub(r"[^a-z]", "", word.casefold())
    groups = len(re.findall(r"[aeiouy]+", plain))
    if plain.endswith("e") and not plain.endswith(("le", "ee")) and groups > 1:
        groups -= 1
    if plain.endswith("ed") and not plain.endswith(("ted", "ded")) and groups > 1:
        groups -= 1
    return max(groups, 1)


def grade(text: str) -> float:
    sentences = [part for part in re.split(r"[.!?:]+(?:\s|$)", text) if re.search(r"[a-zA-Z]", part)]
    words = [word for word in re.findall(r"[A-Za-z'’]+", text) if len(word) > 0]
    return 0.39 * len(words) / len(sentences) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59


@pytest.mark.parametrize(
    ("word", "count"), [("fuse", 1), ("battery", 3), ("wired", 1), ("the", 1), ("little", 2)]
)
def test_syllables(word: str, count: int) -> None:
    assert syllables(word) == count


def test_a_hard_text_is_told_from_an_easy_one() -> None:
    assert grade("Pull the fuse out. Look at it.") < 2
    assert (
        grade(
            "Subsequent verification of installation characteristics necessitates professional examination."
        )
        > 14
    )


def test_owner_s_pages_are_easy_to_read(owner: Site) -> None:
    kinds: dict[str, list[str]] = {}
    for name in owner.pages:
        article = owner.article(name)
        for tag in article.select("p, li"):
            if tag.find_parent(class_=["worked", "page-head", "facts", "caution"]) or tag.find(["p", "li"]):
                continue
            text = " ".join(tag.get_text(" ", strip=True).split())
            if len(text.split()) >= 4:
                kinds.setdefault(kind_of(name), []).append(text.rstrip(".") + ".")
    assert kinds.keys() >= {"index", "circuit", "fuses", "wires", "find"}
    for kind in ("index", "circuit", "fuses", "wires", "find"):
        assert grade(" ".join(kinds[kind])) <= MOST, (kind, grade(" ".join(kinds[kind])))


def test_cautions_are_easier_still(owner: Site) -> None:
    seen = set()
    for name in owner.pages:
        for caution in owner.article(name).select(".caution-says"):
            text = " ".join(caution.get_text(" ", strip=True).split())
            seen.add(text)
            assert grade(text) <= MOST_IN_A_CAUTION, (grade(text), text)
    assert len(seen) >= 3
