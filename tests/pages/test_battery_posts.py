"""Where the file says that the battery's posts are studs, pages speak of rings on them, and of no clamp."""

from __future__ import annotations

import pytest
from owner_pages import page_of, view_of, words_of

from builder.pages.manual import PAGES

BUILD = b"""format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
parts: {lamp: {kind: lamp, draws: 3 W}, meter: {kind: meter, draws: 10 mA}}
circuits: {light: {path: [lamp: 6 ft]}, volts: {from: battery, path: [meter fuse: 4 in, meter: 8 ft]}}
"""
STUDS = b"terminal studs: {battery: {size: 3/8 in}}\n"


@pytest.mark.parametrize("page", [entry.path for entry in PAGES if entry.path not in ("words", "fasteners")])
def test_a_stud_has_no_clamp(page: str) -> None:
    view = view_of(BUILD + STUDS)
    (entry,) = (one for one in PAGES if one.path == page)
    if not entry.when(view):
        return
    by_stud = words_of(page_of(view, page)).casefold()
    for word in ("minus clamp", "the clamp", "clamps"):
        assert word not in by_stud, page


@pytest.mark.parametrize("page", ["tests", "battery", "care"])
def test_a_post_without_one_has_a_clamp(page: str) -> None:
    by_clamp = words_of(page_of(view_of(BUILD), page)).casefold()
    assert "minus stud" not in by_clamp
    assert "clamp" in by_clamp


@pytest.mark.parametrize("page", ["index", "fuses", "battery", "labels"])
def test_by_whatever_it_hangs_on_a_post_it_comes_off_in_the_same_words(page: str) -> None:
    for build in (BUILD, BUILD + STUDS):
        view = view_of(build)
        text = words_of(page_of(view, page))
        assert "off the battery's minus post" in text, page


def test_loose_rings_are_held_together_before_a_probe_goes_to_them() -> None:
    """One probe reaches one ring alone: a spare bolt and nut make one of all that belong on a stud."""
    text = words_of(page_of(view_of(BUILD + STUDS), "tests"))
    told = "Keep those of one stud together with a spare bolt and nut through their holes (3/8 in; common practice)."
    # where they come off, and where the meter is put between them and the stud
    assert text.count(told) == 2
    assert text.index(told) < text.index(
        "At the battery hold the probe to the ring of the wire, not to the stud."
    )
    assert "between the minus stud and all the ring terminals that belong on it" in text
    assert "current between the battery's minus stud and its ring terminals" in text
    assert "battery +, the rings" in text
    assert "spare bolt" not in words_of(page_of(view_of(BUILD), "tests"))
    unsized = words_of(page_of(view_of(BUILD + b"terminal studs: {battery: {most on each: 5}}\n"), "tests"))
    assert "through their holes (common practice)." in unsized
