"""Pictures land in finished pages unchanged, whichever way they are put there."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from markdown import markdown
from sample_manual import FUSE_PICTURE

from builder.drawings.chips import warning_triangle, wire_chip
from builder.publish.pictures import (
    PictureMissing,
    PicturesExtension,
    PluginMissing,
    makeExtension,
    put_pictures,
)

FILES = {"pictures/fuse-3.svg": FUSE_PICTURE}
PAGE = '# Fuse\n\n<figure><img data-picture="pictures/fuse-3.svg" alt=""> *3 A*</figure>\n\n*and on*\n'


def test_a_picture_takes_the_place_of_its_placeholder() -> None:
    page = put_pictures('<p><img data-picture="pictures/fuse-3.svg" alt="">x</p>', FILES)
    assert page.startswith("<p><svg ")
    assert page.endswith("</svg>x</p>")
    assert "*3* _A_</text>" in page


def test_text_without_placeholders_is_left_alone() -> None:
    text = 'An <img src="a.png" alt=""> and the words data-picture="pictures/fuse-3.svg".'
    assert put_pictures(text, FILES) == text


def test_a_placeholder_shown_as_text_stays_text() -> None:
    shown = "&lt;img data-picture=&quot;pictures/fuse-3.svg&quot; alt=&quot;&quot;&gt;"
    assert markdown(shown, extensions=[PicturesExtension(FILES)]) == f"<p>{shown}</p>"


def test_the_extension_and_the_pure_function_give_the_same_page() -> None:
    before = markdown(put_pictures(PAGE, FILES))
    after = markdown(PAGE, extensions=[PicturesExtension(FILES)])
    assert before == after
    assert "<em>and on</em>" in after


def test_bytes_are_read_as_utf_8() -> None:
    page = put_pictures(
        '<img data-picture="a.svg" alt="">', {"a.svg": "<svg><title>2.5 mm²</title></svg>".encode()}
    )
    assert "2.5 mm²" in page


def test_what_stands_before_the_picture_in_its_file_is_left_out() -> None:
    page = put_pictures(
        '<img data-picture="a.svg" alt="">', {"a.svg": '<?xml version="1.0"?>\n<svg></svg>\n'}
    )
    assert page == '<svg data-search-exclude="true"></svg>'


def test_a_chip_is_drawn_once_and_its_other_places_refer_to_it() -> None:
    files = {"pictures/wire-red.svg": wire_chip("#d22b2b"), "pictures/alert-triangle.svg": warning_triangle()}
    places = "".join(f'<p><img data-picture="{path}" alt=""></p>' for path in files)
    page = BeautifulSoup(put_pictures(places * 3, files), "html.parser")
    chips = page.select("svg.wire-chip")
    first, *others = chips
    assert len(chips) == 3
    assert first.g is not None
    assert len(first.select("path")) == files["pictures/wire-red.svg"].count("<path")
    assert [str(use["href"]) for chip in others for use in chip.select("use")] == [f"#{first.g['id']}"] * 2
    assert all(not chip.select("path") for chip in others)
    # every frame keeps its size and stays out of the search
    assert len({tuple(sorted((key, str(value)) for key, value in chip.attrs.items())) for chip in chips}) == 1
    # the triangle follows the colours of its panel, which a reference would not
    assert all(sign.select("path") for sign in page.select("svg.alert-triangle"))


def test_a_chip_that_stands_alone_is_left_as_it_is() -> None:
    chip = wire_chip("#d22b2b")
    page = put_pictures('<img data-picture="a.svg" alt="">', {"a.svg": chip})
    assert page.removeprefix('<svg data-search-exclude="true"') == chip.removeprefix("<svg")


def test_the_extension_reads_from_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    picture = tmp_path / "docs/pictures/fuse-3.svg"
    picture.parent.mkdir(parents=True)
    picture.write_text(FUSE_PICTURE, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    from_folder = markdown(PAGE, extensions=[makeExtension(folder="docs")])
    assert from_folder == markdown(PAGE, extensions=[PicturesExtension(FILES)])


@pytest.mark.parametrize("path", ["/etc/hostname", "../secret.svg", "pictures/../../secret.svg"])
def test_a_path_outside_the_folder_is_refused(path: str, tmp_path: Path) -> None:
    (tmp_path / "secret.svg").write_text("<svg></svg>", encoding="utf-8")
    (tmp_path / "docs/pictures").mkdir(parents=True)
    with pytest.raises(PictureMissing, match="outside the manual"):
        markdown(
            f'<img data-picture="{path}" alt="">', extensions=[makeExtension(folder=str(tmp_path / "docs"))]
        )


def test_a_missing_picture_is_named(tmp_path: Path) -> None:
    page = '<img data-picture="pictures/none.svg" alt="">'
    with pytest.raises(PictureMissing, match=r"pictures/none\.svg"):
        put_pictures(page, FILES)
    with pytest.raises(PictureMissing, match=r"pictures/none\.svg.*folder that holds mkdocs\.yml"):
        markdown(page, extensions=[makeExtension(folder=str(tmp_path))])


def test_pages_that_come_from_the_plugin_are_not_made_without_it() -> None:
    with pytest.raises(PluginMissing, match="wiring-manual source"):
        markdown("# A page without pictures\n", extensions=[makeExtension(from_plugin=True)])
    assert (
        markdown("# A page\n", extensions=[PicturesExtension(FILES, from_plugin=True)]) == "<h1>A page</h1>"
    )
