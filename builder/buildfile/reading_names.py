"""Names side by side: equal, or equal to the eye."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator

from builder.buildfile.nodes import Node, Pair, Pairs, Text
from builder.buildfile.problems import Problem, code_point, quote
from builder.trailer.origin import Origin

# Small letters (after case folding) of Cyrillic and Greek that look like a Latin letter in most typefaces,
# small or capital. From memory of the alphabets; it only decides that two names are worth a second look.
_CYRILLIC = str.maketrans("авекмнорстухіјѕԁԛԝһӏ", "abekmhopctyxijsdqwhl")
_GREEK = str.maketrans("αβεζηικνορτυχ", "abezhikvoptyx")
_LOOK_ALIKE = _CYRILLIC | _GREEK

_WORD = re.compile(r"[^\W\d_]+")


def folded(name: str) -> str:
    """Return the name as it is compared: NFC, one blank between words, without regard to capitals."""
    composed = unicodedata.normalize("NFC", " ".join(name.split()))
    return unicodedata.normalize("NFC", composed.casefold())


def looks(name: str) -> str:
    """Return what the eye reads: two names that look the same have the same looks."""
    return folded(name).translate(_LOOK_ALIKE)


def in_latin(text: str) -> str:
    """Return a text with each letter that looks like a Latin one as that letter."""
    small = {
        ord(char): latin for char in text if (latin := char.lower().translate(_LOOK_ALIKE)) != char.lower()
    }
    return "".join(
        (small[ord(char)].upper() if char.isupper() else small[ord(char)]) if ord(char) in small else char
        for char in text
    )


def different_names(pairs: Iterable[Pair]) -> tuple[tuple[Pair, ...], list[Problem]]:
    """Sibling pairs without those whose name was written before, and a problem for each of these."""
    kept: list[Pair] = []
    problems: list[Problem] = []
    written: dict[str, Text] = {}
    seen: dict[str, Text] = {}
    for pair in pairs:
        first = written.setdefault(folded(pair.key.value), pair.key)
        twin = seen.setdefault(looks(pair.key.value), pair.key)
        if first is not pair.key:
            problems.append(_twice(pair.key, first))
            continue
        if twin is not pair.key:
            problems.append(_look_the_same(pair.key, twin))
        kept.append(pair)
    return tuple(kept), problems


def mixed_alphabets(root: Node, told: Iterable[Problem]) -> list[Problem]:
    """Words that mix Latin letters with look-alike ones, where no problem tells of the name already."""
    known = {place for problem in told for place in (problem.origin, problem.also)}
    return [
        problem
        for text in _texts(root)
        if not text.value.isascii() and text.origin not in known
        for problem in _mixed_words(text)
    ]


def _texts(root: Node) -> Iterator[Text]:
    open_nodes: list[Node] = [root]
    while open_nodes:
        node = open_nodes.pop()
        if isinstance(node, Text):
            yield node
        elif isinstance(node, Pairs):
            for pair in node.pairs:
                yield pair.key
                open_nodes += [pair.value] if pair.value else []
        else:
            open_nodes += node.items


def _mixed_words(text: Text) -> Iterator[Problem]:
    for word in _WORD.findall(text.value):
        foreign = next((char for char in word if char.lower().translate(_LOOK_ALIKE) != char.lower()), None)
        if foreign and any(char.isascii() for char in word):
            latin = foreign.lower().translate(_LOOK_ALIKE)
            yield Problem(
                text.origin,
                "look-alike letter",
                f"{quote(word)} mixes two alphabets: its {foreign} ({code_point(foreign)}) "
                f"looks like the Latin letter {latin}",
                "write the word anew, in one alphabet",
            )
            return


def _twice(key: Text, first: Text) -> Problem:
    exact = key.value == first.value
    return Problem(
        key.origin,
        "name written twice",
        f"{quote(key.value)} is written twice, first {_place(first.origin, key.origin)}"
        + ("" if exact else f" as {quote(first.value)}; capitals and blanks make no other name"),
        "keep one of the two, or give one another name",
        first.origin,
    )


def _look_the_same(key: Text, twin: Text) -> Problem:
    pairs = zip(folded(key.value), folded(twin.value), strict=False)
    here, there = next(((a, b) for a, b in pairs if a != b), ("", ""))
    letters = f": {code_point(here)} here, {code_point(there)} there" if here else ""
    return Problem(
        key.origin,
        "names look the same",
        f"{quote(key.value)} and the name {_place(twin.origin, key.origin)} look the same "
        f"but are written with different letters{letters}",
        "write both names with the same letters if one thing is meant, else give one another name",
        twin.origin,
    )


def _place(first: Origin, here: Origin) -> str:
    return f"in column {first.column}" if first.line == here.line else f"at line {first.line}"
