"""The sheets of labels as published: every wire end is on them, as long as its wire's thickness asks for."""

from __future__ import annotations

import csv
from collections import Counter
from math import pi

import pytest
from published import Site, sheets, text_of

from builder.pages.rounding import Reader, shown

MM_BY_GAUGE = {"16 AWG": 3.0, "14 AWG": 3.5, "12 AWG": 4.1, "10 AWG": 4.8, "8 AWG": 5.9}
"""GXL, a maker's data sheet (quoted)."""


def numbers_on(site: Site, page: str) -> Counter[str]:
    texts = [text_of(tag).split()[0] for tag in site.article(page).select(".label-sheet text tspan")]
    return Counter(texts)


def test_each_end_is_there_as_often_as_its_label_has_lines(workshop: Site) -> None:
    sizes = {w["number"]: w["size"] for w in (*workshop.record["wires"], *workshop.record["spares"])}
    lines = {number: max(2, int(pi * MM_BY_GAUGE[size] / 4)) for number, size in sizes.items()}
    assert numbers_on(workshop, "wrap-labels.html") == Counter(
        {number: 2 * count for number, count in lines.items()}
    )


def test_the_lengths_on_the_page_and_in_the_table_are_those_of_the_wires(workshop: Site) -> None:
    rows = sheets(workshop.article("wrap-labels.html"))["How long a label is, by the thickness of its wire"][
        1:
    ]
    assert [row[0] for row in rows] == sorted(MM_BY_GAUGE, key=lambda size: MM_BY_GAUGE[size])
    for size, count, thick, printed, tail, whole in rows:
        once_mm = pi * MM_BY_GAUGE[size]
        lines = max(2, int(once_mm / 4))
        wanted = (MM_BY_GAUGE[size], 4.0 * lines, once_mm + 4, 4.0 * lines + once_mm + 4)
        told = [cell.replace("\u00a0", " ") for cell in (thick, printed, tail, whole)]
        assert told == [f"{shown(mm, Reader.WORKSHOP)} mm" for mm in wanted]
        assert int(count) == 2 * sum(
            w["size"] == size for w in (*workshop.record["wires"], *workshop.record["spares"])
        )
    table = list(csv.DictReader((workshop.folder / "data/labels.csv").read_text("utf-8").splitlines()))
    assert len(table) == len(workshop.record["labels"])
    for row in table:
        once_mm = pi * MM_BY_GAUGE[row["size"]]
        assert float(row["diameter mm"]) == MM_BY_GAUGE[row["size"]]
        assert float(row["tail mm"]) == pytest.approx(once_mm + 4, abs=0.05)
        assert float(row["printed mm"]) <= once_mm


def test_every_square_for_a_pen_says_one_label(workshop: Site) -> None:
    squares = workshop.article("pen-labels.html").select(".label-sheet rect")
    assert len(squares) == len(workshop.record["labels"])
    text = " ".join(text_of(tag) for tag in workshop.article("pen-labels.html").select(".label-sheet text"))
    for label in workshop.record["labels"]:
        assert label["text"] in text
