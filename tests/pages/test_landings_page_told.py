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


def test_two_wires_on_a_blade_are_told_alike_wherever_they_are_told() -> None:
    page = page_of(EXAMPLE, "landings")
    rows = table(page, "Fuse block")
    wires = Counter(row[0] for row in rows if row[1] != "free")
    assert 2 in wires.values()
    for row in rows:
        if row[1] != "free":
            assert row[3] == ("push-on, shared" if wires[row[0]] > 1 else "push-on")
    assert SENTENCE in words_of(page)
    assert SENTENCE in words_of(page_of(EXAMPLE, "shopping"))
