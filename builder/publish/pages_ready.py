"""The files of a manual source as every publisher is given them."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from pathlib import PurePosixPath

from builder.pages.source import ManualSource, NavEntry
from builder.publish.pictures import put_pictures
from builder.publish.settings import as_text

_FRONT = "---\n"
_TITLE_LINE = re.compile(r"^title\s*:", re.MULTILINE)
_FIRST_HEADING = re.compile(r"^#[ \t]+(.+?)[ \t#]*$|<h1[^>]*>(.*?)</h1>", re.MULTILINE | re.DOTALL)
_TAG = re.compile(r"<[^<>]*>")


def files_for_publisher(source: ManualSource, plain: bool = False) -> dict[str, str | bytes]:
    """Prepare every file of a manual source for the publisher.

    Each page gets its title in front, already escaped: the theme unescapes any other title on its way into
    ``<title>``. With ``plain`` the pictures are put into the pages here, so that the publisher needs nothing
    of ours.

    Arguments: ``source``, the manual; ``plain``, see above. Returns contents by relative path, in the
    source's order. Raises ``ValueError`` for a path that leads outside, ``PictureMissing`` for a picture
    that is not there. Source: own work.
    """
    titles = dict(_titles(source.nav))
    return {
        path: _ready(path, content, titles, source.files, plain) for path, content in source.files.items()
    }


def _ready(
    path: str,
    content: str | bytes,
    titles: Mapping[str, str],
    files: Mapping[str, str | bytes],
    plain: bool,
) -> str | bytes:
    pure = PurePosixPath(path)
    if pure.is_absolute() or ".." in pure.parts or "\\" in path or str(pure) != path:
        raise ValueError(f"the manual source has a file outside its folder: {path}")
    if not path.endswith(".md"):
        return content.encode("utf-8") if isinstance(content, str) else content
    text = content if isinstance(content, str) else content.decode("utf-8")
    titled = _with_title(text, titles.get(path) or _own_title(text))
    return put_pictures(titled, files) if plain else titled


def _titles(entries: Iterable[NavEntry]) -> Iterable[tuple[str, str]]:
    for entry in entries:
        if entry.path:
            yield entry.path, as_text(entry.title)
        yield from _titles(entry.children)


def _own_title(text: str) -> str:
    """Read the title off the first heading of a page that the menu does not name."""
    found = _FIRST_HEADING.search(text)
    return " ".join(_TAG.sub("", found.group(1) or found.group(2)).split()) if found else ""


def _with_title(text: str, title: str) -> str:
    head, body = _split_front(text)
    if title and not _TITLE_LINE.search(head):
        # JSON's way of quoting is also YAML's
        head = f"title: {json.dumps(title, ensure_ascii=False)}\n{head}"
    return f"{_FRONT}{head}{_FRONT}\n{body}" if head else text


def _split_front(text: str) -> tuple[str, str]:
    if not text.startswith(_FRONT):
        return "", text
    end = text.find(f"\n{_FRONT}", len(_FRONT) - 1)
    return (
        ("", text) if end < 0 else (text[len(_FRONT) : end + 1], text[end + 1 + len(_FRONT) :].lstrip("\n"))
    )
