"""Marked trade words on finished pages: the best place of each becomes a link, all other marks go."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from markupsafe import Markup, escape

from builder.pages.trade_words import END, START, Marker, TradeWord

PAGE = "words"
"""The page that explains the words, without its ending."""

_PIECE = re.compile(r"<[^<>]*>|[^<]+")
_TAG = re.compile(r"<(/?)([a-zA-Z][\w-]*)")
_CLASS = re.compile(r'\sclass="([^"]*)"')
_MARKED = re.compile(f"{START}([^{START}{END}]*){END}")
_VOID = {"img", "br", "hr", "input", "wbr"}

NO_LINK = {"a", "svg", "h1", "h2", "h3", "h4", "code", "pre", "summary", "caption"}
"""Elements in which a word never becomes a link: in a link, a picture, a heading, a name for a screen reader."""
NO_LINK_CLASSES = {"fuse", "wire", "signal", "card", "letters", "formula", "list-head", "page-head", "ring"}
"""The same by class: chips, signal words, the card that is cut out, lines to check with a pencil."""
PROSE = {"p", "li", "figcaption"}
LESS = {"td", "th", "dt", "dd"}
LESS_CLASSES = {"caution"}
HEADS = {"thead"}
"""Where else a word may be a link when running text has none: cells, labels and cautions, then heads of columns."""


@dataclass(frozen=True, slots=True)
class _Place:
    """One marked word on a page: the better its ``rank`` (0 is best), the earlier ``start``, the sooner it links."""

    rank: int
    start: int
    stop: int
    form: str


@dataclass(slots=True)
class _Walk:
    """The elements that are open while a page is read from front to back."""

    names: list[str] = field(default_factory=list)
    classes: list[set[str]] = field(default_factory=list)

    def tag(self, text: str) -> None:
        """Take in one tag."""
        found = _TAG.match(text)
        if found is None or found[2].lower() in _VOID or text.endswith("/>"):
            return
        name = found[2].lower()
        if not found[1]:
            classes = _CLASS.search(text)
            self.names.append(name)
            self.classes.append(set(classes[1].split()) if classes else set())
            return
        while self.names:
            self.classes.pop()
            if self.names.pop() == name:
                return

    @property
    def rank(self) -> int | None:
        """How well a link would stand here; None where none may."""
        names = set(self.names)
        classes = set().union(*self.classes)
        if names & NO_LINK or classes & NO_LINK_CLASSES:
            return None
        if names & HEADS:
            return 2
        if names & LESS or classes & LESS_CLASSES:
            return 1
        return 0 if names & PROSE else None


def link_words(pages: Mapping[str, str], marker: Marker) -> tuple[dict[str, str], tuple[TradeWord, ...]]:
    """Return pages with one link for each trade word that a page uses, and the words that are linked on any.

    ``pages`` are Markdown pages whose blocks are HTML, by path, with words between marks; no mark is left. The
    first place in running text is linked, else the first in a cell or a caution, else in a column's head.
    """
    done: dict[str, str] = {}
    used: dict[str, None] = {}
    for path, text in pages.items():
        best: dict[str, _Place] = {}
        for place in _places(text):
            word = marker.word(place.form)
            before = best.get(word.anchor)
            if before is None or place.rank < before.rank:
                best[word.anchor] = place
        used |= dict.fromkeys(best)
        done[path] = _linked(text, {place.start: anchor for anchor, place in best.items()})
    return done, tuple(word for word in marker.words if word.anchor in used)


def without_marks(text: str) -> str:
    """Return a text with the marks of trade words taken out."""
    return text.replace(START, "").replace(END, "")


def _places(text: str) -> Iterable[_Place]:
    """Yield the marked words of a page that could be links, from front to back."""
    walk = _Walk()
    for piece in _PIECE.finditer(text):
        if piece[0].startswith("<"):
            walk.tag(piece[0])
            continue
        if START not in piece[0]:
            continue
        rank = walk.rank
        if rank is not None:
            for found in _MARKED.finditer(piece[0]):
                start = piece.start() + found.start()
                yield _Place(rank, start, start + len(found[0]), found[1])


def _linked(text: str, links: Mapping[int, str]) -> str:
    """Return a page with links at the places given by where their mark starts, and without any other mark."""
    made: list[str] = []
    at = 0
    for start, anchor in sorted(links.items()):
        found = _MARKED.match(text, start)
        if found is None:
            raise ValueError(f"no trade word is marked at sign {start}")
        made += [without_marks(text[at:start]), f'<a class="word" href="{PAGE}.html#{anchor}">{found[1]}</a>']
        at = found.end()
    return "".join((*made, without_marks(text[at:])))


def with_cross_links(words: Iterable[TradeWord], marker: Marker) -> tuple[TradeWord, ...]:
    """Return words and those that explain them, in alphabet: each word that a meaning uses is explained as well."""
    found: dict[str, TradeWord] = {}
    waiting = list(words)
    while waiting:
        word = waiting.pop()
        if word.anchor not in found:
            found[word.anchor] = word
            waiting += [marker.word(form) for form in _MARKED.findall(marker.mark(word.meaning))]
    return tuple(sorted(found.values(), key=lambda word: (word.head.casefold(), word.head)))


def meaning_with_links(word: TradeWord, marker: Marker) -> Markup:
    """Return the meaning of a word as HTML: the first time it uses another word it links to that one's place."""
    met = {word.anchor}
    made = Markup("")
    at = 0
    text = marker.mark(word.meaning)
    for found in _MARKED.finditer(text):
        other = marker.word(found[1])
        made += escape(text[at : found.start()])
        made += (
            found[1] if other.anchor in met else Markup('<a href="#{}">{}</a>').format(other.anchor, found[1])
        )
        met.add(other.anchor)
        at = found.end()
    return made + escape(text[at:])
