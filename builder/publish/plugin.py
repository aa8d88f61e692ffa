"""The MkDocs plugin: hands over the same manual source to somebody's ``mkdocs build``."""

from __future__ import annotations

import importlib
import json
import logging
from pathlib import Path
from typing import Literal, cast

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import Files

from builder.numbers_beside import numbers_path
from builder.pages.source import ManualSource
from builder.publish.errors import PublishError
from builder.publish.hand_over import add_files, apply_settings, drop_unread_files, use_pictures
from builder.publish.pages_ready import files_for_publisher
from builder.publish.settings import mkdocs_settings

_log = get_plugin_logger("wiring-manual")
_LEVELS = {"must fix": logging.WARNING, "should fix": logging.INFO}


class WiringManualConfig(Config):
    """The plugin's two options in ``mkdocs.yml``."""

    build = config_options.File(exists=True)
    edition = config_options.Choice(("workshop", "owner"), default="workshop")


class WiringManualPlugin(BasePlugin[WiringManualConfig]):
    """Adds the manual of one build file to the site; its settings take the place of the project's."""

    def __init__(self) -> None:
        self._ready: dict[str, str | bytes] = {}

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Keep this object over rebuilds; MkDocs makes a new one each time without this method."""

    @event_priority(100)  # before the theme's own plugins read the settings
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read the build file and lay our settings over the project's.

        Arguments: ``config``, as loaded. Returns it. Raises ``PluginError``, one line, when the build file
        has problems or the theme is another. Source: MkDocs 1.6, plugin events (read).
        """
        if config.theme.name != "material":
            raise PluginError("The wiring manual needs the theme named material.")
        path = Path(self.config.build)
        config.watch.append(str(path))
        numbers = numbers_path(path)
        if numbers.exists():  # what is not there cannot be watched
            config.watch.append(str(numbers))
        try:
            source = _manual_source(path, self.config.edition)
            self._ready = files_for_publisher(source)
        except PublishError as error:
            raise PluginError(_one_line(str(error), path)) from error
        apply_settings(config, mkdocs_settings(source))
        use_pictures(config, self._ready)
        for level, line in _finding_lines(source):
            _log.log(level, line)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the generated files. Returns MkDocs' own collection."""
        add_files(files, self._ready, config)
        drop_unread_files(files, config)
        return files


def _manual_source(path: Path, edition: str) -> ManualSource:
    """Make the manual; loaded late, so that the plugin costs nothing in a project that does not use it."""
    manual = importlib.import_module("builder.pages.manual")
    try:
        return cast("ManualSource", manual.manual_source_of_file(path, edition))
    except manual.BuildFileProblems as problems:
        raise PublishError(str(problems)) from problems


def _one_line(problems: str, path: Path) -> str:
    lines = [line.strip() for line in problems.splitlines() if line.strip()] or ["it has problems"]
    more = f" (all of them: wiring-manual check {path.name})" if len(lines) > 1 else ""
    return lines[0] + more


def _finding_lines(source: ManualSource) -> tuple[tuple[int, str], ...]:
    """One line for each finding that must or should be fixed, from the manual's own record, with its log level.

    What must be fixed is a warning, which ends a strict build, as it ends ``wiring-manual check``. What should be
    fixed is the maker's to decide: a manual that tells of it is whole, and its build is told as information.
    """
    record = json.loads(source.files.get("data/figures.json", "{}"))
    return tuple(
        (_LEVELS[finding["level"]], f"line {finding['line']}: {finding['level']}: {finding['message']}")
        for finding in record.get("findings", ())
        if finding["level"] in _LEVELS
    )
