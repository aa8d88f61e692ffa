"""Adding something: what is free, what each circuit has left, and what is never joined to."""

from __future__ import annotations

from typing import Any

import pytest
from bs4 import BeautifulSoup
from published import EXAMPLE, Site, record_of, sheets, source_of, text_of

from builder.tables.table import number_text

PAGE = "adding.html"
ROAD_ONLY = b"""\
format: 1
build: {name: Gravel Kite, country: US}
tow plug: {pattern: 4-way flat, to front box: 6 ft}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft}
"""
FULL = b"""\
format: 1
build: {name: Full Box, country: DE}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 10 cm, to front box: 1 m}
front box: {fuse ways: 2, fuses: blade, ground bar: 3}
wire: {on the shelf: [1.5 mm2, 4 mm2, 6 mm2]}
parts:
  wall switch: {kind: switch, rating: 2 A}
  lamp: {kind: lamp, draws: 12 W}
  converter: {kind: converter, gives: 2 A, gives at: 5 V}
  phone: {kind: socket, draws: 5 W, at: 5 V}
circuits:
  light: {path: [wall switch: 2 m, lamp: 1 m]}
  phone: {path: [converter: 2 m, phone: 20 cm]}
"""


def items(page: BeautifulSoup, heading: str) -> list[str]:
    """Return the items of the first list after a heading; headings are Markdown lines, so by the text between."""
    found = page.find(string=lambda text: f"## {heading}" in str(text))
    assert found is not None, heading
    made = found.find_next("ul")
    assert made is not None, heading
    return [text_of(item) for item in made.find_all("li")]


def page_of(data: bytes, edition: str = "owner") -> BeautifulSoup:
    return BeautifulSoup(str(source_of(data, edition).files["adding.md"]), "html.parser")


@pytest.fixture(scope="module")
def example() -> BeautifulSoup:
    return page_of(EXAMPLE.read_bytes())


@pytest.fixture(scope="module")
def record() -> dict[str, Any]:
    return record_of(EXAMPLE.read_bytes())


def test_what_is_free_is_what_nothing_lands_on(example: BeautifulSoup, record: dict[str, Any]) -> None:
    ways = {fuse["way"] for fuse in record["fuses"] if "way" in fuse}
    (box,) = (b for b in record["boxes"] if b["name"] == "front box")
    screws = sum(len(at["wires"]) for at in box["terminals"] if at["terminal"] == "ground bar")
    strip = sum(at["place"].startswith("strip ") for at in box["terminals"])
    (hatch,) = (b for b in record["boxes"] if b["name"] == "hatch plug")
    taken = {int(at["terminal"].split()[1]) for at in hatch["terminals"]}
    free = items(example, "What is free")
    # the file: 12 ways, 30 screws, 10 positions, 8 ways of the hatch plug
    assert free[0] == f"Fuse way {', '.join(str(w) for w in range(1, 13) if w not in ways)}."
    assert free[1] == f"Screws of the ground bar: {30 - screws}."
    assert free[2] == f"Places on the strip: {10 - strip}."
    rest = ", ".join(str(way) for way in range(1, 9) if way not in taken)
    assert free[3] == f"Ways of the connector hatch plug: {rest}."
    assert free[4].startswith(
        "Not free: the wire kept for kitchen socket, on kitchen power. The part is not there yet: ordered"
    )


def test_spare_wires_are_listed_with_both_ends(example: BeautifulSoup) -> None:
    assert sheets(example)["Spare wires"][1:] == [
        [
            "S1",
            "white with violet WH/VT 14 AWG",
            "front box",
            "kitchen socket coiled and taped in the front box; the other end"
            " behind the panel on the left of the kitchen",
            "13 ft 3 in",
        ]
    ]


def test_the_free_way_is_the_one_the_fuse_page_calls_spare(owner: Site) -> None:
    rows = sheets(owner.article("fuses.html"))["Fuse ways"][1:]
    spare = ", ".join(row[0] for row in rows if row[2] == "spare")
    assert f"Fuse way {spare}." in text_of(owner.article(PAGE))


def test_each_circuit_of_a_way_has_its_row_and_no_other(site: Site) -> None:
    rows = sheets(site.article(PAGE))["Room on each circuit"][1:]
    names = {c["number"]: c["name"] for c in site.record["circuits"]}
    ways = {fuse["circuit"]: fuse["way"] for fuse in site.record["fuses"] if "way" in fuse}
    told = {f"{names[one['circuit']]} way {ways[one['circuit']]}" for one in site.record["headroom"]}
    assert {row[0].partition(" · ")[0] for row in rows} == told
    assert len(rows) == 11


def test_the_least_of_the_limits_counts_and_is_named(workshop: Site) -> None:
    head, *rows = sheets(workshop.article(PAGE))["Room on each circuit"]
    limits = {"By fuse": "fuse", "By wire": "wire", "By voltage": "the voltage at", "By switch": "its switch"}
    for row in rows:
        watts = {
            word: float(row[head.index(column)].removesuffix(" W"))
            for column, word in limits.items()
            if row[head.index(column)] != "–"
        }
        if row[head.index("You can add")] == "nothing":
            assert min(watts.values()) < 1, row
            continue
        left = float(row[head.index("You can add")].removesuffix(" W"))
        assert left == min(watts.values()), row
        assert any(word in row[head.index("What sets the limit")] for word in watts if watts[word] == left), (
            row
        )


