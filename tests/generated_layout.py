"""Generated builds as YAML: in braces on one line or spread over many, quoted where it must be and where it may be."""

from __future__ import annotations

import re
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

Tree = str | None | Sequence["Tree"] | Mapping[str, "Tree"]
"""A build file: texts, lists, groups; None is a colon with nothing after it."""
Path = tuple[str | int, ...]

NAMED = ("parts", "circuits", "road lamps", "spares", "waiting", "assume")
"""Headings under which every entry begins on a line of its own."""
_PLAIN = re.compile(r"[^\W_](?:[\w .'\"’/²°%½+()–-]*[\w.'\"²%)])?")


class Raw(str):
    """A text that is written as it is, without quotes."""

    __slots__ = ()


@dataclass(slots=True)
class Page:
    """The lines of a build file, and for each path into its tree the number of the line it stands on."""

    seed: int
    lines: list[str] = field(default_factory=list)
    places: dict[Path, int] = field(default_factory=dict)

    def chance(self, percent: int, *about: object) -> bool:
        """Tell whether something is done here: the same for the same place, whatever stands elsewhere."""
        return zlib.crc32(repr((self.seed, about)).encode()) % 100 < percent

    def scalar(self, text: str, path: Path) -> str:
        """Return a text, in quotes where YAML needs them and now and then where it does not."""
        if isinstance(text, Raw):
            return str(text)
        if _PLAIN.fullmatch(text) and text.casefold() != "null" and not self.chance(6, "quote", path, text):
            return text
        if self.chance(50, "single", path, text):
            return "'" + text.replace("'", "''") + "'"
        return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'

    def pair(self, key: str, value: Tree, path: Path) -> str:
        """Return ``key: value``."""
        return f"{self.scalar(key, ('key', *path))}: {self.flow(value, path)}".rstrip()

    def flow(self, node: Tree, path: Path) -> str:
        """Return a node on one line."""
        if node is None:
            return ""
        if isinstance(node, str):
            return self.scalar(node, path)
        if isinstance(node, Mapping):
            return "{" + ", ".join(self.pair(k, v, (*path, k)) for k, v in node.items()) + "}"
        return "[" + ", ".join(self._member(child, (*path, n)) for n, child in enumerate(node)) + "]"

    def _member(self, node: Tree, path: Path) -> str:
        if isinstance(node, Mapping) and len(node) == 1 and not self.chance(15, "braces", path):
            key, value = next(iter(node.items()))
            return self.pair(key, value, (*path, key))
        return self.flow(node, path)

    def write(self, line: str, path: Path, node: Tree) -> None:
        """Add a line for a node and all within it."""
        remark = "   # as measured" if self.chance(5, "remark", path) else ""
        self.lines.append(line + remark)
        self._mark(path, node)

    def _mark(self, path: Path, node: Tree) -> None:
        self.places[path] = len(self.lines)
        if isinstance(node, Mapping):
            for key, child in node.items():
                self._mark((*path, key), child)
        elif node is not None and not isinstance(node, str):
            for number, child in enumerate(node):
                self._mark((*path, number), child)

    def entry(self, key: str, node: Tree, path: Path, indent: int) -> None:
        """Add one name with what belongs to it."""
        blanks = " " * indent
        named = len(path) == 1 and path[0] in NAMED
        spread = (
            isinstance(node, Mapping | list)
            and bool(node)
            and self.chance(50 if indent > 2 else 20, "spread", path)
        )
        if not (spread or named) or node is None or isinstance(node, str):
            self.write(blanks + self.pair(key, node, path), path, node)
            return
        self.write(f"{blanks}{self.scalar(key, ('key', *path))}:", path, None)
        if isinstance(node, Mapping):
            for name, child in node.items():
                self.entry(name, child, (*path, name), indent + 2)
            return
        for number, child in enumerate(node):
            place = (*path, number)
            self.write(f"{blanks}  - {self._listed(child, place)}", place, child)

    def _listed(self, node: Tree, path: Path) -> str:
        if isinstance(node, Mapping) and len(node) == 1:
            key, value = next(iter(node.items()))
            return self.pair(key, value, (*path, key))
        return self.flow(node, path)


def lay_out(tree: Mapping[str, Tree], seed: int) -> Page:
    """Return the build file of a tree; the same seed lays the same things out in the same way."""
    page = Page(seed)
    if page.chance(30, "title"):
        page.lines.append("# An invented trailer.")
    for heading, value in tree.items():
        if page.chance(40, "blank", heading):
            page.lines.append("")
        page.entry(heading, value, (heading,), 0)
    return page
