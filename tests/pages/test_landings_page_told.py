"""What is crimped on where several wires meet: told alike by the landings and by the shopping list."""

from __future__ import annotations

import csv
import io
from collections import Counter
from pathlib import Path

from owner_pages import page_of, table, view_of, words_of

from builder.pages.page_landings import landings_csv

EXAMPLE = view_of((Path(__file__).parents[2] / "example_build" / "trailer.yaml").read_bytes())
SENTENCE = "Join the wires by a splice and one terminal, or use a push-on terminal that takes a second one"


def test_wires_that_meet_at_a_contact_get_a_splice_each_and_one_short_piece() -> None:
    rows = table(page_of(EXAMPLE, "landings"), "hatch plug")
    wires = Counter(row[0] for row in rows)
    assert max(wires.values()) == 3
    for place, mark, _, crimp, *_ in rows:
        spliced = "in one splice, with a short piece to the contact" in mark
        assert spliced == (wires[place] > 1)
        assert crimp == ("splice" if spliced else "contact")
    lines = [row for row in csv.reader(io.StringIO(landings_csv(EXAMPLE))) if row[0] == "hatch plug"]
    assert [line[8] for line in lines] == [row[3] for row in rows]
    (plug,) = (piece for piece in EXAMPLE.record["landing_sheet"] if piece["name"] == "hatch plug")
    ends = [end for place in plug["places"] for end in place["ends"]]
    assert [(end["wire"], end["crimp"]) for end in ends] == [(line[4], line[8]) for line in lines]
    labels = [
        (place, wire, end.rpartition("AWG ")[2])
        for place, wire, _, _, end, *_ in table(page_of(EXAMPLE, "labels"), "At the parts, by their names")
        if place.startswith("hatch plug")
    ]
    assert sorted((wire.split()[0], crimp) for _, wire, crimp in labels) == sorted(
        (line[4], line[8]) for line in lines
    )


def test_the_record_and_the_table_name_the_same_crimps() -> None:
    lines = [row for row in csv.reader(io.StringIO(landings_csv(EXAMPLE))) if row[4]][1:]
    told = [
        (piece["name"], end["wire"], end["crimp"])
        for piece in EXAMPLE.record["landing_sheet"]
        for place in piece["places"]
        for end in place["ends"]
    ]
    assert told == [(line[0], line[4], line[8]) for line in lines]


def test_two_wires_on_a_blade_are_told_alike_wherever_they_are_told() -> None:
    page = page_of(EXAMPLE, "landings")
    rows = table(page, "Fuse block")
    wires = Counter(row[0] for row in rows if row[1] != "free")
    assert 2 in wires.values()
    first = set()
    for place, mark, _, crimp, *_ in rows:
        if mark == "free":
            continue
        alone = "push-on" if wires[place] == 1 else "push-on, onto the other one"
        assert crimp == (alone if wires[place] == 1 or place in first else "push-on that takes a second one")
        first.add(place)
    assert SENTENCE in words_of(page)
    assert SENTENCE in words_of(page_of(EXAMPLE, "shopping"))


def test_every_label_tells_what_is_crimped_on_its_end() -> None:
    """An end at a switch or a lamp is on no other list than the labels: what goes on it stands there too."""
    page = page_of(EXAMPLE, "labels")
    told = {}
    for caption in ("In the front box", "At the parts, by their names"):
        for place, wire, _, _, end, *_ in table(page, caption):
            told[wire, place] = end
    sizes = {number: str(wire.size) for number, wire in EXAMPLE.figures.wires.items()}
    assert all(sizes[wire] in end for (wire, _), end in told.items())
    assert told["6A", "fuse way 6"].endswith("12 AWG push-on, onto the other one")
    assert told["6C", "fuse way 6"].endswith("14 AWG push-on that takes a second one")
    assert told["21D", "battery −"].endswith("ring for 3/8 in")
    assert told["1A", "left step switch, input"].endswith("push-on")
    assert told["7A", "roof fan +"].endswith("splice")
    assert told["4B", "cabin lamp +"].endswith("as it takes")
    bought = Counter[str]()
    for item in EXAMPLE.lists.shopping.items:
        bought[item.kind] += item.used
    named = Counter(end.partition("AWG ")[2] for end in told.values())
    rings = sum(count for words, count in named.items() if words.startswith("ring"))
    assert rings + 1 == bought["ring"]  # one more is that of the link to the fuse block, which has no label
    assert named["push-on that takes a second one"] == bought["push-on for two"]
    assert named["push-on"] + named["push-on, onto the other one"] == bought["push-on"]


def test_free_ways_and_screws_are_told_alike_and_what_is_not_there_is_said() -> None:
    view = view_of(
        b"format: 1\nbuild: {name: Weir Lane, country: US}\n"
        b"battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}\n"
        b"front box: {fuse ways: 4, ground bar: 2}\n"
        b"parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}\n"
        b"circuits: {light: {path: [lamp: 6 ft]}, air: {path: [fan: 4 ft], way: 7}}\n"
    )
    page = page_of(view, "landings")
    told = words_of(page)
    assert "Fuse block 2 taken, 4 there are, 3 free: 2, 3, 4; not there: 7" in told
    assert "Ground bar 3 taken, 2 there are, 0 free; not there: 3" in told
    assert [row[0] for row in table(page, "Fuse block")] == ["1", "2", "3", "4", "7"]
    adding = words_of(page_of(view, "adding"))
    assert "Fuse ways 2, 3, 4." in adding
    assert "No screw of the ground bar is free." in adding
