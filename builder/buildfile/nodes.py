"""The build file as a tree of texts, each with the place where it was written.

The tree knows nothing of numbers, dates or yes and no: a scalar is the text that stands in the file.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.trailer.origin import Origin


@dataclass(frozen=True, slots=True)
class Text:
    """One scalar: ``value`` in NFC with plain spaces, ``origin`` its very word (quotes included).

    ``quoted`` is true for text in quotes and for the block forms of YAML (``|`` and ``>``); ``curly`` for text in
    typographic quotes, which are no quotes to YAML: they are left out of the value, and only a quantity may have them.
    """

    value: str
    origin: Origin
    quoted: bool = False
    curly: bool = False


@dataclass(frozen=True, slots=True)
class Items:
    """A list; ``origin`` is the whole bracket if it stands on one line, else its first sign."""

    items: tuple[Node, ...]
    origin: Origin


@dataclass(frozen=True, slots=True)
class Pair:
    """A name and what stands behind its colon; ``value`` is None where nothing does, ``bare`` tells of no colon."""

    key: Text
    value: Node | None
    bare: bool = False


@dataclass(frozen=True, slots=True)
class Pairs:
    """Names with values; sibling names differ. ``flow`` is true for the form in braces or in a list."""

    pairs: tuple[Pair, ...]
    origin: Origin
    flow: bool = False


Node = Text | Items | Pairs
