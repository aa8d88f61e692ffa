"""Towing and road lamps: each pattern of plug with its contacts as the table has them, our wires and the check."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup, Tag
from published import EXAMPLE, ROOT, sheets, source_of, text_of

from builder.pages.source import ManualSource

TABLE = ROOT / "builder" / "tables" / "data" / "plug_contacts.csv"
PATTERNS = (
    "4-way flat", "7-way blade", "7-pin 12N", "13-pin", "7-pin Australian", "5-way flat", "6-way round", "heavy 7-way",
    "12-pin Australian",
)  # fmt: skip
SHOWN = {"4-way flat": "", "7-way blade": ", reverse", "7-pin 12N": ", fog", "13-pin": ", fog, reverse"}
COLOURS = {
    "base": ("Color by the standard", "Usual color"),
    "other_base": ("Color by habit", "Color in other cables"),
}
"""The head of a column in a manual of the United States: of a plug with a standard, and of one without."""
BUILD = """\
format: 1
build: {{name: Sedge Wren, country: US}}
tow plug: {{pattern: {pattern}, to front box: 6 ft, where: "on its hook"}}
wire: {{on the shelf: [16 AWG, 14 AWG, 10 AWG]}}
road lamps:
  lamps: led
  front marker: {{shows: marker, side: both, wire: 4 ft}}
  rear lamp: {{shows: [tail, stop, turn{more}], side: both, wire: 14 ft}}
  plate lamp: {{shows: plate, wire: 15 ft}}
