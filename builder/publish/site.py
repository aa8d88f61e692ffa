"""Publish a manual source as a folder that opens in a browser from disk."""

from __future__ import annotations

import io
import logging
import os
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from mkdocs.commands.build import build
from mkdocs.config.base import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page

from builder.pages.source import ManualSource
from builder.publish.errors import PublishError, plain_words
from builder.publish.exchange import replace_folder
from builder.publish.hand_over import add_files, drop_unread_files, use_pictures
from builder.publish.pages_ready import files_for_publisher
from builder.publish.pictures import PictureMissing
from builder.publish.settings import mkdocs_settings

_ENVIRONMENT = {
    "SOURCE_DATE_EPOCH": "315532800",  # 1980-01-01, so that no page carries the day it was published
    "NO_MKDOCS_2_WARNING": "1",
}
_PASSING = "wiring-manual-passing"  # begins the name of a folder that is gone when the work is done
_SEARCH = "search/search_index.js"
_NOT_FOR_A_FOLDER = ("404.html", "sitemap.xml", "sitemap.xml.gz")  # for web servers, with links from the root


def publish_site(
    source: ManualSource,
    folder: Path,
    progress: Callable[[str], None] | None = None,
    build_file: Path | None = None,
) -> None:
    """Publish a manual into a folder, all or nothing; the same source gives the same bytes.

    Arguments: ``source``, the manual; ``folder``, missing, empty or one that we published before;
    ``progress``, called with a few words as the work goes on; ``build_file``, which must not lie inside the
    folder.
    Returns nothing. Raises ``PublishError`` in plain words, and the folder is then as it was. Source: common
    practice.
    """
    tell = progress or _tell_nobody
    ready = files_for_publisher(source)

    def fill(new: Path) -> None:
        docs = new.with_name("docs")
        docs.mkdir()
        _build(source, ready, docs, new, tell)
        tell("writing the manual through to the disk")

    replace_folder(folder, "site", fill, build_file)
    tell("done")


def published_files(source: ManualSource, progress: Callable[[str], None] | None = None) -> dict[str, bytes]:
    """Publish a manual into memory: the same bytes as ``publish_site`` writes, and nothing left on the disk.

    Arguments: ``source``, the manual; ``progress``, called with a few words as the work goes on; what it
    raises ends the work.
    Returns contents by relative path with forward slashes. Raises ``PublishError`` in plain words. Source:
    own work.
    """
    ready = files_for_publisher(source)
    with (
        plain_words(Path(tempfile.gettempdir()) / _PASSING),
        tempfile.TemporaryDirectory(prefix=f"{_PASSING}-") as folder,
    ):
        docs, site = Path(folder, "docs"), Path(folder, "site")
        docs.mkdir()
        site.mkdir()
        _build(source, ready, docs, site, progress or _tell_nobody)
        found = sorted(path for path in site.rglob("*") if path.is_file())
        return {path.relative_to(site).as_posix(): path.read_bytes() for path in found}


class _FromMemory(BasePlugin):  # type: ignore[type-arg]
    """Hands the files to MkDocs and counts the pages, as they are read and as they are finished."""

    def __init__(self, ready: Mapping[str, str | bytes], tell: Callable[[str], None]) -> None:
        self._ready = ready
        self._tell = tell
        self._pages = sum(path.endswith(".md") for path in ready)
        self._read = self._done = 0

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add our files. Returns MkDocs' own collection."""
        add_files(files, self._ready, config)
        drop_unread_files(files, config)
        return files

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG002
        """Count a page that is read. Returns it unchanged."""
        self._read += 1
        self._tell(f"reading page {self._read} of {self._pages}")
        return markdown

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:  # noqa: ARG002
        """Count a finished page. Returns it unchanged."""
        self._done += 1
        self._tell(f"page {self._done} of {self._pages}")
        return output


def _build(
    source: ManualSource,
    ready: Mapping[str, str | bytes],
    docs: Path,
    site: Path,
    tell: Callable[[str], None],
) -> None:
    settings = {**mkdocs_settings(source), "docs_dir": str(docs), "site_dir": str(site), "strict": False}
    with _publisher_alone() as complaints:
        try:
            config = _config(settings, complaints)
            use_pictures(config, ready)
            config.plugins["wiring-manual-pages"] = _FromMemory(ready, tell)
            build(config)
        except PictureMissing as error:
            raise PublishError(str(error)) from error
        except MkDocsException as error:
            raise PublishError(_complaint(complaints or [str(error)])) from error
    if complaints:
        raise PublishError(_complaint(complaints))
    missing = _missing(ready, site)
    if missing:
        raise PublishError(f"{', '.join(missing)} could not be written, so nothing was published. Try again.")
    for name in _NOT_FOR_A_FOLDER:
        (site / name).unlink(missing_ok=True)


def _missing(ready: Mapping[str, str | bytes], site: Path) -> list[str]:
    """Return what of a manual is not in its folder: the publisher passes over what it cannot look at in silence."""
    there = {
        (Path(folder) / name).relative_to(site).as_posix()
        for folder, _, names in os.walk(site)
        for name in names
    }
    pages = {path.removesuffix(".md") + ".html" if path.endswith(".md") else path for path in ready}
    return sorted((pages | {_SEARCH}) - there)


def _config(settings: dict[str, Any], complaints: list[str]) -> MkDocsConfig:
    """Return what MkDocs makes of our settings; it refuses them only if it cannot reach the folders in them."""
    try:
        return load_config(io.BytesIO(b"{}"), **settings)
    except MkDocsException as error:
        reason = (complaints or [str(error)])[0].rstrip(".")
        raise PublishError(
            f"The pages could not be put together, so nothing was published ({reason})."
        ) from error


def _complaint(complaints: list[str]) -> str:
    return "The pages do not fit together, so nothing was published:\n" + "\n".join(complaints)


def _tell_nobody(_words: str) -> None:
    pass


class _Complaints(logging.Handler):
    def __init__(self, into: list[str]) -> None:
        super().__init__(logging.WARNING)
        self._into = into

    def emit(self, record: logging.LogRecord) -> None:
        self._into.append(record.getMessage())


@contextmanager
def _publisher_alone() -> Iterator[list[str]]:
    """Keep MkDocs and its theme off the terminal; gives the list that their warnings are put into."""
    complaints: list[str] = []
    handler = _Complaints(complaints)
    logger = logging.getLogger("mkdocs")
    before, passed_on = dict(os.environ), logger.propagate
    os.environ.update(_ENVIRONMENT)
    logger.addHandler(handler)
    logger.propagate = False
    try:
        yield complaints
    finally:
        logger.removeHandler(handler)
        logger.propagate = passed_on
        for name in _ENVIRONMENT:
            if name in before:
                os.environ[name] = before[name]
            else:
                os.environ.pop(name, None)
