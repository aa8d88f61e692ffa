"""The manual source: every file of a manual before anything publishes it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class NavEntry:
    """One line of the menu: a page (``path``) or a heading over further lines (``children``)."""

    title: str
    path: str = ""
    children: tuple[NavEntry, ...] = ()


@dataclass(frozen=True, slots=True)
class ManualSource:
    """A whole manual as text and assets; it knows nothing of what will publish it.

    ``files`` maps a relative path with forward slashes to its content: Markdown pages end in ``.md``
    (the first page is ``index.md``), style sheets and scripts lie in ``assets/``, pictures that are put
    into a page in ``pictures/``, downloads in ``data/``. Titles are plain text, not escaped. ``taken_in``
    names the files beside the build file that went into the manual, such as photos: relative to the build
    file's folder, with forward slashes; a preview watches them too.
    """

    title: str
    language: str
    edition: str
    content_number: str
    files: Mapping[str, str | bytes]
    nav: tuple[NavEntry, ...]
    style_sheets: tuple[str, ...] = ()
    scripts: tuple[str, ...] = ()
    taken_in: tuple[str, ...] = ()