"""


def contacts_of(pattern: str) -> list[dict[str, str]]:
    lines = [line for line in TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return [row for row in csv.DictReader(lines) if row["pattern"] == pattern]


@cache
def manual(pattern: str) -> ManualSource:
    return source_of(BUILD.format(pattern=pattern, more=SHOWN.get(pattern, "")).encode(), "workshop")


def page_of(source: ManualSource, name: str = "towing") -> BeautifulSoup:
    return BeautifulSoup(str(source.files[f"{name}.md"]), "html.parser")


def record_of(source: ManualSource) -> Mapping[str, Any]:
    made: Mapping[str, Any] = json.loads(str(source.files["data/figures.json"]))
    return made


@pytest.mark.parametrize("pattern", PATTERNS)
def test_each_contact_has_its_row_with_the_colours_of_the_table(pattern: str) -> None:
    head, *rows = sheets(page_of(manual(pattern)))[f"Contacts of the {pattern} plug"]
    table = contacts_of(pattern)
    assert [row[0].split()[0] for row in rows] == [contact["contact"] for contact in table]
    practice = pattern in ("5-way flat", "6-way round", "12-pin Australian")
    for key, columns in COLOURS.items():
        column = columns[practice]
        assert columns[not practice] not in head
        if column not in head:
            assert not any(contact[key] for contact in table), column
            continue
        for row, contact in zip(rows, table, strict=True):
            wanted = contact[key] or "–"
            tracer = contact["tracer"] if key == "base" else ""
            assert row[head.index(column)] == (f"{wanted} with {tracer}" if tracer else wanted)


@pytest.mark.parametrize("pattern", PATTERNS)
def test_each_contact_shows_our_wires_and_what_hangs_on_them(pattern: str) -> None:
    source = manual(pattern)
    record = record_of(source)
    head, *rows = sheets(page_of(source))[f"Contacts of the {pattern} plug"]
    circuits = {c["contact"]: c for c in record["circuits"] if c["kind"] == "tow"}
    for row in rows:
        number = int(row[0].split()[0])
        wires = [
            w["number"]
            for w in record["wires"]
            if {"part": "tow plug", "terminal": str(number)} in (w["from"], w["to"])
        ]
        assert re.findall(r"\b\d+[A-Z]\b", row[head.index("Wire here")]) == wires, row
        works = row[head.index("Works")]
        lamps = list(dict.fromkeys(load["part"] for load in circuits.get(number, {}).get("loads", ())))
        if lamps:
            assert set(works.split(", ")) == set(lamps), row
        else:
            grounds = ("all of them", "all on these contacts", "all on this contact")
            assert works in (*grounds, "not used here"), row
            assert (works == "not used here") == (not wires)


def checks(page: BeautifulSoup) -> list[tuple[str, str]]:
    """Return the steps of the check: what to do, and what must be seen."""
    (made,) = (ol for ol in page.select("ol.steps") if ol.select(".blank-tick"))
    steps = []
    for item in made.select("li > div"):
        assert len(item.select(".blank-tick")) == 1
        do = item.b
        assert isinstance(do, Tag)
        steps.append((text_of(do), text_of(item).removeprefix(text_of(do)).strip()))
    return steps


@pytest.mark.parametrize("pattern", PATTERNS)
def test_the_check_asks_for_what_this_trailer_shows_and_for_nothing_else(pattern: str) -> None:
    source = manual(pattern)
    steps = dict(checks(page_of(source)))
    both = {"rear lamp left", "rear lamp right"}
    lit = {"front marker left", "front marker right", "plate lamp"} | both

    def named(text: str) -> set[str]:
        return set(re.search(r": (.*?)\.", text)[1].split(", "))  # type: ignore[index]

    assert named(steps["Car lamps on."]) == lit
    assert named(steps["Left turn on."]) == {"rear lamp left"}
    assert named(steps["Right turn on."]) == {"rear lamp right"}
    assert named(steps["Foot on the brake."]) == both
    assert ("Rear fog lamp on." in steps) == ("fog" in SHOWN.get(pattern, ""))
    assert ("Reverse gear in, engine still off." in steps) == ("reverse" in SHOWN.get(pattern, ""))
    # one wire a side for stop and turn: SAE J1239 and SAE J2863
    assert ("Foot on the brake and left turn on." in steps) == (
        pattern in ("4-way flat", "5-way flat", "6-way round", "7-way blade")
    )
    last = list(steps)[-1]
    assert last.startswith("All of it on at once: the car lamps, a foot on the brake, and the hazard lights.")


def test_a_lamp_with_one_function_is_checked_for_that_alone() -> None:
    text = BUILD.format(pattern="4-way flat", more="").split("  front marker")[0]
    page = page_of(source_of(f"{text}  plate lamp: {{shows: plate, wire: 15 ft}}\n".encode(), "owner"))
    assert checks(page) == [("Car lamps on.", "Lit: plate lamp.")]


@pytest.mark.parametrize("pattern", PATTERNS)
def test_each_lamp_tells_side_and_functions(pattern: str) -> None:
    head, *rows = sheets(page_of(manual(pattern)))["Road lamps"]
    told = {row[0]: (row[1], set(row[2].split(", "))) for row in rows}
    words = {"fog": "rear fog", "reverse": "reverse"}
    more = {words[word] for word in SHOWN.get(pattern, "").split(", ") if word}
    assert told == {
        "front marker left": ("left", {"side marker"}),
        "front marker right": ("right", {"side marker"}),
        "rear lamp left": ("left", {"tail", "brake", "turn"} | more),
        "rear lamp right": ("right", {"tail", "brake", "turn"} | more),
        "plate lamp": ("middle", {"plate"}),
    }
    assert head[:3] == ["Lamp", "Side", "Shows"]


def test_only_the_australian_plug_is_kept_out_of_a_european_socket() -> None:
    warned = {
        pattern
        for pattern in PATTERNS
        if any("European" in text_of(c) for c in page_of(manual(pattern)).select(".caution"))
    }
    assert warned == {"7-pin Australian"}


@pytest.mark.parametrize("pattern", PATTERNS)
def test_no_place_of_a_contact_on_the_face_is_invented(pattern: str) -> None:
    text = text_of(page_of(manual(pattern)))
    assert re.findall(r"\bclock|\bo'clock|\btop\b|\bbottom\b|\bupper\b|\blower\b", text) == []


def test_the_line_from_the_car_tells_its_current_and_its_fuses() -> None:
    source = source_of(EXAMPLE.read_bytes(), "workshop")
    text = text_of(page_of(source))
    (line,) = (c for c in record_of(source)["circuits"] if c["name"] == "charge line")
    amps = next(load["current_a"] for load in line["loads"] if load["what"].startswith("charged"))
    assert f"at the plug and gives the battery {amps:.3g} A." in text
    assert {"car-side fuse 20 A", "battery fuse 15 A"} <= {
        " ".join(text_of(li).split()[:4]) for li in page_of(source).select("ul.plain li")
    }


def test_a_trailer_without_a_plug_has_no_such_page_and_no_link_to_it() -> None:
    text = EXAMPLE.with_name("smallest").joinpath("trailer.yaml").read_text(encoding="utf-8")
    text = re.sub(r"^tow plug:.*\n", "", text, flags=re.MULTILINE).partition("\n# Road lamps")[0] + "\n"
    for edition in ("owner", "workshop"):
        source = source_of(text.encode(), edition)
        assert "towing.md" not in source.files
        for path, content in source.files.items():
            assert "towing.html" not in str(content), path


def test_a_trailer_without_a_battery_is_told_of_none() -> None:
    for name in ("towing", "adding", "words"):
        for pattern in PATTERNS:
            assert "battery" not in text_of(page_of(manual(pattern), name)).lower(), (name, pattern)


def test_the_patterns_are_those_of_the_table() -> None:
    lines = Path(TABLE).read_text(encoding="utf-8").splitlines()
    assert {line.split(",")[0] for line in lines if not line.startswith(("#", "pattern,"))} == {
        *PATTERNS,
        "7-pin 12S",
    }
