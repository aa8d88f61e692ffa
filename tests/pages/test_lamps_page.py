"""Lamps by the rule: what is measured stands beside what is asked, each row names its source, limits are read out."""

from __future__ import annotations

import pytest
from owner_pages import page_of, table, view_of, words_of

LAMPS = "Lamps that the rule asks for"
BUILD = (
    "format: 1\nbuild: {{name: Bean Row, country: {country}}}\ntrailer: {{{size}}}\n"
    "tow plug: {{pattern: 13-pin, to front box: 2 m}}\n"
    "road lamps:\n  lamps: led\n"
    "  rear lamp: {{shows: [tail, stop, turn], side: both, height: 81 cm, in from the side: 13 cm, wire: 3 m}}\n"
    "  fog lamp: {{shows: fog, side: right, wire: 3 m}}\n"
)


def rows(country: str, size: str = "length: 4 m, width: 1.7 m, gross weight: 700 kg") -> dict[str, list[str]]:
    page = page_of(view_of(BUILD.format(country=country, size=size).encode()), "lamps")
    return {row[0]: row for row in table(page, LAMPS)}


def test_the_measured_stands_below_the_asked() -> None:
    tail = rows("DE")["tail lamps"]
    assert tail[3] == "350 mm to 1.50 m here 810 mm"
    assert (
        tail[4]
        == "within 400 mm of the side, at least 600 mm apart here 130 mm from the side, middles 1.44 m apart"
    )
    assert "here" not in rows("DE")["plate lamp"][3]


def test_each_row_names_the_document_it_comes_from() -> None:
    """UN R48 6.7 from memory; the turn lamps as a guide to the British regulations of 1989 quotes them."""
    found = rows("DE")
    assert found["brake lamps"][6].endswith("UN Regulation No. 48, 6.7")
    assert found["rear turn lamps"][6].endswith("guide to the British lighting regulations of 1989, 6.5")


@pytest.mark.parametrize(
    ("country", "side"), [("DE", "left"), ("GB", "right"), ("AU", "right"), ("FR", "left")]
)
def test_a_fog_lamp_sits_in_the_middle_or_towards_the_traffic(country: str, side: str) -> None:
    assert f"towards the traffic: on the {side}" in rows(country)["rear fog lamp"][4]


@pytest.mark.parametrize(
    ("country", "size", "said"),
    [
        ("US", "length: 30 ft, width: 80 in", ["80 in or more", "30 ft or more", "so it counts"]),
        ("US", "length: 29 ft, width: 79 in", []),
        ("DE", "length: 6 m, width: 1.6 m, gross weight: 750 kg", ["over 1.6 m", "over 6 m", "over 750 kg"]),
        ("DE", "length: 4 m, width: 1.601 m, gross weight: 751 kg", []),
    ],
)
def test_exactly_at_a_limit_the_page_says_how_the_rule_reads(
    country: str, size: str, said: list[str]
) -> None:
    view = view_of(BUILD.format(country=country, size=size).encode())
    text = words_of(page_of(view, "lamps"))
    assert ("Exactly at a limit" in text) == bool(said)
    for words in said:
        assert words in text
