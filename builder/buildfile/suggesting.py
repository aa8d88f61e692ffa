"""Which of the words that are possible at a place a wrong one most likely stands for.

Distance: letters left out, put in, exchanged, or swapped with their neighbour, each counted once (optimal string
alignment, the restricted form of the Damerau–Levenshtein distance).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from builder.buildfile.synonyms import meant

LONG_WORD = 7
"""A word from this many letters on may have two slips; a shorter one with two would be another word."""
LONGEST_COMPARED = 60
MOST_TOLD = 3

_SEPARATORS = re.compile(r"[\s_-]+")
_DIGITS = re.compile(r"\d")


def nearest(word: str, words: Iterable[str], place: str = "") -> str | None:
    """Return the word that a misspelt one is closest to, or None; see :func:`near_words`."""
    return next(iter(near_words(word, words, place)), None)


def near_words(word: str, words: Iterable[str], place: str = "") -> tuple[str, ...]:
    """Return the words that a wrong one may stand for, the likeliest first; none where that would be a guess.

    Args:
        word: what stands in the file.
        words: what may stand there.
        place: names the list of synonyms that counts there; see `builder.buildfile.synonyms`.

    Returns:
        The word that the maker's own word stands for; else those with the fewest slips; else, where the word is the
        first or last of several, the whole; at most three.

    """
    return _near(word, tuple(words), place)


@lru_cache(maxsize=10_000)
def _near(word: str, known: tuple[str, ...], place: str) -> tuple[str, ...]:
    """Return what `near_words` does; kept, since each edit that is tried asks for the same words again."""
    typed = _tidy(word)
    if len(typed) > LONGEST_COMPARED:
        return ()
    synonym = meant(place, " ".join(word.casefold().split()))
    if synonym in known:
        return (synonym,)
    slips = [(_slips(typed, _tidy(one)), one) for one in known]
    least = min((count for count, _ in slips if count is not None), default=None)
    if least is not None:
        near = [one for count, one in slips if count == least]
        return tuple(sorted(near, key=lambda one: _tidy(one)[:1] != typed[:1])[:MOST_TOLD])
    whole = [one for one in known if _is_part(typed, _tidy(one))]
    return tuple(whole) if len(whole) <= MOST_TOLD else ()


def did_you_mean(near: Iterable[str]) -> str:
    """Return the question that names the words which may be meant, or nothing.

    >>> did_you_mean(("at", "as"))
    'did you mean “at” or “as”?'
    """
    named = " or ".join(f"“{word}”" for word in near)
    return f"did you mean {named}?" if named else ""


def sure_of(word: str, near: tuple[str, ...]) -> bool:
    """Tell whether the only near word differs by slips alone: not by meaning as a synonym does, and not by a number."""
    return (
        len(near) == 1
        and _slips(_tidy(word), _tidy(near[0])) is not None
        and _DIGITS.findall(word) == _DIGITS.findall(near[0])
    )


@lru_cache(maxsize=10_000)
def _letters(word: str) -> frozenset[str]:
    return frozenset(word)


@lru_cache(maxsize=10_000)
def _tidy(word: str) -> str:
    return _SEPARATORS.sub(" ", word.casefold()).strip()


def _is_part(typed: str, known: str) -> bool:
    """Tell whether a word is the beginning or the end of several."""
    return len(typed) > 2 and (known.startswith(typed + " ") or known.endswith(" " + typed))


def _slips(typed: str, known: str) -> int | None:
    """Return how many slips make one word of the other, or None where there are too many."""
    allowed = 2 if len(known.replace(" ", "")) >= LONG_WORD else 1
    if abs(len(typed) - len(known)) > allowed or min(len(typed), len(known)) == 0:
        return _joined(typed, known)
    mine, theirs = _letters(typed), _letters(known)
    if (
        len(mine - theirs) > allowed or len(theirs - mine) > allowed
    ):  # each slip brings or takes one letter at most
        return _joined(typed, known)
    count = _distance(typed, known)
    return count if count <= allowed and count < len(known) else _joined(typed, known)


def _joined(typed: str, known: str) -> int | None:
    """Tell of words written together, or apart: ``tofrontbox``."""
    return 1 if typed.replace(" ", "") == known.replace(" ", "") else None


def _distance(left: str, right: str) -> int:
    before: list[int] = []
    row = list(range(len(right) + 1))
    for i, a in enumerate(left, start=1):
        earlier, before, row = before, row, [i]
        for j, b in enumerate(right, start=1):
            count = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a != b))
            if i > 1 and j > 1 and a == right[j - 2] and left[i - 2] == b:
                count = min(count, earlier[j - 2] + 1)
            row.append(count)
    return row[-1]
