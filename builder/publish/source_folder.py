"""Write a manual source as a folder that a plain ``mkdocs build`` publishes."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import yaml

from builder.pages.source import ManualSource
from builder.publish.exchange import replace_folder
from builder.publish.pages_ready import files_for_publisher
from builder.publish.settings import mkdocs_settings

_DOCS = "docs"


def write_source(
    source: ManualSource, folder: Path, plain: bool = False, build_file: Path | None = None
) -> None:
    """Write ``docs/`` and ``mkdocs.yml`` into a folder, all or nothing.

    ``mkdocs build``, run in that folder, then gives the same pages as ``publish``. With ``plain`` it needs
    nothing of ours to be installed.

    Arguments: ``source``, the manual; ``folder``, missing, empty or one that we wrote before; ``plain``, see
    above; ``build_file``, which must not lie inside the folder.
    Returns nothing. Raises ``PublishError`` in plain words. Source: common practice.
    """
    files = files_for_publisher(source, plain)
    settings = {
        **mkdocs_settings(source, None if plain else _DOCS),
        "docs_dir": _DOCS,
        "site_dir": "site",
    }
    text = yaml.safe_dump(settings, allow_unicode=True, sort_keys=False)

    def fill(new: Path) -> None:
        _write_files(files, new / _DOCS)
        (new / "mkdocs.yml").write_bytes(text.encode("utf-8"))

    replace_folder(folder, "source", fill, build_file)


def _write_files(files: Mapping[str, str | bytes], folder: Path) -> None:
    for path, content in files.items():
        place = folder / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(content.encode("utf-8") if isinstance(content, str) else content)
