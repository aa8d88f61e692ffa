"""The preview and the MkDocs plugin go by the file of numbers, and follow it."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner
from mkdocs.config.base import load_config

from builder import cli
from builder.pages.source import ManualSource
from builder.publish import preview
from builder.publish.preview import BuildFile, Preview

BUILD = b"""format: 1
build: {name: Quarry Bend, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6, fuses: blade}
parts: {fan: {kind: fan, draws: 3 A, own switch: yes}}
circuits: {roof vent: {path: [fan: 12 ft]}}
"""


def at_rest(shown: Preview) -> bool:
    """Whether a change is told once the files are at rest."""
    return any(shown.changed() for _ in range(3))


def test_the_preview_follows_the_file_of_numbers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "trailer.yaml"
    path.write_bytes(BUILD)
    made: list[str] = []

    def files(source: ManualSource, _tell: object) -> dict[str, bytes]:
        made.append(str(source.files["labels.md"]))
        return {"index.html": b"<p>shown"}

    monkeypatch.setattr(preview, "published_files", files)
    shown = Preview(BuildFile("trailer.yaml", path, path.read_bytes))
    assert "their numbers drafts" in shown.renew(lambda _: None)
    assert "Draft numbers." in made[-1]
    assert not at_rest(shown)
    assert CliRunner().invoke(cli.main, ["number", str(path)]).exit_code == 0
    assert at_rest(shown)
    assert "draft" not in shown.renew(lambda _: None)
    assert "Draft numbers" not in made[-1]
    (tmp_path / "trailer.numbers.csv").write_bytes(b"hello\n")
    assert at_rest(shown)
    line = shown.renew(lambda _: None)
    assert "trailer.numbers.csv:1:1: this line is no line of a numbers file" in line
    assert "the last good manual stays" in line
    assert "trailer.numbers.csv:1:1" in shown.shown.banner
    (tmp_path / "trailer.numbers.csv").unlink()
    assert at_rest(shown)
    assert "their numbers drafts" in shown.renew(lambda _: None)


@pytest.mark.parametrize("numbered", [False, True])
def test_mkdocs_watches_the_file_of_numbers_where_there_is_one(tmp_path: Path, numbered: bool) -> None:
    (tmp_path / "trailer.yaml").write_bytes(BUILD)
    (tmp_path / "pages").mkdir()
    if numbered:
        assert CliRunner().invoke(cli.main, ["number", str(tmp_path)]).exit_code == 0
    settings = "site_name: x\ndocs_dir: pages\ntheme: {name: material}\n"
    settings += "plugins: [{wiring-manual: {build: trailer.yaml}}]\n"
    (tmp_path / "mkdocs.yml").write_text(settings)
    config = load_config(str(tmp_path / "mkdocs.yml"))
    config = config.plugins.on_config(config)
    numbers = str(tmp_path / "trailer.numbers.csv")
    assert (numbers in config.watch) == numbered
