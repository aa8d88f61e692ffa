"""The names on the paths of entries that have problems of their own: such paths are not walked."""

from __future__ import annotations

from collections.abc import Iterator

from builder.buildfile.nodes import Text
from builder.buildfile.written import Key

_PATHS = ("path", "branches")
_SHORT = "to main fuse"
"""What the battery's line says instead of a path, and which part it leads to."""


def names_on_paths(entry: object) -> Iterator[str]:
    """Yield what is named in the path of an entry and in its branches; nothing where they have another shape."""
    if not isinstance(entry, dict):
        return
    if _SHORT in entry:
        yield _SHORT.removeprefix("to ")
    for word in _PATHS:
        items = entry.get(word)
        for item in items if isinstance(items, list) else ():
            if isinstance(item, Text):
                yield item.value
            elif isinstance(item, dict):
                yield from (str(key) for key in item if isinstance(key, Key) and key not in _PATHS)
                yield from names_on_paths(item)
