"""The written source: a plain ``mkdocs build`` gives the pages that ``publish`` gives."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from sample_manual import ROOT, sample_files, sample_manual, site_files

from builder.publish.errors import PublishError
from builder.publish.site import publish_site
from builder.publish.source_folder import write_source


def pages_of(site: Path) -> dict[str, bytes]:
    ours = ("404.html", "assets/", "search/", "sitemap", ".")
    return {name: content for name, content in site_files(site).items() if not name.startswith(ours)}


def search_entries(site: Path) -> list[str]:
    index = json.loads((site / "search/search_index.json").read_text(encoding="utf-8"))
    return sorted(json.dumps(entry, sort_keys=True) for entry in index["docs"])


@pytest.mark.parametrize("plain", [False, True], ids=["with our extension", "plain"])
def test_mkdocs_build_gives_the_published_pages(plain: bool, tmp_path: Path) -> None:
    publish_site(sample_manual(), tmp_path / "published")
    write_source(sample_manual(), tmp_path / "source", plain)
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet"]
    if plain:
        # -I: the folder of our package is not on the path, so nothing of ours can help
        command.insert(1, "-I")
    else:
        environment["PYTHONPATH"] = str(ROOT)
    subprocess.run(command, cwd=tmp_path / "source", check=True, env=environment)
    assert pages_of(tmp_path / "source/site") == pages_of(tmp_path / "published")
    assert search_entries(tmp_path / "source/site") == search_entries(tmp_path / "published")


def test_the_plain_form_names_nothing_of_ours(tmp_path: Path) -> None:
    write_source(sample_manual(), tmp_path / "source", plain=True)
    text = (tmp_path / "source/mkdocs.yml").read_text(encoding="utf-8")
    assert "builder" not in text
    assert "data-picture" not in (tmp_path / "source/docs/circuits/fan.md").read_text(encoding="utf-8")


def test_the_settings_are_yaml_that_any_reader_reads(tmp_path: Path) -> None:
    title = "a: 'b' \"c\" # <d> 🔥 \u2028"
    write_source(sample_manual(title), tmp_path / "source")
    settings = yaml.safe_load((tmp_path / "source/mkdocs.yml").read_bytes())
    assert settings["site_name"] == "a: 'b' &quot;c&quot; # &lt;d&gt; 🔥 \u2028"


def test_writing_again_replaces_what_we_wrote(tmp_path: Path) -> None:
    write_source(sample_manual(files={**sample_files(), "more.md": "# More\n"}), tmp_path / "source")
    assert (tmp_path / "source/docs/more.md").exists()
    write_source(sample_manual(), tmp_path / "source")
    assert not (tmp_path / "source/docs/more.md").exists()


def test_the_same_source_gives_the_same_bytes(tmp_path: Path) -> None:
    write_source(sample_manual(), tmp_path / "one")
    write_source(sample_manual(), tmp_path / "another")
    assert site_files(tmp_path / "one") == site_files(tmp_path / "another")


def test_a_folder_we_did_not_make_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs/mine.md").write_text("# Mine\n", encoding="utf-8")
    with pytest.raises(PublishError, match="did not make"):
        write_source(sample_manual(), tmp_path)
    publish_site(sample_manual(), tmp_path / "site")
    with pytest.raises(PublishError, match="not as a manual source"):
        write_source(sample_manual(), tmp_path / "site")
    assert (tmp_path / "docs/mine.md").read_text(encoding="utf-8") == "# Mine\n"
