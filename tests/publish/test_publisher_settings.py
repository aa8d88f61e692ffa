"""The one configuration, and the files made ready for it."""

from __future__ import annotations

from dataclasses import replace

import pytest
import yaml
from mkdocs.utils.meta import get_data
from sample_manual import SHIM, sample_files, sample_manual

from builder.pages.source import NavEntry
from builder.publish.pages_ready import files_for_publisher
from builder.publish.settings import as_text, mkdocs_settings


@pytest.mark.parametrize(
    ("title", "text"),
    [
        ("Fuses & the front box", "Fuses & the front box"),
        ("a&lt;b", "a&amp;lt;b"),
        ("&#60;", "&amp;#60;"),
        ("<script>", "&lt;script&gt;"),
        ('9" drop', "9&quot; drop"),
    ],
)
def test_a_title_is_written_as_text(title: str, text: str) -> None:
    assert as_text(title) == text


def test_the_settings_survive_yaml() -> None:
    settings = mkdocs_settings(sample_manual(title="no: 'yes' <b> {x} !ENV"), "docs")
    assert yaml.safe_load(yaml.safe_dump(settings, allow_unicode=True)) == settings


def test_nothing_of_the_theme_asks_the_network() -> None:
    settings = mkdocs_settings(sample_manual())
    assert settings["theme"]["font"] is False
    assert settings["extra"]["polyfills"] == [SHIM]
    assert not any("instant" in feature for feature in settings["theme"]["features"])
    assert settings["use_directory_urls"] is False


def test_a_manual_without_the_search_shim_is_refused() -> None:
    with pytest.raises(ValueError, match="iframe-worker"):
        mkdocs_settings(replace(sample_manual(), scripts=()))


def test_other_scripts_are_loaded_after_the_theme() -> None:
    settings = mkdocs_settings(replace(sample_manual(), scripts=(SHIM, "assets/other.js")))
    assert settings["extra_javascript"] == ["assets/other.js"]


def test_the_menu_keeps_its_groups() -> None:
    nav = mkdocs_settings(sample_manual())["nav"]
    assert nav[1] == {"Circuits": [{"Fan": "circuits/fan.md"}]}


def test_the_manuals_own_icon_is_used() -> None:
    files = {**sample_files(), "assets/favicon.svg": "<svg></svg>"}
    assert mkdocs_settings(sample_manual(files=files))["theme"]["favicon"] == "assets/favicon.svg"
    assert mkdocs_settings(sample_manual())["theme"]["favicon"] == "data:,"


def test_every_page_gets_its_menu_title_in_front() -> None:
    ready = files_for_publisher(sample_manual())
    body, meta = get_data(str(ready["circuits/fan.md"]))
    assert meta == {"title": "Fan", "hide": ["toc"]}
    assert body.startswith("# Fan\n")


def test_a_title_written_in_the_page_stays() -> None:
    files = {**sample_files(), "index.md": "---\ntitle: My own\n---\n\n# Start here\n"}
    _, meta = get_data(str(files_for_publisher(sample_manual(files=files))["index.md"]))
    assert meta == {"title": "My own"}


@pytest.mark.parametrize(
    ("heading", "title"),
    [("# A &lt;b&gt; card #", "A &lt;b&gt; card"), ('<h1 id="x">The <b>card</b></h1>', "The card")],
)
def test_a_page_outside_the_menu_takes_its_first_heading(heading: str, title: str) -> None:
    files = {**sample_files(), "card.md": f"{heading}\n\nText: with a colon.\n"}
    _, meta = get_data(str(files_for_publisher(sample_manual(files=files))["card.md"]))
    assert meta == {"title": title}


def test_a_first_line_with_a_colon_is_text_not_a_setting() -> None:
    files = {**sample_files(), "card.md": "hide: this\n\n# Card\n"}
    body, meta = get_data(str(files_for_publisher(sample_manual(files=files))["card.md"]))
    assert meta == {"title": "Card"}
    assert body.startswith("hide: this")


@pytest.mark.parametrize("path", ["/etc/x.md", "../x.md", "a/../../x.md", "a\\x.md", "./x.md"])
def test_a_file_outside_the_manual_is_refused(path: str) -> None:
    with pytest.raises(ValueError, match="outside"):
        files_for_publisher(sample_manual(files={path: "# X\n"}, nav=(NavEntry("X", path),)))
