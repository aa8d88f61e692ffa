"""Values that know where they were written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

from builder.buildfile.nodes import Items, Node, Pairs, Text
from builder.buildfile.problems import Problem
from builder.trailer.origin import NOWHERE, Origin

T = TypeVar("T")


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


@dataclass(frozen=True, slots=True)
class Written(Generic[T]):
    """A value, the words it was read from and their place."""

    value: T
    text: str
    origin: Origin


@dataclass(frozen=True, slots=True)
class Plain:
    """A node tree as dictionaries, lists and texts, with the problems met on the way."""

    data: object
    problems: tuple[Problem, ...]


def to_plain(node: Node) -> Plain:
    """Turn nodes into dictionaries (with :class:`Key` keys), lists and :class:`Text` leaves.

    A name with a colon and nothing after it is a problem and is left out.
    """
    problems: list[Problem] = []
    return Plain(_plain(node, problems), tuple(problems))


def _plain(node: Node, problems: list[Problem]) -> object:
    if isinstance(node, Text):
        return node
    if isinstance(node, Items):
        return [_plain(item, problems) for item in node.items]
    data: dict[Key, object] = {}
    for pair in node.pairs:
        if pair.value is None:
            problems.append(
                Problem(
                    pair.key.origin,
                    "empty value",
                    f"“{pair.key.value}” has a colon and nothing after it",
                    "write a value after the colon, or take the line out",
                )
            )
            continue
        data[Key.of(pair.key.value, pair.key.origin)] = _plain(pair.value, problems)
    return data


def origin_of(value: object) -> Origin:
    """Return the place of a plain value: of the first thing in it where it is a collection."""
    if isinstance(value, Text | Key | Written):
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
