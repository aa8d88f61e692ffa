"""What lands where, as a page and as a table: held against the wires of the record, counted by themselves."""

from __future__ import annotations

import csv
from math import pi

from published import Site, sheets, text_of

from builder.pages.rounding import Reader, shown

PAGE, TABLE = "landings.html", "data/landings.csv"
IN_BOX = ("Supply bar", "Fuse block", "Terminal strip", "Ground bar")
MM_BY_GAUGE = {"16 AWG": 3.0, "14 AWG": 3.5, "12 AWG": 4.1, "10 AWG": 4.8, "8 AWG": 5.9}
"""GXL, a maker's data sheet (quoted)."""


def rows_of_table(site: Site) -> list[list[str]]:
    return list(csv.reader((site.folder / TABLE).read_text(encoding="utf-8").splitlines()))[1:]


def test_every_end_in_the_box_is_on_the_page_and_in_the_table_once(workshop: Site) -> None:
    tables = sheets(workshop.article(PAGE))
    on_page = [row[1] for name in IN_BOX for row in tables[name][1:] if row[1] != "free"]
    ends = [
        wire["number"]
        for wire in workshop.record["wires"]
        for end in (wire["from"], wire["to"])
        if end["part"] == "front box"
    ]
    assert sorted(on_page) == sorted(ends)
    names = [name.casefold().replace("terminal ", "") for name in IN_BOX]
    in_table = [row[4] for row in rows_of_table(workshop) if row[0] in names and row[4]]
    assert in_table == on_page


def test_a_row_tells_the_wires_own_size_colour_and_other_end(workshop: Site) -> None:
    wires = {wire["number"]: wire for wire in workshop.record["wires"]}
    for name, table in sheets(workshop.article(PAGE)).items():
        for row in table[1:]:
            if len(row) != 6 or row[1] not in wires:
                continue
            wire = wires[row[1]]
            assert wire["size"] in row[2], (name, row)
            assert row[2].startswith(wire["color"])
            others = {wire["from"]["part"], wire["to"]["part"]}
            assert any(part in row[4] or part in ("front box", "tow plug", "frame") for part in others)


def test_the_table_has_both_ends_of_each_wire_that_it_names(workshop: Site) -> None:
    wires = {wire["number"]: wire for wire in workshop.record["wires"]}
    for row in rows_of_table(workshop):
        on, pin, _, _, number, size, colour, _, _, far, far_pin, _, _ = row
        if not number:
            continue
        wire = wires[number]
        here = "front box" if on in ("supply bar", "fuse block", "strip", "ground bar") else on
        ends = {(end["part"], end["terminal"]) for end in (wire["from"], wire["to"])}
        assert {(here, pin.removeprefix("'")), (far, far_pin.removeprefix("'"))} == ends
        assert (size, colour) == (wire["size"], wire["color"])


def test_free_places_are_what_the_file_gives_less_what_is_taken(workshop: Site) -> None:
    box = workshop.judged.trailer.front_box
    assert box is not None
    assert box.strip is not None
    assert box.ground_bar is not None
    tables = sheets(workshop.article(PAGE))
    for name, count in (
        ("Fuse block", box.fuse_ways),
        ("Terminal strip", box.strip),
        ("Ground bar", box.ground_bar),
    ):
        taken = {row[0] for row in tables[name][1:] if row[1] != "free"}
        free = {row[0] for row in tables[name][1:] if row[1] == "free"}
        assert {int(place) for place in taken | free} == set(range(1, count + 1))
        assert not taken & free
        facts = text_of(workshop.article(PAGE).select_one("dl.facts"))
        assert f"{len(taken)} of {count} taken, {len(free)} free: {', '.join(sorted(free, key=int))}" in facts


def test_every_wire_end_can_be_ticked(workshop: Site) -> None:
    for row in workshop.article(PAGE).select(".holder-bench tbody tr"):
        assert len(row.select(".blank-tick")) == ("free" not in text_of(row).split())


def test_a_ring_is_told_with_its_stud(workshop: Site) -> None:
    tables = sheets(workshop.article(PAGE))
    assert {row[3] for row in tables["Ground bar"][1:] if row[1] != "free"} == {"ring for No. 8"}
    assert {row[3] for row in tables["Battery"][1:]} == {"ring for 3/8 in"}
    assert {row[3] for row in tables["Fuse block"][1:] if row[1] != "free"} == {
        "push-on",
        "push-on that takes a second one",
        "push-on, onto the other one",
    }


def test_how_full_a_hole_is_by_the_areas_of_its_wires(workshop: Site) -> None:
    sizes = {wire["number"]: wire["size"] for wire in workshop.record["wires"]}
    sizes |= {wire["number"]: wire["size"] for wire in workshop.record["spares"]}
    rows = sheets(workshop.article(PAGE))["Holes in the walls of the box"][1:]
    bores_mm = {"tongue hole": 25.4, "upright hole": 0.875 * 25.4, "cabinet hole": 1.5 * 25.4}
    told = []
    for name, _, wires, full, _, _ in rows:
        bore_mm = next(mm for hole, mm in bores_mm.items() if name.startswith(hole))
        numbers = wires.split(", ")
        told += numbers
        area = sum(pi * (MM_BY_GAUGE[sizes[number]] / 2) ** 2 for number in numbers)
        share = 100 * area / (pi * (bore_mm / 2) ** 2)
        assert full.replace("\u00a0", " ") == f"{shown(share, Reader.WORKSHOP)} % of 40 %"
    assert len(rows) == len(bores_mm)
    assert len(told) == len(set(told))


def test_a_wire_to_the_box_goes_through_one_hole(workshop: Site) -> None:
    rows = rows_of_table(workshop)
    boxed = [row for row in rows if row[0] in ("supply bar", "fuse block", "strip", "ground bar") and row[4]]
    assert {row[11] for row in boxed} == {"tongue hole", "upright hole", "cabinet hole"}
    assert not any(row[11] for row in rows if row not in boxed)
