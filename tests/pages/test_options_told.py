"""What may come later on the page Adding something: with its fuse, its wires and what is ready, and never as there."""

from __future__ import annotations

import pytest
from owner_pages import page_of, table, told_below, view_of

HEAD = """format: 1
build: {name: Bean Row, country: COUNTRY}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: WAYS}
parts:
  fan: {kind: fan, draws: 2 A}
  lamp: {kind: lamp, draws: 6 W}
circuits:
  fan: {path: [fan: 12 ft]}
  light: {path: [lamp: 8 ft]}
spares:
  rear spare: {from: front box, to: rear wall, wire: 12 ft, size: 14 AWG}
options:
"""
LAMP = """  bed lamp:
    parts: {bed lamp: {kind: lamp, draws: 3 W}}
    circuits: {bed light: {path: [bed lamp: 12 ft]}}
    spares: rear spare
    note: over the bed
"""
FAN = "  larger fan: {parts: {fan: {kind: fan, draws: 5 A}}}\n"
HEATER = (
    "  heater: {parts: {heater: {kind: heater, draws: 14 A}}, circuits: {heat: {path: [heater: 30 ft]}}}\n"
)


def build(options: str, ways: int = 6, country: str = "US") -> bytes:
    return (HEAD.replace("WAYS", str(ways)).replace("COUNTRY", country) + options).encode()


def told(options: str, heading: str, ways: int = 6) -> str:
    return told_below(page_of(view_of(build(options, ways)), "adding"), heading)


def test_an_option_with_a_circuit_of_its_own_is_told_with_way_fuse_and_wires() -> None:
    page = page_of(view_of(build(LAMP)), "adding")
    said = told_below(page, "bed lamp")
    assert said.startswith("over the bed New: bed lamp.")
    assert "A circuit of its own, bed light, on a free fuse way. Fuse: 3 A." in said
    assert table(page, "Wires for bed lamp") == [
        ["front box", "bed lamp", "12 ft", "14 AWG", "spare wire S1"],
        ["bed lamp", "front box", "12 ft", "16 AWG", "has to be laid"],
    ]


def test_without_a_free_way_the_box_comes_first() -> None:
    assert "No fuse way is free for it" in told(LAMP, "bed lamp", ways=2)
    assert "ask the maker before you add it" in told(LAMP, "bed lamp", ways=2)


def test_another_version_tells_its_fuse_beside_todays_and_needs_no_wire() -> None:
    said = told(FAN, "larger fan")
    assert "Another one in the same place: fan." in said
    assert "Its fuse becomes 7.5 A; it is 3 A now." in said
    assert "It needs no new wire." in said


def test_an_owner_is_sent_to_the_maker_where_an_option_does_not_fit() -> None:
    assert "does not fit wholly" in told(HEATER, "heater")
    assert "does not fit" not in told(LAMP, "bed lamp")


@pytest.mark.parametrize("page", ["fuses", "wires", "find", "battery", "stops", "index"])
def test_no_other_page_knows_of_an_option(page: str) -> None:
    bare = build("").replace(b"options:\n", b"")
    assert str(page_of(view_of(build(LAMP + HEATER)), page)) == str(page_of(view_of(bare), page))


def test_a_build_without_options_says_nothing_of_them() -> None:
    bare = build("").replace(b"options:\n", b"")
    assert "may come later" not in page_of(view_of(bare), "adding").get_text()
