"""The workshop's lists as pages and as tables: the same lines in both, and blanks to fill in by hand."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest
from bs4 import Tag
from hostile_build import NAMES, TEXTS, build
from published import SMALLEST, Site, published, sheets, source_of, text_of

from builder.pages.rounding import Reader, length, rest, sheet_ohms, sheet_volts, shown

PAGES = ("shopping.html", "cuts.html", "labels.html", "tests.html", "landings.html")
TABLES = (
    "data/shopping.csv",
    "data/cuts.csv",
    "data/labels.csv",
    "data/test_sheet.csv",
    "data/landings.csv",
)
ROAD_ONLY = b"""\
format: 1
build: {name: Bean Row, country: GB}
tow plug: {pattern: 7-pin 12N, to front box: 2 m}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 4 m}
"""
NO_BATTERY = b"""\
format: 1
build: {name: Bean Row, country: US}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
parts:
  shore converter: {kind: shore converter, gives: 10 A}
  lamp: {kind: lamp, draws: 3 W, own switch: yes}
circuits:
  light: {from: shore converter, path: [lamp fuse: 1 ft, lamp: 6 ft]}
"""


def table_of(site: Site, path: str) -> list[dict[str, str]]:
    """Return a table of the site, a mapping a row; columns of one name are told apart by a number."""
    rows = list(csv.reader((site.folder / path).read_text(encoding="utf-8").splitlines()))
    head = [
        f"{name} {rows[0][:n].count(name) + 1}" if name in rows[0][:n] else name
        for n, name in enumerate(rows[0])
    ]
    return [dict(zip(head, row, strict=True)) for row in rows[1:]]


def figures_by_key(row: Tag) -> dict[str, str]:
    """Return the figures of a row by the last step of their paths."""
    return {str(f["data-figure"]).rpartition("/")[2]: text_of(f) for f in row.select("[data-figure]")}


def test_the_owner_has_none_of_them(owner: Site) -> None:
    assert not set(PAGES) & set(owner.pages)
    assert not (owner.folder / "data").exists()


def test_wire_to_buy_is_the_same_on_the_page_in_the_table_and_in_the_record(workshop: Site) -> None:
    page = sheets(workshop.article("shopping.html"))["Wire"][1:]
    table = [row for row in table_of(workshop, "data/shopping.csv") if row["section"] == "wire"]
    record = [item for item in workshop.record["shopping"] if item["section"] == "wire"]
    assert len(page) == len(table) == len(record) > 20
    units = workshop.record["build"]["units"]
    for cells, row, item in zip(page, table, record, strict=True):
        buy, needed = length(item["buy_length_m"], units), length(item["needed_length_m"], units)
        assert cells[1] == row["buy"] == " ".join(buy.split())
        assert cells[2].startswith(" ".join(needed.split()))
        assert row["needed"] == " ".join(needed.split())
        in_already = length(item.get("in_already_length_m", 0.0), units)
        assert row["in already"] == " ".join(in_already.split())
        assert ("are in already" in cells[2]) == ("in_already_length_m" in item)
        assert item["size"] in cells[0]
        assert row["size"] == item["size"]


def test_counts_are_the_same_on_the_page_in_the_table_and_in_the_record(workshop: Site) -> None:
    counted = [item for item in workshop.record["shopping"] if "buy" in item]
    metres = ("wire", "conduit", "by length", "open ends")
    table = [row for row in table_of(workshop, "data/shopping.csv") if row["section"] not in metres]
    assert len(table) == len(counted) > 60
    for row, item in zip(table, counted, strict=True):
        named = ("buy", "needed", "used", "to_spare", "from_stock")
        assert [row[key] for key in ("buy", "needed", "built in", "to spare", "from stock")] == [
            str(item[key]) for key in named
        ]
    shown_ = {
        str(f["data-figure"]): text_of(f) for f in workshop.article("shopping.html").select("[data-figure]")
    }
    bought = {path: text for path, text in shown_.items() if path.endswith("/buy")}
    assert sorted(bought.values()) == sorted(str(item["buy"]) for item in counted)


def test_each_number_to_buy_opens_to_where_it_comes_from(workshop: Site) -> None:
    article = workshop.article("shopping.html")
    links = list(article.select("td.buy a[href^='#from-']"))
    assert len(links) > 50
    for link in links:
        row = article.find(id=str(link["href"]).removeprefix("#"))
        assert isinstance(row, Tag)
        assert row.name == "tr"
    counted = {
        str(row["id"]): row
        for row in article.select("tr[id^='from-']")
        if "/used" in str(row.select("[data-figure]"))
    }
    for row in counted.values():
        wires = {text_of(link) for link in row.select("a[href^='wires.html#wire-']")}
        (path,) = {str(f["data-figure"]).rpartition("/")[0] for f in row.select("[data-figure$='/used']")}
        name = path.removeprefix("shopping/")
        item = next(one for one in workshop.record["shopping"] if one["id"].replace("/", "%2F") == name)
        assert wires == set(item.get("wires", []))


def test_cuts_are_the_same_on_the_page_in_the_table_and_in_the_record(workshop: Site) -> None:
    tables = list(sheets(workshop.article("cuts.html")).values())
    in_already = tables.pop()
    table = table_of(workshop, "data/cuts.csv")
    spools = [spool for spool in workshop.record["cuts"] if spool["pieces"]]
    assert len(tables) == len(spools) > 20
    units = workshop.record["build"]["units"]
    left = list(table)
    for rows, spool in zip(tables, spools, strict=True):
        there = spool["spool_length_m"]
        for cells, piece in zip(rows[1:], spool["pieces"], strict=True):
            row = left.pop(0)
            there -= piece["cut_length_m"]
            told = [" ".join(length(m, units).split()) for m in (piece["length_m"], piece["cut_length_m"])]
            assert cells[2:4] == [row["way"], row["length to cut"]] == told
            assert cells[4] == row["left"] == " ".join(rest(max(there, 0.0), units).split())
            assert cells[0].replace(",", "") == row["wires"] == " ".join(piece["wires"])
            assert row["from"] in cells[1]
    for cells, piece, row in zip(in_already[1:], workshop.record["in_already"], left, strict=True):
        assert cells[0].startswith(", ".join(piece["wires"]))
        assert row["wires"] == " ".join(piece["wires"])
        assert cells[2] == row["way"] == " ".join(length(piece["length_m"], units).split())
        assert cells[3] == row["already in"] == piece["why"]
    assert {number for row in table for number in row["wires"].split()} == {
        line["wire"] for line in workshop.record["labels"]
    }


SIDES = {
    "in": ("input", "front side"),
    "out": ("output", "far side"),
}
"""What a label's end is called: of what lies in the current's way, and of a connector."""


def test_labels_are_the_same_on_the_page_and_in_the_table(workshop: Site) -> None:
    rows = [row for table in sheets(workshop.article("labels.html")).values() for row in table[1:]]
    table = table_of(workshop, "data/labels.csv")
    assert len(rows) == len(table) == len(workshop.record["labels"]) == 220
    short = workshop.record.get("cut_without_loop", ())
    for cells, row in zip(rows, table, strict=True):
        sign = {"feed": " +", "return": " −", "bond": " frame bond", "spare": ""}.get(
            row["role"], f" {row['role']}"
        )
        assert cells[1] == row["wire"]
        lacks_loop = row["wire"] in short and row["far end"] != "front box"
        assert cells[2] == f"{row['for']}{sign}" + (" without loop" if lacks_loop else "")
        assert row["at"] in cells[0] or row["at"] in ("front box", "tow plug", "frame")
        assert row["far end"] in cells[3] or row["far end"] in ("front box", "tow plug", "frame")
        kind, _, side = row["terminal"].rpartition(" ")
        if side in SIDES and (not kind or kind.startswith("way ")) and row["at"] != "front box":
            assert cells[0].endswith(SIDES[side][bool(kind)]), cells


def test_the_sheets_lines_are_the_same_on_the_page_and_in_the_table(workshop: Site) -> None:
    article = workshop.article("tests.html")
    rows = {str(row["id"]).removeprefix("test-"): row for row in article.select("tr[id^='test-']")}
    table = table_of(workshop, "data/test_sheet.csv")
    assert [row["number"] for row in table] == list(rows)
    columns = {"least": "least", "most": "most", "about": "about", "below": "at most below"}
    for line, row in zip(workshop.record["test_sheet"], table, strict=True):
        figures = figures_by_key(rows[row["number"]])
        for key, text in figures.items():
            stem, _, unit = key.rpartition("_")
            if stem in columns:
                assert text.split()[0] == row[columns[stem]], (row["number"], key)
                assert row["unit"].casefold() == unit
        for key, column in columns.items():
            value = next((v for k, v in line.items() if re.fullmatch(rf"{key}_(v|a|ohm)", k)), None)
            if value is not None and row["unit"] == "V" and key != "least":
                assert row[column] == sheet_volts(value)
                continue
            if value is not None and row["unit"] == "ohm" and key == "most":
                assert row[column] == sheet_ohms(value)
                continue
            assert row[column] == ("" if value is None else shown(value, Reader.WORKSHOP))
        assert (row["reading"], row["date"], row["initials"]) == ("", "", "")


def test_every_line_has_a_blank_to_fill_in(workshop: Site) -> None:
    for row in workshop.article("tests.html").select("tr[id^='test-']"):
        # a bare wire is read twice: with the walls open, and with the skins on
        twice = (
            row.find_parent("table", class_="sheet")
            .caption.get_text(strip=True)
            .startswith("Each wire by itself")
        )
        assert len(row.select(".blank")) == (3 if twice else 2), text_of(row)
    for row in workshop.article("labels.html").select("tbody tr"):
        assert len(row.select(".blank-tick")) == 1
    states = [row["already in"] for row in table_of(workshop, "data/cuts.csv")]
    assert {"pulled", "measured", ""} == set(states)
    for row, state in zip(workshop.article("cuts.html").select("tbody tr"), states, strict=True):
        assert len(row.select(".blank-tick")) == (not state)
        assert not state or text_of(row).endswith(state)
    for row in workshop.article("shopping.html").select("div.holder-bench tbody tr"):
        assert row.select(".blank-tick") or "in stock" in text_of(row) or text_of(row).endswith("in already")


def test_the_spare_fuses_bought_are_those_that_the_fuses_page_says_to_carry(workshop: Site) -> None:
    rows = sheets(workshop.article("fuses.html"))["Spare fuses to carry"][1:]
    bought = [item for item in workshop.record["shopping"] if item["section"] == "fuses"]
    assert [row[-1] for row in rows] == [str(item["to_spare"]) for item in bought]
    assert [row[-2] for row in rows] == [str(item["used"]) for item in bought]


def test_what_is_bought_already_has_no_box_to_tick(workshop: Site) -> None:
    rows = {cells[0]: cells for cells in sheets(workshop.article("shopping.html"))["Parts"][1:]}
    assert rows["battery"][-2:] == ["0", "in stock"]
    assert rows["water pump"][-2:] == ["0", "in stock"]
    assert rows["roof fan"][-2:] == ["1", ""]


def test_cautions_stand_before_the_tables_they_guard(workshop: Site) -> None:
    article = workshop.article("tests.html")
    order = [
        tag
        for tag in article.find_all(["h2", "table", "div"])
        if tag.name != "div" or "caution" in tag.get("class", ())
    ]
    seen: dict[str, str] = {}
    heading = ""
    for tag in order:
        if tag.name == "h2":
            heading = text_of(tag)
        else:
            seen.setdefault(heading, tag.name)
    guarded = (
        "First: take off every supply",
        "Ends that land on nothing, before any supply is joined",
        "The battery is joined",
        "Road lamps, contact by contact",
        "Charging",
    )
    assert {name: seen[name] for name in guarded} == dict.fromkeys(guarded, "div")


def test_a_dead_test_at_the_battery_is_made_at_what_was_taken_off(workshop: Site) -> None:
    """All rings are off both studs: a probe on a stud reads open whatever is wrong in the trailer."""
    article = workshop.article("tests.html")
    lines = {str(line["number"]): line for line in workshop.record["test_sheet"]}
    dead = live = 0
    for row in article.select("tr[id^='test-']"):
        line = lines[str(row["id"]).removeprefix("test-")]
        points = [line[key] for key in ("red", "black") if line.get(key, {}).get("part") == "battery"]
        if line["group"] == "bare":
            points = [one for one in line["touches"] if one["at"]["part"] == "battery"]
        if line["group"] in ("dead", "wires", "bare", "shorts"):
            dead += len(points)
            assert text_of(row).count(", the rings") == len(points)
        else:
            live += len(points)
            assert ", the rings" not in text_of(row)
    assert dead
    assert live
    assert "Hold the black probe to the rings that belong on the stud, not to the stud." in text_of(article)
    table = {row["number"]: row for row in table_of(workshop, "data/test_sheet.csv")}
    meter = next(
        n for n, line in lines.items() if line.get("fuse") == "meter fuse" and line["group"] == "shorts"
    )
    assert (table[meter]["black"], table[meter]["black terminal"]) == ("battery", "− rings")


def test_a_short_test_says_what_the_meter_reads_besides(workshop: Site, tmp_path: Path) -> None:
    bulbs = published(ROAD_ONLY, "workshop", tmp_path / "bulbs")
    for site in (workshop, bulbs):
        article = site.article("tests.html")
        for line in site.record["test_sheet"]:
            if line["group"] != "shorts" or line["kind"] in ("bond", "join"):
                continue
            row = article.select_one(f"#test-{line['number']}")
            assert row is not None
            text = text_of(row)
            assert ("no reading (open)" in text) == (not line.get("parts"))
            assert ("not near 0 Ω" in text) == bool(line.get("parts"))
            assert ("bulbs out: " + ", ".join(line.get("bulbs", [])) in text) == bool(line.get("bulbs"))
    assert any(line.get("bulbs") for line in bulbs.record["test_sheet"])
    assert not any(line.get("bulbs") for line in workshop.record["test_sheet"])
    assert any(line["kind"] == "no short" for line in workshop.record["test_sheet"])


def test_what_a_road_lamp_loses_is_measured_with_its_contact_alone(workshop: Site) -> None:
    article = workshop.article("tests.html")
    for line in workshop.record["test_sheet"]:
        if line["kind"] in ("feed drop", "return drop"):
            row = article.select_one(f"#test-{line['number']}")
            assert row is not None
            on = "this contact alone on" if line["group"] == "road" else "everything in this circuit on"
            assert on in text_of(row)


COIL_APART = b"""\
format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: lithium, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
parts: {fan relay: {kind: relay}, coil switch: {kind: switch}, fan: {kind: fan, draws: 3 A}}
circuits:
  air: {path: [fan relay: 5 ft, fan: 1 ft]}
  coil: {path: [coil switch: 5 ft, fan relay: {length: 4 ft, as: coil}]}
