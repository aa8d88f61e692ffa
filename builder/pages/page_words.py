"""Words used: every trade word that the manual links, and those that explain it, in alphabet."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from builder.pages.trade_words import Marker, TradeWord
from builder.pages.word_links import meaning_with_links, with_cross_links


def words_page(used: Iterable[TradeWord], marker: Marker) -> dict[str, Any]:
    """Return what the template of Words used is filled with: ``used`` are the words that other pages link."""
    words = with_cross_links(used, marker)
    first = {word.head[0].upper(): f"#{word.anchor}" for word in reversed(words)}
    return {
        "words": [(word.head, meaning_with_links(word, marker), word.anchor) for word in words],
        "letters": sorted(first.items()),
    }
