"""Hand the files of a manual to MkDocs in memory; shared by the publish command and the plugin."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

from builder.publish.pictures import PicturesExtension
from builder.publish.settings import PICTURES

_LEVELS = {"warn": logging.WARNING, "info": logging.INFO, "ignore": logging.DEBUG}
_STEMMERS = "assets/javascripts/lunr/"


def add_files(files: Files, ours: Mapping[str, str | bytes], config: MkDocsConfig) -> None:
    """Add generated files to those MkDocs found; a generated file takes the place of one of the same path.

    Arguments: ``files``, MkDocs' own; ``ours``, contents by relative path; ``config``, as loaded. Returns
    nothing. Source: MkDocs 1.6, ``File.generated`` (read).
    """
    for path, content in ours.items():
        present = files.get_file_from_path(path)
        if present is not None:
            files.remove(present)
        files.append(File.generated(config, path, content=content))


def drop_unread_files(files: Files, config: MkDocsConfig) -> None:
    """Leave out what no page of ours reads: the theme's source maps, icon and foreign word stems.

    Arguments: ``files``, MkDocs' own, with the theme's; ``config``, as loaded. Returns nothing. Source:
    files of the theme's version 9.8 (read).
    """
    english = config.theme["language"] == "en"
    for file in list(files):
        path = file.src_uri
        unread = path.endswith((".js.map", ".css.map")) or path == "assets/images/favicon.png"
        if file.generated_by is None and (unread or (english and path.startswith(_STEMMERS))):
            files.remove(file)


def use_pictures(config: MkDocsConfig, ours: Mapping[str, str | bytes]) -> None:
    """Let Markdown take pictures from memory, whatever the project says of our extension.

    Arguments: ``config``, as loaded; ``ours``, contents by relative path. Returns nothing. Source: own work.
    """
    extensions: list[Any] = config.markdown_extensions
    extensions[:] = [*(name for name in extensions if name != PICTURES), PicturesExtension(ours)]


def apply_settings(config: MkDocsConfig, settings: Mapping[str, Any]) -> None:
    """Lay our settings over a configuration that MkDocs has already loaded and checked.

    Arguments: ``config``, changed in place; ``settings``, from ``mkdocs_settings``. Returns nothing. Source:
    MkDocs 1.6, configuration objects (read).
    """
    config.site_name = settings["site_name"]
    config.use_directory_urls = settings["use_directory_urls"]
    config.nav = settings["nav"]
    config.extra_css = settings["extra_css"]
    config.extra_javascript = settings["extra_javascript"]
    config.extra.update(settings["extra"])
    for key, value in settings["theme"].items():
        if key != "name":
            config.theme[key] = value
    for extension in settings["markdown_extensions"]:
        for name, values in extension.items():
            config.mdx_configs.setdefault(name, {}).update(values)
    for part, levels in settings["validation"].items():
        for name, level in levels.items():
            setattr(config.validation[part], name, _LEVELS[level])
