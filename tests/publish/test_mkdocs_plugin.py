"""The plugin hands over the same pages inside another project."""

from __future__ import annotations

import io
import json
import logging
import sys
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest
from mkdocs.commands.build import build
from mkdocs.config.base import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError
from sample_manual import sample_files, sample_manual, site_files
from test_source_folder import pages_of, search_entries

from builder.pages.source import ManualSource
from builder.publish import plugin as plugin_module
from builder.publish.errors import PublishError
from builder.publish.plugin import WiringManualPlugin
from builder.publish.site import publish_site

EXAMPLE = (
    "# The example\n\nIts manual begins at [Start here](index.md); see the [spares](fuses.md#spare-fuses).\n"
)


@pytest.fixture
def project(tmp_path: Path) -> Path:
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs/example.md").write_text(EXAMPLE, encoding="utf-8")
    (tmp_path / "trailer.yaml").write_text("format: 1\n", encoding="utf-8")
    return tmp_path


def project_config(
    project: Path,
    plugin: WiringManualPlugin | None,
    theme: str = "material",
    plugins: tuple[str, ...] = ("search", "offline"),
) -> MkDocsConfig:
    config = load_config(
        io.BytesIO(b"{}"),
        config_file_path=str(project / "mkdocs.yml"),
        site_name="A project",
        theme=theme,
        plugins=list(plugins),
        not_in_nav="example.md",
        strict=True,
    )
    if plugin is not None:
        errors, warnings = plugin.load_config(
            {"build": "trailer.yaml", "edition": "workshop"}, config_file_path=str(project / "mkdocs.yml")
        )
        assert (errors, warnings) == ([], [])
        config.plugins["wiring-manual"] = plugin
    return config


def give(monkeypatch: pytest.MonkeyPatch, source: ManualSource) -> None:
    monkeypatch.setattr(plugin_module, "_manual_source", lambda _path, _edition: source)


def test_the_pages_are_those_of_publish(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    give(monkeypatch, sample_manual())
    build(project_config(project, WiringManualPlugin()))
    publish_site(sample_manual(), project / "published")
    pages = pages_of(project / "site")
    assert b"Its manual begins" in pages.pop("example.html")
    assert pages == pages_of(project / "published")
    entries = [entry for entry in search_entries(project / "site") if "example.html" not in entry]
    assert entries == search_entries(project / "published")
    assert "example.html" in "".join(search_entries(project / "site"))


def test_without_the_plugin_the_project_does_not_build(project: Path) -> None:
    with pytest.raises(Abort):
        build(project_config(project, None))


def test_a_generated_page_takes_the_place_of_a_file(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (project / "docs/fuses.md").write_text("# Mine\n", encoding="utf-8")
    give(monkeypatch, sample_manual())
    build(project_config(project, WiringManualPlugin()))
    assert b"Way 1 is at the left." in site_files(project / "site")["fuses.html"]


def test_the_settings_hold_without_the_offline_plugin(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    give(monkeypatch, sample_manual())
    build(project_config(project, WiringManualPlugin(), plugins=("search",)))
    assert "circuits/fan.html" in site_files(project / "site")


def test_the_search_learns_the_language_of_the_manual(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    give(monkeypatch, replace(sample_manual(), language="de"))
    build(project_config(project, WiringManualPlugin()))
    index = json.loads(site_files(project / "site")["search/search_index.json"])
    assert index["config"]["lang"] == ["de"]


def test_one_plugin_serves_rebuilds(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    plugin = WiringManualPlugin()
    give(monkeypatch, sample_manual())
    config = project_config(project, plugin)
    build(config)
    assert str(project / "trailer.yaml") in config.watch
    give(
        monkeypatch, sample_manual(files={**sample_files(), "index.md": "# Start here\n\nIt has changed.\n"})
    )
    build(project_config(project, plugin))
    assert b"It has changed." in site_files(project / "site")["index.html"]


def test_mkdocs_keeps_the_plugin_over_rebuilds() -> None:
    assert "on_startup" in vars(WiringManualPlugin)


def test_problems_of_the_build_file_are_one_line(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_path: Path, _edition: str) -> ManualSource:
        raise PublishError("trailer.yaml:3:1: problem: no such word\n   3 | fuze: 3 A\n")

    monkeypatch.setattr(plugin_module, "_manual_source", broken)
    with pytest.raises(PluginError) as told:
        project_config(project, plugin := WiringManualPlugin()) and plugin.on_config(
            project_config(project, plugin)
        )
    assert str(told.value) == (
        "trailer.yaml:3:1: problem: no such word (all of them: wiring-manual check trailer.yaml)"
    )


def test_the_problems_come_from_the_reader(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    class BuildFileProblems(Exception):  # noqa: N818
        pass

    def manual_source_of_file(path: Path, edition: str) -> ManualSource:
        raise BuildFileProblems(f"{path.name}:1:1: {edition}")

    reader = SimpleNamespace(BuildFileProblems=BuildFileProblems, manual_source_of_file=manual_source_of_file)
    monkeypatch.setitem(sys.modules, "builder.pages.manual", reader)
    plugin = WiringManualPlugin()
    with pytest.raises(PluginError, match=r"^trailer\.yaml:1:1: workshop$"):
        plugin.on_config(project_config(project, plugin))


def test_another_theme_is_refused(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    give(monkeypatch, sample_manual())
    plugin = WiringManualPlugin()
    with pytest.raises(PluginError, match="theme named material"):
        plugin.on_config(project_config(project, plugin, "mkdocs", ()))


def test_a_strict_build_ends_on_what_must_be_fixed_alone(
    project: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    record = (
        '{"findings": [{"level": "must fix", "line": 3, "message": "the fuse is too big"},'
        ' {"level": "should fix", "line": 5, "message": "the lamp is dim"},'
        ' {"level": "worth knowing", "line": 4, "message": "no spare"}]}'
    )
    give(monkeypatch, sample_manual(files={**sample_files(), "data/figures.json": record}))
    plugin = WiringManualPlugin()
    with caplog.at_level(logging.INFO):
        plugin.on_config(project_config(project, plugin))
    told = {entry.getMessage(): entry.levelno for entry in caplog.records if "wiring-manual" in entry.name}
    assert [(line.partition(": ")[2], level) for line, level in told.items()] == [
        ("line 3: must fix: the fuse is too big", logging.WARNING),
        ("line 5: should fix: the lamp is dim", logging.INFO),
    ]
