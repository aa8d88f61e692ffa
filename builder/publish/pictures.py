"""Put SVG text into finished pages: a small Markdown extension, and the same as a pure function.

A page names a picture inside a block of raw HTML, as ``<img data-picture="pictures/fuse-3.svg" alt="">``, and
the picture takes the placeholder's place after Markdown has done all else, so that a drawing costs nothing in
parsing. The mark that it gets keeps its text out of the search index; the search takes that mark out again.
A chip that a page shows more than once is drawn at its first place, and the others refer to that one: a page of
many guides names the same few wire colours a thousand times.
"""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path, PurePosixPath
from typing import Any

from markdown import Markdown
from markdown.extensions import Extension
from markdown.postprocessors import Postprocessor

_PLACEHOLDER = re.compile(r'<img\b[^<>]*?\bdata-picture="([^"<>]*)"[^<>]*>')
_OUT_OF_SEARCH = '<svg data-search-exclude="true"'
_CHIP = re.compile(r'(<svg\b[^<>]*\bclass="chip (?:wire|fuse)-chip"[^<>]*>)(.*)</svg>', re.DOTALL)
"""A small picture that looks the same wherever it stands; others follow the colours of what is round them."""
_NO_PLUGIN = (
    "The pages of this manual come from the plugin wiring-manual, and this publisher does not run it. "
    "Publish with mkdocs build, or write the pages with wiring-manual source BUILD --into FOLDER and publish there."
)
_LAST = -100  # after every other step of Python-Markdown


class PictureMissing(ValueError):  # noqa: N818 - named for what happened
    """A page names a picture that is not there."""


def put_pictures(html: str, files: Mapping[str, str | bytes]) -> str:
    """Replace each placeholder by the text of the picture that it names.

    Arguments: ``html``, a page or Markdown with raw HTML; ``files``, texts by relative path with forward
    slashes. Returns the text with the pictures in it. Raises ``PictureMissing``. Source: own work.
    """

    def read(path: str) -> str:
        if path not in files:
            raise PictureMissing(f"A page shows the picture {path}, which is not among the manual's files.")
        content = files[path]
        return content if isinstance(content, str) else content.decode("utf-8")

    return _put(html, read)


class PluginMissing(RuntimeError):  # noqa: N818 - named for what happened
    """A project's pages come from our plugin, and the publisher runs no plugins."""


class PicturesExtension(Extension):
    """The same as a Python-Markdown extension; takes the pictures from memory or from a folder.

    Arguments: ``files``, texts by relative path, or None to read them from the folder in the setting
    ``folder``, as seen from the folder in which the publisher runs (the one that holds ``mkdocs.yml``). The
    setting ``from_plugin`` says that the pages come from our plugin, which puts an extension that has
    ``files`` in the place of this one: a publisher that leaves plugins out then ends with an error in words,
    where it would publish a site without a manual.
    """

    def __init__(self, files: Mapping[str, str | bytes] | None = None, **settings: Any) -> None:
        self.config = {
            "folder": ["docs", "the folder that holds pictures/, beside mkdocs.yml"],
            "from_plugin": [False, "whether the pages come from the plugin wiring-manual"],
        }
        super().__init__(**settings)
        self._files = files

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 - the name is Python-Markdown's
        """Register the last step of all. Arguments: ``md``, the converter. Returns nothing."""
        files = self._files
        folder = Path(os.fspath(self.getConfig("folder")))
        lacks_plugin = files is None and self.getConfig("from_plugin")

        def put(text: str) -> str:
            if lacks_plugin:
                raise PluginMissing(_NO_PLUGIN)
            return _put(text, _reader(folder)) if files is None else put_pictures(text, files)

        md.postprocessors.register(_LastStep(md, put), "wiring-manual-pictures", _LAST)


class _LastStep(Postprocessor):
    def __init__(self, md: Markdown, put: Callable[[str], str]) -> None:
        super().__init__(md)
        self._put = put

    def run(self, text: str) -> str:
        return self._put(text)


def makeExtension(**settings: Any) -> PicturesExtension:  # noqa: N802 - the name is Python-Markdown's
    """Give the extension to Python-Markdown.

    Arguments: ``settings``, see ``PicturesExtension``. Returns the extension. Source: the plug of
    Python-Markdown's extension interface.
    """
    return PicturesExtension(**settings)


def _put(html: str, read: Callable[[str], str]) -> str:
    if "data-picture" not in html:
        return html
    again = Counter(_PLACEHOLDER.findall(html))
    drawn: set[str] = set()

    def put(found: re.Match[str]) -> str:
        path = found[1]
        svg = _inline(read(path))
        if again[path] == 1:
            return svg
        made = _drawn_again(svg, path) if path in drawn else _drawn_first(svg, path)
        drawn.add(path)
        return made

    return _PLACEHOLDER.sub(put, html)


def _inline(svg: str) -> str:
    begin = svg.find("<svg")
    return _OUT_OF_SEARCH + svg[begin + len("<svg") :].rstrip() if begin >= 0 else svg


def _drawn_first(svg: str, path: str) -> str:
    """Give the shapes of a chip a name, by which its other places on the page refer to them."""
    return _CHIP.sub(rf'\1<g id="{_name(path)}">\2</g></svg>', svg)


def _drawn_again(svg: str, path: str) -> str:
    return _CHIP.sub(rf'\1<use href="#{_name(path)}"/></svg>', svg)


def _name(path: str) -> str:
    """Return the anchor of a chip: its capital keeps it apart from those of headings, parts and wires."""
    return "Chip-" + re.sub(r"[^a-zA-Z0-9-]", "-", PurePosixPath(path).stem)


@cache
def _reader(folder: Path) -> Callable[[str], str]:
    def read(path: str) -> str:
        if PurePosixPath(path).is_absolute() or ".." in PurePosixPath(path).parts:
            raise PictureMissing(f"A page shows the picture {path}, which lies outside the manual.")
        try:
            return (folder / path).read_text(encoding="utf-8")
        except FileNotFoundError as error:
            raise PictureMissing(
                f"A page shows the picture {path}, but there is none in {folder}. "
                "Run the publisher in the folder that holds mkdocs.yml."
            ) from error

    return read