"""


def test_a_relay_of_another_circuit_wants_its_fuse_as_well(workshop: Site, tmp_path: Path) -> None:
    apart = published(COIL_APART, "workshop", tmp_path / "apart")
    told = "Where a relay of another circuit switches it on, put in that fuse as well."
    assert told in text_of(apart.article("tests.html"))
    assert told not in text_of(workshop.article("tests.html"))
    # no table tells how full a lithium battery is at rest
    assert "half full" not in text_of(apart.article("tests.html"))
    assert "below it is empty" in text_of(apart.article("tests.html"))


def test_the_battery_at_rest_agrees_with_its_page(workshop: Site) -> None:
    line = next(one for one in workshop.record["test_sheet"] if one["kind"] == "battery rested")
    half = next(one for one in workshop.record["energy"]["kind"]["rest"] if one["percent"] == 50)
    assert line["least_v"] == half["rest_v"]
    row = workshop.article("tests.html").select_one(f"#test-{line['number']}")
    assert row is not None
    assert "below it charge it first" in text_of(row)


def test_mains_are_left_to_licensed_people_wherever_the_converter_is_plugged_in(
    workshop: Site, tmp_path: Path
) -> None:
    fed = published(NO_BATTERY, "workshop", tmp_path / "fed")
    bare = published(ROAD_ONLY, "workshop", tmp_path / "bare")
    told = {
        name: [text_of(tag) for tag in site.article("tests.html").select(".hazard")].count("Mains can kill.")
        for name, site in (("charges", workshop), ("feeds", fed), ("none", bare))
    }
    assert told == {"charges": 1, "feeds": 1, "none": 0}


@pytest.mark.parametrize("data", [ROAD_ONLY, NO_BATTERY], ids=["road lamps only", "no battery"])
def test_pages_of_a_build_without_a_battery_do_not_speak_of_its_battery(data: bytes, tmp_path: Path) -> None:
    site = published(data, "workshop", tmp_path / "site")
    headings = {text_of(tag) for tag in site.article("tests.html").find_all("h2")}
    assert "The battery is joined" not in headings
    for page in PAGES:
        if page == "landings.html" and data is NO_BATTERY:
            assert page not in site.pages  # nothing lands on a bar or in a box
            continue
        text = text_of(site.article(page)).casefold()
        for phrase in (
            "battery's",
            "the battery:",
            "main fuse",
            "isolating switch",
            "minus clamp",
            "minus post",
        ):
            assert phrase not in text, (page, phrase)
    assert [row["section"] for row in table_of(site, "data/shopping.csv")].count("box") <= 3


def test_the_smallest_build_is_told_in_pair_cable(tmp_path: Path) -> None:
    site = published(SMALLEST.read_bytes(), "workshop", tmp_path / "site")
    rows = sheets(site.article("shopping.html"))["Wire"][1:]
    assert [cells[:2] for cells in rows if "(pair)" in cells[0]] == [
        ["red RD 12 AWG and black BK 12 AWG (pair)", "15 ft"],
        ["red RD 16 AWG and black BK 16 AWG (pair)", "75 ft"],
    ]


@pytest.mark.parametrize("path", TABLES)
def test_no_cell_of_a_table_is_run_by_a_spreadsheet(path: str) -> None:
    text = str(source_of(build(NAMES, TEXTS), "workshop").files[path])
    cells = [cell for row in csv.reader(text.splitlines()) for cell in row]
    number = re.compile(r"-?[\d.]+")
    assert [cell for cell in cells if cell[:1] in tuple("=+-@\t\r") and not number.fullmatch(cell)] == []
    dangerous = NAMES["strip" if "landings" in path else "meter"]
    assert any(dangerous in cell for cell in cells)