def test_never_joined_to_are_lamps_charging_alarms_and_what_stays_live(example: BeautifulSoup) -> None:
    told = " | ".join(items(example, "Never join anything to"))
    for words in (
        "tow plug and of the road lamps",
        "than the front box: charge line, solar, shore charging.",
        "alarm: gas alarm",
        "all switched off: battery meter",
        "behind phone converter",
        "The terminal of a fuse way that is in use: one wire each.",
        "Mains parts",
    ):
        assert words in told, words


@pytest.mark.parametrize("switch", ["isolating switch: 1 ft, ", ""])
def test_every_circuit_has_its_room_or_stands_among_what_is_never_joined_to(switch: str) -> None:
    data = (
        "format: 1\nbuild: {name: A, country: US}\n"
        f"battery: {{chemistry: agm, capacity: 60 Ah, path: [main fuse: 5 in, {switch}front box: 2 ft]}}\n"
        "front box: {fuse ways: 4}\nwire: {on the shelf: [16 AWG, 14 AWG, 8 AWG]}\n"
        "parts: {lamp: {kind: lamp}, meter: {kind: meter}, gas alarm: {kind: alarm}}\ncircuits:\n"
        "  light: {path: [lamp: 6 ft]}\n  watch: {path: [gas alarm: 6 ft]}\n"
        "  dial: {from: battery, fuse: 2 A, path: [meter: 6 ft]}\n"
    ).encode()
    page = page_of(data)
    rows = {row[0].split(" way ")[0] for row in sheets(page)["Room on each circuit"][1:]}
    never = " | ".join(items(page, "Never join anything to"))
    assert rows == {"light"}
    assert "alarm: watch." in never
    assert ("all switched off: dial." if switch else "elsewhere than the front box: dial.") in never


def test_the_warning_stands_before_everything_that_asks_for_a_tool(example: BeautifulSoup) -> None:
    warning = example.select_one(".caution-warning")
    assert warning is not None
    assert "Do not drill" in text_of(warning)
    assert example.select("table")[0] in warning.find_all_next("table")


def test_road_lamps_alone_have_nothing_to_join_to() -> None:
    page = page_of(ROAD_ONLY)
    assert page.select("table") == []
    assert page.select(".caution-warning")
    assert len(items(page, "Never join anything to")) == 1
    assert "fuse way" not in text_of(page).lower()


def test_a_full_box_says_so_and_a_rated_switch_bounds_its_circuit() -> None:
    page = page_of(FULL, "workshop")
    free = items(page, "What is free")
    assert free[0] == "No fuse way is free."
    # three screws: two returns and the battery's own
    assert free[1] == "No screw of the earth bar is free."
    head, *rows = sheets(page)["Room on each circuit"]
    light = rows[0]
    # 2 A − 12 W / 12 V = 1 A, × 12 V
    assert light[head.index("By switch")] == "12 W"
    assert "its switch" in light or light[head.index("You can add")] != "12 W"
    assert "All are in use here" in text_of(page)


@pytest.mark.parametrize("data", [EXAMPLE.read_bytes(), FULL])
def test_a_thicker_wire_never_stands_behind_a_smaller_fuse(data: bytes) -> None:
    record = record_of(data)
    rows = sheets(page_of(data))["The wire behind a new fuse"][1:]
    assert rows == [[f"{number_text(one['rating_a'])} A", one["size"]] for one in record["new_fuses"]]
    areas = {wire["size"]: wire["area_mm2"] for wire in record["wires"]}
    known = [areas[size] for _, size in rows if size in areas]
    assert known == sorted(known)
    # FAA AC 43.13-1B Table 11-3: 16 AWG bears a 10 A fuse, 14 AWG a 15 A fuse
    if data is not FULL:
        assert dict(map(tuple, rows))["15 A"] == "14 AWG"


def test_nothing_says_both_yes_and_no_of_a_way_in_use(example: BeautifulSoup) -> None:
    text = text_of(example)
    assert "Join it at a part of that circuit, where its wires end: never at the fuse way." in text
    assert "To use that circuit join at one of its parts." in text


def test_no_fuse_behind_the_main_fuse_is_as_large_and_less_than_a_watt_is_nothing() -> None:
    """A main fuse of 10 A: 10 and 15 A behind it would not open first. The lamp fills its fuse."""
    data = (
        b"format: 1\nbuild: {name: A, country: US}\n"
        b"battery: {chemistry: agm, capacity: 60 Ah, path: [main fuse: 5 in, front box: 2 ft]}\n"
        b"front box: {fuse ways: 4}\nwire: {on the shelf: [16 AWG, 14 AWG, 8 AWG]}\n"
        b"parts: {lamp: {kind: lamp, draws: 28.7 W}, main fuse: {kind: fuse, rating: 10 A}}\n"
        b"circuits:\n  light: {fuse: 3 A, path: [lamp: 2 ft]}\n"
    )
    page = page_of(data)
    offered = [float(row[0].removesuffix(" A")) for row in sheets(page)["The wire behind a new fuse"][1:]]
    assert offered
    assert max(offered) < 10
    assert [row[1] for row in sheets(page)["Room on each circuit"][1:]] == ["nothing"]
