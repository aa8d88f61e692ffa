"""A solar module is parted from its wires by their numbers: that holds with a plug and with terminals alike."""

from __future__ import annotations

from owner_pages import page_of, view_of, words_of

BUILD = b"""format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
parts: {module: {kind: solar module, gives: 100 W}, controller: {kind: charge controller}}
circuits: {sun: {from: module, path: [controller: 12 ft, sun fuse: 4 ft, battery: 6 in]}}
"""


def test_the_test_sheet_names_the_wires_to_take_off_a_module() -> None:
    page = page_of(view_of(BUILD), "tests")
    text = words_of(page)
    told = "module: cover it, then take wires 1A, 1D off it, at a plug where there is one, else off their terminals."
    assert told in text
    assert "parted plug" not in text
    # both wires end to end, and the test of the cable at both
    assert text.count(", the wire that belongs on it") == 4
