"""Values that know where they were written."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from typing import Generic, TypeVar

from builder.buildfile.nodes import Items, Node, Pair, Pairs, Text
from builder.buildfile.problems import Problem, instead
from builder.buildfile.without_brackets import is_one_more, no_brackets
from builder.trailer.origin import NOWHERE, Origin

T = TypeVar("T")
_BLANK = re.compile(r"_{2,}")
_DIGITS = re.compile(r"\d+")
_TAIL = re.compile(r"\d+\s*\S")
_THOUSANDS = re.compile(r"\d{3}(?!\d)")


class Key(str):
    """A key of the build file with its place; equal to its text."""

    __slots__ = ("origin",)
    origin: Origin

    @classmethod
    def of(cls, text: str, origin: Origin) -> Key:
        """Return the key of a text at a place."""
        key = cls(text)
        key.origin = origin
        return key


def fold(name: str) -> str:
    """Return a name as names are compared: case and blanks do not count."""
    return " ".join(name.casefold().split())


@dataclass(frozen=True, slots=True)
class Written(Generic[T]):
    """A value, the words it was read from and their place."""

    value: T
    text: str
    origin: Origin


@dataclass(frozen=True, slots=True)
class Nothing:
    """Stands where a name has no value, which is told already: what it belongs to is not valid, and nothing more."""

    origin: Origin


@dataclass(frozen=True, slots=True)
class Plain:
    """A node tree as dictionaries, lists and texts, with the problems met on the way."""

    data: object
    problems: tuple[Problem, ...]


class EmptyList(list[object]):
    """A list with nothing in it that could tell its place."""

    def __init__(self, origin: Origin) -> None:
        super().__init__()
        self.origin = origin


class EmptyGroup(dict[Key, object]):
    """A group with nothing in it that could tell its place."""

    def __init__(self, origin: Origin) -> None:
        super().__init__()
        self.origin = origin


def to_plain(node: Node) -> Plain:
    """Turn nodes into dictionaries (with :class:`Key` keys), lists and :class:`Text` leaves.

    A name with a colon and nothing after it is a problem, and :class:`Nothing` stands for its value; a number
    that a comma has torn in two is a problem too, and is put together again.
    """
    problems: list[Problem] = []
    return Plain(_plain(node, problems), tuple(problems))


def _plain(node: Node, problems: list[Problem]) -> object:
    if isinstance(node, Text):
        return _filled_in(node, problems)
    if isinstance(node, Items):
        found = [_plain(item, problems) for item in node.items]
        return _mend_items([item for item in found if item != {}], problems) or EmptyList(node.origin)
    data: dict[Key, object] = {}
    before: Key | None = None
    lists: dict[Key, list[object]] = {}
    beside = {fold(pair.key.value) for pair in node.pairs}
    last: Pair | None = None
    for pair in node.pairs:
        right_behind, last = last is not None and last.value is not None, pair
        key = Key.of(pair.key.value, pair.key.origin)
        _filled_in(pair.key, problems)
        if pair.value is not None:
            data[key] = _plain(pair.value, problems)
            before = key
        elif pair.bare and before is not None and _torn(data[before], pair.key):
            data[before] = _put_together(data[before], pair.key, problems)
        elif pair.bare and before is not None and before in lists and is_one_more(before, key, beside):
            lists[before].append(pair.key)
        elif (
            pair.bare
            and before is not None
            and right_behind
            and _begins_list(data[before], before, key, beside)
        ):
            problems.append(no_brackets(node, before, data[before]))
            data[before] = lists[before] = [data[before], pair.key]
        else:
            goes_on = data and isinstance(next(reversed(data.values())), Nothing) and node.flow
            problems += [] if goes_on else [_nothing_after(node, pair)]
            data[key] = Nothing(key.origin)
    return data or EmptyGroup(node.origin)


def _begins_list(first: object, name: Key, word: Key, beside: Collection[str]) -> bool:
    """Tell whether a lone value and the word right behind it are the list that a name takes, without its brackets."""
    return isinstance(first, Text) and not _DIGITS.fullmatch(word) and is_one_more(name, word, beside)


def _filled_in(text: Text, problems: list[Problem]) -> Text | Nothing:
    """Return a text, or nothing where it is a blank that still waits for its value."""
    if text.quoted or not _BLANK.fullmatch(text.value):
        return text
    problems.append(
        Problem(
            text.origin,
            "still blank",
            "a blank is left here, and the build cannot be worked out without it",
            f"measure it or look it up, and write it in place of {text.value}",
        )
    )
    return Nothing(text.origin)


def _nothing_after(group: Pairs, pair: Pair) -> Problem:
    """Return the problem of a name without a value; in braces it is mostly the rest of a text with a comma."""
    key = pair.key
    if pair.bare and group.pairs[0] is not pair:
        return Problem(
            key.origin,
            "comma in a text",
            f"a comma parts two things inside braces, and “{key.value}” is a name without a value",
            'write its value; if it belongs to the text before, put that in quotes: where: "roof, left side"',
        )
    return Problem(
        key.origin,
        "empty value",
        f"“{key.value}” has a colon and nothing after it",
        "write a value after the colon, or take the line out",
    )


def _mend_items(items: list[object], problems: list[Problem]) -> list[object]:
    """Put numbers together again that a comma has torn into two items of a list."""
    mended: list[object] = []
    for item in items:
        last = mended[-1] if mended else None
        if isinstance(item, Text) and last is not None:
            if isinstance(last, Text) and _torn(last, item):
                mended[-1] = _put_together(last, item, problems)
                continue
            if isinstance(last, dict) and len(last) == 1 and _torn(next(iter(last.values())), item):
                key, value = next(iter(last.items()))
                mended[-1] = {key: _put_together(value, item, problems)}
                continue
        mended.append(item)
    return mended


def _torn(first: object, rest: Text) -> bool:
    """Tell whether two texts are a number with a comma in it: digits, a comma, digits with a unit, no blank."""
    if not isinstance(first, Text) or not _DIGITS.fullmatch(first.value) or not _TAIL.match(rest.value):
        return False
    a, b = first.origin, rest.origin
    return a.line == b.line and b.column == a.column + a.length + 1


def _put_together(first: object, rest: Text, problems: list[Problem]) -> Text:
    if not isinstance(first, Text):
        return rest
    place = Origin(first.origin.line, first.origin.column, first.origin.length + 1 + rest.origin.length)
    right, whole = f"{first.value}.{rest.value}", f"{first.value}{rest.value}"
    problems.append(
        Problem(
            place,
            "comma in a number",
            f"the comma in {first.value},{rest.value} parts two things here",
            f"write {whole}, or {right} where a point is meant"
            if _THOUSANDS.match(rest.value)
            else f"write {right}, with a point",
            mends=instead(whole, right) if _THOUSANDS.match(rest.value) else instead(right),
        )
    )
    return Text(right, place, quoted=False)


def origin_of(value: object) -> Origin:
    """Return the place of a plain value: of the first thing in it where it is a collection."""
    if isinstance(value, Text | Key | Written | Nothing | EmptyList | EmptyGroup):
        return value.origin
    if isinstance(value, dict):
        return next((origin_of(key) for key in value), NOWHERE)
    if isinstance(value, list):
        return next((origin_of(item) for item in value), NOWHERE)
    return NOWHERE


def find_origin(data: object, path: tuple[int | str, ...]) -> Origin:
    """Return the place that a path of keys and positions leads to, or the last place on the way."""
    found = origin_of(data)
    for step in path:
        if isinstance(data, dict):
            key = next((k for k in data if k == step), None)
            if key is None and len(data) == 1:
                key, value = next(iter(data.items()))
                found = origin_of(key)
                if isinstance(value, dict):
                    inner = next((k for k in value if k == step), None)
                    if inner is not None:
                        found, data = origin_of(inner), value[inner]
                        continue
                data = value
                continue
            if key is None:
                return found
            found, data = origin_of(key), data[key]
        elif isinstance(data, list) and isinstance(step, int) and step < len(data):
            data = data[step]
            found = origin_of(data)
        else:
            return found
    return found
